"""What somebody has on a day: company, a wedding, a class. Such a day is told as a reason to hurry and is none asked for."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.normalising import Word

_HAVE = frozenset((
    "have", "has", "having", "got", "hosting", "host", "throwing", "show", "showing", "tengo", "tenemos", "tiene", "hay",
    "habra", "viene", "vienen",
))  # fmt: skip
_OWN = frozenset((
    "i", "we", "my", "our", "ive", "im", "were", "kid", "kids", "son", "daughter", "wife", "husband", "church", "mi", "mis",
    "nuestra", "hijo", "hija", "esposo", "esposa",
))  # fmt: skip
_OCCASIONS = frozenset((
    "party", "wedding", "funeral", "birthday", "luncheon", "brunch", "banquet", "bbq", "cookout", "reception", "company",
    "guests", "graduation", "shower", "baptism", "quinceanera", "recital", "soccer", "practice", "potluck", "supper", "showing",
    "inspection", "wake", "reunion", "fiesta", "boda", "bautizo", "visitas", "invitados", "cumpleanos", "velorio", "funerales",
    "xv", "posada", "people", "family", "inlaws", "place", "gente", "familia", "suegros", "primera",
))  # fmt: skip
_FREE = frozenset((
    "off", "free", "available", "open", "opening", "openings", "time", "libre", "disponible", "can", "could", "need", "until",
    "by", "before", "puede", "pueden", "antes", "para", "come", "send",
))  # fmt: skip
_WITHIN = 7
"""How far before the day what somebody has may stand, in words."""


def is_occasion(words: Sequence[Word], at: int) -> bool:
    """“we have the funeral luncheon Saturday”, “my kid has soccer tomorrow”: the day at *at* is that of an occasion."""
    first = at
    while first > max(0, at - _WITHIN) and words[first].brk != 2:
        first -= 1
    forms = [word.form for word in words[first:at]]
    has = next((place for place, form in enumerate(forms) if form in _HAVE), None)
    if has is None or _FREE & set(forms[has:]):
        return False
    by_us = bool(_OWN & set(forms[:has])) or forms[has] in ("tengo", "tenemos", "hay", "habra", "vienen", "hosting")
    return by_us and bool(_OCCASIONS & set(forms[has:]))
