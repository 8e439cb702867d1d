"""Whether a day or an hour that is named is asked for: in one breath with a request, as a deadline, or all of a sentence."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.times.bare_times import SAYS_WHEN
from service.reading.times.closing_times import closes_with_it
from service.reading.times.day_words import SUITS_ES, TOLD_WITHIN, form_at, is_exclaimed, is_we_are
from service.reading.times.days import DAYS
from service.reading.words.normalising import Word

_REQUESTS = frozenset((
    "come", "send", "please", "pls", "plz", "can", "could", "book", "schedule", "gimme", "only", "prefer", "put", "meet", "any",
    "anytime", "rather",
    "anyday", "id", "cambian", "cambia", "cambienme", "cambieme", "muevan", "mueven", "agendeme", "agendenme",
    "apunteme", "free", "available", "libre", "libres", "disponible", "want", "wanna", "hoping", "lets", "let", "shoot",
    "cualquier", "cualquiera", "works",
    "venga", "vengan", "manden", "mande", "pase", "pasen", "pasa", "pasar", "quiero", "quisiera", "necesito", "ocupo", "podria",
    "podrian", "puede", "pueden", "pudiera", "pudieran", "venir", "lleguen",
    "llegue", "lista", "listo", "listas", "listos", "puedo", "podemos", "descanso", "descansamos", "preferencia", "preferible",
    "ojala", "how", "prefiero", "preferimos",
))  # fmt: skip
_THEY_COME = frozenset(("venga", "vengan", "pase", "pasen", "llegue", "lleguen"))


def _is_theirs(words: Sequence[Word], at: int) -> bool:
    """“que venga mi yerno”: another one than the shop's technician."""
    return words[at].form in _THEY_COME and form_at(words, at + 1) in ("mi", "mis", "nuestro", "nuestra")


_WAITS = frozenset(
    ("wait", "aguantar", "aguanta", "esperar", "call", "text", "llamen", "llame", "marquen", "hear", "smell", "feel")
)
"""With these it is something else that can, or may not, be then: “can it wait til next week”, “dont call before 9”."""
_SUITS = frozenset((
    "works", "work", "is", "best", "good", "fine", "please", "pls", "suits", "preferred", "only", "instead", "ok", "me", "nos",
    "si", "would", "whenever", "porfa", "mejor", "lovely", "perfect", "great", "ideal", "wonderful", "nice",
    "excelente", "perfecto",
))  # fmt: skip
_WHEN_WANTED = frozenset(("when", "i", "want"))
"""“wednesday is when i want you”."""
_SHORT = 4
_TELLING = frozenset(
    (
        "third",
        "second",
        "fourth",
        "fifth",
        "twice",
        "again",
        "times",
        "tercera",
        "segunda",
        "it",
        "its",
        "dead",
        "wont",
        "doesnt",
        "isnt",
        "se",
        "ya",
    )
)
"""With these a short sentence tells what is so on that day: “today it wont heat”."""
_STORMS = frozenset(
    ("storm", "lightning", "outage", "power", "rain", "hail", "blackout", "tormenta", "apagon", "lluvia", "luz")
)


def is_requested(words: Sequence[Word], at: int) -> bool:
    """
    Whether the time named at *at* is asked for in one breath (“vengan el viernes”, “so please only after 3pm”, “mornings are
    best”), or is all of a sentence.
    """
    first, end = at, at + 1
    while first > max(0, at - TOLD_WITHIN) and not words[first].brk:
        first -= 1
    while end < len(words) and not words[end].brk:
        end += 1
    before = {word.form for word in words[max(first, int(is_exclaimed(words))) : at]}
    if _WAITS & before:
        return False
    asked = _REQUESTS & before
    if asked == {"come"} and {"i", "we", "he", "she", "tech", "technician", "guy", "man"} & before:
        return False
    if asked and asked <= _THEY_COME and any(_is_theirs(words, near) for near in range(first, at)):
        return False
    if asked or _is_deadline(words, at, before) or _is_either_day(words, at) or _is_home(words, first, at):
        return True
    if (
        before & _OPENINGS
        or before >= _DAYS_OFF
        or (form_at(words, at - 1), form_at(words, at - 2)) == ("thing", "first")
    ):
        return True
    if _is_a_time_alone(words, first, end) or closes_with_it(words, at, first):
        return True
    behind = [word.form for word in words[at + 1 : end]]
    if (
        behind[:2]
        in (
            ["if", "you"],
            ["if", "u"],
            ["if", "youve"],
            ["if", "theres"],
            ["si", "pueden"],
            ["si", "puede"],
            ["if", "possible"],
            ["si", "se"],
        )
        or set(behind[:4]) >= _WHEN_WANTED
    ):
        return True
    if not behind or behind[0] not in _SUITS:
        return False
    if behind[0] in ("please", "pls", "porfa", "si"):
        return len(behind) == 1
    return behind[0] not in ("me", "nos", "si", "is", "would", "work") or bool(
        (SUITS_ES | _SUITS - {"is", "me", "si"}) & set(behind[1:3])
    )


