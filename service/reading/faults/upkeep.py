"""Machines that nothing is wrong with: to be hooked up, cleaned, looked over. A visit for one is no vague complaint."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from service.reading.faults.stated import Statements
from service.reading.faults.symptoms import VAGUE
from service.reading.words.normalising import Normal, Word

_WORK = frozenset((
    "hook", "install", "installed", "installing", "installation", "hookup", "hooked", "convert", "converted", "conversion",
    "haul", "maintenance", "maintenence", "tuneup", "checkup", "yearly", "annual", "annually", "inspection", "inspected",
    "servicing", "instalar", "instalen", "instale", "instalo", "instalacion", "instalarla", "instalarlo", "conectar",
    "conecten", "conecte", "mantenimiento", "revision", "inspeccion", "anual", "prevencion", "limpieza", "convertir",
    "convierten",
))  # fmt: skip
"""What is done to a machine that works."""
_WORK_TOLD = frozenset((
    ("hook", "up"), ("hooking", "up"), ("tune", "up"), ("check", "up"), ("a", "cleaning"), ("clean", "my"), ("clean", "the"),
    ("a", "year"), ("al", "ano"), ("cada", "ano"), ("every", "year"), ("just", "cleaning"), ("put", "in"), ("set", "up"),
    ("de", "rutina"), ("peace", "of"), ("just", "asking"), ("a", "friend"), ("un", "amigo"), ("una", "amiga"), ("pasar", "a"),
))  # fmt: skip
_NONE = frozenset(
    (
        "nothing",
        "none",
        "not",
        "nada",
        "no",
        "isnt",
        "aint",
        "arent",
        "ninguna",
        "ninguno",
        "nothings",
        "nuthin",
        "nothin",
    )
)
_AMISS = frozenset((
    "wrong", "broken", "broke", "bad", "malo", "descompuesta", "descompuesto", "mal", "danado", "danada", "rota", "roto",
))  # fmt: skip
_REACH = 4


def without_the_sound(stated: Statements, normal: Normal) -> Statements:
    """*stated* without vague complaints, where a text says that nothing is amiss or wants but what sound machines need."""
    if not any(found.code == VAGUE for found in stated.symptoms) or not is_sound(normal.words):
        return stated
    return replace(stated, symptoms=tuple(found for found in stated.symptoms if found.code != VAGUE))


def is_sound(words: Sequence[Word]) -> bool:
    """Whether *words* say that nothing is wrong with a machine, or name work that is done on a sound one."""
    forms = [word.form for word in words]
    if not _WORK.isdisjoint(forms) or not _WORK_TOLD.isdisjoint(pairwise(forms)):
        return True
    return any(
        form in _AMISS and not _NONE.isdisjoint(forms[max(at - _REACH, 0) : at]) for at, form in enumerate(forms)
    )
