"""A warranty told in passing beside a window: “el jueves a las 8, todavía tiene garantía”, “3, warranty is still good”."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from service.reading.model import Answer, Asked
from service.reading.words.normalising import Word

_WARRANTY = ("warrant", "garantia")
_STANDS = frozenset((
    "still", "has", "have", "had", "under", "in", "good", "active", "valid", "got", "is", "on", "its", "with",
    "todavia", "aun", "sigue", "esta", "tiene", "tengo", "trae", "vigente", "en", "con", "hay", "bajo",
))  # fmt: skip
_OVER = frozenset((
    "no", "not", "never", "out", "off", "past", "expired", "expires", "over", "up", "without", "isnt", "aint", "doesnt",
    "hasnt",
    "sin", "vencio", "vencida", "expiro", "acabo", "termino", "ni", "nunca", "fuera", "your", "su", "sus", "ustedes", "you",
    "home", "extended", "casa", "hogar", "extendida",
))  # fmt: skip
"""Beside these there is none any more, or another one than the maker's."""
_ASKS = frozenset(
    ("does", "do", "if", "whether", "si", "cubre", "cubren", "cover", "covers", "covered", "how", "who", "quien")
)
MAKERS = "maker_warranty"


def with_warranty_told(
    facts: Mapping[str, object], asked: Asked | None, answer: Answer | None, words: Sequence[Word]
) -> Mapping[str, object]:
    """*facts* with the maker's warranty as what pays, where it is told beside a window that is taken."""
    taken = (
        asked is not None
        and asked.kind == "offer"
        and answer is not None
        and answer.kind in ("choice", "either", "yes")
    )
    if not taken or "payer" in facts or not any(_tells(clause) for clause in _clauses(words)):
        return facts
    return {**facts, "payer": MAKERS}


def _clauses(words: Sequence[Word]) -> Iterator[Sequence[Word]]:
    first = 0
    for at in range(1, len(words) + 1):
        if at == len(words) or words[at].brk:
            yield words[first:at]
            first = at


def _tells(clause: Sequence[Word]) -> bool:
    """Whether *clause* says that there is a warranty, and does not ask."""
    forms = {word.form for word in clause}
    spoken_of = any(form.startswith(_WARRANTY) for form in forms)
    return spoken_of and bool(forms & _STANDS) and not forms & (_OVER | _ASKS) and not clause[0].asks
