"""The desk's forms in a real browser: another time is chosen by filling it in, and nothing typed is lost."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect
from sqlalchemy import insert, select

from service.storage.engine import reading, writing
from service.storage.ledgers import unsent
from service.storage.tables import outbox, visits
from tests.browser.conftest import House, sign_in
from tests.edge.running import until
from tests.pages.makers import PASSWORD

pytestmark = pytest.mark.browser


def fill_in(page: Page) -> None:
    page.get_by_label("Technician").select_option("ray")
    page.get_by_label("Day", exact=True).fill("2026-12-09")
    page.get_by_label("Window begins").select_option("10:00")


def booked(house: House) -> list[str]:
    with reading(house.deps.engine) as connection:
        found = connection.execute(select(visits.c.day).where(visits.c.id != "vmaria")).scalars()
        return [day.isoformat() for day in found]


@pytest.mark.parametrize("scripts", [True, False])
def test_another_time_that_is_filled_in_is_booked(chromium: Browser, house: House, scripts: bool) -> None:
    context = chromium.new_context(base_url=house.address, java_script_enabled=scripts)
    page = context.new_page()
    sign_in(page)
    page.goto("/desk/tickets/1003/visit")
    expect(page.locator("input[type=radio]:checked")).to_have_count(0)
    page.get_by_label("Street address").fill("77 Juniper Kite Rd SW")
    fill_in(page)
    expect(page.get_by_label("Another time")).to_be_checked(checked=scripts)
    page.get_by_role("button", name="Book the visit").click()
    expect(page.get_by_role("heading", name="Visit", exact=True)).to_be_visible()
    assert booked(house) == ["2026-12-09"]
    context.close()


def test_moving_without_a_choice_asks_for_one(page: Page) -> None:
    sign_in(page)
    page.goto("/desk/tickets/1001/visit")
    page.get_by_role("button", name="Move the visit").click()
    expect(page.get_by_text("Choose a time: one of these, or fill in another.")).to_be_visible()


def second_draft(house: House) -> None:
    with writing(house.deps.engine) as connection:
        [row] = connection.execute(select(outbox).where(outbox.c.id == "othluz2")).mappings()
        fresh = {"id": "later", "key": "later", "turn": "thluz.9", "seq": row["seq"] + 1, "text": "Later words."}
        connection.execute(insert(outbox).values(**{**row, **fresh}))


@pytest.mark.parametrize("scripts", [True, False])
def test_sending_one_draft_keeps_what_else_was_typed(chromium: Browser, house: House, scripts: bool) -> None:
    second_draft(house)
    context = chromium.new_context(base_url=house.address, java_script_enabled=scripts)
    page = context.new_page()
    sign_in(page)
    page.goto("/desk/tickets/1003")
    page.get_by_label("Write as a person").fill("Buenos d")
    page.get_by_label("Draft of the line").nth(1).fill("Una cosa m")
    page.locator("#talk").get_by_role("button", name="Send", exact=True).click()
    expect(page.get_by_label("Draft of the line")).to_have_count(1)
    expect(page.get_by_label("Draft of the line")).to_have_value("Una cosa m")
    expect(page.get_by_label("Write as a person")).to_have_value("Buenos d")
    context.close()


def test_what_is_typed_goes_along_with_another_button(page: Page) -> None:
    sign_in(page)
    page.goto("/desk/tickets/1003")
    page.get_by_label("Write as a person").fill("Buenos d")
    page.get_by_role("button", name="Take over").click()
    expect(page.get_by_text("held by olive")).to_be_visible()
    expect(page.get_by_label("Write as a person")).to_have_value("Buenos d")


def test_words_stand_in_the_field_again_when_the_page_was_left_by_a_link(page: Page, house: House) -> None:
    def kept() -> str:
        with reading(house.deps.engine) as connection:
            return "".join(connection.execute(select(unsent.c.text)).scalars())

    sign_in(page)
    for words in ("Buenos d", ""):
        page.goto("/desk/tickets/1003")
        page.get_by_label("Write as a person").fill(words)
        page.get_by_role("link", name="Days").first.click()
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        until(lambda words=words: kept() == words)
        page.goto("/desk/tickets/1003")
        expect(page.get_by_label("Write as a person")).to_have_value(words)


def test_words_sent_after_the_session_was_over_stand_in_the_field_again(page: Page, house: House) -> None:
    sign_in(page)
    page.goto("/desk/tickets/1003")
    page.get_by_label("Write as a person").fill("Hola Luz, soy Olive.")
    house.clock.forward(minutes=45)
    page.get_by_role("button", name="Send", exact=True).last.click()
    expect(page.get_by_text("What you typed is kept")).to_be_visible()
    page.get_by_role("link", name="Sign in").click()
    page.get_by_label("Login").fill("olive")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_label("Write as a person")).to_have_value("Hola Luz, soy Olive.")
    expect(page.get_by_text("You typed this before; it was not sent.")).to_be_visible()


def test_a_danger_is_not_closed_over_by_a_click_and_a_closed_ticket_opens_again(page: Page) -> None:
    sign_in(page)
    page.goto("/desk/tickets/1002")
    page.get_by_label("Reason").select_option("not_ours")
    page.get_by_role("button", name="Close the ticket").click()
    expect(page.get_by_label("A danger stands")).to_be_focused()
    page.get_by_label("A danger stands").fill("the gas company is there")
    page.get_by_role("button", name="Close the ticket").click()
    expect(page.get_by_text("Danger named, not cleared:")).to_be_visible()
    page.get_by_role("button", name="Open it again").click()
    expect(page.get_by_role("button", name="Close the ticket")).to_be_visible()


def test_a_number_as_it_is_shown_is_found(page: Page) -> None:
    sign_in(page)
    page.get_by_label("Find by number").fill("(505) 555-0142")
    page.get_by_role("button", name="Find").click()
    expect(page.get_by_role("link", name="#1001")).to_be_visible()
    expect(page.get_by_role("link", name="#1003")).to_have_count(0)


def test_a_page_with_words_on_it_is_not_left_for_the_sign_in(page: Page, house: House) -> None:
    sign_in(page)
    page.goto("/desk/tickets/1003")
    page.get_by_label("Write as a person").fill("Hola Luz, soy Olive.")
    house.clock.forward(minutes=45)
    expect(page.get_by_text("You were signed out. Press Send")).to_be_visible()
    expect(page.get_by_label("Write as a person")).to_have_value("Hola Luz, soy Olive.")
