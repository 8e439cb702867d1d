"""The numbers behind the authors' words of frequency, and the few other figures a belief rests on."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from service.rulebook.schema.common import Grade

GRADES: Mapping[Grade, float] = MappingProxyType(
    {
        "never": 0.01,
        "rarely": 0.07,
        "sometimes": 0.25,
        "about half": 0.50,
        "often": 0.72,
        "very often": 0.83,
        "almost always": 0.92,
        "always": 0.99,
    }
)
"""
Chance an answer is seen when the cause is the true one. Medians of what about 230 science writers meant by each word:
Mosteller and Youtz 1990, Statistical Science 5(1):2-34. ``never`` and ``always`` are held at .01 and .99, so that one
wrong answer cannot rule a cause out.
"""

FLOOR, CEILING = 0.01, 0.99
"""No single likelihood leaves these bounds, whatever was written or learned."""

HEDGED = 0.7
"""How far "I think so" is taken as "yes": soft evidence, not a weight on the logarithm. Our own choice, no source."""

THEORY_LIFT = 1.5
"""Odds a customer's own theory adds to a cause it names. Our own choice, no source: kept small, they often guess."""

SOMETHING_ELSE_LEAST = 0.05
"""The least share of the prior that belongs to what is not listed, so that the line stays humble when nothing fits."""

UNSAFE_FROM = 0.01
"""A check that is unsafe for a cause is off from this belief in it: a design rule, erring to safety."""


def chance(grade: Grade) -> float:
    """The number behind *grade*."""
    return GRADES[grade]


def held_within(value: float) -> float:
    """*value* kept within ``FLOOR`` and ``CEILING``."""
    return min(CEILING, max(FLOOR, value))
