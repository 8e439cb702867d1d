"""How things are, told without a verb: “floor bone dry”, “carne bien dura”, “nothing on the floor”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word

_NAUGHT = frozenset(["nothing", "nada", "not", "no", "ni", "zero"])
_STATE = frozenset((
    "dry", "quiet", "silent", "cold", "hard", "solid", "frozen", "seco", "seca", "sequito", "sequita", "callado", "callada",
    "calladito", "calladita", "frio", "fria", "helado", "helada", "duro", "dura", "durito", "durita", "congelado", "congelada",
    "plenty", "intact", "entero", "intacto", "sano", "clear", "clarito", "claro", "limpios", "heladito", "heladita",
))  # fmt: skip
_SPILT = frozenset(["puddle", "water", "wet", "mess", "charco", "charquito", "agua", "mojado"])
_SPILT_BY = frozenset(["was", "is", "from", "by", "fue", "hizo", "era", "es", "dejo", "tiro"])
"""“the puddle was the dog”, “el charco lo hizo el niño”: water that another spilt."""

_CAUSING = frozenset((
    "get", "stay", "keep", "be", "feel", "hold", "run", "come", "blow", "make", "estar", "mantener", "dar", "hacer", "getting",
    "staying", "keeping", "stopped",
))  # fmt: skip


def is_a_state(words: Sequence[Word], start: int, end: int) -> bool:
    """“floor bone dry”, “carne bien dura”, “nothing on the floor”: it states how things are without a verb."""
    first, inside = words[start].form, [word.form for word in words[start:end]]
    if first in _NAUGHT or (first in _SPILT and not _SPILT_BY.isdisjoint(inside)):
        return True
    return first not in _CAUSING and not _STATE.isdisjoint(inside)
