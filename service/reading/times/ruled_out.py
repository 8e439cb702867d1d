"""Which days and parts of a day a text rules out: “not friday”, “el viernes no puedo”, “mornings don't work”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.model import Part
from service.reading.times.clock import AFTER, BEFORE, may_be_hour
from service.reading.times.days import DAYS
from service.reading.words.normalising import Word

_OUT = frozenset(["except", "not", "but", "excepto", "menos", "no", "salvo", "cant", "never"])
_BETWEEN = frozenset((
    "on", "or", "and", "the", "el", "los", "y", "o", "ni", "do", "work", "for", "puedo", "podemos", "make", "it", "be",
    "in", "en", "la", "las", "por", "home", "come", "send", "him", "her", "them", "anyone", "anybody", "someone", "somebody",
    "venga", "vengan", "manden", "mande", "pasen", "a", "nadie", "until", "house", "here",
)) | DAYS.keys()  # fmt: skip
"""What may stand between a negation and the day it rules out."""
_BUSY = frozenset(("tengo", "tenemos", "trabajo", "trabajamos", "ocupado", "ocupada", "busy"))
_BUSY_WHO = frozenset(("have", "work"))
"""
Behind a day these say that something else is on: “en la tarde tengo diálisis”; behind "I" also “friday I work”, which asks
nothing as “would friday work” does.
"""
_FREE = frozenset((
    "libre", "libres", "tiempo", "chance", "dia", "espacio", "off", "free", "time", "open", "day", "nothing", "nada",
    "from", "home", "casa", "you", "ustedes", "visita", "cita", "visit", "availability", "opening", "openings",
))  # fmt: skip
_NO = frozenset(("no", "tampoco", "neither"))
_SUBJECT = frozenset(("i", "we", "yo", "nosotros", "pues", "is", "are", "ya", "ahi", "si", "a", "mi", "que", "creo"))
"""What may stand between a day and the negation that rules it out."""
_UNABLE = frozenset((
    "puedo", "podemos", "podre", "podria", "podriamos", "pudiera", "voy", "vamos", "estoy", "estamos", "estare",
    "estaremos", "me", "nos", "se", "va", "sirve", "queda", "trabajo", "descanso", "work", "works", "working", "good",
    "gonna", "going", "do", "make", "be", "home", "here", "available", "free", "possible", "an", "porque", "because",
    "pero", "but", "gracias", "thanks", "please", "then", "able", "tampoco",
))  # fmt: skip
"""What follows the negation when it is a day that will not do."""
_NOTHING = frozenset(("problem", "prob", "problema", "issue", "later", "earlier", "sooner", "mas"))
_BUT_AFTER = frozenset(("day", "days", "time", "anytime", "anything"))
_REACH = 8
"""Words behind the negation in which an hour or a part of the day narrows it."""
_PART_WORDS = frozenset((
    "morning", "mornings", "afternoon", "afternoons", "evening", "evenings", "tarde", "tardes", "noche", "mananas",
))  # fmt: skip
_INSTEAD: dict[Part, Part] = {"morning": "afternoon", "afternoon": "morning", "evening": "morning"}


def is_out(words: Sequence[Word], at: int) -> bool:
    """Whether the day at *at* is one that will not do, by what stands before or behind it."""
    return _refused_before(words, at) or _refused_behind(words, at, whole_day=True)


def other_part(part: Part, words: Sequence[Word], at: int) -> Part:
    """The part of the day that is left when the *part* named at *at* is refused; *part* when it is not."""
    refused = _refused_before(words, at) or _refused_behind(words, at, whole_day=False)
    return _INSTEAD[part] if refused else part


def hour_refused(words: Sequence[Word], at: int) -> bool:
    """Whether what is bounded by the hour at *at* will not do: “después de las 11 ya no puedo”, “before 10 i cant”."""
    if at + 1 < len(words) and words[at + 1].form in ("am", "pm", "oclock") and not words[at + 1].brk:
        at += 1
    return _refused_behind(words, at, whole_day=False)


_LISTED = frozenset(("or", "and", "o", "y", "ni", "nor", "not", "no")) | DAYS.keys()


def _refused_before(words: Sequence[Word], at: int) -> bool:
    if words[at].brk and at + 1 < len(words) and not words[at + 1].brk and words[at + 1].form not in _LISTED:
        return False  # "not monday, not tues, wed after school"
    for back in range(at - 1, max(-1, at - 6), -1):
        form = words[back].form
        if words[back + 1].brk == 2 or (words[back + 1].brk and form not in _OUT and form not in DAYS):
            return False
        if form in _OUT or words[back].en == "not":
            excepts = form != "but" or (back > 0 and words[back - 1].form in _BUT_AFTER)
            return excepts and not words[back + 1].brk
        if form not in _BETWEEN:
            return False
    return False


def _refused_behind(words: Sequence[Word], at: int, *, whole_day: bool) -> bool:
    """Whether “no”, “can't” stand right behind; *whole_day*: and no hour or part of the day says which part of it."""
    no = at + 1
    while no < len(words) and words[no].form in _SUBJECT and not words[no].brk:
        no += 1
    if no >= len(words) or words[no].brk:
        return False
    if _is_busy(words, no):
        return True
    if not (words[no].form in _NO or words[no].en == "not"):
        return False
    rest = list(_same_statement(words, no + 1))
    if rest and (rest[0].form not in _UNABLE or any(word.form in _NOTHING for word in rest[:3])):
        return words[no].form == "no" and [word.form for word in rest[:2]] == ["hay", "nadie"]
    return not (whole_day and _narrowed(rest[:_REACH]))


def _is_busy(words: Sequence[Word], at: int) -> bool:
    """Whether something else is on then: “tengo diálisis”, “I have work”, not “tengo tiempo” nor “I have it off”."""
    says = words[at].form in _BUSY or (words[at].form in _BUSY_WHO and words[at - 1].form in ("i", "we"))
    says = says or _is_away(words, at)
    if not says or words[at].asks:
        return False
    rest = _same_statement(words, at + 1)[:_REACH]
    return not _narrowed(rest) and not _FREE & {word.form for word in rest}


def _is_away(words: Sequence[Word], at: int) -> bool:
    """“I am on shift”, “thursday im out of town”, “we sleep”."""
    forms = [word.form for word in words[at : at + 4]]
    before = words[at - 1].form
    if forms[0] in ("sleep", "teach") and before in ("i", "we"):
        return True
    if (forms[0] in ("am", "are") and before in ("i", "we")) or forms[0] in ("im", "were", "ando", "estoy", "ill"):
        rest = " ".join(form for form in forms[1:] if form != "be")
        return rest.startswith(_AWAY)
    if before == "are" and at > 1 and words[at - 2].form == "we":
        return " ".join(forms).startswith(_AWAY)
    return False


_AWAY = (
    "on shift", "at work", "at the hospital", "working", "out of", "out all", "away", "gone", "asleep", "in class",
    "in school", "at school", "traveling", "on call", "fuera", "trabajando", "en el trabajo", "de viaje", "ocupad",
    "de turno", "at dialysis", "en la escuela", "busy", "booked", "tied up", "at the doctor", "in surgery",
    "en el doctor", "en el jale",
)  # fmt: skip


def _same_statement(words: Sequence[Word], start: int) -> Sequence[Word]:
    end = start
    while end < len(words) and not words[end].brk:
        end += 1
    return words[start:end]


def _narrowed(rest: Sequence[Word]) -> bool:
    return any(
        word.form in BEFORE or word.form in AFTER or word.form in _PART_WORDS or may_be_hour(word.form) for word in rest
    )
