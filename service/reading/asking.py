"""Which words of a text ask something: a question answers nothing by the small words it is made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.reading.normalising import Word

_ASKING = frozenset((
    "what", "whats", "why", "whys", "how", "hows", "who", "whos", "which", "where", "wheres", "when", "whens",
    "que", "cual", "cuales", "cuando", "como", "quien", "quienes", "donde", "cuanto", "cuanta", "cuantos", "cuantas",
))  # fmt: skip
_SURELY = frozenset(
    ("why", "whys", "whats", "hows", "whos", "wheres", "whens", "cuanto", "cuanta", "cuantos", "cuantas")
)
"""Question words that begin no dependent clause ("when it spins", "cuando lava")."""

TURNED = frozenset(("do", "does", "did", "is", "are", "can", "could", "will", "would", "should"))
"""Auxiliaries that stand before their subject in a question."""

_INSIDE = TURNED | {"was", "were"}
_SUBJECTS = frozenset((
    "i", "you", "u", "ya", "yall", "we", "they", "it", "that", "this", "these", "those", "he", "she", "the", "my",
    "your", "our", "someone", "somebody", "anyone", "anybody", "any", "there",
))  # fmt: skip
_OBJECTS = frozenset(("it", "that", "this", "these", "those", "the", "my", "your", "our"))
"""After "do" and "did" these are as well what is done ("do it tomorrow", "did that"), but for a question mark."""

_TURNED_ES = frozenset((
    "puede", "pueden", "podria", "podrian", "tienen", "hacen", "trabajan", "arreglan", "cuesta", "cobran", "vienen", "van",
))  # fmt: skip
_BEFORE = frozenset((
    "yes", "yeah", "yep", "no", "nope", "ok", "okay", "sure", "hi", "hello", "hey", "hola", "and", "but", "so", "well",
    "also", "please", "thanks", "si", "sip", "bueno", "oiga", "y", "pero", "gracias", "por", "para", "de", "a", "pues",
))  # fmt: skip
_REACH = 3
"""Words between a question word and its verb: "what day of the week can you", "que dia pueden"."""


@dataclass(frozen=True, slots=True)
class Questions:
    """Places of words: ``plain`` in what is a question by its build, ``marked`` in that or before a question mark."""

    plain: frozenset[int]
    marked: frozenset[int]


NO_QUESTIONS = Questions(frozenset(), frozenset())


def questions(words: Sequence[Word]) -> Questions:
    """The words of a text that ask."""
    plain: set[int] = set()
    marked: set[int] = set()
    at, total = 0, len(words)
    while at < total:
        end = at + 1
        while end < total and words[end].brk < 2:
            end += 1
        begins = next((i for i in range(at, end) if _may_begin(words, at, i) and _asks(words, i, end)), None)
        if begins is not None:
            plain.update(range(begins, end))
        if words[at].asks:
            marked.update(range(at, end))
        at = end
    return Questions(frozenset(plain), frozenset(plain | marked)) if plain or marked else NO_QUESTIONS


def _may_begin(words: Sequence[Word], sentence: int, at: int) -> bool:
    """Whether a question may begin here: at a break, or after nothing but a yes, a greeting or a small word."""
    back = at
    while back > sentence and words[back].brk == 0:
        back -= 1
        if words[back].form not in _BEFORE:
            return False
    return True


def _asks(words: Sequence[Word], at: int, end: int) -> bool:
    form = words[at].form
    after = words[at + 1].form if at + 1 < end else ""
    if form in _SURELY:
        return True
    if form in TURNED:
        done = form in ("do", "did") and after in _OBJECTS and not words[at].asks
        return after in _SUBJECTS and not done
    if form in _TURNED_ES:
        return at == 0 or words[at].brk == 2
    if form == "que" and at and words[at - 1].form == "por":
        return True
    if form not in _ASKING:
        return False
    if at + 1 == end:
        return True
    return any(
        (words[i].form in _INSIDE and i + 1 < end and words[i + 1].form in _SUBJECTS)
        or (form in ("what", "which", "who") and i == at + 1 and words[i].form in TURNED)
        or words[i].form in _TURNED_ES
        for i in range(at + 1, min(at + 2 + _REACH, end))
    )
