"""What is wanted beside an answer, and what is told instead of the fault that was asked about."""

from __future__ import annotations

import re
from collections.abc import Container, Mapping, Sequence

from service.reading.aims.unworded import asks_something
from service.reading.model import Answer, Asked, Reading
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word, fold

_OF_WHAT_IT_IS = frozenset(
    ("appliance", "symptom", "fuel", "variant", "brand", "age", "model", "serial", "code", "name")
)
"""Questions whose answers name something: “el refri ya quedó” beside one ends nothing."""
_ASKING = frozenset(("ask_help", "ask_price", "ask_status", "ask_warranty"))
_MENDED = frozenset(("fixed", "not_fixed"))
_WHEN_THEY_COME = frozenset(("access", "phone"))
"""Beside these “call me” is how to be reached: “call me from the gate”."""
_PERSONS = (
    "person", "human", "some", "any", "manager", "owner", "boss", "real", "alguien", "duen", "gerente", "encargad", "jefe",
)  # fmt: skip
_MOVES = ("resched", "re", "mov", "chang", "switch", "push", "bump", "cambi", "pas", "pos")


def beside_the_answer(
    wants: Sequence[str],
    worded: Mapping[str, Hit],
    answer: Answer | None,
    asked: Asked | None,
    words: Sequence[Word],
    dangers: Container[str],
) -> tuple[str, ...]:
    """
    *wants* without what an *answer* only sounds like: a question where nothing asks, a repair where it is told what the machine
    is, a call wanted where it is told how to get in.
    """
    if asked is None or answer is None or not wants:
        return tuple(wants)
    return tuple(code for code in wants if not _of_the_answer(code, worded.get(code), answer, asked, words, dangers))


def _of_the_answer(
    code: str, hit: Hit | None, answer: Answer, asked: Asked, words: Sequence[Word], dangers: Container[str]
) -> bool:
    if code in _ASKING and hit is None:
        return not asks_something(words)
    if code in _MENDED:
        if asked.kind == "yes_no" and asked.code in dangers:
            return code == "fixed" or answer.kind == "no"
        tried = hit is not None and hit.payload.code.startswith("tried=")
        return asked.kind in _OF_WHAT_IT_IS and not (tried and asked.kind == "symptom")
    if code == "talk_to_person":
        reached = asked.kind in _WHEN_THEY_COME or (asked.kind == "offer" and answer.kind == "choice")
        return reached and hit is not None and not _says(hit, words, _PERSONS)
    if code == "reschedule":
        return asked.kind == "offer" and not (hit is not None and _says(hit, words, _MOVES))
    return False


def _says(hit: Hit, words: Sequence[Word], beginnings: tuple[str, ...]) -> bool:
    """Whether a word of *hit* begins so."""
    return any(word.form.startswith(beginnings) for word in words[hit.start : hit.end])


_INSTEAD = re.compile(
    r"\blo (?:que|q|k) (?:no|si|pasa|hace|hase)\b|\bel (?:problema|detalle|asunto) es\b"
    r"|\b(?:pero|nomas que) (?:no|ya|sigue|se|le)\b|\bes (?:que|la|el|lo|una?|abajo|arriba) \w+|\bnomas (?:el|la)\b"
    r"|\bit'?s (?:just|only|actually|what|when|how)\b|\b(?:it'?s|it is) the \w+|\bthe (?:problem|issue|trouble|thing) is\b"
    r"|\bbut (?:it|the|now|she|my)\b|\b(?:though|tho)\b"
)
"""So begins what is wrong in truth: “it's the heat that's not there”, “lo que no hace es tirarla”."""


def told_instead(read: Reading, asked: Asked | None, answer: Answer | None) -> bool:
    """Whether another fault is told in place of the one that was *asked* about and is denied."""
    if asked is None or answer is None or asked.kind != "yes_no" or answer.kind != "no":
        return False
    denied = any(found.code == asked.code for found in read.denied)
    return denied and _INSTEAD.search(fold(read.text).replace("’", "'")) is not None
