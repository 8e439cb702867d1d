"""Booking, correcting, phoned-in tickets, the shop's switches: what is taken, and what is sent back with its reason."""

from __future__ import annotations

import re
from typing import Any

import pytest
from sqlalchemy import select

from service.storage import alarms
from service.storage.engine import reading
from service.storage.shops import shop_row
from service.storage.tables import threads
from tests.pages.office import Office

PLACE = {"address": "77 Juniper Kite Rd SW", "postal_code": "87105", "name": "Luz"}


def windows(office: Office, number: int) -> list[str]:
    return re.findall(r'name="pick" value="(\w+@[^"]+)"', office.client.get(f"/desk/tickets/{number}/visit").text)


def book(office: Office, number: int, **data: Any) -> Any:
    return office.post(f"/desk/tickets/{number}/visit", **{**PLACE, **data})


def standing(office: Office) -> list[Any]:
    return [visit for visit in office.visits() if visit.status == "standing"]


def test_an_offered_window_is_booked_for_the_address_and_the_customer_told(office: Office) -> None:
    pick = windows(office, 1003)[0]
    assert book(office, 1003, pick=pick, tell="yes").status_code == 303
    made = next(visit for visit in standing(office) if visit.id != "vmaria")
    assert (made.technician, made.address, made.postal_code) == (pick.split("@")[0], *list(PLACE.values())[:2])
    assert office.ticket(1003).stage == "arranged"
    assert [r for r in office.replies("thluz") if r.visit == made.id]


def test_a_booking_can_be_quiet(office: Office) -> None:
    before = len(office.replies("thluz"))
    assert book(office, 1003, pick=windows(office, 1003)[0]).status_code == 303
    assert len(office.replies("thluz")) == before


def test_a_technician_is_never_booked_where_the_day_has_no_room(office: Office) -> None:
    """Maria's visit stands with Ray on Thursday at one; the same window holds no second job of that length for him."""
    answer = book(office, 1003, pick="other", technician="ray", day="2026-12-03", start="13:00", tell="yes")
    first = answer.status_code
    if first == 303:  # the window holds two short jobs: then it holds no third
        answer = office.post(
            "/desk/tickets/1002/visit", pick="other", technician="ray", day="2026-12-03", start="13:00",
            address="9 Saltbush Ct", postal_code="87114",
        )  # fmt: skip
    assert answer.status_code == 422
    assert "do not fit beside" in answer.text


def test_a_visit_is_moved_and_its_version_rises(office: Office) -> None:
    pick = next(w for w in windows(office, 1001) if "2026-12-03T13" not in w)
    answer = office.post(
        "/desk/tickets/1001/visit", pick=pick, address="418 Cholla Wren Ln NE", postal_code="87111", tell="yes"
    )
    assert answer.status_code == 303, answer.text
    [visit] = office.visits()
    assert (visit.id, visit.version, visit.technician) == ("vmaria", 1, pick.split("@")[0])


def test_a_visit_is_cancelled(office: Office) -> None:
    assert office.post("/desk/tickets/1001/cancel", why="moved away").status_code == 303
    assert [(visit.status, visit.why) for visit in office.visits()] == [("cancelled", "moved away")]
    assert office.post("/desk/tickets/1001/cancel", why="again").status_code == 409


def test_a_booking_without_an_address_or_time_keeps_what_was_typed(office: Office) -> None:
    answer = book(office, 1003, pick="other", technician="ray", day="", start="", address="", postal_code="8710")
    assert answer.status_code == 422
    for words in ("A ZIP code has 5 digits", "needs an address", "Choose a day", "Choose when the window begins"):
        assert words in answer.text
    assert 'value="8710"' in answer.text
    assert '<option value="ray" selected>' in answer.text


def test_a_window_in_the_past_is_refused(office: Office) -> None:
    answer = book(office, 1003, pick="other", technician="ray", day="2026-11-30", start="10:00")
    assert "has begun already" in answer.text


def corrected(office: Office, **changes: str) -> Any:
    """The form as it stands, with *changes* (dots written as double underscores)."""
    page = office.client.get("/desk/tickets/1001/correct").text
    fields = dict(re.findall(r'name="was\.([^"]+)" value="([^"]*)"', page))
    data = {f"was.{name}": value for name, value in fields.items()} | fields
    return office.post("/desk/tickets/1001/correct", **(data | {k.replace("__", "."): v for k, v in changes.items()}))


