"""The author's page in a real browser: no barriers, no sideways scrolling, a problem told where it stands."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import House, sign_in, violations

pytestmark = pytest.mark.browser


@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 320)])
def test_the_rules_page_has_no_barrier_and_fits(chromium: Browser, house: House, scheme: str, width: int) -> None:
    """Sources W5 to W8."""
    context = chromium.new_context(
        base_url=house.address,
        color_scheme=scheme,
        viewport={"width": width, "height": 720},
    )
    page = context.new_page()
    sign_in(page, "ada")
    page.goto("/desk/rules")
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    context.close()


def test_the_office_is_not_shown_the_rules_and_the_author_is(page: Page) -> None:
    sign_in(page)
    expect(page.get_by_role("link", name="Rules", exact=True)).to_have_count(0)
    page.get_by_role("button", name="Sign out").click()
    sign_in(page, "ada")
    page.get_by_role("link", name="Rules", exact=True).click()
    expect(page.get_by_role("heading", name="Rules", exact=True)).to_be_visible()
