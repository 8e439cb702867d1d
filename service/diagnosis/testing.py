"""How long testing takes for each cause in a handful of good orders: enough to say what a sharper belief would save."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.diagnosis.likelihoods import Floats
from service.rulebook.schema.appliance import Appliance


def minutes_by_order(appliance: Appliance, finds: Floats, belief: Floats) -> Floats:
    """
    Causes by orders: expected minutes of tests until the cause shows, at most those of a usual visit.

    finds: tests by causes. The first order is by chance over minutes under *belief*; then, for each test, the same with that
    test moved to the front. Panels are opened once. The least over them, for another belief, is what an order chosen by
    that belief costs at most.
    """
    minutes = np.array([test.minutes for test in appliance.tests.values()])
    if not len(minutes):
        return np.zeros((finds.shape[1], 1))
    base = (-(finds @ belief) / minutes).argsort(kind="stable").tolist()
    orders = [base, *([test, *(t for t in base if t != test)] for test in range(len(minutes)))]
    return np.array([_until_shown(appliance, finds, order) for order in orders]).T


def _until_shown(appliance: Appliance, finds: Floats, order: Sequence[int]) -> Floats:
    tests, opened = list(appliance.tests.values()), set[str]()
    left, spent = np.ones(finds.shape[1]), np.zeros(finds.shape[1])
    for test in order:
        panel = tests[test].opening
        opening = appliance.openings[panel].minutes if panel is not None and panel not in opened else 0.0
        opened |= {panel} if panel is not None else set()
        spent = spent + left * (tests[test].minutes + opening)
        left = left * (1 - finds[test])
    return np.minimum(spent, appliance.basics.visit.median_min)
