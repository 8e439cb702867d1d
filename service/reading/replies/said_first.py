"""What a text says of the choices before anything else: “ninguno. lo que pasa es …”, “whichever. every day is Saturday”."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.reading.model import Answer, Asked, Reading
from service.reading.replies.choices import chosen
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_FIRST = frozenset(("first", "primero"))


def taken_of(asked: Asked, words: Sequence[Word], replies: Mapping[str, Hit], text: Reading) -> Answer | None:
    """The choice taken; what stands first in a sentence of its own counts for more than a word behind it."""
    taken = chosen(asked, words, replies, text)
    if taken is None or taken.kind not in ("choice", "value"):
        return taken
    if taken.kind == "value" and _first_of_all(replies.get("either"), words):
        return Answer("either")
    if taken.kind == "value" or any(char.isdigit() for char in text.text):
        return taken
    if _first_of_all(replies.get("none"), words):
        return Answer("none")
    unknown = replies.get("dont_know")
    if unknown is not None and unknown.start == 0 and words[-1].form in _FIRST:  # "let me ask my wife first"
        return Answer("dont_know")
    return taken


def _first_of_all(hit: Hit | None, words: Sequence[Word]) -> bool:
    return hit is not None and hit.start == 0 and hit.end < len(words) and words[hit.end].brk == 2
