"""The reports: figures a person can check by hand, honest about small counts, and readable when there is nothing yet."""

from __future__ import annotations

import csv
import io
import re
from datetime import timedelta
from xml.etree import ElementTree

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import update

from service.edge.deps import Deps
from service.pages.reports.measures import MEASURES
from service.pages.reports.routes import months_until
from service.storage import reviews
from service.storage.engine import reading, writing
from service.storage.tables import tickets
from tests.conftest import Clock
from tests.pages.conftest import SignIn
from tests.pages.past import Past

PLAN = {"finish": 0.8, "load": [["seal_kit", 0.5, True], ["pump_assembly", 0.1, False]], "usual": 50, "promise": 90}
BELIEF = [("seal_worn", 0.6), ("line_grease", 0.3), ("pump_worn", 0.1)]


def text_of(html: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html))


def rows_of(client: TestClient, name: str, query: str = "") -> list[dict[str, str]]:
    answer = client.get(f"/desk/reports/{name}.csv?{query}")
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith("text/csv")
    assert f'filename="{name}.csv"' in answer.headers["content-disposition"]
    return list(csv.DictReader(io.StringIO(answer.text)))


def whole(client: TestClient, name: str, measure: str) -> dict[str, str]:
    return next(
        row for row in rows_of(client, name)
        if (row["appliance"], row["month"], row["measure"]) == ("all", "all", measure)
    )  # fmt: skip


def section(client: TestClient, name: str) -> str:
    return client.get("/desk/reports").text.split(f'<section class="box" id="{name}"')[1].split("</section>")[0]


@pytest.fixture
def past(deps: Deps, clock: Clock) -> None:
    """Four jobs to count by hand: right and done; right on the second place, done on the return; missed; undone."""
    with writing(deps.engine) as connection:
        kept = Past(connection, clock())
        one, two, three, four = (kept.ticket(days) for days in (70, 40, 12, 6))
        kept.outcome(one, 70, "seal_worn", belief=BELIEF, forecast=PLAN, parts=["seal_kit"])
        kept.outcome(two, 42, "line_grease", belief=BELIEF, forecast=PLAN, fixed=False, returning="a part")
        kept.outcome(two, 40, "line_grease", belief=BELIEF, forecast=PLAN, parts=["pump_assembly"])
        kept.outcome(three, 12, "something_else", found_words="a spoon", belief=BELIEF, forecast=PLAN)
        kept.outcome(four, 6, "not_looked_at", belief=BELIEF, forecast=PLAN, fixed=False, returning="nobody home")
        kept.ticket(3, closed="settled_by_owner", questions=4)
        kept.ticket(2, closed="out_of_area", questions=0)


def test_a_shop_that_has_just_begun_is_told_what_will_stand_here(signed_in: SignIn) -> None:
    text = text_of(signed_in("ada").get("/desk/reports").text)
    assert "Nothing to judge yet" in text
    assert text.count("None yet.") == len(MEASURES)
    assert "nan" not in text


@pytest.mark.usefixtures("past")
def test_first_visits_and_right_causes_are_counted_a_job_a_ticket(signed_in: SignIn) -> None:
    client = signed_in()
    finished = whole(client, "first-visit", "finished")
    assert (finished["hits"], finished["count"]) == ("2", "3")
    first = whole(client, "right-cause", "the likeliest")
    three = whole(client, "right-cause", "among the first three")
    assert (first["hits"], three["hits"], three["count"]) == ("1", "2", "3")


def test_first_visits_are_held_against_the_minutes_kept_free(signed_in: SignIn, deps: Deps, clock: Clock) -> None:
    with writing(deps.engine) as connection:
        kept = Past(connection, clock())
        for minutes in (90, 91, 30, None):  # 90 were promised; nobody wrote the last one down
            kept.outcome(kept.ticket(9), 9, "seal_worn", forecast=PLAN, minutes=minutes)
        twice = kept.ticket(8)
        kept.outcome(twice, 9, "seal_worn", forecast=PLAN, minutes=200, fixed=False, returning="a part")
        kept.outcome(twice, 8, "seal_worn", forecast=PLAN, minutes=20)
        kept.outcome(kept.ticket(7), 7, "seal_worn", minutes=20)
    found = whole(signed_in(), "in-time", "in time")
    assert (found["hits"], found["count"]) == ("2", "4")


@pytest.mark.usefixtures("past")
def test_questions_and_tickets_settled_leave_out_those_turned_away(signed_in: SignIn) -> None:
    client = signed_in()
    settled = whole(client, "settled", "settled")
    assert (settled["hits"], settled["count"]) == ("1", "5")
    assert float(whole(client, "questions", "mean")["value"]) == pytest.approx((2 * 4 + 4) / 5)


@pytest.mark.usefixtures("past")
def test_scores_of_three_forecasts_are_those_of_a_pocket_calculator(signed_in: SignIn) -> None:
    row = next(
        row for row in rows_of(signed_in(), "calibration-finish") if (row["appliance"], row["month"]) == ("all", "all")
    )
    assert row["count"] == "3"
    assert float(row["brier"]) == pytest.approx((0.2**2 + 0.8**2 + 0.2**2) / 3, abs=1e-5)
    assert float(row["log_loss"]) == pytest.approx(0.685251, abs=1e-5)  # -(2 ln .8 + ln .2) / 3


