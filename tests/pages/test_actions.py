"""What the office does on a ticket: it happens once, it is on record, and nobody else's rows are touched."""

from __future__ import annotations

import pytest
from sqlalchemy import insert, select, update

from service.storage import alarms
from service.storage.engine import reading, writing
from service.storage.tables import threads, tickets, visits
from tests.pages.office import Office


def open_alarms(office: Office) -> list[str]:
    with reading(office.deps.engine) as connection:
        return [alarm.kind for alarm in alarms.open_alarms(connection, "demo")]


def draft_fields(identity: str, text: str) -> dict[str, str]:
    return {"send": identity, f"draft.{identity}": text}


def test_taking_over_and_handing_back(office: Office) -> None:
    assert office.post("/desk/tickets/1003/hold").headers["location"] == "/desk/tickets/1003"
    assert office.held_by("thluz") == "olive"
    assert "held by olive" in office.client.get("/desk/tickets/1003").text
    office.post("/desk/tickets/1003/release")
    assert office.held_by("thluz") is None
    assert sorted(office.deeds("ticket:1003")) == ["hold", "release"]


def test_writing_as_a_person_takes_the_thread_over_and_goes_out_under_the_login(office: Office) -> None:
    office.post("/desk/tickets/1003/write", text="Hola Luz, soy Olive.", once="n1")
    [row] = office.replies("thluz", author="olive")
    assert (row.text, row.status, row.segments) == ("Hola Luz, soy Olive.", "waiting", 1)
    assert office.held_by("thluz") == "olive"


def test_a_text_posted_twice_goes_out_once(office: Office) -> None:
    for _ in range(2):
        assert office.post("/desk/tickets/1003/write", text="Hola Luz, soy Olive.", once="n1").status_code == 303
    assert len(office.replies("thluz", author="olive")) == 1


def test_nothing_is_written_to_somebody_who_opted_out(office: Office) -> None:
    with writing(office.deps.engine) as connection:
        connection.execute(update(threads).where(threads.c.id == "thluz").values(consent="out"))
    answer = office.post("/desk/tickets/1003/write", text="Hola", once="n1")
    assert answer.status_code == 409
    assert "opted out" in answer.text
    assert office.replies("thluz", author="olive") == []


def test_a_draft_goes_out_in_the_office_s_words_and_is_counted_anew(office: Office) -> None:
    [draft] = office.replies("thluz", status="draft")
    longer = "Le llamo en cinco minutos. " * 7
    assert office.post("/desk/tickets/1003/draft", **draft_fields(draft.id, longer)).status_code == 303
    [row] = [r for r in office.replies("thluz") if r.id == draft.id]
    assert (row.text, row.status, row.segments) == (longer.strip(), "waiting", 2)
    again = office.post("/desk/tickets/1003/draft", **draft_fields(draft.id, "other"))
    assert again.status_code == 409


def test_a_draft_can_be_discarded(office: Office) -> None:
    [draft] = office.replies("thluz", status="draft")
    office.post("/desk/tickets/1003/draft", discard=draft.id)
    [row] = [r for r in office.replies("thluz") if r.id == draft.id]
    assert (row.status, row.reason) == ("dropped", "discarded by the office")


def test_a_draft_of_a_conversation_without_a_ticket_can_be_sent(office: Office) -> None:
    [draft] = office.replies("thbo", status="draft")
    assert office.post("/desk/threads/thbo/draft", **draft_fields(draft.id, draft.text)).status_code == 303
    assert office.replies("thbo", status="waiting")


def test_a_reply_of_another_thread_is_not_touched(office: Office) -> None:
    [draft] = office.replies("thluz", status="draft")
    assert office.post("/desk/tickets/1001/draft", **draft_fields(draft.id, "x")).status_code == 409
    assert office.replies("thluz", status="draft")


def test_an_undelivered_text_is_sent_again(office: Office) -> None:
    [dead] = office.replies("thluz", status="failed")
    office.post("/desk/tickets/1003/again", reply=dead.id)
    [row] = [r for r in office.replies("thluz") if r.id == dead.id]
    assert (row.status, row.attempts) == ("waiting", 0)


