"""The days: a visit with a danger is marked as its ticket is."""

from __future__ import annotations

from sqlalchemy import select, update

from service.storage.engine import writing
from service.storage.tables import tickets
from tests.pages.office import Office

THURSDAY = "/desk/day?day=2026-12-03"


def mark(office: Office, *, cleared: bool) -> None:
    with writing(office.deps.engine) as connection:
        state = connection.execute(select(tickets.c.state).where(tickets.c.number == 1001)).scalar_one()
        danger = {"hazards": ["burning_smell"], "hazards_cleared": cleared}
        connection.execute(update(tickets).where(tickets.c.number == 1001).values(state=state | danger))


def test_a_visit_with_a_danger_is_marked_in_the_day(office: Office) -> None:
    assert "Danger named" not in office.client.get(THURSDAY).text
    mark(office, cleared=False)
    page = office.client.get(THURSDAY).text
    assert "Danger named, not cleared:</strong>" in page
    assert 'class="band danger' in page


def test_a_danger_that_was_cleared_is_still_told(office: Office) -> None:
    mark(office, cleared=True)
    page = office.client.get(THURSDAY).text
    assert "Danger named, cleared:</strong>" in page
    assert "not cleared" not in page
