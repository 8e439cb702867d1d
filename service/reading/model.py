"""What one text says: the Reading. Values only; how it comes about is for the rest of this room."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import time
from typing import Literal

ASKED_KINDS = (
    "appliance", "symptom", "yes_no", "fuel", "variant", "brand", "age", "model", "serial", "code", "check_result",
    "name", "address", "postal_code", "phone", "offer", "access", "payer", "photo",
)  # fmt: skip
"""Kinds of question, as ``plainfault read`` takes them. ``observation`` and ``confirm`` are the conversation's own."""

Day = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
Week = Literal["this", "next"]
Part = Literal["morning", "afternoon", "evening"]
Language = Literal["en", "es", "mixed", "unknown"]
"""A part of the day."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One numbered choice as it was sent: its value and its words in the language it was sent in."""

    value: str
    say: str


@dataclass(frozen=True, slots=True)
class Asked:
    """
    The question that stands open when the text arrives.

    kind: one of ASKED_KINDS, ``observation`` or ``confirm``. appliance, code: what it was about (code: symptom, hazard,
    observation or check id). choices: numbered from 1 as sent. offers: the windows as sent, in order.
    """

    kind: str
    appliance: str | None = None
    code: str | None = None
    choices: tuple[Choice, ...] = ()
    offers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """
    A code found for an appliance (``unknown`` when none is sure), how sure (0 to 1), and the words that carried it.
    """

    appliance: str
    code: str
    score: float
    words: str
    start: int
    end: int
    rule: str


@dataclass(frozen=True, slots=True)
class HazardFound:
    """
    A hazard and the words that raised it (or, in ``denied_hazards``, that denied it). appliance: the machine it is told of,
    where the text names several.
    """

    code: str
    words: str
    start: int
    end: int
    rule: str
    appliance: str | None = None


@dataclass(frozen=True, slots=True)
class Seen:
    """An observation of the rulebook stated or answered: ``value`` is one of its values. hedged: "I think so"."""

    appliance: str
    id: str
    value: str
    words: str
    hedged: bool = False


@dataclass(frozen=True, slots=True)
class Theory:
    """What the customer thinks is broken: kept for the technician, never a symptom."""

    appliance: str
    cause: str | None
    words: str


@dataclass(frozen=True, slots=True)
class Wish:
    """
    When somebody may come, free of zone and calendar. Empty fields do not bind.

    days_in, days_out: weekdays. dates, dates_out: (month, day) pairs; relative, relative_out: days from today (0 today,
    1 tomorrow) as stated. What ends in "out" is ruled out. week: ``this`` or ``next``. start, end: local times of day.
    point: ``start`` is the hour that is meant ("at 2"), not the earliest. part: part of the day. soonest: "as soon as
    possible". requested: a word that asks for it stands before it ("can you come").
    holiday: it is told by a feast ("after the holidays"). also: further stretches of the day, from and to, that will do as
    well ("before 11 or after 3"). apart: where days have hours of their own ("tuesday before 11 or thursday after 3"), a wish
    for each; its hours hold for its days alone.
    """

    days_in: tuple[Day, ...] = ()
    days_out: tuple[Day, ...] = ()
    dates: tuple[tuple[int, int], ...] = ()
    relative: tuple[int, ...] = ()
    week: Week | None = None
    start: time | None = None
    end: time | None = None
    part: Part | None = None
    soonest: bool = False
    words: str = ""
    point: bool = False
    dates_out: tuple[tuple[int, int], ...] = ()
    relative_out: tuple[int, ...] = ()
    requested: bool = False
    holiday: bool = False
    also: tuple[tuple[time | None, time | None], ...] = ()
    apart: tuple[Wish, ...] = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """
    What the text answers to what was asked.

    kind: yes, no, dont_know, declined ("can't", "won't", "don't want to"), choice (``index`` from 0, ``value`` of the
    choice or the offer's text), none ("none of those"), either ("any works"), value (``value`` as stated, for brand,
    name, address, code...), fixed, not_fixed. hedged: said with doubt.
    """

    kind: Literal["yes", "no", "dont_know", "declined", "choice", "none", "either", "value", "fixed", "not_fixed"]
    value: str | None = None
    index: int | None = None
    hedged: bool = False


@dataclass(frozen=True, slots=True)
class Reading:
    """
    Everything one text (or several that rested together) says.

    language: en, es, mixed or unknown. intents in the order of weight. facts: vocabulary facts (``tried``, ``after``,
    ``access`` hold tuples; ``age_years`` a number; the rest strings). corrects: the text takes back what was said before
    ("sorry, I meant the washer"). doubted_hazards: to be asked about before anything else. may_want_no_more: texts
    of ours, said less than plainly. asks_when: the time or the window
    that it names stands in a question ("whens the earliest", "tomorrow at 8?") and so takes nothing. taken_back: machines that
    are said to have nothing or are left out ("no the dryer is fine"); meant_alone: those that alone are meant ("just the
    washer"). notes: for the desk, one sentence per step that was taken, in order.
    """

    text: str
    language: Language = "unknown"
    intents: tuple[str, ...] = ()
    appliances: tuple[str, ...] = ()
    symptoms: tuple[Found, ...] = ()
    denied: tuple[Found, ...] = ()
    hazards: tuple[HazardFound, ...] = ()
    denied_hazards: tuple[HazardFound, ...] = ()
    may_want_no_more: bool = False
    doubted_hazards: tuple[HazardFound, ...] = ()
    urgency: tuple[str, ...] = ()
    facts: Mapping[str, object] = field(default_factory=dict)
    observations: tuple[Seen, ...] = ()
    theories: tuple[Theory, ...] = ()
    wish: Wish | None = None
    answer: Answer | None = None
    corrects: bool = False
    asks_when: bool = False
    taken_back: tuple[str, ...] = ()
    meant_alone: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
