"""The days of a wish: weekdays, today and tomorrow, weeks, dates; those of the visit that stands and of the story left out."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.model import Day
from service.reading.times.day_words import (
    form_at,
    is_gone_by,
    is_tomorrow,
    week_at,
)
from service.reading.times.days import DAYS, MONTHS, WEEK
from service.reading.times.elsewhere import is_away_until
from service.reading.times.occasions import is_occasion
from service.reading.times.ruled_out import is_out
from service.reading.times.visit_named import MOVING, is_of_the_visit
from service.reading.times.wish_dates import MONTH_DAYS, MONTHS_A_YEAR, day_of_month, of_month
from service.reading.times.wish_draft import EXCEPTING, Draft
from service.reading.words.normalising import Word


def day_named(draft: Draft, words: Sequence[Word], at: int, form: str) -> None:
    """Have the day named at *at* by *form* be of the wish, if it is one wanted or ruled out."""
    if form in DAYS and not (form in ("sun", "sat", "mon") and form_at(words, at - 1) in ("the", "i", "we")):
        _weekday(draft, words, at, DAYS[form])
    elif form in ("weekend", "weekends", "finde") or (
        form == "fin" and form_at(words, at + 1) == "de" and form_at(words, at + 2) == "semana"
    ):
        out = is_out(words, at + 2 if form == "fin" else at)
        (draft.days_out if out else draft.days_in).extend(WEEK[5:])
        draft.saw(words, at, at)
    elif form in ("weekday", "weekdays") or (form == "entre" and form_at(words, at + 1) == "semana"):
        out = is_out(words, at + 1 if form == "entre" else at)
        (draft.days_out if out else draft.days_in).extend(WEEK[:5])
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
    if is_gone_by(words, at) or is_occasion(words, at) or is_of_the_visit(words, at):
        return
    (draft.relative_out if is_out(words, at) else draft.relative).append(ahead)
    draft.saw(words, at, at)


def _weekday(draft: Draft, words: Sequence[Word], at: int, day: Day) -> None:
    if (is_gone_by(words, at) or is_occasion(words, at)) and not is_of_the_visit(words, at):
        draft.told.append(day)
        return
    if draft.days_in and _is_reason(words, at) and not is_out(words, at):
        return
    draft.saw(words, at, at)
    if is_of_the_visit(words, at):
        draft.away.append(day)
        return
    before = form_at(words, at - 1)
    if is_away_until(words, at):
        first = WEEK.index(day)
        draft.days_in += [WEEK[(first + ahead) % len(WEEK)] for ahead in range(_BACK_FOR)]
        return
    since = _stretch_from(draft, words, at)
    if since is not None:
        first, last = WEEK.index(since), WEEK.index(day)
        days = WEEK[first : last + 1] if first < last else (day,)
        out = since in draft.days_out or is_out(words, at)
        if out and since in draft.days_in:
            draft.days_in.remove(since)
        (draft.days_out if out else draft.days_in).extend(days)
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


def nth_named(draft: Draft, words: Sequence[Word], at: int) -> None:
    """“the 14th”: of whichever month comes."""
    day = day_of_month(words, at)
    if day is not None and not is_gone_by(words, at):
        days = range(day, min(day + _BACK_FOR, MONTH_DAYS + 1)) if is_away_until(words, at) else (day,)
        draft.dates += [(month, one) for month in range(1, MONTHS_A_YEAR + 1) for one in days]
        draft.saw(words, at, at)


_BACK_FOR = 4
"""“I am away till friday”: so many days from that one on are asked for."""


_BECAUSE = frozenset(("porque", "because", "cuz", "cause", "xq", "pq", "ya"))
_SUITS = frozenset(("puedo", "podemos", "libre", "free", "off", "works", "home", "estoy", "can", "descanso", "casa"))


def _is_reason(words: Sequence[Word], at: int) -> bool:
    """“wednesday because tuesday they fumigate”: what is on then is why it is another day."""
    back = at - 1
    while back >= 0 and form_at(words, back) in ("el", "on", "que", "the"):
        back -= 1
    return form_at(words, back) in _BECAUSE and not _SUITS & {word.form for word in words[at + 1 : at + 5]}


def _stretch_from(draft: Draft, words: Sequence[Word], at: int) -> Day | None:
    """The day from which on a stretch goes to that at *at*: “wed thru fri”, “Mon-Wed”, “lunes a jueves”."""
    if form_at(words, at - 1) in ("to", "thru", "through", "a", "al") and form_at(words, at - 2) in DAYS:
        return None if any(word.form in MOVING for word in words[:at]) else DAYS[form_at(words, at - 2)]
    if form_at(words, at - 1) in DAYS and draft.text[words[at - 1].end : words[at].start].strip() in ("-", "–"):
        return DAYS[form_at(words, at - 1)]
    return None


DAY_WORDS = frozenset((
    "weekend", "weekends", "finde", "fin", "weekday", "weekdays", "entre", "today", "tonight", "hoy",
    "tomorrow", "tmrw", "tomorow", "tmr", "tmw", "manana", "week", "wk", "semana",
)) | DAYS.keys() | MONTHS.keys()  # fmt: skip
"""Every word by which a day may be named."""
