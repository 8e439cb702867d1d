"""A complaint that comes back under another number: shown to the office, counted once a person says so."""

from __future__ import annotations

import csv
import io

import pytest
from sqlalchemy import select, update

from service.conversation.state import Contact, State
from service.storage.engine import writing
from service.storage.tables import threads, tickets
from tests.pages.office import Office
from tests.pages.past import Past

AGAIN = "Yes, the same fault as #2001"


def repaired(office: Office, days_ago: float, *, address: str | None = None, **more: object) -> None:
    """Ticket #2001 of another number, repaired so many days ago."""
    with writing(office.deps.engine) as connection:
        past = Past(connection, office.clock())
        past.outcome(past.ticket(days_ago, **more), days_ago, "seal_worn", belief=[("seal_worn", 0.6)])
        if address:
            [state] = connection.execute(select(threads.c.state).where(threads.c.id == "past2001")).scalars()
            contact = Contact(name="Jo", address=address, postal_code="87111")
            whole = State.model_validate(state).model_copy(update={"contact": contact})
            connection.execute(
                update(threads).where(threads.c.id == "past2001").values(state=whole.model_dump(mode="json"))
            )


def came_back(office: Office) -> str:
    rows = csv.DictReader(io.StringIO(office.client.get("/desk/reports/came-back.csv").text))
    return next(row["hits"] for row in rows if (row["appliance"], row["month"]) == ("all", "all"))


def test_the_same_address_under_another_number_counts_once_the_office_says_so(office: Office) -> None:
    repaired(office, 12, address="418 cholla wren LN NE.")
    page = office.client.get("/desk/tickets/1001").text
    assert AGAIN in page
    assert "same address" in page
    assert came_back(office) == "0"
    assert office.post("/desk/tickets/1001/comeback", earlier="2001").status_code in (200, 303)
    assert office.state("thmaria").tickets[0].earlier == "#2001"
    assert came_back(office) == "1"
    assert "Confirmed: counts against the first diagnosis" in office.client.get("/desk/tickets/1001").text
    assert 'href="/desk/tickets/1001"' in office.client.get("/desk/tickets/2001").text
    assert "comes back" in office.deeds("ticket:1001")[0].replace("_", " ")
    office.post("/desk/tickets/1001/comeback", earlier="2001", **{"not": "1"})
    assert office.state("thmaria").tickets[0].earlier is None
    assert came_back(office) == "0"


def test_the_same_serial_under_another_number_is_shown_however_it_was_typed(office: Office) -> None:
    repaired(office, 5, facts={"serial": "TW-55 0190"})
    with writing(office.deps.engine) as connection:
        [state] = connection.execute(select(tickets.c.state).where(tickets.c.number == 1003)).scalars()
        told = {**state, "facts": {"serial": "tw550190"}}
        connection.execute(update(tickets).where(tickets.c.number == 1003).values(state=told))
    page = office.client.get("/desk/tickets/1003").text
    assert AGAIN in page
    assert "same serial number" in page


@pytest.mark.parametrize(
    ("days_ago", "more"),
    [(34, {}), (12, {"appliance": "washer"})],
    ids=["too long ago", "another kind of machine"],
)
def test_what_cannot_be_the_same_fault_is_neither_shown_nor_taken(
    office: Office, days_ago: float, more: dict[str, object]
) -> None:
    repaired(office, days_ago, address="418 Cholla Wren Ln NE", **more)
    assert AGAIN not in office.client.get("/desk/tickets/1001").text
    assert office.post("/desk/tickets/1001/comeback", earlier="2001").status_code == 409
    assert office.state("thmaria").tickets[0].earlier is None
