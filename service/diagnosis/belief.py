"""What is probably wrong: the causes by share, and which evidence speaks for and against each."""

from __future__ import annotations

import numpy as np

from service.diagnosis.held import Held, held
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Belief, Evidence, Likely
from service.diagnosis.table import Table, compiled
from service.rulebook.schema.appliance import Appliance

TELLING = 1.2
"""Evidence is named as a reason when it makes a cause this many times likelier, or less likely, against the others."""
NAMED_AT_MOST = 4
LEAST_SHARE = 1e-12
"""A share is never exactly 0 or 1, however much evidence there is."""


def believe(appliance: Appliance, evidence: Evidence) -> Belief:
    """
    The belief over the causes of *appliance* and ``something_else``, largest first; ties in file order.

    One fault, answers independent given the cause (naive Bayes); "don't know" and what was not asked count for nothing.
    Ids in ``because`` and ``against`` are symptoms, observations, checks, hazards, ``a|b`` for a group, ``theory``.
    """
    table = compiled(appliance)
    known = held(table, evidence)
    shares = weigh(table.prior, known.rows)
    reasons = _reasons(table, known)
    order = sorted(range(len(shares)), key=lambda place: (-round(float(shares[place]), 12), place))
    return Belief(tuple(Likely(table.causes[k], float(shares[k]), *reasons[k]) for k in order))


def weigh(prior: Floats, rows: Floats) -> Floats:
    """Posterior shares from *prior* and one row of likelihoods per piece of evidence, in logarithms throughout."""
    weights = np.log(prior) + np.log(rows).sum(axis=0)
    shares = np.exp(weights - weights.max())
    shares = np.maximum(shares / shares.sum(), LEAST_SHARE)
    return np.asarray(shares / shares.sum())


def shares_of(table: Table, evidence: Evidence) -> Floats:
    """The shares alone, in the table's order of causes."""
    return weigh(table.prior, held(table, evidence).rows)


def _reasons(table: Table, known: Held) -> list[tuple[tuple[str, ...], tuple[str, ...]]]:
    """For each cause the ids for and against it, by likelihood under it over likelihood under all the others."""
    if not known.ids:
        return [((), ())] * len(table.causes)
    prior = table.prior
    others = (known.rows @ prior)[:, None] - known.rows * prior
    telling = np.log(known.rows * (1 - prior) / others)
    least = float(np.log(TELLING))
    order = np.argsort(-np.abs(telling), axis=0, kind="stable").T.tolist()
    found = []
    for cause, ranked in enumerate(order):
        column = telling[:, cause].tolist()
        because = tuple(known.ids[place] for place in ranked if column[place] > least)
        against = tuple(known.ids[place] for place in ranked if column[place] < -least)
        found.append((because[:NAMED_AT_MOST], against[:NAMED_AT_MOST]))
    return found
