"""Another time for a visit that stands: whether a text asks for one, and for which."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Literal
from zoneinfo import ZoneInfo

from service.conversation.hours_told import is_limit, limit_told
from service.conversation.matters import named
from service.conversation.state import TicketState, VisitHeld
from service.conversation.underway import Turn
from service.conversation.visit_words import held_words
from service.reading.model import Reading, Wish
from service.reading.times.days import WEEK
from service.scheduling.model import Offer
from service.scheduling.wishes import binds, lay

BESIDES = 3
"""A time with no more words than these about it is a wish, asked for or not."""
SHORT = 6
"""As many words as a mere "a bit later please" has at most."""
ASKED_SHORTLY = 8
"""As many words as a text that does nothing but ask for a time has at most."""
_A_MINUTE = timedelta(minutes=1)


def standing(turn: Turn) -> TicketState | None:
    """The ticket whose visit stands: the one in focus first."""
    return next((t for t in turn.open_tickets if t.visit is not None), None)


def asks_for_another_time(turn: Turn, reading: Reading) -> bool:
    """
    Whether *reading* wants the visit that stands at another time.

    A time that the visit keeps ("I'm home all day today") is none, nor is one told among how to get in.
    """
    ticket = standing(turn)
    if ticket is None or ticket.visit is None:
        return False
    intents = set(reading.intents)
    if "reschedule" in intents:
        return True
    if {"cancel", "report_problem", "fixed"} & intents:
        return False
    length = len(reading.text.split())
    asks = "book" in intents or reading.asks_when or _wants_then(reading)
    if _shift(turn, reading) is not None and (asks or length <= SHORT):
        return True
    if _told_limit(turn, ticket.visit, reading) is not None:
        return True
    wish = reading.wish
    if wish is None or not binds(wish) or _keeps(turn, ticket.visit, wish):
        return False
    return asks or ("access" not in turn.learned and length <= len(wish.words.split()) + BESIDES)


def _told_limit(turn: Turn, visit: VisitHeld, reading: Reading) -> Wish | None:
    """The hours told as a limit that the window of *visit* does not keep: “i cant do before 11 actually”."""
    wish = limit_told(turn, reading, held_words(turn, visit))
    if wish is None:
        return None
    elsewhere = bool(wish.dates or wish.days_in or wish.relative or wish.week)
    return wish if elsewhere or not _keeps(turn, visit, wish) else None


def _wants_then(reading: Reading) -> bool:
    """“actually can we do friday”: a short text that asks for the time it names."""
    return reading.wish is not None and reading.wish.requested and len(reading.text.split()) <= ASKED_SHORTLY


def time_wanted(turn: Turn, visit: VisitHeld, reading: Reading) -> Wish:
    """
    When *visit* is to be instead: what is said of its own day beside another one, or of its own hours, is the reason.

    An hour alone, "later" and "earlier" mean its day. Its day alone is a day that will not do.
    """
    start, end = _window(turn, visit)
    told = _told_limit(turn, visit, reading) or reading.wish or _hour_instead(reading.text)
    wish = _dated(told, turn.now.astimezone(start.tzinfo).date())
    own, weekday = (start.month, start.day), WEEK[start.weekday()]
    dates = tuple(day for day in wish.dates if day != own)
    days_in = tuple(day for day in wish.days_in if day != weekday)
    names_own = dates != wish.dates or days_in != wish.days_in
    elsewhere = bool(dates or days_in or wish.days_out or wish.week)
    if elsewhere:
        return replace(wish, dates=dates, days_in=days_in)
    if wish.start == start.time() and wish.end in (None, end.time()) and not is_limit(turn, reading):
        wish = replace(wish, start=None, end=None, point=False)
    wish = _shifted(wish, _shift(turn, reading), start, end)
    if wish.start or wish.end or wish.part:
        return replace(wish, dates=(own,), days_in=())
    return replace(wish, dates=(), days_in=(), dates_out=(own,)) if names_own else wish


_HOUR_INSTEAD = re.compile(
    r"\b(?:come|at|around|do|venir|vengan?|a las|como a las)\s+(\d{1,2})(?:\s+o'?clock)?\s+(?:instead|mejor|en vez|rather)\b",
    re.I,
)
_FIRST_HOUR = 7
"""Hours before it, told without more, are of the afternoon."""


def _hour_instead(text: str) -> Wish:
    """“can u come 9 instead”: one point of time; nothing where no bare hour is told so."""
    found = _HOUR_INSTEAD.search(text)
    hour = int(found.group(1)) if found else 0
    if found is None or not 1 <= hour <= 12:
        return Wish()
    return Wish(start=time(hour + 12 if hour < _FIRST_HOUR else hour), point=True, words=found.group())


def beside_offers(turn: Turn, reading: Reading, offers: Sequence[Offer]) -> Wish | None:
    """
    What a short "later" or "anything sooner" asks for while *offers* stand: days behind them, hours behind them the same
    days where it says so, or the soonest there is; None when it says neither.
    """
    if not offers or len(reading.text.split()) > SHORT:
        return None
    first, last = min(o.start for o in offers), max(o.start for o in offers)
    if named(turn.rulebook, "later_in_the_day", reading.text) is not None:
        return Wish(start=(max(offers, key=lambda o: o.start.time()).start + _A_MINUTE).time(), words=reading.text[:80])
    if named(turn.rulebook, "later_than_offered", reading.text) is not None:
        today = turn.now.astimezone(first.tzinfo).date()
        days = (today + timedelta(days=ahead) for ahead in range((last.date() - today).days + 1))
        return Wish(dates_out=tuple((day.month, day.day) for day in days), words=reading.text[:80])
    if named(turn.rulebook, "earlier_than_booked", reading.text) is not None:
        return Wish(soonest=True, words=reading.text[:80])
    return None


def _shift(turn: Turn, reading: Reading) -> Literal["later", "earlier"] | None:
    if named(turn.rulebook, "later_than_booked", reading.text) is not None:
        return "later"
    return "earlier" if named(turn.rulebook, "earlier_than_booked", reading.text) is not None else None


def _shifted(wish: Wish, shift: Literal["later", "earlier"] | None, start: datetime, end: datetime) -> Wish:
    """*wish* behind or before the window, unless an hour says more."""
    if shift is None or wish.start or wish.end:
        return wish
    if shift == "later":
        return replace(wish, start=(start + _A_MINUTE).time(), point=False)
    return replace(wish, end=(end - _A_MINUTE).time())


def _keeps(turn: Turn, visit: VisitHeld, wish: Wish) -> bool:
    """Whether the window of *visit* is already what the wish asks for."""
    start, end = _window(turn, visit)
    return lay(wish, turn.now, ZoneInfo(turn.rulebook.shop.timezone)).allows(start, end)


def _window(turn: Turn, visit: VisitHeld) -> tuple[datetime, datetime]:
    zone = ZoneInfo(turn.rulebook.shop.timezone)
    return visit.start.astimezone(zone), visit.end.astimezone(zone)


def _dated(wish: Wish, today: date) -> Wish:
    """*wish* with days from today made dates."""
    days, out = (
        tuple((day.month, day.day) for ahead in told if (day := today + timedelta(days=ahead)))
        for told in (wish.relative, wish.relative_out)
    )
    dates, dates_out = (*wish.dates, *days), (*wish.dates_out, *out)
    apart = tuple(_dated(one, today) for one in wish.apart)
    return replace(wish, relative=(), relative_out=(), dates=dates, dates_out=dates_out, apart=apart)
