"""Learning in a real browser, in an author's hand: the proposal is read, held fast in part, and accepted."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, expect

from service.storage.engine import writing
from tests.browser.conftest import House, sign_in, violations
from tests.pages.past import Past

pytestmark = pytest.mark.browser

WORN = "drain_valve_seal_worn"


def test_an_author_accepts_what_outcomes_propose_on_a_phone(chromium: Browser, house: House) -> None:
    with writing(house.deps.engine) as connection:
        past = Past(connection, house.clock())
        asked = {"symptoms": {"slow_drain": True, "leak": True}, "observations": {}, "asked": ["leak"]}
        for place in range(30):
            past.outcome(past.ticket(50 - place), 50 - place, WORN, evidence=asked)
    context = chromium.new_context(viewport={"width": 320, "height": 640}, base_url=house.address)
    page = context.new_page()
    sign_in(page, "ada")
    page.get_by_role("navigation").get_by_role("link", name="Learning").click()
    name = house.deps.editions_in_force.book("demo").appliances["dishwasher"].causes[WORN].name.en
    row = page.get_by_role("row").filter(has=page.get_by_role("rowheader", name=name, exact=True))
    expect(row).to_contain_text("+")
    page.wait_for_load_state("load")  # the row is there before the style is
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert violations(page) == []
    page.get_by_role("button", name="Accept the proposal: Dishwasher").click()
    expect(page.get_by_role("status").filter(has_text="Accepted: the line")).to_be_visible()
    expect(page.get_by_text("learned from 30 jobs, accepted by ada")).to_be_visible()
    assert violations(page) == []
    context.close()
