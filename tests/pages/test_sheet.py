"""The visit sheet: what stands on it and in which order, and what an outcome does."""

from __future__ import annotations

import re
from typing import Any

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import select

from service.edge.deps import Deps
from service.pages.links import sheet_path
from service.pages.sheet.outcome import CAUSES_SHOWN
from service.storage import visits_view
from service.storage.engine import reading, writing
from service.storage.ledgers import alarms, outcomes
from tests.conftest import Clock
from tests.pages.office import Office, demo_rulebook
from tests.pages.past import Past

ORDER = (
    "Thu 3 Dec, 1 to 3 pm", "Dishwasher, drains", "WARNING", "Navigate", "418 Cholla Wren Ln NE, 87111",
    "gate code 0420", "dog in the yard", "Call Maria Luján", "(505) 555-0142", "Bring", "drain-valve seal kit",
    "English", "first time with us", "no danger named",
    "In their words", "takes forever to drain", "In ours", "cleaned filter", "Not asked",
    "Do in this order", "Load", "Finish on this visit", "Likely", "Cautions", "Before closing",
    "Calder", "CD-240", "Prior repairs", "Recall", "Who pays", "Visit fee", "Found", "How it ended",
)  # fmt: skip


def path_of(deps: Deps) -> str:
    with reading(deps.engine) as connection:
        visit = visits_view.visit_by_id(connection, "demo", "vmaria")
    assert visit is not None
    return sheet_path(deps, "demo", visit)


def recorded(office: Office, **data: Any) -> Any:
    fields = {"ticket": "t1", "minutes": "48", "did": "", "why": "", "found_words": "", "early": "yes"}
    return office.client.post(f"{path_of(office.deps)}/outcome", data={**fields, **data})


def shown_again(office: Office, answer: Any) -> str:
    """The sheet that a form which lacked something leads back to."""
    assert answer.status_code == 303
    assert answer.headers["location"].endswith("?again=t1#missing")
    return str(office.client.get(answer.headers["location"]).text)


def kept(office: Office) -> list[Any]:
    with reading(office.deps.engine) as connection:
        return list(connection.execute(select(outcomes)))


def likeliest(office: Office) -> str:
    found = re.search(r'name="found" value="(\w+)"', office.client.get(path_of(office.deps)).text)
    assert found
    return found.group(1)


def test_everything_stands_in_the_order_it_is_wanted(client: TestClient, deps: Deps) -> None:
    text = re.sub(r"\s+", " ", client.get(path_of(deps)).text.split("<main", 1)[1])
    at = 0
    for words in ORDER:
        found = text.find(words, at)
        assert found >= 0, f"{words} does not follow"
        at = found


def test_a_sheet_names_its_causes_tests_parts_and_tools(client: TestClient, deps: Deps) -> None:
    text = client.get(path_of(deps)).text
    for words in (
        "drain-valve seal worn",
        "Fill it full, then watch a full drain",
        "nut drivers",
        "WARNING",
        "book estimate",
    ):
        assert words in text


def test_the_sheet_asks_for_the_apps_that_call_and_navigate(client: TestClient, deps: Deps) -> None:
    text = client.get(path_of(deps)).text
    assert 'href="tel:+15055550142"' in text
    assert 'href="geo:0,0?q=418%20Cholla%20Wren%20Ln%20NE%2C%2087111"' in text


def test_a_changed_link_and_an_expired_one_open_nothing(client: TestClient, deps: Deps, clock: Clock) -> None:
    path = path_of(deps)
    assert client.get(path[:-8] + "AAAA" + path[-4:]).status_code == 404
    assert client.get("/visit/not-a-token").status_code == 404
    clock.forward(days=40)
    answer = client.get(path)
    assert answer.status_code == 404
    assert "expired" in answer.text


def test_a_cancelled_visit_says_do_not_drive(office: Office) -> None:
    office.post("/desk/tickets/1001/cancel", why="moved away")
    assert "Do not drive" in office.client.get(path_of(office.deps)).text


def test_the_sheet_gives_a_calendar_file_of_the_visit(client: TestClient, deps: Deps) -> None:
    answer = client.get(f"{path_of(deps)}/calendar.ics")
    assert answer.headers["content-type"].startswith("text/calendar")
    lines = answer.text.replace("\r\n ", "").split("\r\n")
    assert "DTSTART:20261203T200000Z" in lines
    assert any(line.startswith("LOCATION:418 Cholla Wren Ln NE") for line in lines)
    assert sum(line == "BEGIN:VEVENT" for line in lines) == 1


