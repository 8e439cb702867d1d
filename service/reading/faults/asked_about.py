"""A short answer that only names what the machine should do: “las cuatro jalan”, “it turns off when I tell it to”."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.model import Asked, Found
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal

MOST_WORDS = 8
"""A longer text tells more than the answer."""

_SCORE = 0.8
_AGAINST = ("negators", "stoppers", "failing", "diminishers", "broken_down")
_SPOILS = frozenset((
    "no", "not", "but", "pero", "only", "barely", "hardly", "if", "si", "used", "sometimes", "slow", "slowly", "until", "then",
    "casi", "apenas", "nada", "nothing", "never", "nunca", "tarda", "trouble", "hard", "try", "tries", "trying", "wants",
))  # fmt: skip


def told_of_the_asked(
    stated: Statements, hits: Sequence[Hit], asked: Asked | None, marks: Marks, normal: Normal
) -> Statements:
    """*stated* with the denial of the fault asked after where a short text names its function and nothing speaks against it."""
    words = normal.words
    if asked is None or asked.kind != "yes_no" or not asked.code or len(words) > MOST_WORDS:
        return stated
    if any(f.code == asked.code for f in (*stated.symptoms, *stated.denied)) or any(
        marks.at(name) for name in _AGAINST
    ):
        return stated
    if any(word.form in _SPOILS or word.asks for word in words):
        return stated
    for hit in hits:
        meaning = hit.payload
        if meaning.kind != "symptom" or meaning.role != "function" or meaning.code != asked.code or hit.negated:
            continue
        if meaning.appliances and asked.appliance not in meaning.appliances:
            continue
        first, end = words[hit.start].start, words[hit.end - 1].end
        found = Found(
            asked.appliance or "unknown", asked.code, _SCORE, normal.text[first:end], first, end, rule=meaning.rule
        )
        return replace(stated, denied=(*stated.denied, found))
    return stated
