"""Machines that nothing is wrong with: to be hooked up, cleaned, looked over. A visit for one is no vague complaint."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from itertools import pairwise

from service.reading.faults.stated import Statements
from service.reading.faults.symptoms import VAGUE
from service.reading.model import Found
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


_ASKED = frozenset(("ask_price", "ask_warranty", "ask_help", "fixed"))
_MENDS = ("fix", "repair", "look", "check", "servic", "compon", "arregl", "repar", "revis", "checa")
"""How words begin that name the work asked about: “what do you charge to look at a washer”."""


def without_the_sound(stated: Statements, normal: Normal, intents: Collection[str]) -> Statements:
    """
    *stated* without vague complaints, where a text says that nothing is amiss, wants but what sound machines need, calls off a
    visit, or where but a part or the work is named of which it asks (*intents*): “ballpark on a new pump”.
    """
    if not any(found.code == VAGUE for found in stated.symptoms):
        return stated
    asked = not _ASKED.isdisjoint(intents)
    sound = "cancel" in intents or is_sound(normal.words)

    def is_none(found: Found) -> bool:
        named = asked and (found.rule == "theory" or found.words.lower().startswith(_MENDS))
        return found.code == VAGUE and (sound or named)

    return replace(stated, symptoms=tuple(found for found in stated.symptoms if not is_none(found)))


_AILS = (
    "look", "repair", "fix", "servic", "act", "trouble", "problem", "issue", "nonsense", "something", "wrong", "sick", "batall",
    "arregl", "repar", "revis", "checa", "compon", "algo", "mal", "fall", "ver", "bad", "check", "help", "need", "work",
)  # fmt: skip
"""How words begin that tell that a machine ails, without which a visit may be for anything."""


def ails(words: Sequence[Word]) -> bool:
    """Whether *words* with a visit wanted say that the machine is to be mended: “need my dishwasher looked at”."""
    return any(word.form.startswith(_AILS) for word in words)


def is_sound(words: Sequence[Word]) -> bool:
    """Whether *words* say that nothing is wrong with a machine, or name work that is done on a sound one."""
    forms = [word.form for word in words]
    if not _WORK.isdisjoint(forms) or not _WORK_TOLD.isdisjoint(pairwise(forms)):
        return True
    return any(
        form in _AMISS and not _NONE.isdisjoint(forms[max(at - _REACH, 0) : at]) for at, form in enumerate(forms)
    )
