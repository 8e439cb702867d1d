"""The simulated phone: what a customer would have on the screen, with what each text costs. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from service.pages import words
from service.rulebook.schema.shop import Shop
from service.storage.phone import Bubble as BubbleRow
from service.wording.segments import count


@dataclass(frozen=True, slots=True)
class Bubble:
    """A text on the phone. mine: the customer wrote it. cost: its segments and alphabet, as the carrier counts."""

    mine: bool
    text: str
    at: str
    cost: str
    media: int


@dataclass(frozen=True, slots=True)
class PhonePage:
    """One phone in conversation with one shop. once: makes a form that is posted twice count once."""

    title: str
    shop: str
    shop_number: str
    number: str
    base: str
    marker: str
    once: str
    bubbles: tuple[Bubble, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """A phone that has written before."""

    href: str
    number: str


@dataclass(frozen=True, slots=True)
class PickPage:
    """Which phone to be. shops: (code, name) of those whose texts stay in the house."""

    title: str
    shops: tuple[tuple[str, str], ...]
    number: str
    error: str
    used: tuple[Choice, ...]


def build_phone(
    rows: Sequence[BubbleRow], shop: Shop, number: str, now: datetime, *, base: str, marker: str, once: str
) -> PhonePage:
    """The page of *number* at *shop*."""
    zone = ZoneInfo(shop.timezone)
    bubbles = tuple(
        Bubble(row.mine, row.text, words.when_words(row.at, now, zone), cost_words(row.text), row.media) for row in rows
    )
    shown = words.phone_words(number)
    return PhonePage(f"Phone {shown}", shop.name, words.phone_words(shop.number), shown, base, marker, once, bubbles)


def cost_words(text: str) -> str:
    """``2 segments, GSM-7``."""
    counted = count(text)
    parts = len(counted.parts)
    return f"{parts} {'segment' if parts == 1 else 'segments'}, {counted.encoding}"
