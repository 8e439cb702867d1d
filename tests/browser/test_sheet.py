"""The visit sheet on a phone: read, offline, on paper, and the outcome in four taps."""

from __future__ import annotations

import pytest
from playwright.sync_api import BrowserContext, Page, expect
from sqlalchemy import select

from service.pages.links import sheet_path
from service.storage import visits_view
from service.storage.engine import reading
from service.storage.ledgers import outcomes
from tests.browser.conftest import House, violations, watched

pytestmark = pytest.mark.browser


def path_of(house: House) -> str:
    with reading(house.deps.engine) as connection:
        visit = visits_view.visit_by_id(connection, "demo", "vmaria")
    assert visit is not None
    return sheet_path(house.deps, "demo", visit)


def filled(page: Page, minutes: str = "48") -> None:
    """The minutes, and the yes that a visit which has not begun needs."""
    page.get_by_label("Minutes there").fill(minutes)
    page.locator("input[name=early]").check()


def until(page: Page, true: str) -> None:
    """Wait for an expression to hold; asked from outside, as the page's policy allows no evaluation inside."""
    for _ in range(200):
        if page.evaluate(true):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"never true: {true}")


def found(house: House) -> list[tuple[str, bool, int]]:
    with reading(house.deps.engine) as connection:
        rows = connection.execute(select(outcomes.c.found, outcomes.c.fixed, outcomes.c.minutes))
        return [tuple(row) for row in rows]


def test_the_sheet_has_no_barrier_and_does_not_scroll_sideways(phone: BrowserContext, house: House) -> None:
    for page in watched(phone):
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            page.goto(path_of(house))
            page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
            assert violations(page) == []
        page.set_viewport_size({"width": 320, "height": 640})
        assert page.evaluate("document.documentElement.scrollWidth") <= 320


@pytest.mark.parametrize("size", [(390, 844), (320, 640)])
def test_the_first_screen_holds_what_is_wanted_before_the_door(
    phone: BrowserContext, house: House, size: tuple[int, int]
) -> None:
    for page in watched(phone):
        page.set_viewport_size({"width": size[0], "height": size[1]})
        page.goto(path_of(house))
        head = page.locator("header.first")
        for words in (
            "Thu 3 Dec, 1 to 3 pm", "drain", "WARNING", "418 Cholla Wren Ln NE", "gate code 0420", "dog in the yard",
            "Call Maria Luján", "Bring",
        ):  # fmt: skip
            expect(head).to_contain_text(words)
        box = head.locator(".bring").bounding_box()
        assert box is not None
        assert box["y"] + box["height"] <= size[1]


def test_a_form_that_lacks_something_says_so_on_top_leads_there_and_keeps_what_was_typed(
    phone: BrowserContext, house: House
) -> None:
    for page in watched(phone):
        page.goto(path_of(house))
        page.get_by_label("What was done").fill("hose cleared through")
        page.get_by_label("Fixed", exact=True).tap()
        filled(page)
        page.get_by_role("button", name="Record the outcome").tap()
        missing = page.locator("#missing")
        expect(missing).to_be_in_viewport()
        expect(missing).to_be_focused()
        expect(missing).to_contain_text("Nothing was recorded yet")
        assert found(house) == []
        expect(page.get_by_label("What was done")).to_have_value("hose cleared through")
        missing.get_by_role("link", name="Tap what was found").tap()
        expect(page.locator("#found-t1")).to_be_in_viewport()
        assert violations(page) == []
        page.locator("input[name=found]").first.tap()
        page.get_by_role("button", name="Record the outcome").tap()
        expect(page.get_by_text("The outcome is recorded")).to_be_in_viewport()
        assert len(found(house)) == 1


def test_back_after_recording_sends_nothing_again(phone: BrowserContext, house: House) -> None:
    for page in watched(phone):
        page.goto(path_of(house))
        page.get_by_label("Fixed", exact=True).tap()
        filled(page)
        page.get_by_role("button", name="Record the outcome").tap()
        page.locator("input[name=found]").first.tap()
        page.get_by_role("button", name="Record the outcome").tap()
        expect(page.get_by_text("The outcome is recorded")).to_be_visible()
        for _ in range(2):
            page.go_back()
            assert "/outcome" not in page.url
            expect(page.get_by_role("button", name="Correct the outcome")).to_be_visible()
            expect(page.locator("#missing")).to_have_count(0)
        assert len(found(house)) == 1


