"""Closing with a danger that nobody has cleared, and opening again what was closed."""

from __future__ import annotations

from sqlalchemy import update

from service.storage import alarms
from service.storage.engine import reading, writing
from service.storage.tables import threads
from tests.pages.office import Office


def test_a_ticket_with_a_danger_is_not_closed_without_a_word_on_it(office: Office) -> None:
    answer = office.post("/desk/tickets/1002/close", reason="not_ours")
    assert answer.status_code == 409
    assert "nobody has cleared it. Clear it first, or say" in answer.text
    assert office.ticket(1002).closed is None
    assert office.state("thsam").danger is not None


def test_a_danger_that_was_closed_over_stays_marked(office: Office) -> None:
    assert (
        office.post("/desk/tickets/1002/close", reason="not_ours", danger="the gas company is there").status_code == 303
    )
    page = office.client.get("/desk/tickets/1002").text
    assert "Danger named, not cleared" in page
    assert "the gas company is there" in page
    with reading(office.deps.engine) as connection:
        assert not [a for a in alarms.open_alarms(connection, "demo") if a.thread == "thsam"]


def test_a_cleared_danger_asks_for_no_word(office: Office) -> None:
    office.post("/desk/tickets/1002/clear", note="Sam: breaker is off, all out and well")
    assert office.post("/desk/tickets/1002/close", reason="not_ours").status_code == 303


def test_a_closed_ticket_is_opened_again_with_its_danger(office: Office) -> None:
    office.post("/desk/tickets/1002/close", reason="not_ours", danger="the gas company is there")
    assert "Open it again" in office.client.get("/desk/tickets/1002").text
    assert office.post("/desk/tickets/1002/reopen").status_code == 303
    assert (office.ticket(1002).closed, office.ticket(1002).stage) == (None, "listening")
    held = office.state("thsam").danger
    assert held is not None
    assert held.codes == ("burning_smell", "hot_wiring")
    assert "not cleared yet" in office.client.get("/desk").text
    assert office.post("/desk/tickets/1002/clear", note="all is safe, says Sam").status_code == 303
    assert office.state("thsam").danger is None
    assert office.post("/desk/tickets/1002/reopen").status_code == 409


def test_a_ticket_that_the_state_has_let_go_of_is_opened_again(office: Office) -> None:
    office.post("/desk/tickets/1003/close", reason="gone_quiet")
    with writing(office.deps.engine) as connection:
        kept = office.state("thluz").model_copy(update={"tickets": (), "focus": None}).model_dump(mode="json")
        connection.execute(update(threads).where(threads.c.id == "thluz").values(state=kept))
    assert office.post("/desk/tickets/1003/reopen").status_code == 303
    assert office.ticket(1003).stage == "narrowing"
    assert office.state("thluz").focus == "t1"
    assert office.replies("thluz", kind="started") == []


def test_a_danger_named_on_the_phone_can_be_cleared(office: Office) -> None:
    data = {"phone": "505 555 0178", "appliance": "dishwasher", "words": "the dishwasher leaks and I smell gas"}
    base = office.post("/desk/new", **data).headers["location"]
    assert "Danger named, not cleared" in office.client.get(base).text
    assert office.post(f"{base}/clear", note="the gas company shut it off").status_code == 303
    assert "Danger named, not cleared" not in office.client.get(base).text
