"""
Whether words that sound like “it works again” only tell what was done, or what state a part is in: neither mends the machine.
“vent is clean, did it myself sunday”, “fixed the hose”, “el ducto ya quedó limpio”.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_PARTS = frozenset((
    "vent", "vents", "duct", "ducts", "ductwork", "hose", "hoses", "filter", "filters", "trap", "screen", "lint", "flap",
    "tube",
    "exhaust", "coil", "coils", "outlet", "plug", "cord", "breaker", "gfci", "pipe", "pipes", "valve", "sink", "vented",
    "ducto", "ductos", "manguera", "mangueras", "filtro", "filtros", "trampa", "rejilla", "malla", "pelusa", "tubo", "tubos",
    "tuberia", "salida", "serpentin", "enchufe", "contacto", "cable", "pastilla", "fregadero", "valvula",
))  # fmt: skip
"""What an owner looks after: it may be as it should while the machine is not."""
_BESIDE = frozenset((
    "the", "a", "my", "our", "that", "is", "its", "was", "are", "were", "has", "been", "now", "all", "just", "also", "already",
    "works", "working", "good", "fine",
    "drain", "water", "dryer", "washer", "supply", "wall", "el", "la", "los", "las", "mi", "de", "del", "esta", "ya", "quedo",
    "limpio", "limpia", "todo", "bien", "se", "lint", "up", "out",
))  # fmt: skip
"""What may stand between the part and the words that sound so."""
_REACH = 5
_CLEAN = frozenset((
    "limpio", "limpia", "limpios", "limpias", "limpiecito", "limpiecita", "destapado", "destapada", "libre", "vacio", "vacia",
    "conectado", "conectada", "clean", "clear", "cleared", "cleaned", "empty",
))  # fmt: skip
_WELL = frozenset(("works", "working", "good", "fine", "sirve", "jala"))
_BY_THAT = frozenset(("that", "this", "it", "which", "thatll", "finally", "trick"))
_IS = frozenset(("is", "are", "was", "were", "its", "be"))
_WHO = frozenset((
    "i", "we", "he", "she", "they", "you", "husband", "wife", "son", "brother", "dad", "mom", "tenant", "landlord", "guy",
    "myself", "and", "just", "already", "ive", "also",
))  # fmt: skip
_BY_WHOM_OR_WHEN = frozenset((
    "myself", "ourselves", "himself", "herself", "yesterday", "already", "before", "today", "last", "this", "monday", "tuesday",
    "wednesday", "thursday", "friday", "saturday", "sunday", "twice", "once", "too", "earlier", "recently", "ago", "on", "in",
))  # fmt: skip


def is_of_a_part_or_deed(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit*, that sounds as if the fault were gone, is said of a part alone or of what somebody did."""
    forms = [word.form for word in words[hit.start : hit.end]]
    if forms == ["did", "it"]:
        return not _mended_it(hit, words)
    clean = not _CLEAN.isdisjoint(word.form for word in words[hit.end - 1 : hit.end + 1])
    return (clean and "quedo" in forms) or _has_a_part(forms) or _part_before(hit, words) or _part_behind(hit, words)


def states_a_part(words: Sequence[Word]) -> bool:
    """Whether a part is named with its being clean or well: “vent is clean”, “limpio el ducto”, “the trap works”."""
    forms = [word.form for word in words]
    for at, form in enumerate(forms):
        if form not in _PARTS:
            continue
        behind = [after for after in forms[at + 1 : at + _REACH] if after not in _IS]
        if not _CLEAN.isdisjoint(forms[max(0, at - _REACH) : at + _REACH]) or not _WELL.isdisjoint(behind[:1]):
            return True
    return False


def _mended_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“that did it”, “resetting it did it”, “the new fuse did it”: what was done made it work."""
    first = hit.start
    while first > 0 and not words[first].brk:
        first -= 1
    before = [word.form for word in words[first : hit.start]]
    behind = [word.form for word in words[hit.end : hit.end + 1] if word.brk < 2]
    if not before or not _BY_WHOM_OR_WHEN.isdisjoint(behind):
        return False
    return before[-1] in _BY_THAT or (before[-1] not in _WHO and _IS.isdisjoint(before))


def _has_a_part(forms: Sequence[str]) -> bool:
    return any(form in _PARTS for form in forms)


def _part_before(hit: Hit, words: Sequence[Word]) -> bool:
    """“vent works fine”: the part is what they say it of."""
    for at in range(hit.start - 1, max(-1, hit.start - _REACH), -1):
        if words[at + 1].brk:
            return False
        if words[at].form in _PARTS:
            return True
        if words[at].form not in _BESIDE:
            return False
    return False


def _part_behind(hit: Hit, words: Sequence[Word]) -> bool:
    """“fixed the vent hose”, “ya quedó limpio el ducto”: the part is what was mended."""
    for word in words[hit.end : hit.end + _REACH]:
        if word.brk:
            return False
        if word.form in _PARTS:
            return True
        if word.form not in _BESIDE:
            return False
    return False
