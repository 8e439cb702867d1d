"""
Dangers told and taken back in one breath: “sparks no”, “water near the outlet? no”, “asked if I saw smoke, no”, “the smoke
was the bacon”.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.dangers.excepting import no_and_its_verb
from service.reading.dangers.source_words import MACHINES
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_NO = frozenset(["no", "nope", "nah", "neither", "never", "nunca", "tampoco", "nada", "ninguna", "ninguno"])
_LAST = frozenset(["no", "nope", "nunca", "tampoco", "negative", "none"])
"""What denies a thing right behind it: “chispas no”."""
_BEHIND_NO = frozenset((
    "eso", "esa", "ese", "esta", "este", "solo", "nomas", "pero", "but", "just", "that", "thats", "lol", "jaja", "gracias",
    "thanks", "thank", "nothing", "nada", "neither", "sir", "maam", "senor", "senora", "nope", "not", "ni",
))  # fmt: skip
"""What may follow such a no without a comma."""
_ASKED = frozenset((
    "asked", "asks", "asking", "ask", "wondered", "wonders", "pregunto", "pregunta", "preguntan", "preguntaron", "preguntaba",
    "check", "checked", "looked", "pregunte",
))  # fmt: skip
_WHETHER = frozenset(["if", "whether", "si", "for"])
_REACH = 9
"""How far before the danger it may be told that somebody asked, and how far behind it the answer or the cause may stand."""

_EXPLAINED = frozenset(["smoke", "burning_smell", "gas_smell"])
"""What a dinner may cause."""
_DOUBTING = frozenset((
    "thought", "think", "thinking", "maybe", "probably", "guess", "might", "could", "perhaps", "if", "creo", "pense", "pensaba",
    "pensamos", "quiza", "quizas", "not", "isnt", "wasnt", "no", "like", "says", "said", "dice", "dijo", "hope",
))  # fmt: skip
_AGAIN = frozenset((
    "still", "again", "keeps", "sigue", "todavia", "otra", "volvio", "but", "pero", "also", "tambien", "besides", "ademas",
))  # fmt: skip
_SENSED = frozenset(
    [
        "smell",
        "smells",
        "smelling",
        "smoke",
        "smokes",
        "smoking",
        "burning",
        "burnt",
        "huele",
        "olor",
        "humo",
        "quemado",
    ]
)


def taken_back(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether *hit* is told not to be so by what stands around it."""
    return (
        _no_behind(hit, words)
        or _nothing_of_it(hit, words)
        or _asked_of_us(hit, words)
        or _explained(hit, words, marks)
        or _never_said(hit, words, marks)
    )


def _no_behind(hit: Hit, words: Sequence[Word]) -> bool:
    """“chispas no, eso era el otro”; not “sale humo no prende”, whose no is the machine's."""
    at = hit.end
    if at >= len(words) or words[at].brk or words[at].form not in _LAST or words[hit.start].asks:
        return False
    if no_and_its_verb(at, words):
        return True
    return at + 1 == len(words) or words[at + 1].brk > 0 or words[at + 1].form in _BEHIND_NO


_NOT_BECAUSE = frozenset((
    ("no", "porq", "haya"), ("no", "porque", "haya"), ("no", "porque", "hubiera"), ("no", "xq", "haya"), ("no", "pq", "haya"),
    ("not", "because", "of"), ("not", "because", "theres"), ("not", "for", "any"), ("no", "por", "el"), ("not", "cause", "of"),
    ("no", "es", "por"), ("no", "que", "haya"), ("no", "por", "que"),
))  # fmt: skip


def _nothing_of_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“nada de humo”, “lo quité porque lo voy a mover, no porque haya humo”: in one breath."""
    before = [word.form for word in words[max(0, hit.start - 3) : hit.start]]
    if before[-2:] == ["nada", "de"]:
        return not (words[hit.start - 1].brk or words[hit.start].brk)
    if tuple(before) in _NOT_BECAUSE:
        return not any(word.brk for word in words[hit.start - 2 : hit.start + 1])
    return False


def _asked_of_us(hit: Hit, words: Sequence[Word]) -> bool:
    """“my sister asked if i smelled burning or saw smoke, no neither one”."""
    first = max(0, hit.start - _REACH)
    asked = any(
        words[at].form in _ASKED and any(w.form in _WHETHER for w in words[at + 1 : at + 4])
        for at in range(first, hit.start)
    )
    if not asked:
        return False
    at = hit.end
    while at < len(words) and at < hit.end + _REACH and not (words[at].form in _NO and _answers(at, words)):
        at += 1
    if at >= len(words) or at == hit.end + _REACH:
        return False
    return at + 1 == len(words) or words[at + 1].brk > 0 or words[at + 1].form in _BEHIND_NO


_THEY_SAY = frozenset((
    "she", "he", "they", "ella", "ellos", "dice", "dicen", "dijo", "dijeron", "says", "said", "say", "tells", "told", "me",
    "us", "que", "q", "contesto", "answered", "answer", "was", "is", "and", "y",
))  # fmt: skip


def _answers(at: int, words: Sequence[Word]) -> bool:
    """Whether a no begins what is said, or is what they say: “I asked her if there's any burning smell, she says no”."""
    if words[at].brk:
        return True
    first = at
    while not words[first].brk and words[first - 1].form in _THEY_SAY:
        first -= 1
    return first < at and words[first].brk > 0


def _explained(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """“thought something was burning, turns out it was his pizza”: what it was is told as sure, and nothing added."""
    if hit.payload.code not in _EXPLAINED:
        return False
    for start, end in marks.at("explained"):
        if not hit.end - 1 <= start <= hit.end + _REACH:
            continue
        before = {word.form for word in words[max(hit.end, start - 3) : start]}
        if before & _DOUBTING or _goes_on_to_a_machine(words[end : end + 2]):
            continue
        return not _told_besides(words[end:])
    return False


def _goes_on_to_a_machine(after: Sequence[Word]) -> bool:
    """“it was the toaster outlet”: in one breath."""
    for word in after:
        if word.brk:
            return False
        if word.form in MACHINES:
            return True
    return False


def _told_besides(after: Sequence[Word]) -> bool:
    """Whether what is sensed is told again behind its cause: “it was the toast, but it still smells”."""
    return any(word.form in _AGAIN for word in after) and any(word.form in _SENSED for word in after)


def _never_said(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """“your notes say it leaks gas. I never said that”."""
    if any(word.form in _SAYING for word in words[max(0, hit.start - _REACH) : hit.start]):
        return any(hit.end <= start <= hit.end + 2 for start, _ in marks.at("never_said"))
    return False


_SAYING = frozenset(
    ("say", "says", "said", "notes", "wrote", "put", "dice", "dicen", "dijo", "puso", "pusieron", "saying")
)