def test_a_correction_takes_what_was_changed_and_nothing_else(office: Office) -> None:
    before = office.state("thmaria").tickets[0]
    assert corrected(office, symptom__leak="yes", fact__age_years="9", contact__name="Marta").status_code == 303
    after = office.state("thmaria")
    assert after.tickets[0].symptoms["leak"] is True
    assert after.tickets[0].symptoms["slow_drain"] is True
    assert after.tickets[0].facts["age_years"] == 9.0
    assert after.tickets[0].facts["tried"] == before.facts["tried"]
    assert after.contact.name == "Marta"
    assert office.deeds("ticket:1001") == ["correct"]


def test_a_sign_can_be_taken_back(office: Office) -> None:
    corrected(office, symptom__leak="")
    assert "leak" not in office.state("thmaria").tickets[0].symptoms


def test_a_form_that_changes_nothing_takes_no_turn(office: Office) -> None:
    assert corrected(office).status_code == 303
    assert office.deeds("ticket:1001") == []


def test_a_wrong_value_stands_beside_its_error(office: Office) -> None:
    answer = corrected(office, fact__age_years="old", symptom__leak="yes")
    assert answer.status_code == 422
    assert 'value="old"' in answer.text
    assert re.search(
        r'id="fact.age_years"[^>]*aria-invalid="true"[^>]*aria-describedby="wrong-fact.age_years"', answer.text
    )
    assert office.state("thmaria").tickets[0].symptoms["leak"] is False


def test_a_phoned_in_ticket_is_read_like_a_text(office: Office) -> None:
    answer = office.post(
        "/desk/new", phone="505 555 0177", appliance="dishwasher", words="the dishwasher leaks, it is 4 years old",
        name="Abe", address="5 Mesa Pl", postal_code="87106", brand="Calder", access="key under mat", language="en",
    )  # fmt: skip
    assert answer.status_code == 303, answer.text
    number = int(answer.headers["location"].rsplit("/", 1)[1])
    ticket = office.ticket(number)
    assert ticket.appliance == "dishwasher"
    assert ticket.state["symptoms"].get("leak") is True
    assert ticket.state["facts"]["brand"] == "Calder"
    assert ticket.state["words"] == ["the dishwasher leaks, it is 4 years old"]
    with reading(office.deps.engine) as connection:
        thread = connection.execute(select(threads).where(threads.c.number == "+15055550177")).one()
    assert thread.state["contact"]["address"] == "5 Mesa Pl"
    assert thread.state["contact"]["access"] == ["key under mat"]
    assert office.replies(thread.id) == []


@pytest.mark.parametrize("appliance", ["ice_maker", "trash_compactor", "beverage_cooler"])
def test_what_the_rules_know_can_be_chosen_though_it_is_not_ours(office: Office, appliance: str) -> None:
    for path in ("/desk/new", "/desk/tickets/1001/correct"):
        assert re.search(rf'<option value="{appliance}">[^<]+ \(not ours to mend\)', office.client.get(path).text)
    answer = office.post("/desk/new", phone="505 555 0177", appliance=appliance, words="it stopped working")
    assert answer.status_code == 303
    assert corrected(office, appliance=appliance).status_code == 303
    assert office.ticket(1001).appliance == appliance


def test_a_danger_named_on_the_phone_stands_on_the_desk(office: Office) -> None:
    data = {"phone": "505 555 0178", "appliance": "dishwasher", "words": "the dishwasher leaks and I smell gas"}
    assert office.post("/desk/new", **data).status_code == 303
    with reading(office.deps.engine) as connection:
        told = [alarm.text for alarm in alarms.open_alarms(connection, "demo") if "phone" in alarm.text]
    assert len(told) == 1
    assert "gas" in told[0]


def test_a_phoned_in_ticket_without_a_number_machine_or_words_is_sent_back(office: Office) -> None:
    answer = office.post("/desk/new", phone="555", appliance="", words="", name="Abe", postal_code="99999")
    assert answer.status_code == 422
    for words in ("area code", "Choose the machine", "what they said", "outside the area"):
        assert words in answer.text
    assert 'value="Abe"' in answer.text


def test_the_shop_s_autonomy_and_pause_are_switched_and_on_record(office: Office) -> None:
    assert office.post("/desk/shop/autonomy", autonomy="hold").status_code == 303
    assert office.post("/desk/shop/autonomy", autonomy="wild").status_code == 422
    assert office.post("/desk/shop/pause", paused="yes").status_code == 303
    with reading(office.deps.engine) as connection:
        row = shop_row(connection, "demo")
    assert row is not None
    assert (row.autonomy, row.paused) == ("hold", True)
    assert "The line is paused" in office.client.get("/desk").text
    assert sorted(office.deeds("shop")) == ["autonomy", "pause"]