def test_a_fixed_outcome_closes_the_ticket_and_is_kept_with_the_belief_as_shown(office: Office) -> None:
    cause = likeliest(office)
    answer = recorded(office, found=cause, ended="fixed", parts=["seal_kit"])
    assert answer.headers["location"].endswith("?saved=1#recorded")
    [row] = kept(office)
    assert (row.found, row.fixed, row.minutes, row.parts, row.source, row.by) == (
        cause, True, 48, ["seal_kit"], "technician", "ray",
    )  # fmt: skip
    assert row.belief[0][0] == cause
    assert abs(sum(share for _, share in row.belief) - 1) < 0.01
    assert row.evidence["symptoms"] == {"slow_drain": True, "no_drain": False, "leak": False}
    assert office.ticket(1001).closed == "repaired"
    assert [visit.status for visit in office.visits()] == ["done"]
    assert "Record" in office.client.get(path_of(office.deps)).text


def test_coming_back_needs_a_reason_and_leaves_the_ticket_waiting_for_the_part(office: Office) -> None:
    cause = likeliest(office)
    answer = recorded(office, found=cause, ended="returning")
    again = shown_again(office, answer)
    assert "Say why" in again
    assert re.search(rf'value="{cause}" checked', again)
    assert kept(office) == []
    assert recorded(office, found=cause, ended="returning", why="pump on order").status_code == 303
    assert office.ticket(1001).stage == "parts"
    assert office.ticket(1001).closed is None


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({"ended": "fixed"}, "Tap what was found"),
        ({"found": "something_else", "ended": "fixed"}, "few words what it was"),
        ({"found": "something_else", "found_words": "a spoon"}, "Tap how it ended"),
        ({"found": "something_else", "found_words": "a spoon", "ended": "fixed", "minutes": "long"}, "whole number"),
    ],
)
def test_an_outcome_that_lacks_something_says_what(office: Office, data: dict[str, str], words: str) -> None:
    again = shown_again(office, recorded(office, **data))
    top, form = again.split('<section id="outcome"')
    assert words in top
    assert words in form
    assert kept(office) == []


def test_a_corrected_outcome_replaces_the_first_and_the_desk_is_told_if_it_is_not_fixed(office: Office) -> None:
    cause = likeliest(office)
    recorded(office, found=cause, ended="fixed")
    assert recorded(office, found=cause, ended="open", why="leaks at the hose now").status_code == 303
    [row] = kept(office)
    assert (row.fixed, row.return_why) == (False, "leaks at the hose now")
    with reading(office.deps.engine) as connection:
        texts = [a.text for a in connection.execute(select(alarms).where(alarms.c.kind == "trouble"))]
    assert texts == ["The technician corrected the outcome of #1001: not fixed, the office decides."]


def test_an_outcome_from_another_site_is_refused(office: Office) -> None:
    data = {"ticket": "t1", "found": "something_else", "found_words": "x", "ended": "fixed", "minutes": "5"}
    answer = office.client.post(f"{path_of(office.deps)}/outcome", data=data, headers={"sec-fetch-site": "cross-site"})
    assert answer.status_code == 403
    assert kept(office) == []


def test_an_outcome_is_seen_at_the_desk(office: Office) -> None:
    recorded(office, found="something_else", found_words="a spoon in the pump", ended="fixed")
    page = office.client.get("/desk/tickets/1001").text
    assert "a spoon in the pump" in page
    assert "closed: repaired" in page


def test_every_cause_of_the_rules_can_be_tapped_and_the_unlikely_ones_by_name(office: Office) -> None:
    dishwasher = demo_rulebook().appliances["dishwasher"]
    html = office.client.get(path_of(office.deps)).text
    assert sorted(re.findall(r'name="found" value="(\w+)"', html)) == sorted([*dishwasher.causes, "something_else"])
    fold = html.split("Other causes, A to Z")[1].split("</details>")[0]
    codes = re.findall(r'name="found" value="(\w+)"', fold)
    assert len(codes) == len(dishwasher.causes) - CAUSES_SHOWN
    names = [dishwasher.causes[code].name.en.casefold() for code in codes]
    assert names == sorted(names)
    assert recorded(office, found=codes[-1], ended="fixed").status_code == 303
    assert [row.found for row in kept(office)] == [codes[-1]]
    assert re.search(rf'value="{codes[-1]}" checked', office.client.get(path_of(office.deps)).text)


@pytest.mark.parametrize(
    ("ended", "why"),
    [("fixed", ""), ("returning", "pump on order"), ("open", "asks a price"), ("undone", "no one home")],
)
def test_a_correction_starts_from_what_was_recorded(office: Office, ended: str, why: str) -> None:
    said = {"found_words": "chewed by mice", "did": "hose cleared", "minutes": "73", "why": why}
    recorded(office, found="drain_valve_seal_worn", ended=ended, parts=["drain_valve_seal_kit"], **said)
    html = office.client.get(path_of(office.deps)).text
    assert ('value="drain_valve_seal_worn" checked' in html) is (ended != "undone")
    for words in (
        f'value="{ended}" checked',
        'value="drain_valve_seal_kit" checked',
        *map('value="{}"'.format, said.values()),
    ):
        assert words in html, words


