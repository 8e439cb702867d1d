"""The simulated phone in a real browser: a text goes out with Enter, the answer comes in by itself."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from service.edge.worker import tick
from tests.browser.conftest import House, violations

pytestmark = pytest.mark.browser


def test_a_text_is_answered_without_reload(page: Page, house: House) -> None:
    page.goto("/phone")
    page.get_by_label("Phone number to be").fill("505-555-0190")
    page.get_by_role("button", name="Take this phone").click()
    page.get_by_label("Your text").fill("my dishwasher leaks water on the floor")
    page.keyboard.press("Enter")
    # The first text of a process may have to wait until what texts teach is learned.
    expect(page.locator("#texts .mine")).to_contain_text("my dishwasher leaks", timeout=120_000)
    house.clock.forward(seconds=30)
    tick(house.deps)
    expect(page.locator("#texts .line").first).to_contain_text("Tarnwick Appliance Repair")
    expect(page.locator("#texts .line .meta").first).to_contain_text("segment")
    assert violations(page) == []