def test_checks_are_scored_by_the_chance_they_were_offered_with_if_they_were_done(
    signed_in: SignIn, deps: Deps, clock: Clock
) -> None:
    with writing(deps.engine) as connection:
        kept = Past(connection, clock(), number=2700)
        offered = {"clean_filter": 0.6, "reset_breaker": 0.3}
        kept.ticket(
            50, closed="settled_by_owner", check_chances=offered,
            checks={"reset_breaker": "not_fixed", "clean_filter": "fixed"},
        )  # fmt: skip
        kept.ticket(40, checks={"clean_filter": "declined"}, check_chances=offered)
        kept.ticket(30, checks={"clean_filter": "not_fixed"})  # told unasked: nothing was foretold
        back = kept.ticket(
            20, closed="settled_by_owner", machine="m9", checks={"clean_filter": "fixed"},
            check_chances={"clean_filter": 0.7},
        )  # fmt: skip
        kept.outcome(back, 20, "filter_clogged", source="owner_check", visit=None)
        kept.ticket(5, machine="m9")
    client = signed_in()
    rows = [row for row in rows_of(client, "calibration-checks") if (row["appliance"], row["month"]) == ("all", "all")]
    assert [(row["count"], float(row["rate"])) for row in rows] == [("1", 0.0), ("2", 0.5)]
    assert float(rows[0]["brier"]) == pytest.approx((0.3**2 + 0.4**2 + 0.7**2) / 3, abs=1e-5)
    assert whole(client, "settled", "settled")["hits"] == "1"
    assert "Chance of an owner check to settle it" in text_of(client.get("/desk/reports").text)


@pytest.mark.usefixtures("past")
def test_parts_are_counted_as_carried_used_missing_and_idle(signed_in: SignIn) -> None:
    client = signed_in()
    rows = {row["part"]: row for row in rows_of(client, "parts") if row["month"] == "all"}
    seal, pump = rows["seal_kit"], rows["pump_assembly"]
    assert (seal["jobs"], seal["carried"], seal["used"], seal["carried_and_used"]) == ("3", "3", "1", "1")
    assert (pump["carried"], pump["used"], pump["used_not_carried"]) == ("0", "1", "1")
    by_month = [
        (row["month"], row["jobs"], row["used"]) for row in rows_of(client, "parts") if row["part"] == "seal_kit"
    ]
    assert by_month == [("all", "3", "1"), ("2026-09", "1", "1"), ("2026-10", "1", "0"), ("2026-11", "1", "0")]
    assert section(client, "parts").count("<caption>By month</caption>") == 1


@pytest.mark.usefixtures("past")
def test_the_whole_belief_is_scored_by_month_and_appliance_too(signed_in: SignIn) -> None:
    client = signed_in()
    rows = {(row["appliance"], row["month"]): row for row in rows_of(client, "calibration-cause")}
    assert {month for _, month in rows} == {"all", "2026-09", "2026-10", "2026-11"}
    whole_shop = rows["all", "all"]  # the spoon is on no list; right on .6 and on .3
    assert float(whole_shop["brier_all_causes"]) == pytest.approx((0.26 + 0.86) / 2, abs=1e-5)
    assert float(whole_shop["log_loss_all_causes"]) == pytest.approx(0.857400, abs=1e-5)  # -(ln .6 + ln .3) / 2
    assert rows["dishwasher", "2026-11"]["brier_all_causes"] == ""
    text = text_of(section(client, "calibration-cause"))
    assert "All causes of a sheet together, 2 jobs: Brier score 0.560 (0 to 2), log loss 0.857." in text
    assert "By month" in text


def test_what_chances_have_come_to_is_told_from_two_hundred_on(signed_in: SignIn, deps: Deps, clock: Clock) -> None:
    client = signed_in()
    with writing(deps.engine) as connection:
        kept = Past(connection, clock())
        for place in range(199):  # said 80 %, came true half the time
            plan = {**PLAN, "finish": 0.8 if place % 4 else 0.4}
            kept.outcome(kept.ticket(20), 20, "seal_worn", belief=BELIEF, forecast=plan, fixed=bool(place % 2))
    assert "come to" not in section(client, "calibration-finish")
    with writing(deps.engine) as connection:
        kept = Past(connection, clock(), number=5000)
        kept.outcome(kept.ticket(20), 20, "seal_worn", belief=BELIEF, forecast=PLAN, fixed=True)
    table = section(client, "calibration-finish").split("What a forecast has come to here")[1].split("</table>")[0]
    come = dict(re.findall(r'<th scope="row">(\d+ %)</th><td>(\d+) %', table))
    assert 55 <= int(come["80 %"]) <= 75
    assert [int(share) for share in come.values()] == sorted(int(share) for share in come.values())


