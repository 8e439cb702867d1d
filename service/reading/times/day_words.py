"""What the words about a day's name make of it: tomorrow or morning, this week or the next, no day at all."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.model import Week
from service.reading.times.days import DAYS
from service.reading.times.elsewhere import is_away_until
from service.reading.words.normalising import Word


def form_at(words: Sequence[Word], at: int) -> str:
    """The form of the word at *at*, empty outside the text."""
    return words[at].form if 0 <= at < len(words) else ""


_AFTER_SAT = frozenset(("on", "there", "down", "too", "unused", "since", "idle", "empty", "overnight", "unplugged"))
"""“sat on them too long”: the verb, and no Saturday."""


_SITS = frozenset(
    ("just", "they", "has", "had", "have", "that", "which", "she", "he", "who", "machine", "clothes", "dishes")
)
_IT = ("it", "its")
_DOES_IT = frozenset(
    ("do", "doing", "fix", "make", "have", "see", "get", "for", "about", "into", "schedule", "book", "want", "need")
)


def _is_verb(words: Sequence[Word], at: int) -> bool:
    """“sat on them too long”, “when it sat overnight”; not “can you do it sat”."""
    if form_at(words, at + 1) in _AFTER_SAT or (form_at(words, at - 1) in _SITS and not words[at].brk):
        return True
    return form_at(words, at - 1) in _IT and not words[at].brk and form_at(words, at - 2) not in _DOES_IT


def is_no_day(words: Sequence[Word], at: int, said: str) -> bool:
    """“every Sunday”, “it'd go til tomorrow”, “Sunday's outage”, and “we'd”, whose letters name a day."""
    word, before = words[at], form_at(words, at - 1)
    if said.endswith("s") and said[:-1] in DAYS and word.end - word.start > len(said):
        return True
    if said == "sat" and _is_verb(words, at):
        return True
    if said == "wed" and word.end - word.start > len(said):
        return True
    if said in ("weekend", "weekends") and before in ("all", "whole", "my", "busy", "every", "entire"):
        return True
    if before in ("every", "each", "cada", "til", "till", "until"):
        return (not is_away_until(words, at) and said in DAYS) or said in ("today", "tomorrow", "weekend")
    return (before, form_at(words, at - 2)) == ("about", "forget")


_GONE_BY = frozenset((
    "was", "were", "came", "had", "left", "took", "went", "did", "happened", "quit", "died", "stopped", "started", "broke",
    "moved", "since", "from", "last", "leftovers", "fue", "vino", "vinieron", "vine", "estuvo", "estuvieron", "desde", "pasado",
    "estuve", "estuvimos", "vinimos", "anduve", "dejo", "dejaron", "cambiaron", "pusieron", "instalaron", "arreglaron",
    "fallo", "paro", "empezo", "del",
))  # fmt: skip
_TO_COME = frozenset((
    "can", "could", "will", "would", "if", "please", "puede", "pueden", "podria", "si", "next", "proximo", "work", "works",
    "again", "to", "para", "pal",
))  # fmt: skip
TOLD_WITHIN = 5
"""How far before a day's name the word that makes it one gone by may stand."""


def is_gone_by(words: Sequence[Word], at: int) -> bool:
    """“your tech was here Monday”, “lightning took out the power monday”: a day of the story."""
    if words[at].form == "manana" and form_at(words, at - 1) == "pasado":
        return False
    first = at
    while first > max(0, at - TOLD_WITHIN) and words[first].brk != 2:
        first -= 1
    told = [words[near].form for near in range(first, at) if not (is_we_are(words[near]) or _picks(words, near))]
    fits, then = form_at(words, at + 1), form_at(words, at + 2)
    if fits == "not" and words[at + 1].brk:
        fits = ""  # "thursday or friday, not sure"
    if (fits in _FITS and (fits != "me" or then in SUITS_ES or then not in _SAYS_ME)) or (
        fits == "is" and (then in _FITS or not then or words[at + 2].brk)
    ):
        return False
    if (form_at(words, at - 1) in ("time", "vez") and form_at(words, at - 2) not in _NO_TIMES) or _is_of_a_call(
        words, at
    ):
        return True
    if form_at(words, at - 1) == "del" and form_at(words, at - 2) in _ONE_OF:
        told = [form for form in told if form != "del"]
    if any(form in _GONE_BY for form in told) and not any(form in _TO_COME for form in told):
        return True
    return _is_of_the_story(words, at)


