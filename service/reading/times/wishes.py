"""When somebody may come, free of zone and calendar: days in and out, dates, from, to, part of the day, soonest."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import accumulate

from service.reading.model import Wish
from service.reading.times.clock import AFTER, exact_time, hours_between
from service.reading.times.day_words import form_at, is_gone_by
from service.reading.times.days import DAYS
from service.reading.times.ruled_out import is_out
from service.reading.times.visit_named import is_of_the_visit
from service.reading.times.wish_around import around_work, working_hours
from service.reading.times.wish_dates import holiday, slashed
from service.reading.times.wish_draft import Draft
from service.reading.times.wish_either import either_stretch
from service.reading.times.wish_gathering import gathered
from service.reading.times.wish_hours import hour_said_last
from service.reading.times.wish_parts import PARTS
from service.reading.words.normalising import Word


def read_wish(
    text: str,
    folded: str,
    words: Sequence[Word],
    soonest: Sequence[tuple[int, int]],
    *,
    offered: bool = False,
    since: str = "",
) -> Wish | None:
    """
    The wish in a text; ``soonest`` are the places that say "as soon as possible". None when no time is stated.

    offered: windows stand open, so that an hour alone ("at 2") says which. since: when the trouble began; a day named there
    is none of the wish.
    """
    begun = _places(text, since) if since else range(0)
    skipped = {at for at, word in enumerate(words) if word.start in begun} if begun else set[int]()
    busy = working_hours(folded)
    worked = {at for at, word in enumerate(words) if busy and busy.first <= word.start < busy.last}
    draft = gathered(text, words, skipped | worked)
    either = bool(skipped) and {form_at(words, min(skipped) - 1), form_at(words, max(skipped) + 1)} & {"or", "o"}
    if skipped and not since.lower().startswith(_BEGINNING) and (either or not draft.requested):
        skipped = set()
        draft = gathered(text, words, worked)
    if draft.requested and len(draft.seen) > 1 and (aside := _aside(draft, words)):
        draft = gathered(text, words, skipped | worked | aside)
    for a, b in soonest:
        draft.soonest = True
        draft.saw(words, a, b - 1)
    left = folded if busy is None else folded[: busy.first] + " " * (busy.last - busy.first) + folded[busy.last :]
    _numeric(draft, left, words, offered=offered)
    hour_said_last(draft, words, offered=offered)
    framed = offered or draft.first is not None
    either_stretch(draft, [word for at, word in enumerate(words) if at not in skipped | worked], left, framed=framed)
    if busy is not None:
        around_work(draft, words, busy, framed=framed)
    feast = holiday(folded)
    if feast is not None:
        place = next(at for at, word in enumerate(words) if word.end > feast[0])
        draft.saw(words, place, place)
        draft.saw_signs(*feast)
    _settle(draft, words)
    if draft.first is None:
        return None
    return Wish(
        days_in=tuple(draft.days_in),
        days_out=tuple(dict.fromkeys(draft.days_out)),
        dates=tuple(dict.fromkeys(draft.dates)),
        relative=tuple(dict.fromkeys(draft.relative)),
        relative_out=tuple(dict.fromkeys(draft.relative_out)),
        week=draft.week,
        start=draft.start,
        end=draft.end,
        part=draft.part,
        soonest=draft.soonest,
        words=text[draft.first : draft.last].strip(),
        point=draft.start is not None and draft.end is None and not draft.from_then,
        requested=draft.requested,
        holiday=feast is not None,
        also=tuple(draft.also),
    )


_DATED = DAYS.keys() | {"today", "tonight", "hoy", "tomorrow", "tmrw", "tmr", "manana"} | PARTS.keys()
_MINE = frozenset(
    ("free", "off", "home", "libre", "casa", "works", "work", "good", "best", "available", "anytime", "or", "o")
)


def _aside(draft: Draft, words: Sequence[Word]) -> set[int]:
    """
    The words of sentences that name a day in passing, where another sentence asks for one: “trauma's on fire tonight. can we do
    saturday instead”.
    """
    sentence = list(accumulate(int(word.brk == 2) for word in words))
    dated = [(at, asked) for at, asked in draft.seen if words[at].form in _DATED]
    asking = {sentence[at] for at, asked in dated if asked}
    passing = {sentence[at] for at, asked in dated if not asked and not is_out(words, at)} - asking
    if not asking or not passing:
        return set()
    aside = {at for at in range(len(words)) if sentence[at] in passing}
    mine = {sentence[at] for at in aside if words[at].form in _MINE or is_of_the_visit(words, at)}
    out = {sentence[at] for at, _ in dated if is_out(words, at)}
    return {at for at in aside if sentence[at] not in mine | out}


_OTHER = frozenset(("other", "another", "different", "otro"))
_DAY = ("day", "dia")
_THE = ("the", "el", "del")
"""“the other day” is gone by."""


def _settle(draft: Draft, words: Sequence[Word]) -> None:
    """Have the days asked for be no others: not those refused, and not that of the visit which is to be another time."""
    other = None
    if draft.told or draft.away:
        places = (at for at in range(1, len(words)) if words[at].form in _DAY and form_at(words, at - 1) in _OTHER)
        other = next((at for at in places if form_at(words, at - 2) not in _THE), None)
    if other is not None:
        draft.days_out += [*draft.told, *draft.away]
        draft.saw(words, other, other)
    elif draft.days_in or draft.dates or draft.relative:
        draft.days_out += [day for day in draft.away if day not in draft.days_in]
    elif draft.away and not draft.week and not draft.soonest:
        draft.days_out += draft.away
    draft.days_in = [day for day in dict.fromkeys(draft.days_in) if day not in draft.days_out]


_BEGINNING = ("since", "desde", "ever since")


def _places(text: str, part: str) -> range:
    first = text.find(part)
    return range(first, first + len(part)) if first >= 0 else range(0)


def states_time(wish: Wish) -> bool:
    """Whether *wish* binds anything but "soon"."""
    return bool(
        wish.days_in
        or wish.days_out
        or wish.dates
        or wish.relative
        or wish.relative_out
        or wish.week
        or wish.start
        or wish.end
        or wish.part
    )


def _numeric(draft: Draft, folded: str, words: Sequence[Word], *, offered: bool) -> None:
    for date in slashed(folded):
        place = next((at for at, word in enumerate(words) if word.end > date.start), 0)
        if is_gone_by(words, place):
            continue
        draft.dates.append((date.month, date.day))
        draft.saw_signs(date.start, date.end)
    framed = draft.first is not None or offered or "between" in folded or "entre" in folded
    span = hours_between(folded) if framed and not draft.turned else None
    if span is not None and {draft.start, draft.end} <= {None, span.start, span.end}:
        draft.start, draft.end = span.start, span.end
        draft.saw_signs(span.first, span.last)
        return
    if draft.start is not None and draft.end is not None and draft.end <= draft.start:
        draft.end = None  # “have to be at work til 3. anything after 3?”: nothing ends before it begins
    clock = exact_time(folded) if draft.first is not None else None
    if clock is None:
        return
    if clock.until:
        draft.end = clock.at
    else:
        draft.start = clock.at
        draft.from_then = draft.from_then or bool(AFTER & set(re.findall(r"[a-z]+", folded[: clock.first])[-3:]))
    draft.saw_signs(clock.first, clock.last)
