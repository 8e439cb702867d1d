"""What limits a statement: it holds of some of several only, or it is over unless it comes again."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.clauses import Clause, Marks
from service.reading.words.normalising import Word

_AND = frozenset(["and", "but", "y", "pero"])
_THE_OTHERS = frozenset((
    "other", "others", "rest", "otro", "otra", "otros", "otras", "demas", "izquierda", "derecha", "left", "right", "front",
    "back", "bottom", "top", "abajo", "arriba", "atras", "enfrente",
))  # fmt: skip
_NOT = frozenset(["no", "not", "dont", "doesnt", "wont", "arent", "isnt", "tampoco"])
_WITHIN = 7
_AGAIN = frozenset(["again", "vuelve", "vuelven", "volviera", "volvieran", "volver", "returns"])


def others_do_not(words: Sequence[Word], end: int) -> bool:
    """“unos botones responden y otros no”: behind the statement that ends at *end*, the rest does not do so."""
    joined = other = False
    for at in range(end, min(len(words), end + _WITHIN)):
        if words[at].brk == 2:
            return False
        if other and words[at].form in _NOT:
            return at + 1 == len(words) or words[at + 1].brk > 0
        joined = joined or words[at].form in _AND or words[at].brk > 0
        other = other or (joined and words[at].form in _THE_OTHERS)
    return False


def is_over_for_now(words: Sequence[Word], clause: Clause, marks: Marks) -> bool:
    """“If it leaks again I'll call. For now it's fine”: supposed to come again, and told to be well elsewhere in the text."""
    if not clause.if_ or not any(word.form in _AGAIN for word in words[clause.start : clause.end]):
        return False
    return any(not clause.start <= a < clause.end for a, _ in marks.at("fine"))
