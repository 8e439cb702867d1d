"""What the diagnosis takes and gives: evidence in, belief, next step and visit plan out. Values only."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

SOMETHING_ELSE = "something_else"
"""The leak cause that every belief holds: what is not listed."""

NOT_LOOKED_AT = "not_looked_at"
"""Recorded in place of a cause when the visit was undone, nobody home or no way in: it teaches nothing."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """
    All that is known of one machine's complaint.

    symptoms: code to said (True) or denied (False). one_of: groups of symptoms of which one is true ("dishes not clean or
    dry"). observations: id to value. hedged: ids (symptom or observation) said with doubt. checks: owner check id to
    ``fixed``, ``not_fixed``, ``declined`` or ``unable``. facts: vocabulary facts (tried, after, age_years, fuel...).
    theories: cause ids the customer named. hazards: codes held.
    """

    symptoms: Mapping[str, bool] = field(default_factory=dict)
    one_of: tuple[tuple[str, ...], ...] = ()
    observations: Mapping[str, str] = field(default_factory=dict)
    hedged: frozenset[str] = frozenset()
    checks: Mapping[str, str] = field(default_factory=dict)
    facts: Mapping[str, object] = field(default_factory=dict)
    theories: tuple[str, ...] = ()
    hazards: frozenset[str] = frozenset()


class Likely(NamedTuple):
    """One cause with its share of the belief and the evidence that speaks for and against it, most telling first."""

    cause: str
    share: float
    because: tuple[str, ...] = ()
    against: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Belief:
    """Causes by share, largest first; shares sum to 1 and include ``something_else``."""

    likely: tuple[Likely, ...]

    def share(self, cause: str) -> float:
        """The share of *cause*; 0.0 if it is not a cause of this appliance."""
        return next((item.share for item in self.likely if item.cause == cause), 0.0)


@dataclass(frozen=True, slots=True)
class Ask:
    """Ask this next: a symptom (``symptom``), a group to tell apart (``one_of``) or an observation. Both figures: minutes."""

    kind: Literal["observation", "symptom", "one_of"]
    code: str
    options: tuple[str, ...] = ()
    value: float = 0.0
    price: float = 0.0
    considered: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Try:
    """Offer this owner check: chance that it settles the complaint, minutes, and what else was weighed."""

    check: str
    chance: float
    minutes: int
    considered: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Stop:
    """Nothing more to ask or try: why (``no_value``, ``same_plan``, ``cap``, ``danger``, ``stop_use``, ``declined``)."""

    why: str
    considered: tuple[tuple[str, float], ...] = ()


NextStep = Ask | Try | Stop


@dataclass(frozen=True, slots=True)
class Limits:
    """How far the line may go: questions and checks already used and allowed; what must not be asked or tried again."""

    questions_used: int = 0
    questions_max: int = 5
    checks_used: int = 0
    checks_max: int = 2
    asked: frozenset[str] = frozenset()
    declined: frozenset[str] = frozenset()
    checks_off: frozenset[str] = frozenset()
    checks_allowed: bool = True


@dataclass(frozen=True, slots=True)
class PlannedTest:
    """A technician's test in its place: minutes so far, what it looks for, and the share it would settle."""

    test: str
    minutes: float
    looks_for: tuple[tuple[str, float], ...]
    opens: str | None = None


@dataclass(frozen=True, slots=True)
class LoadItem:
    """A part weighed: chance it is needed, whether to carry it, and the saving in cents that decided it."""

    part: str
    chance: float
    carry: bool
    saving_cents: int


@dataclass(frozen=True, slots=True)
class VisitPlan:
    """
    What the technician should do and bring.

    tests in order; load: every part with a chance, carried first; tools: ids. finish: chance to finish on this visit with
    this load; finish_with: (part, chance) that would raise it most, if any. minutes_usual, minutes_promise: median and
    promised quantile of the visit. estimate: True while fewer than 50 outcomes of the shop's own stand behind it.
    """

    belief: Belief
    tests: tuple[PlannedTest, ...]
    load: tuple[LoadItem, ...]
    tools: tuple[str, ...]
    finish: float
    finish_with: tuple[str, float] | None
    minutes_usual: int
    minutes_promise: int
    estimate: bool = True


@dataclass(frozen=True, slots=True)
class Triage:
    """The level and the reasons for it, as short English phrases for the desk."""

    level: Literal["now", "today", "soon", "routine"]
    reasons: tuple[str, ...]
