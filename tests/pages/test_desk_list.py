"""The desk's list: what stands where, what can be found."""

from __future__ import annotations

from tests.pages.conftest import SignIn


def test_an_unacknowledged_danger_stands_first(signed_in: SignIn) -> None:
    page = signed_in().get("/desk").text
    places = [
        page.index(words) for words in ("nobody has it in hand", "A person is asked for", "Drafts to send", "In turn")
    ]
    assert places == sorted(places)