def _picks(words: Sequence[Word], at: int) -> bool:
    """Whether the “del” at *at* picks a window: “la del martes a las 8”, “la de las 8 del martes”."""
    if words[at].form != "del":
        return False
    before = form_at(words, at - 1)
    return before in ("la", "el", "cita", "visita") or (before.isdigit() and form_at(words, at - 2) in ("las", "la"))


_ONE_OF = frozenset(
    ("manana", "mananita", "tarde", "tardecita", "noche", "la", "el", "las", "lo", "una", "uno", "cita", "visita")
)
"""Behind these “del” picks one of what is offered: “la del martes”, “en la tarde del lunes”."""
_FITS = frozenset(
    (
        "work",
        "works",
        "would",
        "open",
        "free",
        "better",
        "great",
        "possible",
        "out",
        "not",
        "perfect",
        "instead",
        "please",
        "good",
        "fine",
        "best",
        "ok",
        "suits",
        "me",
    )
)


_NO_TIMES = frozenset(("any", "some", "a", "good", "your", "best", "open"))
_SAYS_ME = frozenset(
    ("empezo", "dejo", "di", "dio", "fallo", "quede", "paso", "vino", "puso", "llego", "salio", "cayo")
)
"""“el martes me empezó a gotear” is of the story, “el martes me queda bien” of the wish."""


def _is_of_a_call(words: Sequence[Word], at: int) -> bool:
    """“dont call till after 3”, “can it wait til next week”: no time to come."""
    first = max(0, at - _CALL_WITHIN, int(is_exclaimed(words)))
    return any(word.form in _CALLS for word in words[first:at])


def is_exclaimed(words: Sequence[Word]) -> bool:
    """“wait can you do friday” begins with a wait that waits for nothing."""
    return len(words) > 1 and words[0].form == "wait" and words[1].form in _TURNS


_CALLS = frozenset(("wait", "call", "text", "aguantar", "aguanta", "esperar", "llamen", "llame", "marquen", "marque"))
_CALL_WITHIN = 4
_STORY_WITHIN = 9
_PAST = frozenset((
    "was", "were", "came", "had", "left", "took", "went", "did", "broke", "quit", "died", "put", "bought", "got", "said",
    "told", "made", "did", "ran", "redid", "hung", "found", "fell", "blew", "gave", "lost", "cut", "heard", "saw", "brought",
    "threw", "spilled", "woke", "tore", "shut", "froze", "drained", "set", "hit", "began", "stuck",
    "fue", "vino", "estuvo", "dejo", "puso", "puse", "hice", "hizo", "limpie", "lave", "compre", "cambie", "tuve", "tuvimos",
    "tuvo", "dijo", "paso", "quede", "quedo", "llame", "metio", "movio", "movi", "prendi", "tiro", "tire", "cayo", "trajo",
    "instalo", "empezo", "arreglo", "prendio", "calento", "funciono", "salio", "subio", "cambiamos", "instalamos", "pusimos",
    "compramos", "trabaje", "lavamos", "fui", "fuimos", "vi", "vimos", "dio", "llego", "rompio", "quebro", "murio", "dijiste",
))  # fmt: skip
"""Verbs told in the past; besides those that end so: “cleaned”, “pusieron”."""
_NO_PAST = frozenset((
    "need", "speed", "feed", "seed", "breed", "indeed", "hundred", "scheduled", "booked", "wanted", "supposed", "preferred",
    "needed", "expected", "closed", "required", "interested", "retired", "excited", "agreed", "reserved", "asked",
))  # fmt: skip
_WANTED = frozenset((
    "can", "could", "will", "would", "if", "please", "pls", "plz", "need", "needs", "want", "wants", "wanna", "get", "gets",
    "come", "send", "by", "like", "prefer", "lets", "let", "book", "schedule", "move", "change", "switch", "give", "gimme",
    "free", "available", "next", "ill", "going", "gonna", "may", "might", "should", "until", "til", "till", "hasta",
    "puede", "pueden", "podria", "podrian", "si", "quiero", "quisiera", "necesito", "ocupo", "gustaria", "venga", "vengan",
    "venir", "manden", "mande", "mandar", "pase", "pasen", "para", "pal", "proximo", "mejor", "cambiar", "mover", "agendar",
    "prefiero", "puedo", "podemos", "dejelo", "pongame", "apunteme", "favor",
))  # fmt: skip
"""Words by which a day beside them is one to come."""


