"""The reports in a real browser: pictures drawn, tables behind them, files saved, on a desk and on a phone."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from service.storage.engine import writing
from tests.browser.conftest import House, sign_in, violations
from tests.pages.past import Past

pytestmark = pytest.mark.browser

DRAWN = """() => [...document.querySelectorAll('svg.picture')].map(p => {
    const sheet = p.getBoundingClientRect();
    return [...p.querySelectorAll('line, circle, rect, text')].every(s => {
        const box = s.getBoundingClientRect();
        return box.left >= sheet.left - 1 && box.right <= sheet.right + 1 && box.top >= sheet.top - 1
            && box.bottom <= sheet.bottom + 1; }) })"""


@pytest.fixture
def past(house: House) -> None:
    """Sixty visits over half a year."""
    with writing(house.deps.engine) as connection:
        Past(connection, house.clock()).many(60)


def opened(page: Page, address: str = "/desk/reports") -> None:
    page.goto(address)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")


@pytest.mark.usefixtures("past")
def test_the_reports_are_reached_read_narrowed_and_saved(page: Page, tmp_path: Path) -> None:
    sign_in(page, "ada")
    page.get_by_role("navigation").get_by_role("link", name="Reports").click()
    expect(page.get_by_role("img", name="Finished on the first visit, by month")).to_be_visible()
    page.get_by_label("Months back").select_option("3")
    page.get_by_label("Appliance", exact=True).select_option("dishwasher")
    page.get_by_role("button", name="Show").click()
    expect(page.get_by_text("Dishwasher, last 3 months")).to_be_visible()
    page.locator("#first-visit summary").click()
    expect(page.get_by_role("table", name="By month").first.get_by_role("row")).to_have_count(4)
    with page.expect_download() as saving:
        page.get_by_role("link", name="CSV file: finished on the first visit").click()
    saving.value.save_as(tmp_path / "saved.csv")
    assert (tmp_path / "saved.csv").read_text().startswith("appliance,month,measure,hits,count")
    opened(page)
    assert all(page.evaluate(DRAWN))
    assert violations(page) == []


@pytest.mark.usefixtures("past")
def test_the_reports_fit_a_phone_in_the_dark(chromium: Browser, house: House) -> None:
    context: BrowserContext = chromium.new_context(
        viewport={"width": 320, "height": 640}, color_scheme="dark", base_url=house.address
    )
    page = context.new_page()
    sign_in(page)
    opened(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert all(page.evaluate(DRAWN))
    assert violations(page) == []
    context.close()


def test_a_shop_without_a_past_is_told_so(page: Page) -> None:
    sign_in(page)
    opened(page)
    expect(page.get_by_text("Nothing to judge yet")).to_be_visible()
    assert violations(page) == []
