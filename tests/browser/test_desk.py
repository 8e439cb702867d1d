"""The desk in a real browser: signing in, live tickets, taking over, keyboard, narrow screens, no barriers."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect

from service.edge.exchange import receive
from service.edge.inbound import Inbound
from service.storage.engine import writing
from service.storage.shops import set_autonomy
from tests.browser.conftest import House, sign_in, violations
from tests.pages import makers

pytestmark = pytest.mark.browser

PAGES = (
    "/desk", "/desk/tickets/1001", "/desk/tickets/1002", "/desk/tickets/1003", "/desk/threads/thbo",
    "/desk/tickets/1001/visit", "/desk/tickets/1001/correct", "/desk/new", "/desk/day?day=2026-12-03", "/desk/reports",
    "/desk/learning", "/desk/shop",
)  # fmt: skip


def text(house: House, number: str, words: str) -> None:
    """Somebody texts the shop."""
    house.clock.forward(seconds=30)
    inbound = Inbound("demo", "loopback", number, "+15055550100", words, (), f"browser-{words}", house.clock())
    receive(house.deps, inbound)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_page_of_the_desk_has_a_barrier(chromium: Browser, house: House, scheme: str) -> None:
    """Sources W5 to W8: axe-core's rules, in both colour schemes, with every fold open."""
    context = chromium.new_context(base_url=house.address, color_scheme=scheme)
    page = context.new_page()
    page.goto("/sign-in")
    assert violations(page) == []
    sign_in(page)
    for path in PAGES:
        page.goto(path)
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert violations(page) == [], path
    context.close()


def test_no_page_scrolls_sideways_at_320_pixels(chromium: Browser, house: House) -> None:
    """Source W7."""
    context = chromium.new_context(viewport={"width": 320, "height": 640}, base_url=house.address)
    page = context.new_page()
    sign_in(page)
    for path in (*PAGES, "/phone", "/phone/demo/+15055550142"):
        page.goto(path)
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, path
    context.close()


def test_every_target_is_at_least_24_pixels(page: Page) -> None:
    """Source W8; links inside a line of text are exempt."""
    sign_in(page)
    small = """() => [...document.querySelectorAll(
        'button, .button, input:not([type=hidden]), select, textarea, summary, nav a')]
        .map(e => [e.outerHTML.slice(0, 90), e.getBoundingClientRect()])
        .filter(([, r]) => r.width && (r.width < 24 || r.height < 24)).map(([html]) => html)"""
    for path in PAGES:
        page.goto(path)
        assert page.evaluate(small) == [], path


def test_a_wrong_password_keeps_the_login_and_puts_the_cursor_where_it_is_needed(page: Page) -> None:
    page.goto("/sign-in")
    page.get_by_label("Login").fill("olive")
    page.get_by_label("Password").fill("wrong wrong wrong")
    page.keyboard.press("Enter")
    expect(page.get_by_text("Login or password is not right")).to_be_visible()
    expect(page.get_by_label("Login")).to_have_value("olive")
    expect(page.get_by_label("Password")).to_be_focused()


def test_a_new_ticket_appears_without_reload(page: Page, house: House) -> None:
    sign_in(page)
    expect(page.get_by_role("heading", name="What needs somebody")).to_be_visible()
    page.evaluate("window.unreloaded = true")
    text(house, "+15055550171", "I smell gas in the kitchen")
    danger = page.get_by_role("region", name="Danger: nobody has it in hand")
    expect(danger.get_by_text("(505) 555-0171")).to_be_visible()
    assert page.evaluate("window.unreloaded") is True


def test_a_new_text_appears_on_the_ticket_and_what_is_being_typed_stays(page: Page, house: House) -> None:
    sign_in(page)
    page.goto("/desk/tickets/1001")
    page.get_by_label("Write as a person").fill("We will be there soon, Mar")
    text(house, makers.MARIA, "the side gate is open now")
    expect(page.locator("#talk").get_by_text("the side gate is open now")).to_be_visible()
    expect(page.get_by_label("Write as a person")).to_have_value("We will be there soon, Mar")


