"""How often each answer is seen with each cause: the authors' grades of one appliance as rows of numbers."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from service.diagnosis.grades import CEILING, FLOOR, GRADES, SOMETHING_ELSE_LEAST
from service.rulebook.schema.appliance import Appliance, Observation
from service.rulebook.schema.common import Grade

Floats = NDArray[np.float64]
Graded = Grade | Mapping[str, Grade]


def prior(appliance: Appliance) -> Floats:
    """Shares of the causes in file order, then of ``something_else`` (at least a twentieth); they sum to 1."""
    weights = np.array([cause.weight for cause in appliance.causes.values()])
    named = float(weights.sum())
    other = max(appliance.something_else, named * SOMETHING_ELSE_LEAST / (1 - SOMETHING_ELSE_LEAST))
    return np.append(weights, other) / (named + other)


def yes_row(appliance: Appliance, code: str, otherwise: Grade) -> Floats:
    """How often *code* is seen with each cause; *otherwise* with those that do not list it; their mean with something else."""
    named = [_yes(cause.evidence.get(code), otherwise) for cause in appliance.causes.values()]
    return _with_something_else(appliance, np.clip(np.array(named), FLOOR, CEILING))


def value_rows(appliance: Appliance, observation: Observation) -> dict[str, Floats]:
    """
    For each value of *observation*, how often it is given with each cause.

    Yes or no: complements. One of several: the authored grades of a cause, divided by their sum.
    """
    if not observation.answers:
        yes = _yes_or_no(appliance, observation)
        return {"yes": yes, "no": 1 - yes}
    values = observation.values
    rows = np.array(
        [_which(cause.evidence.get(observation.id), observation, values) for cause in appliance.causes.values()]
    )
    return {value: _with_something_else(appliance, rows[:, place]) for place, value in enumerate(values)}


def _yes_or_no(appliance: Appliance, observation: Observation) -> Floats:
    otherwise = _yes(observation.otherwise, "sometimes")
    named = [_yes(cause.evidence.get(observation.id), otherwise) for cause in appliance.causes.values()]
    return _with_something_else(appliance, np.clip(np.array(named), FLOOR, CEILING))


def _yes(graded: Graded | None, otherwise: Grade | float) -> float:
    """The chance of *yes*; two grades, of yes and of no, are divided by their sum."""
    if graded is None:
        return otherwise if isinstance(otherwise, float) else GRADES[otherwise]
    if isinstance(graded, str):
        return GRADES[graded]
    yes, no = (GRADES[graded[value]] if value in graded else None for value in ("yes", "no"))
    if yes is not None and no is not None:
        return yes / (yes + no)
    if yes is not None:
        return yes
    return 1 - no if no is not None else 0.5


def _which(graded: Graded | None, observation: Observation, values: tuple[str, ...]) -> Floats:
    """One cause's chances of the values, summing to 1; values it does not grade follow ``otherwise``, else share the rest."""
    usual = observation.otherwise if isinstance(observation.otherwise, Mapping) else {}
    own = graded if isinstance(graded, Mapping) else {}
    known = {value: GRADES[own[value]] for value in values if value in own}
    known |= {value: GRADES[usual[value]] for value in values if value in usual and value not in known}
    left = len(values) - len(known)
    rest = max(FLOOR, (1 - sum(known.values())) / left) if left else 0.0
    row = np.array([known.get(value, rest) for value in values])
    return np.asarray(row / row.sum())


def _with_something_else(appliance: Appliance, named: Floats) -> Floats:
    """*named* and behind it their mean by weight: middling for what is not listed, so that it neither wins nor vanishes."""
    weights = np.array([cause.weight for cause in appliance.causes.values()])
    return np.append(named, float(named @ weights / weights.sum()))