_BY = frozenset(("before", "by", "for"))
_NEEDS = frozenset(("need", "needs", "ready", "running"))


def _is_deadline(words: Sequence[Word], at: int, before: set[str]) -> bool:
    """“i need the washer going before saturday”: when it is to be done by."""
    return not _NEEDS.isdisjoint(before) and words[at].form in DAYS and form_at(words, at - 1) in _BY


def _is_either_day(words: Sequence[Word], at: int) -> bool:
    """“tues or wed”: one of two days is offered; what is told was on one of them is of the story."""
    before, after = form_at(words, at - 1), form_at(words, at + 1)
    if before in _OR:
        return form_at(words, at - 2) in _A_DAY
    return after in _OR and form_at(words, at + 2) in _A_DAY


_OR = ("or", "o")
_A_DAY = DAYS.keys() | {"today", "tomorrow", "tmrw", "hoy", "manana"}
_OPENINGS = frozenset(
    ("opening", "openings", "spot", "spots", "slot", "slots", "anything", "availability", "espacio", "lugar")
)
_DAYS_OFF = frozenset(("days", "off"))
_HOME = frozenset(("home", "around", "here", "casa", "libre", "off", "free", "available", "disponible"))
_AM = frozenset(
    ("im", "am", "are", "be", "ill", "estoy", "estamos", "estare", "estaremos", "ando", "andamos", "always", "en")
)
_LIMITS = frozenset((
    "after", "before", "between", "only", "any", "anytime", "weekdays", "weekends", "weekend", "next", "tomorrow", "despues",
    "antes", "entre", "cualquier", "nomas", "solo", "manana", "mornings", "afternoons", "evenings", "whenever", "or", "o",
))  # fmt: skip
"""Of a clause that is all time these say that it is one wanted, and not when something was."""


_BEFORE_AN_HOUR = ("after", "before", "until", "til", "till", "las", "la")
_FIGURES = 2
"""Of more figures than these a number is no hour."""


def _is_home(words: Sequence[Word], first: int, at: int) -> bool:
    """“we're home thursday”, “estoy en casa los martes”: when somebody is there to open."""
    if words[at].form[0].isdigit() and form_at(words, at - 1) not in _BEFORE_AN_HOUR:
        return False
    for near in range(first + 1, at):
        before = words[near - 1]
        if words[near].form in _HOME and (before.form in _AM or is_we_are(before)):
            return all(word.en != "not" and word.form not in ("not", "no") for word in words[first:near])
    return False


def _is_a_time_alone(words: Sequence[Word], first: int, end: int) -> bool:
    """Whether the words up to *end* are a short sentence with a time, or a clause that says no more."""
    if words[first].brk == 2:
        if _is_all_time(words, first, end):
            return True
        return end - first <= _SHORT and (_TELLING | _STORMS).isdisjoint(word.form for word in words[first:end])
    return words[first].brk == 1 and _is_all_time(words, first, end)


def _is_all_time(words: Sequence[Word], first: int, end: int) -> bool:
    """Whether the clause says no more than a time to come: “…, entre semana después de las 5”, “…, next week sometime”."""
    clause = [word.form for word in words[first:end]]
    clause = clause[1:] if clause[:1] in (["so"], ["and"], ["but"], ["asi"]) else clause
    return not _LIMITS.isdisjoint(clause) and all(
        form in SAYS_WHEN or (form[0].isdigit() and not form[_FIGURES:].isdigit()) for form in clause
    )
