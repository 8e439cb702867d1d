"""The hours of a wish: “after 3”, “before noon”, “at 2pm”, “despues de las 4”, “i work til 6”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.times.bare_times import bare_hour, stands_as_hour
from service.reading.times.clock import AFTER, BEFORE, hour_at, is_negated, says_onwards
from service.reading.times.day_words import form_at, is_gone_by
from service.reading.times.elsewhere import is_away_until, is_let_out
from service.reading.times.occasions import is_occasion
from service.reading.times.requested import is_requested
from service.reading.times.ruled_out import hour_refused
from service.reading.times.visit_named import is_hour_of_the_visit, is_moved_to
from service.reading.times.wish_draft import Draft
from service.reading.words.normalising import Word

_TURNED = frozenset(("before", "earlier", "sooner", "antes", "until", "till", "til", "hasta"))
"""With a negation these say the earliest: “not before 2”, “no estoy hasta las 5”."""


_UNTIL = frozenset(("until", "till", "til", "hasta"))


def hour_named(draft: Draft, words: Sequence[Word], at: int) -> None:
    """“after 3”, “before noon”, “at 2pm”, “despues de las 4”."""
    hour = hour_at(words, at)
    if (
        hour is None
        or _is_decimal(words, at)
        or is_occasion(words, at)
        or is_hour_of_the_visit(words, at)
        or (is_gone_by(words, at) and not says_onwards(words, at))
    ):
        return
    back = at - 1
    if (
        form_at(words, back) == "the" and words[at].form.isdigit() and stands_as_hour(words, at)
    ):  # "after the 4", as one says who thinks in Spanish
        back -= 1
    while back >= 0 and words[back].form in ("de", "las", "la", "los", "about", "around", "like", "as", "tipo"):
        back -= 1
    before = _bound(words, back, at)
    draft.turned = draft.turned or (before in AFTER and form_at(words, back) in _UNTIL)
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


def _bound(words: Sequence[Word], back: int, at: int) -> str:
    """The word before the hour at *at*, turned where that is refused or said of being elsewhere: “i work til 6” is after 6."""
    before = form_at(words, back)
    if before in _TURNED and is_negated(words, back):
        return "after"
    if before in BEFORE and (hour_refused(words, at) or (before in _UNTIL and is_away_until(words, at))):
        return "after"
    if before in AFTER and not says_onwards(words, at) and (hour_refused(words, at) or is_negated(words, back)):
        return "before"
    return "after" if before in ("at", "a", "till", "til") and is_let_out(words, back) else before


def _is_decimal(words: Sequence[Word], at: int) -> bool:
    """“from 11.2 kg”: figures that a dot joins to the next ones."""
    after = words[at + 1] if at + 1 < len(words) else None
    return after is not None and after.form[0].isdigit() and after.start == words[at].end + 1 and after.brk == 2


def hour_said_last(draft: Draft, words: Sequence[Word], *, offered: bool) -> None:
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
    return (hour and is_requested(words, at)) or _is_proposed(words, at) or is_moved_to(words, at)


def _is_proposed(words: Sequence[Word], at: int) -> bool:
    """“is 5pm ok instead”, “would 4pm work”: an hour of which it is asked whether it will do."""
    if form_at(words, at - 1) not in ("is", "would", "does", "about"):
        return False
    return any(form_at(words, at + ahead) in _WILL_DO for ahead in (1, 2))


_WILL_DO = frozenset(
    ("ok", "okay", "work", "works", "possible", "fine", "good", "open", "available", "free", "instead")
)
