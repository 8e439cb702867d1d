"""
Card numbers never get stored: digits that pass for a payment card are masked before anything else is done with a
text.
"""

from __future__ import annotations

import re

_DIGITS = re.compile(r"(?<![\d+])\d(?:[ .\-]?\d){12,18}(?!\d)")
MASK = "•"


def mask_cards(text: str) -> str:
    """
    *text* with every card number (13 to 19 digits, ISO/IEC 7812-1, that pass the Luhn check) masked but for its last four.

    The length of the text does not change. Longer runs of digits, phone numbers and serial numbers stay as they are.
    """
    return _DIGITS.sub(_masked, text) if any(c.isdigit() for c in text) else text


def _masked(match: re.Match[str]) -> str:
    digits = [c for c in match.group() if c.isdigit()]
    if digits[0] not in "23456" or not _luhn(digits):
        return match.group()
    hidden = len(digits) - 4
    shown: list[str] = []
    for sign in match.group():
        if sign.isdigit() and hidden > 0:
            shown.append(MASK)
            hidden -= 1
        else:
            shown.append(sign)
    return "".join(shown)


def _luhn(digits: list[str]) -> bool:
    total = 0
    for place, digit in enumerate(reversed(digits)):
        value = int(digit) * (2 if place % 2 else 1)
        total += value - 9 if value > 9 else value
    return total % 10 == 0
