"""Which kind of a machine is described where it was asked for: “you pull the door open on the front, like a porthole”."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.reading.machines.kinds import VARIANTS_OF
from service.reading.model import Reading
from service.reading.words.normalising import Word


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


_OPENS = _set(
    "door doors open opens opening load loads loading lid abre abren abro puerta puertita carga mete meto metes echa echo put "
    "throw drop toss pull window ventana ventanita glass vidrio clothes ropa kind one las los de tapa "
    "tapadera agitator porthole"
)
_KINDS: Mapping[str, Mapping[str, frozenset[str]]] = {
    "washer": {
        "front_load": _set(
            "front frente enfrente adelante porthole round redonda redondo window ventana ventanita puertita submarine barco "
            "frontal ojo"
        ),
        "top_load": _set("top above arriba encima lid tapa tapadera agitator pole poste aspas superior"),
    },
    "freezer": {
        "chest": _set(
            "chest pecho lid tapa tapadera coffin ataud cofre baul acostado acostada horizontal box caja long low lays laying "
            "tumbado tumbada hielera"
        ),
        "upright": _set(
            "upright stands standing stand standup tall vertical parado parada paradito paradita alto alta pie closet"
        ),
    },
    "dryer": {
        "vented": _set("hose tube tubo tubito manguera duct ducto vented vents outside afuera exhaust roof techo"),
        "condenser": _set("tank bucket reservoir deposito tanque tanquecito empty dump vaciar vacio vaciarle ventless"),
    },
    "microwave": {
        "over_the_range": _set("stove range estufa cooktop burners bolted mounted hangs hanging hung colgado colgada"),
        "countertop": _set("counter countertop table mesa mesita barra cart toaster mostrador shelf"),
        "built_in": _set("wall pared cabinet cabinets gabinete drawer cajon empotrado trim frame mueble"),
    },
}
_WEAK = {
    "freezer": {
        "upright": _set("door puerta puertas shelves repisas drawers cajones fridge refri refrigerator"),
        "chest": _set("top arriba lift levanta"),
    }
}
"""What tells only where nothing else does: a chest may have a door, as people say."""
_NOT = _set("no not sin without isnt doesnt ni")
_REACH = 4
_MOST_WORDS = 24


def kind_described(named: str, appliance: str | None, words: Sequence[Word], text: Reading) -> str | None:
    """The kind of *appliance* that is *named*, or else the one that *words* describe before they tell a fault."""
    if VARIANTS_OF.get(named) == appliance:
        return named
    words = _first_sentence(words) if text.symptoms else words
    last = words[-1].end
    told_there = any(found.end <= last for found in text.symptoms)
    return (None if told_there else _described(appliance, words)) or named or None


def _first_sentence(words: Sequence[Word]) -> Sequence[Word]:
    return words[: next((at for at in range(1, len(words)) if words[at].brk == 2), len(words))]


def _described(appliance: str | None, words: Sequence[Word]) -> str | None:
    """The kind that *words* describe; None where they describe none, or more than one."""
    kinds = _KINDS.get(appliance or "")
    if kinds is None or len(words) > _MOST_WORDS:
        return None
    forms = [word.form for word in words]
    if appliance == "washer" and _OPENS.isdisjoint(forms):
        return None
    told = _named(kinds, words)
    if not told and appliance in _WEAK:
        told = _named(_WEAK[appliance], words)
    if appliance == "dryer" and not told and _without(kinds["vented"], words):
        return "condenser"
    return told[0] if len(told) == 1 else None


def _named(kinds: Mapping[str, frozenset[str]], words: Sequence[Word]) -> list[str]:
    return [
        kind
        for kind, own in kinds.items()
        if any(w.form in own and not _denied(words, at) for at, w in enumerate(words))
    ]


def _without(own: frozenset[str], words: Sequence[Word]) -> bool:
    """“no tube on it”."""
    return any(word.form in own and _denied(words, at) for at, word in enumerate(words))


def _denied(words: Sequence[Word], at: int) -> bool:
    """Whether a “no” or “without” stands before the word at *at*, in one statement with it."""
    for before in range(at - 1, max(at - _REACH, 0) - 1, -1):
        if words[before + 1].brk:
            return False
        if words[before].form in _NOT:
            return True
    return False
