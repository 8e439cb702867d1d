"""
Dangers of current and water that are told as mended: at a time gone by, or by an electrician who was there.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_MONTHS = frozenset((
    "january", "february", "march", "april", "june", "july", "august", "september", "october", "november", "december",
    "enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre",
    "diciembre", "spring", "summer", "fall", "winter", "verano", "invierno", "primavera", "month", "year", "mes", "ano",
))  # fmt: skip
_AT_THEN = frozenset(["in", "back", "last", "was", "en", "pasado", "desde", "since", "ago", "hace", "de", "el"])
_MENDED = frozenset((
    "rewired", "replaced", "fixed", "changed", "swapped", "repaired", "grounded", "cambio", "cambiaron", "arreglo",
    "arreglaron", "repararon", "reparo",
))  # fmt: skip
_BACK_AGAIN = frozenset(
    ["again", "still", "back", "otra", "sigue", "siguen", "volvio", "todavia", "but", "pero", "yet", "keeps", "didnt"]
)


def mended_then(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """“the wire was hot, that was january and the electrician changed it”: mended by somebody, at a time gone by."""
    if hit.payload.code == "injury":
        return False
    first, last = hit.start, hit.end
    while first > 0 and words[first].brk != 2:
        first -= 1
    while last < len(words) and words[last].brk != 2:
        last += 1
    mended = max((end for start, end in marks.at("settled") if first <= start < last and end > hit.end), default=0)
    if not mended and _mended_before(first, hit, words):
        mended = hit.end
    if not mended or any(_stays(at, words, _BACK_AGAIN) for at in range(hit.end, last)):
        return False
    then = any(
        (words[at].form in _MONTHS or words[at].en in ("month", "year")) and any(w.form in _AT_THEN for w in near)
        for at in range(first, last)
        for near in [(*words[max(first, at - 2) : at], *words[at + 1 : at + 2])]
    )
    return then and not any(_stays(at, words, _STAYS) for at in range(mended, len(words)))


_STAYS = frozenset(["again", "still", "sigue", "otra", "volvio", "todavia"])
_THANKS = ("thank", "gracias", "thx", "ty")


def _stays(at: int, words: Sequence[Word], telling: frozenset[str]) -> bool:
    """Whether word *at* tells that it is there again; not in “thanks again”."""
    form = words[at].form
    return form in telling and form != "back" and not words[at - 1].form.startswith(_THANKS)


def _mended_before(first: int, hit: Hit, words: Sequence[Word]) -> bool:
    """“replaced the burnt plug”, “you fixed our freezer last spring when the plug had melted”."""
    if any(word.form in _MENDED for word in words[max(first, hit.start - 3) : hit.start]):
        return True
    near = words[max(first, hit.start - _FAR) : hit.start + 1]
    when = next((at for at, word in enumerate(near) if word.form in ("when", "cuando", "after", "because")), None)
    return when is not None and any(word.form in _MENDED for word in near[:when])


_FAR = 10
_STREET = frozenset((
    "street", "road", "outside", "corner", "block", "alley", "sidewalk", "main", "calle", "afuera", "esquina", "cuadra",
    "banqueta", "callejon",
))  # fmt: skip
_SEALED = _MENDED | frozenset(
    ["sealed", "patched", "capped", "fixing", "taparon", "sellaron", "reparando", "arreglado"]
)
_THERE = frozenset(["still", "again", "smell", "smells", "sigue", "huele", "otra", "todavia", "but", "pero"])


def mended_outside(hit: Hit, words: Sequence[Word]) -> bool:
    """“they fixed the gas leak in the street”."""
    if hit.payload.code != "gas_smell":
        return False
    near = words[max(0, hit.start - _FAR // 2) : hit.end + _FAR // 2]
    return (
        any(word.form in _STREET for word in near)
        and any(word.form in _SEALED for word in near)
        and not any(word.form in _THERE for word in words[hit.end :])
    )


_ELECTRICIANS = frozenset(["electrician", "electricians", "electricista", "electricistas"])
_MENDS = _MENDED | frozenset(["did", "redid", "puso", "cambiado", "arreglado", "replace", "fix"])
_PARTLY = frozenset((
    "not", "didnt", "never", "no", "nunca", "again", "otra", "vez", "volvio", "vuelve", "back", "keeps", "will", "needs",
    "coming", "called", "call", "says", "said", "dice", "dijo", "va", "tomorrow", "manana",
))  # fmt: skip
_SENSED = (
    "hot", "burn", "spark", "shock", "zap", "smell", "melt", "smok", "scorch", "tingl", "buzz", "calient", "quem",
    "chisp", "toque", "huele", "humo", "derrit", "trips", "arc",
)  # fmt: skip


def mended_by_an_electrician(hit: Hit, words: Sequence[Word]) -> bool:
    """“electrician already swapped the burnt outlet, now the oven won't heat”: nothing of it is told anew."""
    if hit.payload.code not in ("hot_wiring", "sparks", "shock"):
        return False
    near = words[max(0, hit.start - _FAR) : hit.end + _FAR]
    if not any(word.form in _ELECTRICIANS for word in near):
        return False
    end = _mended_at(hit, words)
    if end is None or any(word.form in _PARTLY for word in words[max(0, hit.start - _FAR) : end]):
        return False
    return not any(word.form.startswith(_SENSED) or word.form in _ANEW for word in words[end:])


def _mended_at(hit: Hit, words: Sequence[Word]) -> int | None:
    """Behind which word *hit* is mended: “swapped the burnt outlet”, “the outlet was burnt, the electrician swapped it”."""
    for at in range(hit.start - 1, max(-1, hit.start - 5), -1):
        if words[at].form in _MENDS:
            return hit.end
        if words[at].form not in _THINGS or words[at + 1].brk:
            break
    for at in range(hit.start + 1, min(len(words), hit.end + _FAR)):
        if words[at].form in _MENDS and any(
            word.form in _ELECTRICIANS for word in words[max(hit.end, at - 4) : at + 4]
        ):
            return at + 1
    return None


_THINGS = frozenset(
    ["the", "our", "my", "a", "that", "this", "whole", "old", "el", "la", "los", "las", "mi", "ese", "esa", "un"]
)
_ANEW = frozenset(["again", "otra", "volvio", "vuelve"])
