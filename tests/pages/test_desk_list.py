"""The desk's list: what stands where, what can be found."""

from __future__ import annotations

import re
from datetime import timedelta

from sqlalchemy import delete, update

from service.storage.engine import writing
from service.storage.tables import outbox, threads
from tests.pages.conftest import SignIn
from tests.pages.office import Office, sign_in


def test_an_unacknowledged_danger_stands_first(signed_in: SignIn) -> None:
    page = signed_in().get("/desk").text
    places = [
        page.index(words)
        for words in ("nobody has it in hand", "A person is asked for", "Drafts to send", "A visit stands")
    ]
    assert places == sorted(places)


def group_of(office: Office, number: int) -> str:
    """The heading under which the ticket stands."""
    page = office.client.get("/desk").text
    parts = re.split(r'<h2 id="group-[^>]*>', page)
    found = [part.split("<span")[0].strip() for part in parts if f'id="ticket-{number}"' in part]
    assert len(found) == 1
    return found[0]


def wrote(office: Office, thread: str, *, last_in: int, last_out: int, **values: object) -> None:
    """When they wrote last and when we did, minutes ago."""
    ago = {
        "last_in_at": office.clock() - timedelta(minutes=last_in),
        "last_out_at": office.clock() - timedelta(minutes=last_out),
    }
    with writing(office.deps.engine) as connection:
        connection.execute(update(threads).where(threads.c.id == thread).values(**ago, **values))


def test_a_booked_visit_ahead_needs_nobody(office: Office) -> None:
    assert group_of(office, 1001) == "A visit stands: nothing to do"
    assert "1 does not" in office.client.get("/desk").text


def test_a_booked_visit_needs_its_holder_once_they_write(office: Office) -> None:
    wrote(office, "thmaria", last_in=1, last_out=20, held_by="olive")
    assert group_of(office, 1001) == "In turn"
    wrote(office, "thmaria", last_in=20, last_out=1, held_by="olive")
    assert group_of(office, 1001) == "A visit stands: nothing to do"


def test_a_visit_that_is_over_without_an_outcome_needs_somebody(office: Office) -> None:
    office.clock.forward(days=3)
    sign_in(office.client)
    assert group_of(office, 1001) == "In turn"


def test_a_request_that_a_person_has_answered_needs_nobody_until_they_write_again(office: Office) -> None:
    with writing(office.deps.engine) as connection:
        connection.execute(delete(outbox).where(outbox.c.thread == "thluz"))
    assert group_of(office, 1003) == "A person is asked for"
    office.post("/desk/tickets/1003/write", text="Hola Luz, la llamo hoy.", once="n1")
    wrote(office, "thluz", last_in=5, last_out=1)
    assert group_of(office, 1003) == "Answered: waits for the customer"
    office.post("/desk/tickets/1003/release")
    assert group_of(office, 1003) == "Answered: waits for the customer"
    wrote(office, "thluz", last_in=1, last_out=3)
    assert group_of(office, 1003) == "In turn"


def test_a_request_is_not_answered_by_taking_over_and_handing_back(office: Office) -> None:
    with writing(office.deps.engine) as connection:
        connection.execute(delete(outbox).where(outbox.c.thread == "thluz"))
    office.post("/desk/tickets/1003/hold")
    office.post("/desk/tickets/1003/release")
    assert group_of(office, 1003) == "A person is asked for"


def test_a_danger_that_a_person_has_seen_to_is_in_hand_and_not_cleared(office: Office) -> None:
    assert group_of(office, 1002) == "Danger: nobody has it in hand"
    office.post("/desk/tickets/1002/done")
    assert group_of(office, 1002) == "Danger: not cleared yet"
