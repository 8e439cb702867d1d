"""What the words as a whole seem to tell and only tell again: a fault in other words, a danger, a breaker only named."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.opinion.second_opinion import NOTHING, Opinion

BESIDE_A_DANGER = 0.1
"""
The margin from which a fault is taken beside a danger, whose words are much like those of faults; what stood lower was wrong
eight times of eleven.
"""

_LEAK = "leak"
"""The fault beside water that is a danger."""

_DRY_DANGERS = frozenset(["refrigerant_leak", "hot_wiring", "smoke", "fire"])
"""Dangers told in words much like those of a leak, and with no water."""

OF_WATER = 0.5
"""The margin from which a leak is taken beside an oily spot."""

_DOUBLES = {
    "broken_glass": "broken_part",
    "door_fault": "jammed",
    "fan_dead": "weak_suction",
    "no_ice": "overfill",
    "overfill": "no_fill",
    "stops_midcycle": "burner_dead",
}
"""Codes in words much like those of another, by which that is told again where a phrase told it: “drawer is stuck”."""

DOUBLED = 0.7
"""The margin from which such a code is taken all the same."""

_DEAD = "dead"
_ALIVE = frozenset((
    "burner_dead", "no_drain", "no_fill", "no_spin", "no_tumble", "no_agitate", "turntable_stuck", "fan_dead", "not_cooling",
    "warm_freezer", "no_heat",
))  # fmt: skip
"""What no dead machine does: where one of these is said to work, only its part fails: “el horno no prende, hornillas sí”."""

_TRIPS = re.compile(
    r"trip|pop|bl[eo]w|flip|kick|thr[eo]w|knock|short|out|off|bot|brinc|salt|tumb|baj|dispar|vuel|cae|quem"
)
_BREAKER, _SAID = "trips_breaker", -0.5
"""What stands lower is not told at all."""


def told_again(margins: Mapping[str, float], stated: Statements, machine: str, text: str) -> set[str]:
    """The codes of *margins* that only double what a phrase told of *machine*, or tell of a breaker that is only named."""
    phrased = {f.code for f in stated.symptoms if f.appliance == machine}
    again = (
        {c for c, other in _DOUBLES.items() if other in phrased and margins.get(c, 0.0) < DOUBLED} if phrased else set()
    )
    if margins.get(_BREAKER, -1.0) > _SAID and not _TRIPS.search(text.lower()):
        again.add(_BREAKER)
    if any(f.appliance == machine and f.code in _ALIVE for f in stated.denied):
        again.add(_DEAD)
    return again


def beside_a_danger(opinion: Opinion, untold: float, dangers: Collection[str]) -> Opinion:
    """
    *opinion* with only what it tells plainly, though *dangers* are told; the rest has a margin of *untold* at most. An oily
    spot is no leak of water.
    """
    as_told = (NOTHING, _LEAK) if _DRY_DANGERS.isdisjoint(dangers) else (NOTHING,)
    least = {_LEAK: OF_WATER} if "refrigerant_leak" in dangers else {}
    margins = {
        c: m if c in as_told or m >= least.get(c, BESIDE_A_DANGER) else min(m, untold)
        for c, m in opinion.margins.items()
    }
    return replace(opinion, margins=margins)
