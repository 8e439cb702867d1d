"""What is probably wrong: the causes by share, and which evidence speaks for and against each."""

from __future__ import annotations

from itertools import repeat
from math import log
from typing import NamedTuple

import numpy as np

from service.diagnosis.asking import Places
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
TIED = 1e12
"""Shares that are the same to so many parts of one are a tie."""
LEAST_SHARE = 1e-12
"""A share is never exactly 0 or 1, however much evidence there is."""


class Weighing(NamedTuple):
    """*known* is what the evidence *said* amounts to, *shares* what it makes of the causes, in the table's order."""

    said: tuple[object, ...]
    known: Held
    shares: Floats


def believe(appliance: Appliance, evidence: Evidence) -> Belief:
    """
    The belief over the causes of *appliance* and ``something_else``, largest first; ties in file order.

    One fault, answers independent given the cause (naive Bayes); "don't know" and what was not asked count for nothing.
    Reasons, for causes with at least ``REASONS_FROM``, are ids of symptoms, observations, checks and hazards, ``a|b`` for a
    group, and ``theory``.
    """
    table = compiled(appliance)
    _, known, shares = weigh_once(table, evidence)
    because, against = _reasons(table, known, (shares >= REASONS_FROM).nonzero()[0])
    order = np.rint(shares * -TIED).argsort(kind="stable")
    places = order.tolist()
    causes = [table.causes[place] for place in places]
    reasons = (map(found.get, places, repeat(())) for found in (because, against))
    return Belief(tuple(map(Likely._make, zip(causes, shares.take(order).tolist(), *reasons, strict=True))))


def weigh_once(table: Table, evidence: Evidence) -> Weighing:
    """The evidence weighed; the latest is kept with the table, for one turn asks for belief, step, level and plan."""
    said = (
        dict(evidence.symptoms), evidence.one_of, dict(evidence.observations), evidence.hedged,
        dict(evidence.checks), dict(evidence.facts), evidence.theories, evidence.hazards,
    )  # fmt: skip
    for latest in table.latest:
        if latest.said == said:
            return latest
    known = held(table, evidence)
    found = Weighing(said, known, weigh(table.prior, known.rows))
    found.shares.setflags(write=False)
    table.latest[:] = [found]
    return found


def weigh(prior: Floats, rows: Floats) -> Floats:
    """Posterior shares from *prior* and one row of likelihoods per piece of evidence, in logarithms throughout."""
    weights = np.log(prior)
    weights += np.add.reduce(np.log(rows))
    weights -= np.maximum.reduce(weights)
    shares = np.exp(weights, out=weights)
    shares /= np.add.reduce(shares)
    np.maximum(shares, LEAST_SHARE, out=shares)
    shares /= np.add.reduce(shares)
    return shares


def shares_of(table: Table, evidence: Evidence) -> Floats:
    """The shares alone, in the table's order of causes."""
    return weigh_once(table, evidence).shares


Reasons = dict[int, tuple[str, ...]]


def _reasons(table: Table, known: Held, causes: Places) -> tuple[Reasons, Reasons]:
    """For each of *causes* the ids for and against it, by likelihood under it over likelihood under all the others."""
    if not known.ids:
        return {}, {}
    prior, rows = table.prior.take(causes), known.rows.take(causes, axis=1)
    own = rows * prior
    telling = np.log((rows - own) / (known.rows.dot(table.prior)[:, None] - own))
    return _named(known.ids, causes, telling), _named(known.ids, causes, -telling)


def _named(ids: tuple[str, ...], causes: Places, telling: Floats) -> Reasons:
    """By cause the *ids* that tell enough, most telling first. telling: ids by causes."""
    if len(ids) == 1:
        return dict.fromkeys(causes[telling[0] > LEAST_TELLING].tolist(), ids)
    counts = np.add.reduce(telling > LEAST_TELLING)
    some = counts.nonzero()[0]
    ranked = (-telling.take(some, axis=1)).argsort(axis=0, kind="stable")[:NAMED_AT_MOST].T.tolist()
    each = zip(causes.take(some).tolist(), ranked, counts.take(some).tolist(), strict=True)
    single = [(code,) for code in ids]
    return {
        cause: single[places[0]] if count == 1 else tuple([ids[place] for place in places[:count]])
        for cause, places, count in each
    }