def test_what_such_a_chance_has_come_to_is_told_from_two_hundred_outcomes_on(office: Office) -> None:
    with writing(office.deps.engine) as connection:
        past = Past(connection, office.clock())
        for place in range(199):
            plan = {"finish": 0.8 if place % 3 else 0.6, "load": []}
            past.outcome(past.ticket(40), 40, "drain_valve_seal_worn", forecast=plan, fixed=place % 4 == 0)
    html = office.client.get(path_of(office.deps)).text
    assert "come to" not in html
    assert "book estimate" not in html
    with writing(office.deps.engine) as connection:
        past = Past(connection, office.clock(), number=5000)
        past.outcome(past.ticket(40), 40, "drain_valve_seal_worn", forecast=plan, fixed=False)
    found = re.search(r"such a chance has come to (\d+) %", office.client.get(path_of(office.deps)).text)
    assert found
    assert 15 <= int(found.group(1)) <= 35


def test_what_was_typed_is_there_again_and_each_fault_leads_to_its_field(office: Office) -> None:
    typed = {"did": "cleared the hose, ñandú & more", "found_words": "a spoon", "minutes": ""}
    again = shown_again(office, recorded(office, found="something_else", parts=["drain_valve_seal_kit"], **typed))
    assert 'value="cleared the hose, ñandú &amp; more"' in again
    assert 'value="a spoon"' in again
    assert 'value="drain_valve_seal_kit" checked' in again
    top, form = again.split('<section id="outcome"')
    for field in ("ended-t1", "minutes-t1"):
        assert f'href="#{field}"' in top
        assert f'id="{field}"' in form
    recorded(office, found="something_else", found_words="a spoon", ended="fixed")
    assert "Nothing was recorded" not in office.client.get(f"{path_of(office.deps)}?again=t1").text


def test_too_much_typed_for_a_cookie_still_says_what_is_missing(office: Office) -> None:
    long = {"did": "".join(chr(0x4E00 + n * 37 % 9000) for n in range(500)), "why": "", "found_words": "x" * 500}
    again = shown_again(office, recorded(office, found="something_else", ended="open", **long))
    assert "Say why" in again
    assert "x" * 500 in again


def test_minutes_are_asked_and_not_foretold_into_the_field(office: Office) -> None:
    html = office.client.get(path_of(office.deps)).text
    assert re.search(r'name="minutes" value=""', html)
    assert re.search(r"Minutes there.*expected about \d+", html)
    assert "whole number" in shown_again(office, recorded(office, found="something_else", found_words="x", minutes=""))
    assert recorded(office, ended="undone", why="nobody home", minutes="").status_code == 303
    assert [row.minutes for row in kept(office)] == [None]


def test_an_outcome_before_the_visit_has_begun_needs_a_yes(office: Office) -> None:
    done = {"found": "something_else", "found_words": "a spoon", "ended": "fixed"}
    assert "Thu 3 Dec, 1 to 3 pm, and that has not begun" in office.client.get(path_of(office.deps)).text
    assert "has not begun. Tap" in shown_again(office, recorded(office, **done, early=""))
    assert kept(office) == []
    office.clock.forward(days=2, hours=5)
    assert "has not begun" not in office.client.get(path_of(office.deps)).text
    assert recorded(office, **done, early="").status_code == 303
    assert len(kept(office)) == 1


def test_nothing_is_said_of_hurt_people_unless_somebody_said_it(client: TestClient, deps: Deps) -> None:
    assert "hurt" not in client.get(path_of(deps)).text.split("<main")[1].split("</header>")[0]


def test_what_is_not_worth_carrying_is_folded_away(office: Office) -> None:
    html = office.client.get(path_of(office.deps)).text
    folds = [fold.split("</details>")[0] for fold in html.split("<details")[1:]]
    assert "order on finding" in html
    assert html.count("order on finding") == sum(fold.count("order on finding") for fold in folds)


def test_an_outcome_the_office_decides_is_told_so_at_the_desk_with_parts_in_words(office: Office) -> None:
    recorded(
        office,
        found="something_else",
        found_words="x",
        ended="open",
        why="asks a price",
        parts=["drain_valve_seal_kit"],
    )
    page = office.client.get("/desk/tickets/1001").text
    assert "not fixed, the office decides: asks a price" in page
    assert "coming back" not in page
    assert "drain-valve seal kit" in page
    assert "drain_valve_seal_kit" not in page