@pytest.mark.usefixtures("past")
def test_a_complaint_back_within_thirty_days_counts_against_the_first_diagnosis(
    signed_in: SignIn, deps: Deps, clock: Clock
) -> None:
    with writing(deps.engine) as connection:
        kept = Past(connection, clock(), number=2500)
        back = kept.ticket(45, machine="m1")
        connection.execute(update(tickets).where(tickets.c.number == 2001).values(machine="m1"))
    client = signed_in()
    assert whole(client, "came-back", "came back")["hits"] == "1"
    assert whole(client, "first-visit", "finished")["hits"] == "1"
    assert whole(client, "right-cause", "the likeliest")["hits"] == "0"
    with reading(deps.engine) as connection:
        found = reviews.found_since(connection, "demo", clock() - timedelta(days=100))
    assert [(one.ticket, one.came_back) for one in found if one.came_back] == [("past2001-t1", 2501)]
    assert back == "past2501-t1"


@pytest.mark.parametrize(("days_after", "symptoms"), [(32, {"slow_drain": True}), (10, {"leak": True})])
def test_a_later_or_another_complaint_is_no_return(
    deps: Deps, clock: Clock, days_after: int, symptoms: dict[str, bool]
) -> None:
    with writing(deps.engine) as connection:
        kept = Past(connection, clock())
        first = kept.ticket(60, machine="m1")
        kept.outcome(first, 60, "seal_worn")
        kept.ticket(60 - days_after - 30 / 24, machine="m1", symptoms=symptoms)
        found = reviews.found_since(connection, "demo", clock() - timedelta(days=100))
    assert [one.came_back for one in found] == [None]


def test_few_outcomes_get_ranges_and_no_curve_and_many_get_the_curve(
    signed_in: SignIn, deps: Deps, clock: Clock
) -> None:
    client = signed_in()
    for number, curve in ((20, False), (60, True)):
        with writing(deps.engine) as connection:
            Past(connection, clock(), number=3000 + 100 * number).many(number)
        html = client.get("/desk/reports").text.split('id="calibration-finish"')[1].split("</section>")[0]
        assert ('class="curve"' in html) is curve
        assert ("no curve" in html) is not curve


def test_every_picture_has_a_name_a_table_behind_it_and_a_file(signed_in: SignIn, deps: Deps, clock: Clock) -> None:
    with writing(deps.engine) as connection:
        Past(connection, clock()).many(60)
    client = signed_in()
    html = client.get("/desk/reports").text
    assert " style=" not in html
    pictures = re.findall(r"<svg.*?</svg>", html, re.S)
    assert len(pictures) == len(MEASURES) == html.count("The table behind it")
    for picture in pictures:
        drawn = ElementTree.fromstring(picture)
        told = {part.get("id"): part.text for part in drawn if part.tag in ("title", "desc")}
        assert set((drawn.get("aria-labelledby") or "").split()) == set(told)
        assert all(told.values())
        assert len(drawn) > 4
        headline = html.split(picture)[0].rpartition("<p><strong>")[2].partition("</strong>")[0]
        assert told[f"{drawn.get('aria-labelledby', '').split()[0]}-says"] in (
            headline,
            headline[:1].lower() + headline[1:],
        )
    links = re.findall(r'href="(/desk/reports/[^"]+)"', html)
    assert len(links) == len(MEASURES)
    for link in links:
        assert client.get(link.replace("&amp;", "&")).text.count("\n") > 1, link


def test_a_report_of_one_machine_and_a_short_time_shows_only_that(signed_in: SignIn, deps: Deps, clock: Clock) -> None:
    with writing(deps.engine) as connection:
        kept = Past(connection, clock())
        kept.outcome(kept.ticket(5), 5, "seal_worn", belief=BELIEF)
        kept.outcome(kept.ticket(150), 150, "seal_worn", belief=BELIEF)
        kept.outcome(kept.ticket(4, appliance="washer"), 4, "belt", appliance="washer")
    client = signed_in()
    assert {row["appliance"] for row in rows_of(client, "first-visit")} == {"all", "dishwasher", "washer"}
    months = {row["month"] for row in rows_of(client, "first-visit", "appliance=dishwasher&months=3")}
    assert months == {"all", "2026-11"}
    assert "Dishwasher, last 3 months" in text_of(client.get("/desk/reports?appliance=dishwasher&months=3").text)


def test_unknown_wishes_are_the_usual_report_and_an_unknown_file_is_not_here(signed_in: SignIn) -> None:
    client = signed_in()
    assert client.get("/desk/reports?appliance=spaceship&months=-3").status_code == 200
    assert client.get("/desk/reports/nothing.csv").status_code == 404


def test_a_technician_sees_no_reports(signed_in: SignIn) -> None:
    client = signed_in("ray")
    assert client.get("/desk/reports").status_code == 403
    assert client.get("/desk/reports/settled.csv").status_code == 403


def test_months_are_counted_over_the_turn_of_the_year(clock: Clock) -> None:
    assert months_until(clock().replace(month=2), 4) == ("2025-11", "2025-12", "2026-01", "2026-02")
