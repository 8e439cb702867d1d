"""What a text answers to a question for a value: a maker, a number on a plate, an age, a street."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.reading.model import Answer, Asked, Reading
from service.reading.replies.choices import plain
from service.reading.replies.described import kind_described
from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word

VALUES = frozenset(
    {
        "brand",
        "age",
        "model",
        "serial",
        "code",
        "name",
        "address",
        "postal_code",
        "phone",
        "access",
        "payer",
        "fuel",
        "variant",
    }
)
_FACT_OF = {"age": "age_years"}
_ON_THE_MACHINE = frozenset(("brand", "model", "serial", "age", "fuel", "variant"))
"""What a machine has in any case: a “no” to it says that it is not known (“no label that I can see”)."""

_NO_CODE = Answer("none")
"""A "no" to which code is shown: none is."""


def of_a_value(replies: Mapping[str, Hit]) -> dict[str, Hit]:
    """*replies* as far as they answer a question for a value: no "maybe" of its words, no "not" said behind it."""
    return {code: hit for code, hit in replies.items() if code != "maybe" and not (code == "no" and hit.start > 1)}


def value_told(asked: Asked, replies: Mapping[str, Hit], text: Reading, words: Sequence[Word]) -> Answer | None:
    """The value that was asked for, or that it is not known, not told or not there."""
    fact = text.facts.get(_FACT_OF.get(asked.kind, asked.kind))
    if asked.kind == "variant" and not {"dont_know", "declined"} & replies.keys():
        fact = kind_described(str(fact or ""), asked.appliance, words, text)
    if fact is not None and asked.kind == "code" and str(fact).isdigit() and _starts(replies, "no"):
        return _NO_CODE  # "no code, just the clock flashing 12:00"
    unknown = _not_known(asked, replies)
    if fact is not None and not (unknown is not None and _outright(asked, unknown, replies, words)):
        value = ", ".join(map(str, fact)) if isinstance(fact, tuple) else str(fact)
        return Answer("value", value, hedged="hedged" in replies)
    if unknown is not None:
        return Answer("dont_know")
    if "declined" in replies:
        return Answer("declined")
    said = plain(replies)
    if said is None or said.kind != "no":
        return said
    return _NO_CODE if asked.kind == "code" else Answer("dont_know") if asked.kind in _ON_THE_MACHINE else said


def _starts(replies: Mapping[str, Hit], code: str) -> bool:
    return code in replies and replies[code].start == 0


def _not_known(asked: Asked, replies: Mapping[str, Hit]) -> Hit | None:
    """Where it is said that what was asked for is not known, not written or not to be read."""
    if "dont_know" in replies:
        return replies["dont_know"]
    if asked.kind == "age":
        return replies.get("no_age")
    return replies.get("unmarked") if asked.kind in _ON_THE_MACHINE else None


_PLAIN_THINGS = frozenset(("brand", "age", "fuel", "variant", "payer"))
"""What is heard in ordinary words, which may stand there for another reason; a number on a plate is unmistakable."""
_WHAT_OF_IT = frozenset(("how", "what", "which", "who", "cuantos", "cuanto", "cual", "que", "quien"))
_SHORT = 6


def _outright(asked: Asked, unknown: Hit, replies: Mapping[str, Hit], words: Sequence[Word]) -> bool:
    """
    “not sure who pays”, “the house has gas but the stove I never looked”: it stands first with nothing against it, or last
    behind a “but”; not “no idea, maybe 10 years”.
    """
    if asked.kind not in _PLAIN_THINGS or "hedged" in replies or "maybe" in replies:
        return False
    if unknown.start > 0:
        return any(word.form in CONTRASTS for word in words[: unknown.start])
    if unknown.end < len(words) and words[unknown.end].form in _WHAT_OF_IT:
        return not any(word.brk or word.form in CONTRASTS for word in words[1:])
    return len(words) <= _SHORT and not any(w.brk or w.form in CONTRASTS or w.form[0].isdigit() for w in words[1:])
