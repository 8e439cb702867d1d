"""When somebody may come, free of zone and calendar: days in and out, dates, from, to, part of the day, soonest."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.bare_times import bare_hour, stands_as_hour
from service.reading.clock import (
    AFTER,
    BEFORE,
    exact_time,
    hour_at,
    hours_between,
    is_negated,
    may_be_hour,
    says_onwards,
)
from service.reading.day_words import form_at, is_gone_by, is_no_day, is_requested, is_tomorrow, week_at
from service.reading.days import DAYS, MONTHS, WEEK
from service.reading.model import Day, Wish
from service.reading.normalising import Word
from service.reading.occasions import is_occasion
from service.reading.ruled_out import is_out
from service.reading.wish_dates import MONTHS_A_YEAR, day_of_month, holiday, of_month, slashed
from service.reading.wish_draft import EXCEPTING, Draft
from service.reading.wish_parts import PARTS, part_of_day

_TURNED = frozenset(("before", "earlier", "sooner", "antes", "until", "till", "til", "hasta"))
"""With a negation these say the earliest: “not before 2”, “no estoy hasta las 5”."""
_MOVING = frozenset(("move", "change", "switch", "push", "bump", "reschedule", "cambiar", "mover", "pasar", "recorrer"))
"""With these "Monday to Friday" is from one day to another, and no five days."""


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
    draft = Draft()
    begun = _places(text, since) if since.lower().startswith(_BEGINNING) else range(0)
    for at, word in enumerate(words):
        if word.start in begun:
            continue
        said = word.was or word.form
        if said in _DAY_WORDS and not is_no_day(words, at, said):
            _day(draft, words, at, said)
        if word.form in PARTS or word.form == "manana":
            part_of_day(draft, words, at)
        if may_be_hour(word.form):
            _clock(draft, words, at)
            _nth(draft, words, at)
    for a, b in soonest:
        draft.soonest = True
        draft.saw(words, a, b - 1)
    _numeric(draft, folded, words, offered=offered)
    _hour_said_last(draft, words, offered=offered)
    feast = holiday(folded)
    if feast is not None:
        place = next(at for at, word in enumerate(words) if word.end > feast[0])
        draft.saw(words, place, place)
        draft.saw_signs(*feast)
    if draft.first is None:
        return None
    draft.days_in = [day for day in dict.fromkeys(draft.days_in) if day not in draft.days_out]
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
    )


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


def _day(draft: Draft, words: Sequence[Word], at: int, form: str) -> None:
    if form in DAYS and not (form in ("sun", "sat", "mon") and form_at(words, at - 1) in ("the", "i", "we")):
        _weekday(draft, words, at, DAYS[form])
    elif form in ("weekend", "weekends", "finde") or (
        form == "fin" and form_at(words, at + 1) == "de" and form_at(words, at + 2) == "semana"
    ):
        target = draft.days_out if is_out(words, at) else draft.days_in
        target += ["sat", "sun"]
        draft.saw(words, at, at)
    elif form in ("weekday", "weekdays") or (form == "entre" and form_at(words, at + 1) == "semana"):
        (draft.days_out if is_out(words, at) else draft.days_in).extend(WEEK[:5])
        draft.saw(words, at, at)
    elif form in ("today", "tonight", "hoy"):
        _relative(draft, words, at, 0)
    elif form in ("tomorrow", "tmrw", "tomorow", "tmr", "tmw") or (form == "manana" and is_tomorrow(words, at)):
        after_that = form_at(words, at - 1) == "pasado" or (form_at(words, at - 1), form_at(words, at - 2)) == (
            "after",
            "day",
        )
        _relative(draft, words, at, 2 if after_that else 1)
    elif form in ("week", "wk", "semana"):
        _week(draft, words, at)
    elif form in MONTHS:
        _month(draft, words, at, MONTHS[form])


def _relative(draft: Draft, words: Sequence[Word], at: int, ahead: int) -> None:
    if is_gone_by(words, at) or is_occasion(words, at):
        return
    (draft.relative_out if is_out(words, at) else draft.relative).append(ahead)
    draft.saw(words, at, at)


def _weekday(draft: Draft, words: Sequence[Word], at: int, day: Day) -> None:
    if is_gone_by(words, at) or is_occasion(words, at):
        return
    draft.saw(words, at, at)
    before = form_at(words, at - 1)
    moves = any(word.form in _MOVING for word in words[:at])
    if before in ("to", "thru", "through", "a") and form_at(words, at - 2) in DAYS and not moves:
        first = WEEK.index(DAYS[form_at(words, at - 2)])
        last = WEEK.index(day)
        days = WEEK[first : last + 1] if first < last else (day,)
        (draft.days_out if DAYS[form_at(words, at - 2)] in draft.days_out else draft.days_in).extend(days)
        return
    if before in ("next", "proximo") or form_at(words, at + 1) == "proximo":
        draft.week = "next"
    target = draft.days_out if is_out(words, at) else draft.days_in
    target.append(day)
    if target is draft.days_out and before in EXCEPTING:
        draft.saw(words, at - 1, at)


def _week(draft: Draft, words: Sequence[Word], at: int) -> None:
    week = week_at(words, at)
    if week is not None and not is_gone_by(words, at):
        draft.week = week
        draft.saw(words, at - 1, at)


def _month(draft: Draft, words: Sequence[Word], at: int, month: int) -> None:
    told = of_month(words, at)
    if told is not None and not is_gone_by(words, at):
        day, first, last = told
        draft.dates.append((month, day))
        draft.saw(words, first, last)


def _nth(draft: Draft, words: Sequence[Word], at: int) -> None:
    """“the 14th”: of whichever month comes."""
    day = day_of_month(words, at)
    if day is not None and not is_gone_by(words, at):
        draft.dates += [(month, day) for month in range(1, MONTHS_A_YEAR + 1)]
        draft.saw(words, at, at)


_DAY_WORDS = frozenset((
    "weekend", "weekends", "finde", "fin", "weekday", "weekdays", "entre", "today", "tonight", "hoy",
    "tomorrow", "tmrw", "tomorow", "tmr", "tmw", "manana", "week", "wk", "semana",
)) | DAYS.keys() | MONTHS.keys()  # fmt: skip
"""Every word by which a day may be named."""


def _clock(draft: Draft, words: Sequence[Word], at: int) -> None:
    """“after 3”, “before noon”, “at 2pm”, “despues de las 4”."""
    hour = hour_at(words, at)
    if hour is None or _is_decimal(words, at) or (is_gone_by(words, at) and not says_onwards(words, at)):
        return
    back = at - 1
    while back >= 0 and words[back].form in ("de", "las", "la", "los", "about", "around", "like", "as", "tipo"):
        back -= 1
    before = form_at(words, back)
    if before in _TURNED and is_negated(words, back):
        before = "after"
    draft.from_then = draft.from_then or before in AFTER or says_onwards(words, at)
    explicit = hour[1] or form_at(words, at) in ("noon", "mediodia", "midday")
    day = bool(draft.days_in or draft.relative)
    if (explicit and before not in ("since", *AFTER, *BEFORE)) or bare_hour(words, at, day=day):
        draft.hours.append((at, hour[0]))
    if not explicit and words[at].form.isalpha() and not stands_as_hour(words, at):
        return
    if before in AFTER:
        draft.start = hour[0]
    elif before in BEFORE:
        draft.end = hour[0]
    elif (explicit and before in ("at", "a", "around", "for", "")) or (
        explicit and draft.first is not None and before not in ("since", "desde")
    ):
        draft.start = draft.start or hour[0]
    elif form_at(words, at + 1) in ("or", "o") and form_at(words, at + 2) in ("later", "after", "mas"):
        draft.start = hour[0]
    else:
        return
    draft.saw(words, max(back, 0), at)


def _is_decimal(words: Sequence[Word], at: int) -> bool:
    """“from 11.2 kg”: figures that a dot joins to the next ones."""
    after = words[at + 1] if at + 1 < len(words) else None
    return after is not None and after.form[0].isdigit() and after.start == words[at].end + 1 and after.brk == 2


def _hour_said_last(draft: Draft, words: Sequence[Word], *, offered: bool) -> None:
    """“tomorrow at 1”, “the 1 pm one tomorrow”: an hour that goes with a day named before or behind it."""
    if draft.start is not None or draft.end is not None or not draft.hours:
        return
    asked_for = [hour for hour in draft.hours if _is_asked_for(words, hour[0])]
    if offered or draft.days_in or draft.relative or draft.dates or asked_for:
        at, draft.start = (asked_for or draft.hours)[0]
        draft.saw(words, at, at)


def _is_asked_for(words: Sequence[Word], at: int) -> bool:
    """“me pasa a las 4?”, “can we make it 2 instead”: an hour alone that somebody is asked to come at."""
    hour = form_at(words, at - 1) in ("at", "las", "it", "do", "la") or form_at(words, at + 1) in (
        "pm",
        "am",
        "instead",
    )
    return hour and is_requested(words, at)


def _numeric(draft: Draft, folded: str, words: Sequence[Word], *, offered: bool) -> None:
    for date in slashed(folded):
        place = next((at for at, word in enumerate(words) if word.end > date.start), 0)
        if is_gone_by(words, place):
            continue
        draft.dates.append((date.month, date.day))
        draft.saw_signs(date.start, date.end)
    framed = draft.first is not None or offered or "between" in folded or "entre" in folded
    span = hours_between(folded) if framed and draft.start is None and draft.end is None else None
    if span is not None:
        draft.start, draft.end = span.start, span.end
        draft.saw_signs(span.first, span.last)
        return
    clock = exact_time(folded) if draft.first is not None else None
    if clock is None:
        return
    if clock.until:
        draft.end = clock.at
    else:
        draft.start = clock.at
        draft.from_then = draft.from_then or bool(AFTER & set(re.findall(r"[a-z]+", folded[: clock.first])[-3:]))
    draft.saw_signs(clock.first, clock.last)
