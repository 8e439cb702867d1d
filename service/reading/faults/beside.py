"""What is said to work beside a fault: which denial it is, and which is but a part of telling the fault."""

from __future__ import annotations

import re
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.model import Found

_NO_DENIAL = {
    "dead": frozenset(("burner_dead", "stops_midcycle", "broken_glass")),
    "no_fill": frozenset(("overfill",)),
    "wet_load": frozenset(("no_spin",)),
    "vibration": frozenset(("no_agitate", "no_tumble", "no_spin")),
}
"""A denial to faults beside which its words only tell these: “one burner won't light, the others come on”."""

_BY_WORDS = {
    "noise": (
        frozenset(("dead", "burner_dead", "no_start", "runs_nonstop")),
        re.compile(r"hum|clic|beep|sound|noise|ruido|pit|suen|truen|zumb|ronr"),
    ),
    "jammed": (frozenset(("dead",)), re.compile(r"hum|zumb")),
    "leak": (
        frozenset(("no_water", "no_fill")),
        re.compile(r"^(?!.*(?:floor|piso|suelo|carpet|ground)).*(?:dry|sec[oa]|agua|water)"),
    ),
}
"""The same where the words denied are of its ordinary work: “dead, no hum”, “dry as a bone, no water”."""

_STARTS, _QUITS = "no_start", "stops_midcycle"
_PLAINLY = 0.85
"""At most the score of what is said without praise: “it starts and then quits”, not “it starts fine but quits”."""

_LIGHTS = re.compile(r"(s[ií] )?(me |le |se )?(pr[ie]+nden?|enc[ie]+nden?)\b")
_LIT = {"range": "burner_dead", "cooktop": "burner_dead", "range_hood": "fan_dead"}
"""What “prende” says of a machine whose work begins with it; of any other it says that there is power."""

_HOOD, _COMES_ON = "range_hood", re.compile(r"(comes|turns|kicks|powers|switches) (right )?on|runs")
"""A machine that comes on where its fan does."""

_LAMP = re.compile(r"(the )?light'?s?( is| are| still)* on$")
_LAMPED = frozenset(("microwave", "range_hood", "refrigerator", "freezer", "range", "wall_oven", "beverage_cooler"))
"""Machines of which “light's on” says that the lamp inside is lit; of any other, that there is power."""

_BURNS = frozenset(("range", "cooktop"))
_CLICKS = re.compile(r"clic|tick|chasq")
_CLICKING = "clicks_nonstop"
"""“no more clicking” of what burns gas: its igniter."""

_COLD = "no_heat"
"""“prende pero no calienta”: then it only has power."""

_NOT_OURS = frozenset(("other",))
_SHOWN, _POWER, _WAITING, _DARK = "controls_fault", "dead", "no_start", "light_out"


def without_the_faults_own(stated: Statements) -> Statements:
    """*stated* without denials that only tell a fault beside them; “the clock is on but it won't start” denies dead."""
    if not stated.denied:
        return stated
    present = {(f.appliance, f.code) for f in stated.symptoms}
    denied: dict[tuple[str, str], Found] = {}
    for found in stated.denied:
        machine, code = found.appliance, found.code
        if machine in _NOT_OURS or _is_no_gas(found) or _tells_a_fault(found, present):
            continue
        if (
            code == _POWER
            and machine in _LIT
            and (machine, _COLD) not in present
            and (_LIGHTS.match(found.words.lower()) or (machine == _HOOD and _COMES_ON.match(found.words.lower())))
        ):
            found, code = replace(found, code=_LIT[machine]), _LIT[machine]
        if code == _POWER and machine in _LAMPED and _LAMP.match(found.words.lower()):
            found, code = replace(found, code=_DARK), _DARK
        if code == "noise" and machine in _BURNS and _CLICKS.search(found.words.lower()):
            found, code = replace(found, code=_CLICKING), _CLICKING
        if code == _SHOWN and (machine, _WAITING) in present:
            found, code = replace(found, code=_POWER), _POWER
        if (machine, code) not in present and not _is_heat_of_a_temperature(found, stated):
            denied.setdefault((machine, code), found)
    return replace(stated, denied=tuple(denied.values()))


def _is_no_gas(found: Found) -> bool:
    """“no smell”, “no huele” of what burns gas: it denies the gas, no odor."""
    return found.code == "odor" and found.appliance in _BURNS and "smelly" not in found.words.lower()


def _tells_a_fault(found: Found, present: set[tuple[str, str]]) -> bool:
    machine, code = found.appliance, found.code
    if any((machine, fault) in present for fault in _NO_DENIAL.get(code, ())):
        return True
    if code == _STARTS:
        return (machine, _QUITS) in present and found.score <= _PLAINLY
    faults, words = _BY_WORDS.get(code, (frozenset(), None))
    return (
        words is not None and any((machine, f) in present for f in faults) and bool(words.search(found.words.lower()))
    )


def _is_heat_of_a_temperature(found: Found, stated: Statements) -> bool:
    """“calienta parejo”: of the words that say that the temperature holds, one alone says no more that it heats."""
    return found.code == _COLD and any(
        f.code == "temp_off" and f.appliance == found.appliance and f.start <= found.start < f.end
        for f in stated.denied
    )