def test_an_opened_sheet_is_there_without_a_network(phone: BrowserContext, house: House) -> None:
    for page in watched(phone):
        page.goto(path_of(house))
        until(page, "navigator.serviceWorker.controller !== null")
        until(page, "caches.open('sheets-1').then(h => h.match(location.pathname)).then(Boolean)")
        phone.set_offline(True)
        page.reload()
        expect(page.locator(".button .address")).to_contain_text("418 Cholla Wren Ln NE")
        expect(page.get_by_text("No network. The sheet stays readable")).to_be_visible()
        assert page.evaluate("getComputedStyle(document.querySelector('.part')).borderRadius") == "4px"


def test_an_outcome_typed_without_a_network_is_sent_when_it_is_back(phone: BrowserContext, house: House) -> None:
    for page in watched(phone):
        page.goto(path_of(house))
        until(page, "navigator.serviceWorker.controller !== null")
        phone.set_offline(True)
        page.locator("input[name=found]").first.tap()
        page.get_by_label("Fixed", exact=True).tap()
        filled(page)
        page.get_by_role("button", name="Record the outcome").tap()
        expect(page.get_by_text("Kept on this phone.")).to_be_visible()
        assert found(house) == []
        phone.set_offline(False)
        expect(page.get_by_text("The outcome is recorded")).to_be_visible()
        [(_, fixed, _)] = found(house)
        assert fixed is True


def test_the_outcome_takes_four_taps_and_the_minutes(phone: BrowserContext, house: House) -> None:
    for page in watched(phone):
        page.goto(path_of(house))
        page.locator("input[name=found]").first.tap()
        page.locator("input[name=parts]").first.tap()
        page.get_by_label("Fixed", exact=True).tap()
        filled(page)
        page.get_by_role("button", name="Record the outcome").tap()
        expect(page.get_by_text("The outcome is recorded")).to_be_visible()
        assert len(found(house)) == 1


def test_what_was_typed_survives_leaving_the_sheet(phone: BrowserContext, house: House) -> None:
    for page in watched(phone):
        page.goto(path_of(house))
        page.get_by_label("What was done").fill("hose cleared through")
        page.goto(path_of(house))
        expect(page.get_by_label("What was done")).to_have_value("hose cleared through")


def test_on_paper_the_shares_stand_and_the_buttons_do_not(phone: BrowserContext, house: House) -> None:
    for page in watched(phone):
        page.goto(path_of(house))
        page.emulate_media(media="print")
        expect(page.locator(".likely .on-paper").first).to_be_visible()
        expect(page.locator(".reach")).to_contain_text("418 Cholla Wren Ln NE, 87111 · Maria Luján (505) 555-0142")
        expect(page.get_by_role("button", name="Record the outcome")).to_be_hidden()


def test_an_unlikely_cause_is_found_by_its_name_and_corrected_by_one_tap(phone: BrowserContext, house: House) -> None:
    for page in watched(phone):
        page.goto(path_of(house))
        page.get_by_text("Other causes, A to Z").tap()
        fold = page.locator("details").filter(has_text="Other causes, A to Z")
        fold.locator("input[name=found]").last.tap()
        page.get_by_label("Coming back").tap()
        page.get_by_label("Why, if not fixed").fill("the part is ordered")
        filled(page)
        page.get_by_role("button", name="Record the outcome").tap()
        expect(page.get_by_text("The outcome is recorded")).to_be_visible()
        [(cause, fixed, minutes)] = found(house)
        assert fixed is False
        expect(fold.locator("input[name=found]").last).to_be_checked()
        page.get_by_label("Fixed", exact=True).tap()
        page.locator("input[name=early]").check()
        page.get_by_role("button", name="Correct the outcome").tap()
        expect(page.get_by_text("; fixed. Recorded")).to_be_visible()
        assert found(house) == [(cause, True, minutes)]