def test_an_edited_draft_stays_as_edited_when_the_page_renews_itself(page: Page, house: House) -> None:
    with writing(house.deps.engine) as connection:
        set_autonomy(connection, "demo", "draft")
    sign_in(page)
    page.goto("/desk/tickets/1003")
    draft = page.get_by_label("Draft of the line").first
    draft.fill("Le llamo en cinco minutos.")
    text(house, makers.LUZ, "gracias, espero su llamada")
    expect(page.locator("#talk").get_by_text("gracias, espero su llamada")).to_be_visible()
    expect(draft).to_have_value("Le llamo en cinco minutos.")


def test_taking_over_answering_and_handing_back(page: Page) -> None:
    sign_in(page)
    page.get_by_role("link", name="#1003").click()
    page.get_by_role("button", name="Take over").click()
    expect(page.get_by_text("held by olive: the line is silent")).to_be_visible()
    page.get_by_label("Write as a person").fill("Hola Luz, soy Olive de la oficina.")
    page.get_by_role("button", name="Send", exact=True).last.click()
    expect(page.locator("#talk").get_by_text("Hola Luz, soy Olive de la oficina.")).to_be_visible()
    page.get_by_role("button", name="Hand back to the line").click()
    expect(page.get_by_role("button", name="Take over")).to_be_visible()


def test_the_reasons_of_a_reply_stand_under_it_in_words(page: Page) -> None:
    sign_in(page)
    page.goto("/desk/tickets/1001")
    page.get_by_text("Why (turn 1)").click()
    expect(page.get_by_text('"takes forever to drain" read as slow_drain')).to_be_visible()


def test_the_desk_can_be_worked_with_the_keyboard_alone(page: Page) -> None:
    page.goto("/sign-in")
    expect(page.get_by_label("Login")).to_be_focused()
    page.keyboard.type("olive")
    page.keyboard.press("Tab")
    page.keyboard.type(makers.PASSWORD)
    page.keyboard.press("Enter")
    page.wait_for_url("**/desk", wait_until="load")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the content")).to_be_focused()
    page.keyboard.press("Enter")
    for _ in range(4):  # search, choice, button, then the first ticket
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "ticket-1002"
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("#1002")


def test_a_phoned_in_ticket_is_typed_in_one_form(page: Page) -> None:
    sign_in(page)
    page.get_by_role("link", name="New ticket").click()
    page.get_by_label("Phone number").fill("505 555 0177")
    page.get_by_label("Machine").select_option("dishwasher")
    page.get_by_label("What they say is wrong").fill("the dishwasher leaks")
    page.get_by_role("button", name="Open the ticket").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("#1005")


def test_a_visit_is_booked_from_the_offers(page: Page) -> None:
    sign_in(page)
    page.goto("/desk/tickets/1003/visit")
    page.get_by_label("Street address").fill("77 Juniper Kite Rd SW")
    page.get_by_role("radio").first.check()
    page.get_by_role("button", name="Book the visit").click()
    expect(page.get_by_role("heading", name="Visit", exact=True)).to_be_visible()
    expect(page.get_by_role("link", name="Visit sheet")).to_be_visible()


def test_the_desk_works_without_scripts(chromium: Browser, house: House) -> None:
    context = chromium.new_context(base_url=house.address, java_script_enabled=False)
    page = context.new_page()
    sign_in(page)
    page.get_by_role("link", name="#1003").click()
    page.get_by_role("button", name="Take over").click()
    expect(page.get_by_text("held by olive")).to_be_visible()
    context.close()


def test_an_idle_page_is_led_to_the_sign_in_by_itself(page: Page, house: House) -> None:
    sign_in(page)
    expect(page.get_by_role("heading", name="What needs somebody")).to_be_visible()
    house.clock.forward(minutes=31)
    page.wait_for_url("**/sign-in?next=/desk", timeout=60_000)
