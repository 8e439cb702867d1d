"""Phone numbers against their published rules: E.164, the North American plan, RFC 3966 (sources N1 to N5)."""

from __future__ import annotations

import re
from pathlib import Path

import phonenumbers
import pytest

from service.edge.numbers import follows_north_american_plan, kind_of, one_spelling

ROOT = Path(__file__).parent.parent.parent


def test_n1_fifteen_digits_at_most() -> None:
    """ITU-T E.164 (2010)."""
    assert kind_of("+13125550142") == "phone"
    assert kind_of("+1312555014212345") == "impossible"
    assert one_spelling("+4930123456789012") == "+4930123456789012"  # 16 digits: left as it came, not shortened
    assert kind_of("+4930123456789012") == "impossible"


@pytest.mark.parametrize(
    ("number", "follows"),
    [
        ("+12342355678", True),
        ("+12349115678", False),  # exchange of the form N11
        ("+11232345678", False),  # area code begins with 1
        ("+12912345678", False),  # second digit of the area code is 9
        ("+13129110100", False),  # N5: the number library calls this one valid
        ("+19115550100", False),  # area code of the form N11
        ("+13121550100", False),  # exchange begins with 1
    ],
)
def test_n2_the_north_american_plan(number: str, follows: bool) -> None:
    """NPA-NXX-XXXX."""
    assert follows_north_american_plan(number) is follows
    assert (kind_of(number) == "phone") is follows


def test_n3_every_number_we_write_down_is_set_aside_for_fiction() -> None:
    """555-0100 to 555-0199 in each area code; the numbers of these tests about the plan itself are the exception."""
    fiction = re.compile(r"\+1[2-9]\d{2}55501\d{2}")
    written = re.compile(r"\+1\d{10}(?!\d)")
    for folder in ("rules", "deploy", "service"):
        for path in (ROOT / folder).rglob("*"):
            if path.suffix in {".py", ".yaml", ".md", ".html", ".js", ".txt"}:
                wrong = [n for n in written.findall(path.read_text("utf-8")) if not fiction.fullmatch(n)]
                assert not wrong, f"{path}: {wrong}"


@pytest.mark.parametrize(
    "written",
    [
        "tel:+1-312-555-0142",
        "tel:+13125550142",
        "tel:+1(312)555.0142",
        "TEL:+1-312-555-0142;ext=7",
        "+1 312 555 0142",
        "(312) 555-0142",
        "13125550142",
        "3125550142",
    ],
)
def test_n4_separators_and_prefix_do_not_matter(written: str) -> None:
    """RFC 3966, sections 3 and 5.1.4: visual separators are ignored when comparing."""
    assert one_spelling(written) == "+13125550142"


def test_n5_what_the_number_library_does_and_why_we_check_again() -> None:
    """phonenumbers 9.0.43."""
    fictional = phonenumbers.parse("+13125550142")
    assert phonenumbers.is_valid_number(fictional)
    assert phonenumbers.format_number(fictional, phonenumbers.PhoneNumberFormat.RFC3966) == "tel:+1-312-555-0142"
    possible = phonenumbers.parse("+15555550123")
    assert phonenumbers.is_possible_number(possible)
    assert not phonenumbers.is_valid_number(possible)
    assert one_spelling("+15555550123") == "+15555550123"
    assert phonenumbers.is_valid_number(phonenumbers.parse("+13129110100"))
    assert kind_of("+13129110100") == "impossible"


@pytest.mark.parametrize(("sender", "kind"), [("72975", "short_code"), ("ACMEBANK", "name"), ("InfoSMS1", "name")])
def test_senders_that_are_no_phone_numbers_stay_as_they_came(sender: str, kind: str) -> None:
    assert one_spelling(f" {sender} ") == sender
    assert kind_of(sender) == kind
