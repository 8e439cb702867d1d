"""An error code that is set right in the same text is the last one told."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("says F4 no wait E4", "E4"),
        ("it says F4, sorry E4", "E4"),
        ("code is f4 i mean e4", "E4"),
        ("washer shows F21... wait no its F12", "F12"),
        ("not F4 its E4", "E4"),
        ("error F4 oops E4", "E4"),
        ("dice F4 no espere E4", "E4"),
        ("es F4 digo E4", "E4"),
        ("sale F4, perdon, E4", "E4"),
        ("no es F4, es E4", "E4"),
        ("marca el F21 mejor dicho F12", "F12"),
        ("says F4 and then E4", "F4"),
        ("says F4, no heat", "F4"),
        ("marca F4 y no calienta", "F4"),
        ("shows F4 and the serial is no E4", "F4"),
    ],
)
def test_the_code_told_last_counts_where_it_takes_another_back(reader: Reader, text: str, code: str) -> None:
    assert reader.read(text, about="washer").facts.get("code") == code


@pytest.mark.parametrize(
    "text",
    [
        "doesnt heat at all but dryer works fine",
        "no heat but dryer works fine",
        "wont spin but washer runs great",
        "no calienta nada pero secadora funciona bien",
        "it leaks but dishwasher works fine",
    ],
)
def test_praise_of_the_rest_of_a_machine_settles_no_fault(reader: Reader, text: str) -> None:
    found = reader.read(text)
    assert found.symptoms
    assert "fixed" not in found.intents
    assert not found.taken_back


@pytest.mark.parametrize(
    "text",
    [
        "it had no heat but it works now",
        "no heat but dryer works fine now",
        "it leaked but its fixed",
        "no calentaba pero ya quedo",
    ],
)
def test_what_is_settled_stays_so(reader: Reader, text: str) -> None:
    found = reader.read(text, about="dryer")
    assert not found.symptoms
    assert "fixed" in found.intents