def test_a_danger_is_acknowledged_once_and_stays_until_it_is_cleared(office: Office) -> None:
    with reading(office.deps.engine) as connection:
        [alarm] = alarms.open_alarms(connection, "demo")
    assert office.post("/desk/tickets/1002/acknowledge", alarm=alarm.id).status_code == 303
    assert office.post("/desk/tickets/1002/acknowledge", alarm=alarm.id).status_code == 409
    assert "not cleared yet" in office.client.get("/desk").text
    assert office.state("thsam").danger is not None


def test_clearing_a_danger_needs_somebody_s_word(office: Office) -> None:
    assert office.post("/desk/tickets/1002/clear", note="").status_code == 409
    assert office.state("thsam").danger is not None
    assert office.post("/desk/tickets/1002/clear", note="Sam: breaker is off, all out and well").status_code == 303
    state = office.state("thsam")
    assert state.danger is None
    assert state.tickets[0].hazards_cleared
    assert open_alarms(office) == []


def test_a_person_has_seen_to_it(office: Office) -> None:
    office.post("/desk/tickets/1003/done")
    assert office.ticket(1003).needs_person is None


def test_closing_needs_a_reason_and_gives_the_time_back(office: Office) -> None:
    assert office.post("/desk/tickets/1001/close", reason="bored").status_code == 409
    assert office.post("/desk/tickets/1001/close", reason="withdrawn").status_code == 303
    assert office.ticket(1001).closed == "withdrawn"
    assert [visit.status for visit in office.visits()] == ["cancelled"]
    assert "closed: withdrawn" in office.client.get("/desk/tickets/1001").text


def test_a_visit_that_waits_is_confirmed_and_the_customer_told(office: Office) -> None:
    with writing(office.deps.engine) as connection:
        connection.execute(update(visits).values(status="tentative"))
        state = office.state("thmaria")
        visit = state.tickets[0].visit
        assert visit is not None
        ticket = state.tickets[0].model_copy(update={"visit": visit.model_copy(update={"tentative": True})})
        kept = state.model_copy(update={"tickets": (ticket,)}).model_dump(mode="json")
        connection.execute(update(threads).where(threads.c.id == "thmaria").values(state=kept))
    assert "Visits to confirm" in office.client.get("/desk").text
    assert office.post("/desk/tickets/1001/confirm", visit="vmaria", version="7").status_code == 409
    assert office.post("/desk/tickets/1001/confirm", visit="vmaria", version="0").status_code == 303
    [row] = office.visits()
    assert row.status == "standing"
    assert [r.status for r in office.replies("thmaria") if r.visit == "vmaria"] == ["waiting"]


@pytest.mark.parametrize("path", ["/desk/tickets/1003/dance", "/desk/tickets/9999/hold", "/desk/threads/none/hold"])
def test_what_is_not_there_is_said_to_be_missing(office: Office, path: str) -> None:
    assert office.post(path).status_code == 404


def test_a_complaint_that_came_back_is_linked_both_ways(office: Office) -> None:
    with writing(office.deps.engine) as connection:
        [row] = connection.execute(select(tickets).where(tickets.c.number == 1001)).mappings()
        back = {**row, "id": "thmaria-t2", "key": "t2", "number": 1009, "earlier": "t1", "machine": None}
        connection.execute(insert(tickets).values(**back))
    assert "comes back from this one" in office.client.get("/desk/tickets/1001").text
    assert "this one comes back from it" in office.client.get("/desk/tickets/1009").text


def test_a_number_is_left_unanswered_and_answered_again_on_record(office: Office) -> None:
    assert "Answer this number no more" in office.client.get("/desk/tickets/1003").text
    assert office.post("/desk/tickets/1003/park").status_code == 303
    page = office.client.get("/desk/tickets/1003").text
    assert "parked: by olive" in page
    assert "Answer this number again" in page
    assert "no more" not in page
    assert office.post("/desk/tickets/1003/park").status_code == 409
    assert office.post("/desk/tickets/1003/unpark").status_code == 303
    assert "parked" not in office.client.get("/desk/tickets/1003").text
    assert office.post("/desk/tickets/1003/unpark").status_code == 409
    assert sorted(office.deeds("ticket:1003")) == ["park", "unpark"]
