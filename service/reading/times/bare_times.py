"""Whether a text says a time and nothing else, and the bare hours in it that are meant as one."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.model import Asked, Wish
from service.reading.times.clock import is_clock
from service.reading.times.days import DAYS, MONTHS
from service.reading.times.visit_named import is_moved_to
from service.reading.words.normalising import Normal, Word, fold

MOST_WORDS = 9
"""A longer text says more than a time."""

_TIMES = frozenset((
    "today", "tonight", "hoy", "tomorrow", "manana", "pasado", "week", "semana", "weekend", "weekends", "finde", "fin",
    "weekday", "weekdays", "morning", "mornings", "afternoon", "afternoons", "evening", "evenings", "tarde", "tardes",
    "noche", "mananas", "lunch", "noon", "midday", "mediodia", "am", "pm", "day", "days", "dia", "dias", "time", "oclock",
    "next", "proximo", "proxima", "viene", "entrante", "early", "late", "later", "temprano",
)) | DAYS.keys() | MONTHS.keys()  # fmt: skip
_FILLERS = frozenset((
    "the", "a", "an", "at", "on", "in", "for", "of", "to", "till", "until", "and", "or", "after", "before", "by", "around",
    "about", "between", "any", "anytime", "maybe", "this", "that", "is", "it", "its", "works", "work", "fine", "good",
    "great", "ok", "okay", "best", "better", "please", "me", "us", "i", "we", "can", "do", "how", "would", "be", "yes",
    "hows", "what", "actually", "instead", "sometime", "someday",
    "lovely", "perfect", "nice", "wonderful", "ideal", "suits", "suit", "possible", "hmm", "um", "well", "dear", "if",
    "excelente", "perfecto", "estaria", "gustaria", "pues",
    "yeah", "sure", "then", "lets", "say", "one", "thanks", "thank", "you", "asap", "soon", "earliest", "prefer",
    "el", "la", "los", "las", "al", "de", "del", "por", "en", "a", "y", "o", "para", "esta", "este", "despues", "antes",
    "like", "said", "told", "dije", "como", "le", "les", "so", "honestly", "really", "ideally",
    "entre", "que", "si", "bien", "mejor", "favor", "puede", "ser", "seria", "podria", "me", "sirve", "queda", "gracias",
))  # fmt: skip
SAYS_WHEN = (
    _TIMES | _FILLERS | {"only", "nomas", "solo", "whenever", "either", "anyday", "cualquier", "tardecita", "mananita"}
)
"""Words of a clause that says a time and nothing else."""
_HOUR_AFTER = frozenset((
    "is", "works", "work", "would", "will", "fine", "ok", "okay", "good", "great", "please", "then", "for", "on", "if",
    "like", "as", "but", "because", "cuz", "when", "como", "porque", "pero", "cuando",
    "thanks", "and", "or", "oclock", "sharp", "ish", "esta", "me", "por", "del", "el", "seria", "y", "o", "puede",
)) | {"today", "tomorrow", "manana", "hoy"} | DAYS.keys()  # fmt: skip
_YES = frozenset(("yes", "yeah", "yep", "si"))
_HOUR_BEFORE = frozenset(("at", "around", "about"))


def says_only_when(words: Sequence[Word], wish: Wish | None, asked: Asked | None) -> bool:
    """
    Whether *words* are no more than the time of *wish*: a day, a date or an hour with a few small words about it. A time
    that is one of the choices asked about, or an age, is the answer instead.
    """
    if wish is None or not words or len(words) > MOST_WORDS or (asked is not None and asked.kind == "age"):
        return False
    if asked is not None and any(_names_time(words, choice.say) for choice in asked.choices):
        return False
    part = wish.part is not None and asked is not None
    if not (wish.days_in or wish.dates or wish.relative or wish.week or wish.start or wish.end or wish.soonest or part):
        return False
    return all(
        word.form in _TIMES or (word.was or word.form) in _TIMES or word.form in _FILLERS or _is_figure(word.form)
        for word in words
    )


def only_when_beside(normal: Normal, wish: Wish | None, place: object) -> bool:
    """Whether what stands beside an address is no more than the time of *wish*: “412 Juniper Ave, friday am”."""
    at = normal.text.find(place) if isinstance(place, str) and place else -1
    if not isinstance(place, str) or at < 0:
        return False
    left = [word for word in normal.words if not at <= word.start < at + len(place)]
    return says_only_when(left, wish, None)


def answers_besides(words: Sequence[Word], asked: Asked) -> bool:
    """Whether a text that says only when ("yes, saturday") answers what was *asked* as well."""
    return asked.kind in ("offer", "access") or (asked.kind != "check_result" and words[0].form in _YES)


def _names_time(words: Sequence[Word], choice: str) -> bool:
    times = {word.form for word in words} & _TIMES
    return bool(times & set(re.findall(r"\w+", fold(choice))))


def bare_hour(words: Sequence[Word], at: int, *, day: bool) -> bool:
    """
    Whether the unmarked number at a word is an hour: "at 1", "a la 1", with *day* also the last word ("tomorrow 1").
    """
    after = words[at + 1] if at + 1 < len(words) else None
    before = [words[i].form for i in (at - 1, at - 2, at - 3) if i >= 0] + ["", ""]
    if before[:2] == ["it", "make"] or (
        after is not None and after.form == "instead" and before[0] in ("do", "for", "at", "to")
    ):
        return True
    if _names_a_window(words, at):
        return True
    if after is not None and after.brk == 0 and after.form not in _HOUR_AFTER:
        return False
    if is_moved_to(words, at) or words[at].form.endswith("ish"):
        return True
    if before[0] in _HOUR_BEFORE or (before[0] in ("la", "las") and before[1] in ("a", "como", "tipo")):
        return True
    if before[:3] in (["las", "de", "eso"], ["las", "de", "la"], ["la", "de", "la"]) or _opens_with_hour(words, at):
        return True
    return (
        day
        and words[at].form[0].isdigit()
        and (before[0] in DAYS or before[0] in ("tomorrow", "manana", "today", "hoy"))
    )


_WINDOW = frozenset(("one", "slot", "window", "spot", "opening"))
_NAMED_DAY = DAYS.keys() | {"today", "tomorrow", "tmrw", "hoy", "manana"}


def _names_a_window(words: Sequence[Word], at: int) -> bool:
    """“the wed 10 one”, “the 8 slot on friday”: of the windows of a day the one at that hour."""
    if not words[at].form.isdigit() or at + 1 >= len(words) or words[at + 1].brk or words[at + 1].form not in _WINDOW:
        return False
    behind = at + 3 if at + 2 < len(words) and words[at + 2].form in ("on", "for") else at + 2
    named = [words[near] for near in (at - 1, behind) if 0 <= near < len(words)]
    return any(word.form in _NAMED_DAY for word in named)


_MOST_CHOICES = 3
"""A number up to this before a day may be the place of a window: “3 today”."""


def _opens_with_hour(words: Sequence[Word], at: int) -> bool:
    """Whether a clause opens with the number at *at* and goes on with a day: “11 today”, “ok, 4 on tuesday”."""
    form = words[at].form
    if not form.isdigit() or int(form) <= _MOST_CHOICES or not (at == 0 or words[at].brk):
        return False
    ahead = at + 2 if at + 1 < len(words) and words[at + 1].form in ("on", "el") else at + 1
    return ahead < len(words) and (words[ahead].form in DAYS or words[ahead].form in _DAY_BEHIND)


_DAY_BEHIND = ("today", "tomorrow", "hoy", "manana")


def stands_as_hour(words: Sequence[Word], at: int) -> bool:
    """Whether nothing is counted by the number's name at *at*: “after three”, not “three burners” nor “hasta Tres Alamitos”."""
    if at + 1 >= len(words) or words[at + 1].brk > 0:
        return True
    return words[at + 1].form in _HOUR_AFTER or words[at + 1].form in (
        "de",
        "en",
        "am",
        "pm",
        "to",
        "a",
        "so",
        "cuz",
        "because",
        "cause",
    )


def _is_figure(form: str) -> bool:
    return is_clock(form) or form.isdigit() or form.removesuffix("th").removesuffix("st").removesuffix("nd").isdigit()
