"""Which of the offered windows a customer's words accept."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from service.rulebook.schema.shop import Shop
from service.scheduling.hours import zone_of
from service.scheduling.model import Answered, Windowed, Wished
from service.scheduling.wishes import OnCalendar, binds, lay


def which_offer(
    offers: Sequence[Windowed], answer: Answered | None, wish: Wished | None, shop: Shop, now: datetime
) -> int | None:
    """
    The place in *offers* of the one that was accepted; None when none was, or when the words leave it open.

    A number or an offer's own words choose it. "Any works" takes the first, "yes" the only one. A wish chooses when it
    singles one out ("Thursday after 3"), "the soonest" the earliest of those it allows; one that only rules days out
    chooses nothing by itself. A number that the wish in the
    same text contradicts ("2 pm works", read as a second choice) chooses nothing.
    """
    zone = zone_of(shop)
    windows = [(offer.start.astimezone(zone), offer.end.astimezone(zone)) for offer in offers]
    wished = [] if wish is None else _wished(windows, lay(wish, now, zone))
    kind = answer.kind if answer is not None else None
    if kind in ("none", "no", "declined", "dont_know"):
        return None
    if answer is not None and kind == "choice" and answer.index is not None:
        sound = 0 <= answer.index < len(windows) and (not binds(wish) or answer.index in wished)
        return answer.index if sound else None
    if wish is not None and kind not in ("either", "yes") and _only_refuses(wish):
        return None
    if binds(wish) or (wish is not None and wish.soonest):
        return wished[0] if len(wished) == 1 else None
    if kind == "either":
        return 0 if windows else None
    return 0 if kind == "yes" and len(windows) == 1 else None


def _only_refuses(wish: Wished) -> bool:
    """Whether *wish* says only when not: “tomorrow I can't”."""
    refuses = wish.days_out or wish.dates_out or wish.relative_out
    asks = (
        wish.days_in or wish.dates or wish.relative or wish.week or wish.start or wish.end or wish.part or wish.soonest
    )
    return bool(refuses) and not asks


def _wished(windows: Sequence[tuple[datetime, datetime]], laid: OnCalendar) -> list[int]:
    """The places of the windows that a wish may mean, by its strictest reading that leaves any."""
    wish = laid.wish
    if laid.apart:
        found = sorted({at for one in laid.apart for at in _wished(windows, one) if windows[at][0].date() in laid.days})
        return [min(found, key=lambda place: windows[place][0])] if wish.soonest and found else found
    readings: list[Callable[[datetime, datetime], bool]] = [laid.allows]
    if not wish.also:
        readings.insert(0, lambda s, e: s.date() in laid.days and _same_hours(wish, s, e))
        readings.insert(2 if _from_then_on(wish) else 1, lambda s, e: s.date() in laid.days and _holds_hour(wish, s, e))
    for reading in readings:
        found = [place for place, (start, end) in enumerate(windows) if reading(start, end)]
        if found:
            return [min(found, key=lambda place: windows[place][0])] if wish.soonest else found
    return []


_FROM_THEN_ON = frozenset(("after", "past", "from", "later", "desde", "despues", "después", "adelante"))


def _from_then_on(wish: Wished) -> bool:
    """Whether the hour is the earliest ("after 2"), not the one that is meant ("at 2")."""
    return bool(_FROM_THEN_ON & set(wish.words.lower().split()))


def _same_hours(wish: Wished, start: datetime, end: datetime) -> bool:
    """Whether the hours named are the window's own: "1 to 3", or "1 pm" for the one that begins at 1."""
    return wish.start == start.time() and (wish.end is None or wish.end == end.time())


def _holds_hour(wish: Wished, start: datetime, end: datetime) -> bool:
    """Whether the one hour named lies in the window: "2 pm" for 1 to 3."""
    return (
        wish.start is not None
        and start.time() <= wish.start < end.time()
        and (wish.end is None or wish.end >= end.time())
    )
