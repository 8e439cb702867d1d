"""What is probably wrong: the causes by share, and which evidence speaks for and against each."""

from __future__ import annotations

from math import log

import numpy as np

from service.diagnosis.held import Held, held
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Belief, Evidence, Likely
from service.diagnosis.table import Table, compiled
from service.rulebook.schema.appliance import Appliance

TELLING = 1.2
"""Evidence is named as a reason when it makes a cause this many times likelier, or less likely, against the others."""
LEAST_TELLING = log(TELLING)
NAMED_AT_MOST = 4
REASONS_FROM = 0.001
"""Reasons are given for causes with at least this share."""
NO_REASONS: tuple[tuple[str, ...], tuple[str, ...]] = ((), ())
LEAST_SHARE = 1e-12
"""A share is never exactly 0 or 1, however much evidence there is."""


def believe(appliance: Appliance, evidence: Evidence) -> Belief:
    """
    The belief over the causes of *appliance* and ``something_else``, largest first; ties in file order.

    One fault, answers independent given the cause (naive Bayes); "don't know" and what was not asked count for nothing.
    Reasons, for causes with at least ``REASONS_FROM``, are ids of symptoms, observations, checks and hazards, ``a|b`` for a
    group, and ``theory``.
    """
    table = compiled(appliance)
    known = held(table, evidence)
    shares = weigh(table.prior, known.rows)
    reasons = _reasons(table, known, np.flatnonzero(shares >= REASONS_FROM).tolist())
    order = (-shares.round(12)).argsort(kind="stable").tolist()
    each = shares.tolist()
    return Belief(tuple([Likely(table.causes[k], each[k], *reasons.get(k, NO_REASONS)) for k in order]))


def weigh(prior: Floats, rows: Floats) -> Floats:
    """Posterior shares from *prior* and one row of likelihoods per piece of evidence, in logarithms throughout."""
    weights = np.log(prior)
    weights += np.log(rows).sum(axis=0)
    weights -= weights.max()
    shares = np.exp(weights, out=weights)
    shares /= shares.sum()
    np.maximum(shares, LEAST_SHARE, out=shares)
    shares /= shares.sum()
    return shares


def shares_of(table: Table, evidence: Evidence) -> Floats:
    """The shares alone, in the table's order of causes."""
    return weigh(table.prior, held(table, evidence).rows)


def _reasons(table: Table, known: Held, causes: list[int]) -> dict[int, tuple[tuple[str, ...], tuple[str, ...]]]:
    """For each of *causes* the ids for and against it, by likelihood under it over likelihood under all the others."""
    if not known.ids or not causes:
        return {}
    prior = table.prior[causes]
    rows = known.rows[:, causes]
    telling = np.log(rows * (1 - prior) / ((known.rows @ table.prior)[:, None] - rows * prior))
    size = np.abs(telling)
    order = (-size).argsort(axis=0, kind="stable")
    counts = (size > LEAST_TELLING).sum(axis=0).tolist()
    found = {}
    for cause, ranked, column, count in zip(causes, order.T.tolist(), telling.T.tolist(), counts, strict=True):
        if count:
            because = tuple([known.ids[place] for place in ranked[:count] if column[place] > 0])
            against = tuple([known.ids[place] for place in ranked[:count] if column[place] < 0])
            found[cause] = (because[:NAMED_AT_MOST], against[:NAMED_AT_MOST])
    return found
