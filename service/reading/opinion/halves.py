"""A refrigerator's two halves: which of them is warm, or both; one complaint, however many words tell of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.opinion.leaning import TOLD_TEXTS
from service.reading.words.normalising import Word

_COOLS = "refrigerator"
_BOTH, _FRIDGE, _FREEZER = "not_cooling", "warm_fridge", "warm_freezer"
_WARM = frozenset([_BOTH, _FRIDGE, _FREEZER])
_EXPLICIT = 2
"""A phrase of more words than this and one says which half it is, or both, whatever else was heard."""
_LESS = _WARM | {"temp_off"}


_OF_HALVES = (
    "free",
    "froz",
    "conge",
    "hiel",
    "helad",
    "ice",
    "side",
    "part",
    "half",
    "lado",
    "arriba",
    "abajo",
    "up",
    "below",
)
"""How words begin that tell one half from the other; “the fridge is fine” by itself denies nothing of them."""


def by_halves(stated: Statements, words: Sequence[Word]) -> Statements:
    """
    *stated*, told in *words*, with one code for a refrigerator that does not cool: the half that is not said to work, where
    one is; both where both are warm.
    """
    warm = {f.code for f in stated.symptoms if f.appliance == _COOLS} & _WARM
    if not warm:
        if any(f.code == _FRIDGE for f in stated.denied) and not any(w.form.startswith(_OF_HALVES) for w in words):
            return replace(stated, denied=tuple(f for f in stated.denied if f.code != _FRIDGE))
        return stated
    works = {f.code for f in stated.denied if f.appliance == _COOLS} & _WARM
    explicit = {
        f.code
        for f in stated.symptoms
        if f.appliance == _COOLS and f.words.count(" ") > _EXPLICIT and f.rule != TOLD_TEXTS
    }
    code = _the_one(warm & explicit or warm, works - {_BOTH})
    first = next(f for f in stated.symptoms if f.appliance == _COOLS and f.code in (warm & {code} or warm))
    symptoms = []
    for found in stated.symptoms:
        if found is first:
            symptoms.append(replace(found, code=code))
        elif found.appliance != _COOLS or found.code not in _LESS:
            symptoms.append(found)
    denied = (f for f in stated.denied if f.appliance != _COOLS or f.code not in (code, _BOTH))
    return replace(stated, symptoms=tuple(symptoms), denied=tuple(denied))


def _the_one(warm: set[str], works: set[str]) -> str:
    if works == {_FREEZER}:
        return _FRIDGE
    if works == {_FRIDGE}:
        return _FREEZER
    if _FREEZER in warm and len(warm) > 1:
        return _BOTH
    return _FRIDGE if _FRIDGE in warm else next(iter(warm))
