"""Phone numbers as the edge needs them: one spelling each, and what can be texted at all (sources N1 to N5)."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import Literal

import phonenumbers

NumberKind = Literal["phone", "short_code", "name", "impossible"]

_E164 = re.compile(r"\+[1-9]\d{6,14}")
"""At most 15 digits after the plus (N1)."""

_LONGEST = 250
"""The number library reads nothing longer as a number, and nothing longer need be remembered."""

_DIGITS = re.compile(r"\d{3,8}")


_ABROAD = re.compile(r"\+?\s*00\s*(?=[1-9])")
"""The international prefix as most countries dial it (N1's plus, in digits); begins no number in its own country."""


def one_spelling(written: str, region: str = "US") -> str:
    """
    *written* as E.164 where it is a phone number of *region* or of the world, else as it came, trimmed.

    Takes ``tel:`` addresses (N4) and 00 before the country code, and drops extensions. A short code or a named sender is
    no phone number and stays; so does anything that only looks odd, for a real person may stand behind it.
    """
    bare = written.strip()
    if bare.lower().startswith("tel:"):
        bare = bare[4:].split(";", 1)[0]
    if _DIGITS.fullmatch(bare) or re.search(r"[A-Za-z]", bare):
        return bare
    abroad = _ABROAD.match(bare)
    if len(bare) > _LONGEST:
        return bare
    from_abroad = _spelled("+" + bare[abroad.end() :], region) if abroad else None
    return from_abroad or _spelled(bare, region) or bare


@lru_cache(maxsize=4096)  # the shop's own number comes with every text, a customer's with each of theirs
def _spelled(bare: str, region: str) -> str | None:
    try:
        number = phonenumbers.parse(bare, region)
    except phonenumbers.NumberParseException:
        return None
    spelled = phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)
    if not phonenumbers.is_possible_number(number) or not _E164.fullmatch(spelled):
        return None
    return spelled


def kind_of(number: str) -> NumberKind:
    """
    What stands behind a number in its one spelling.

    ``impossible`` is an E.164 number nobody can have: too long, or against the North American plan, which the number
    library does not check to the end (N2, N5).
    """
    if _DIGITS.fullmatch(number):
        return "short_code"
    if not number.startswith("+"):
        return "name" if re.search(r"[A-Za-z]", number) else "impossible"
    if not _E164.fullmatch(number):
        return "impossible"
    if number.startswith("+1") and not follows_north_american_plan(number):
        return "impossible"
    return "phone"


def follows_north_american_plan(number: str) -> bool:
    """Whether *number* (``+1`` and ten digits) fits NPA-NXX-XXXX: no 0 or 1 first, no N11, no area code x9x (N2)."""
    if not re.fullmatch(r"\+1\d{10}", number):
        return False
    area, exchange = number[2:5], number[5:8]
    starts_well = area[0] in "23456789" and exchange[0] in "23456789"
    return starts_well and area[1] != "9" and "11" not in (area[1:], exchange[1:])


@lru_cache(maxsize=4096)
def _national(number: str) -> str:
    try:
        parsed = phonenumbers.parse(number)
    except phonenumbers.NumberParseException:
        return number
    return re.sub(r"\D", "", phonenumbers.format_number(parsed, phonenumbers.PhoneNumberFormat.NATIONAL))


FORMS: Mapping[str, Callable[[str], str]] = {
    "national": lambda number: _national(number) if number.startswith("+") else number,
    "bare": lambda number: number.removeprefix("+"),
    "00": lambda number: re.sub(r"^\+", "00", number),
}
"""
Other ways in which gateways want an E.164 number: as dialled within its country, digits alone; without the plus; with 00
for it. Short codes and named senders have one form.
"""


def forms_of(values: Mapping[str, str]) -> dict[str, str]:
    """*values*, numbers by name, and each in all its forms: ``to``, ``to|national``, ``to|bare``, ``to|00``."""
    return dict(values) | {f"{name}|{form}": spell(v) for name, v in values.items() for form, spell in FORMS.items()}
