"""An oven whose gas lights late, told in pieces: “glows but no flame for like 2 min then whoosh” is no burner on top."""

from __future__ import annotations

import re
from dataclasses import replace

from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Found, Reading, Seen
from service.reading.words.normalising import fold

_OVENS = ("range", "wall_oven")
_SEEN, _LATE, _COLD = "igniter_glow", "late", "no_heat"
_FUEL, _NO_GAS = "cook_kind", ("electric", "induction")
_OF_THE_BURN = frozenset(("burner_dead", "noise", "temp_off", "clicks_nonstop", "weak_flame"))
"""What such words sound like as a complaint of its own: of a burner, of a sound, of the heat."""
_BESIDE = frozenset(("click_heard", "clicks_when", "noise_kind", _SEEN))
"""What of the burners on top such words sound like."""

_BURSTS = re.compile(
    r"(?<!no )(?<!sin )\b(?:w?h?oosh\w*|whoomp\w*|woomp\w*|poofs?|foom|fwoomp|fireball|flamazos?|llamarazos?|llamaradas?|"
    r"fogonazos?|bolas? de fuego|big flames?|ball of fire|(?:a|big|loud|little|small|de|un) (?:boom|bang|pop|golpe|tronido))\b"
)
_WAITS = re.compile(
    r"\b(?:min|mins|minutes?|minutos?|secs?|seconds|segundos|forever|late|finally|eventually|a while|long time|so long|slow|"
    r"slowly|delay\w*|then|until|tarda\w*|tarde|un rato|ratito|hasta que|despues|luego|por fin)\b"
)
_LIGHTS = re.compile(
    r"\b(?:light|lights|lit|lighting|ignit\w*|glow\w*|flames?|catch\w*|"
    r"prend\w*|enciend\w*|encend\w*|flama|roj[oa]|gas)\b"
)
_OVEN = re.compile(r"\b(?:oven|horno|broiler|bake|baking|hornear|ignit[eo]rs?|glow\w*|roj[oa])\b")
_ON_TOP = re.compile(r"\b(?:burners?|stovetop|cooktop|quemador(?:es)?|hornillas?|parrillas?|knobs?|perillas?)\b")


def take(turn: Turn, reading: Reading) -> Reading:
    """
    *reading* with gas that lights late in an oven for what it is: an oven that does not heat, and lights with a whoosh.

    Only where the oven is spoken of, here or before, and not the burners on top. Dangers stay as they were read.
    """
    told, ticket = fold(reading.text), turn.state.in_focus
    if not (_BURSTS.search(told) and _WAITS.search(told) and _LIGHTS.search(told)) or _ON_TOP.search(told):
        return reading
    machine = _machine(reading, ticket)
    if machine is None or not (_OVEN.search(told) or machine == "wall_oven" or _is_of_the_oven(ticket)):
        return reading
    if ticket is not None and ticket.appliance == machine and ticket.observations.get(_FUEL) in _NO_GAS:
        return reading
    rules = turn.rulebook.appliances.get(machine)
    if rules is None or _SEEN not in rules.observations or _COLD not in rules.symptoms:
        return reading
    words = reading.text.strip()[:120]
    cold = Found(machine, _COLD, 0.8, words, 0, len(words), rule=f"{machine}.{_SEEN}")
    known = any(f.code == _COLD and f.appliance == machine for f in reading.symptoms)
    others = tuple(f for f in reading.symptoms if f.appliance != machine or f.code not in _OF_THE_BURN)
    seen = tuple(s for s in reading.observations if s.appliance != machine or s.id not in _BESIDE)
    told_now = [Seen(machine, _SEEN, _LATE, words)]
    if machine == "range":
        told_now.append(Seen(machine, "which_part", "oven", words))
    turn.because("heard", f'"{words}" tells of gas that lights late in the oven: {_COLD}, {_SEEN} is {_LATE}.', _SEEN)
    return replace(
        reading,
        symptoms=others if known else (cold, *others),
        denied=tuple(f for f in reading.denied if f.code not in (_COLD, *_OF_THE_BURN)),
        observations=(*seen, *told_now),
        answer=None,
        intents=tuple(dict.fromkeys(("report_problem", *(i for i in reading.intents if i not in ("fixed", "answer"))))),
    )


def _machine(reading: Reading, ticket: TicketState | None) -> str | None:
    """The range or oven that is spoken of."""
    named = (
        [f.appliance for f in reading.symptoms] + [s.appliance for s in reading.observations] + [*reading.appliances]
    )
    held = [ticket.appliance] if ticket is not None and ticket.open else []
    spoken = [a for a in (*held, *named) if a != "unknown"]
    return spoken[0] if spoken and spoken[0] in _OVENS else next((a for a in named if a in _OVENS), None)


def _is_of_the_oven(ticket: TicketState | None) -> bool:
    return ticket is not None and ticket.observations.get("which_part") == "oven"
