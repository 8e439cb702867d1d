"""Whether somebody else in the house notices what the writer does not: “I don't but my husband does”, “yo no, mi esposa sí”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word

_PEOPLE = frozenset((
    "wife", "husband", "son", "daughter", "kid", "kids", "mom", "mother", "dad", "father", "neighbor", "neighbors", "grandma",
    "sister", "brother", "roommate", "roommates", "boyfriend", "girlfriend", "hubby", "tenant", "tenants", "everybody",
    "everyone", "others", "partner", "guests", "guest", "she", "he", "they", "esposa", "esposo", "marido", "mujer", "vieja",
    "viejo", "hijo", "hija", "hijos", "nino", "nina", "ninos", "mama", "papa", "vecino", "vecina", "vecinos", "suegra",
    "abuela",
    "hermana", "hermano", "novia", "novio", "ella", "el", "ellos", "todos", "senora", "senor", "jefa", "jefe", "nieto", "nieta",
))  # fmt: skip
_DOES = frozenset((
    "does", "do", "did", "can", "could", "smells", "smelled", "feels", "felt", "saw", "sees", "noticed", "notices", "hears",
    "heard", "swears", "si", "huele", "olio", "siente", "sintio", "nota", "noto", "vio",
))  # fmt: skip
_BETWEEN = frozenset((
    "says", "said", "say", "thinks", "swears", "insists", "claims", "that", "it", "she", "he", "they", "there", "is", "dice",
    "dijo", "dicen", "jura", "que", "se", "lo", "la", "le", "in", "law", "just", "and", "my", "mi", "both", "sure",
))  # fmt: skip
_SOME = frozenset(
    ("says", "said", "swears", "insists", "claims", "but", "pero", "dice", "dijo", "dicen", "jura", "only", "solo")
)
_REACH = 6


def another_senses(words: Sequence[Word]) -> bool:
    """Whether a person other than the writer is said to notice it, and nobody to deny that."""
    if not any(word.form in _SOME for word in words):
        return False
    return any(_does(words, at) for at, word in enumerate(words) if word.form in _PEOPLE)


def _does(words: Sequence[Word], person: int) -> bool:
    for at in range(person + 1, min(len(words), person + _REACH)):
        if words[at].form in _DOES:
            after = words[at + 1].form if at + 1 < len(words) else ""
            return after not in ("not", "no", "nothing", "nada") and words[at].brk < 2
        if words[at].brk == 2 or words[at].form not in _BETWEEN:
            return False
    return False
