"""Booking by hand: the time somebody filled in is the time that is booked, and a refusal says what stands against it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import update

from service.edge.second_look import Drop, look_again
from service.storage import leases
from service.storage.engine import writing
from service.storage.leases import Leased
from service.storage.tables import threads
from tests.pages.office import Office
from tests.pages.test_forms import book, standing, windows

MARIA_LIVES = {"address": "418 Cholla Wren Ln NE", "postal_code": "87111", "name": "Maria"}


def move(office: Office, **data: Any) -> Any:
    return office.post("/desk/tickets/1001/visit", **{**MARIA_LIVES, **data})


def chosen_beforehand(office: Office, number: int) -> bool:
    return " checked>" in office.client.get(f"/desk/tickets/{number}/visit").text.split("</fieldset>")[0]


def test_no_time_is_chosen_beforehand(office: Office) -> None:
    assert not chosen_beforehand(office, 1003)
    assert not chosen_beforehand(office, 1001)


def test_a_visit_is_not_moved_by_a_button_alone(office: Office) -> None:
    answer = move(office, tell="yes")
    assert answer.status_code == 422
    assert "Choose a time" in answer.text
    [visit] = office.visits()
    assert visit.version == 0
    assert not [r for r in office.replies("thmaria") if r.visit]


def test_another_time_that_is_filled_in_is_booked_without_its_button(office: Office) -> None:
    assert book(office, 1003, technician="ray", day="2026-12-09", start="10:00").status_code == 303
    made = next(visit for visit in standing(office) if visit.id != "vmaria")
    assert (made.technician, made.start_at.isoformat()) == ("ray", "2026-12-09T17:00:00+00:00")


@pytest.mark.parametrize(
    "filled", [{"technician": "ray", "day": "2026-12-09", "start": "10:00"}, {"day": "2026-12-09"}]
)
def test_an_offer_chosen_beside_another_time_is_asked_about(office: Office, filled: dict[str, str]) -> None:
    pick = windows(office, 1003)[0]
    answer = book(office, 1003, pick=pick, **filled)
    assert answer.status_code == 422
    assert "One time is chosen above and another is filled in" in answer.text
    assert 'value="2026-12-09"' in answer.text
    assert [visit.id for visit in office.visits()] == ["vmaria"]


def test_an_offer_filled_in_once_more_is_that_offer(office: Office) -> None:
    pick = windows(office, 1003)[0]
    technician, _, moment = pick.partition("@")
    day, _, start = moment.partition("T")
    assert book(office, 1003, pick=pick, technician=technician, day=day, start=start).status_code == 303


@pytest.mark.parametrize(
    ("technician", "day", "start", "why"),
    [
        ("ray", "2026-12-28", "10:00", "Ray Ortega is off on Mon 28 Dec"),
        ("ray", "2026-12-25", "10:00", "The shop is closed on Fri 25 Dec"),
        ("ray", "2026-12-04", "15:00", "Outside hours: on Fri 4 Dec windows of Ray Ortega lie within 8 am to 3 pm"),
        ("ray", "2026-11-30", "10:00", "This window has begun already"),
    ],
)
def test_a_refused_window_says_what_stands_against_it(
    office: Office, technician: str, day: str, start: str, why: str
) -> None:
    answer = book(office, 1003, pick="other", technician=technician, day=day, start=start)
    assert answer.status_code == 422
    assert why in answer.text
    assert "another visit" not in answer.text


def test_a_skill_that_is_lacking_is_named(office: Office) -> None:
    office.post("/desk/tickets/1003/correct", **{"was.appliance": "dishwasher", "appliance": "microwave"})
    answer = book(office, 1003, pick="other", technician="dee", day="2026-12-09", start="10:00")
    assert "Dee Whitfield does not do this work: microwave" in answer.text


def test_a_day_that_holds_no_more_names_the_visits_that_stand(office: Office) -> None:
    for number in (1003, 1002):
        answer = book(office, number, pick="other", technician="ray", day="2026-12-03", start="13:00")
    assert answer.status_code == 422
    assert "do not fit beside what Ray Ortega has on Thu 3 Dec (visits 1 to 3 pm" in answer.text


MIDDAY = datetime(2026, 12, 1, 19, tzinfo=UTC)


def leased(office: Office, identity: str) -> Leased:
    """The row as a sender would hold it."""
    with writing(office.deps.engine) as connection:
        until = office.clock() + timedelta(minutes=1)
        rows = leases.lease(
            connection, office.clock(), until, 50, local=(["loopback"], True), younger_left=((), timedelta())
        )
    return next(row for row in rows if row.id == identity)


def told(office: Office, thread: str) -> list[tuple[str, str]]:
    return [(row.status, row.author) for row in office.replies(thread) if row.kind == "started"]


def test_what_somebody_ticks_is_sent_though_a_person_holds_the_thread(office: Office) -> None:
    office.post("/desk/tickets/1003/hold")
    assert book(office, 1003, pick=windows(office, 1003)[0], tell="yes").status_code == 303
    assert told(office, "thluz") == [("waiting", "olive")]
    [row] = [r for r in office.replies("thluz") if r.kind == "started"]
    assert not isinstance(look_again(leased(office, row.id), office.deps.rulebook_of("demo").shop, MIDDAY), Drop)


def test_what_somebody_ticks_is_no_draft(office: Office) -> None:
    office.client.post("/desk/shop/autonomy", data={"csrf": office.csrf, "autonomy": "draft"})
    office.post("/desk/tickets/1001/cancel", why="moved away", tell="yes")
    assert told(office, "thmaria") == [("waiting", "olive")]


def test_the_page_says_that_nothing_can_be_told_after_an_opt_out(office: Office) -> None:
    with writing(office.deps.engine) as connection:
        connection.execute(update(threads).where(threads.c.id == "thmaria").values(consent="out"))
    page = office.client.get("/desk/tickets/1001/visit").text
    assert "They opted out of texts: nothing is sent." in page
    assert "Tell the customer by text" not in page