def is_we_are(word: Word) -> bool:
    """Whether “we're”, or “were” where a statement begins, is told of now: “were home thursday”."""
    return word.form == "were" and (word.end - word.start > len(word.form) or word.brk == 2)


def _is_past(form: str) -> bool:
    if form in _PAST or form.endswith(("aron", "ieron", "yeron")):
        return True
    return len(form) > 4 and form.endswith("ed") and form not in _NO_PAST


_WHO_HAS = ("you", "u", "yall", "uve", "youve")
"""“whatever you got” is what there is."""


def _is_of_the_story(words: Sequence[Word], at: int) -> bool:
    """Whether what stands about the day in one breath is told in the past: “after the wife cleaned it saturday”."""
    first = at
    while first > max(0, at - _STORY_WITHIN) and not words[first].brk:
        first -= 1
    last = at + 1
    while last < min(len(words), at + _STORY_WITHIN) and not words[last].brk:
        last += 1
    told = [word.form for word in words[first:last] if not is_we_are(word)]
    if any(after in ("me", "us") for form, after in pairwise(told) if form == "put"):
        return False  # "put me down for friday"
    told = [form for form, before in zip(told, ["", *told], strict=False) if form != "got" or before not in _WHO_HAS]
    return any(map(_is_past, told)) and not any(form in _WANTED for form in told)


SUITS_ES = frozenset(("sirve", "queda", "acomoda", "conviene", "puedo", "pueden", "puede", "suits", "works"))
"""A time that suits, as said in Spanish or of it."""
_TURNS = frozenset(("can", "could", "would", "will", "actually", "do", "is", "make"))


def is_tomorrow(words: Sequence[Word], at: int) -> bool:
    """“mañana” is tomorrow, but after “la”, “en la” or “por la” it is the morning."""
    return form_at(words, at - 1) not in ("la", "las", "esta", "una", "cada")


_OTHER_WEEK = frozenset(
    ("mejor", "para", "hasta", "ser", "sea", "seria", "o", "venir", "vengan", "venga", "puede", "pueden")
)


def _is_other_week(words: Sequence[Word], at: int) -> bool:
    """“mejor la otra semana”: the next one; told of what happened it is a week gone by."""
    before = form_at(words, at - 3)
    return (form_at(words, at - 2), form_at(words, at - 1)) == ("la", "otra") and (
        before in _OTHER_WEEK or (at == 2 and len(words) <= at + 2)
    )


_NTH = frozenset(
    ("second", "third", "fourth", "fifth", "2nd", "3rd", "4th", "5th", "segunda", "tercera", "segundo", "tercer")
)


def week_at(words: Sequence[Word], at: int) -> Week | None:
    """The week named at *at*: ``this``, ``next``, or None."""
    before, after = form_at(words, at - 1), form_at(words, at + 1)
    if form_at(words, at - 2) in ("times", "time", "veces", "vez", "twice", "loads", "all", "toda"):
        return None  # "5 times this week"
    if before == "this" and not _NTH.isdisjoint((form_at(words, at - 2), form_at(words, at - 3))):
        return None  # "third shirt this week"
    if (
        before in ("next", "proxima")
        or _is_other_week(words, at)
        or after in ("entrante", "proxima")
        or (after == "que" and form_at(words, at + 2) == "viene")
    ):
        return "next"
    return "this" if before in ("this", "esta") else None
