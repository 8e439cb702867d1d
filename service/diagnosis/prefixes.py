"""Owner checks done one after the other: which of them, in what order, and what it costs to stop after each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.diagnosis.likelihoods import Floats

Places = NDArray[np.intp]
Counts = NDArray[np.intp]
After = Callable[[Floats], Floats]
"""Rows of belief to what it costs from there on."""

BARRED, NOTHING = -np.inf, -1e300
"""Added to what a check gains where it must not be done; what doing nothing gains: less than any check that may be done."""


@dataclass(frozen=True, slots=True, eq=False)
class Choices:
    """
    The checks to choose from, ready for many beliefs at once; behind the last of them stands "none".

    weights: checks and none by causes, thrice: what a check saves against the visit alone, its chance over its minutes, and
    the chance that it fails; the first two are linear in the belief. minutes: of checks and none. alone: of these one only
    is ever done.
    """

    weights: Floats
    minutes: Floats
    alone: Sequence[int] = ()

    def of(self, checks: Places, causes: Places, alone: Sequence[int]) -> Choices:
        """The same for some *checks* and *causes*; *alone* are places among these checks."""
        each = [*checks.tolist(), len(self.minutes) - 1]
        return Choices(self.weights.take(each, axis=1).take(causes, axis=2), self.minutes.take(each), alone)


def choices(settles: Floats, minutes: Floats, visit: float, alone: Sequence[int] = ()) -> Choices:
    """Choices among checks. settles: checks by causes; each settles something that is believed in. visit: its minutes."""
    count, causes = settles.shape
    weights = np.zeros((3, count + 1, causes))
    weights[0, :count] = settles * visit - minutes[:, None]
    weights[1, :count] = settles / minutes[:, None]
    weights[2] = 1.0
    weights[2, :count] -= settles
    return Choices(weights, np.append(minutes, 0.0), alone)


def prefixes(rows: Floats, among: Choices, bars: Floats, most: Counts, after: After) -> Floats:
    """
    Cost from each row of doing the first 0, 1, 2... of the chosen checks and then going on as *after* says: 0, 1, 2... by rows.

    bars: see ``in_order``. The least is to be taken over all, for the first check may not pay although two do.
    """
    chosen = in_order(rows, among, bars, most)
    lefts = np.empty((len(chosen) + 1, *rows.shape))
    lefts[0] = rows
    fails = among.weights[2]
    for place, checks in enumerate(chosen):
        np.multiply(lefts[place], fails.take(checks, axis=0), out=lefts[place + 1])
    ends = after(lefts.reshape(-1, rows.shape[1])).reshape(len(lefts), len(rows))
    if chosen:
        ends[1:] += (lefts[:-1] @ fails[-1] * among.minutes.take(chosen)).cumsum(axis=0)
    return ends


def in_order(rows: Floats, among: Choices, bars: Floats, most: Counts) -> list[Places]:
    """
    The check each row does first, second... as places among the choices, at most *most* (by row).

    Those with the largest gain are taken, and done by chance over minutes; ties in file order. bars: rows by checks and none,
    0, ``BARRED`` or ``NOTHING``.
    """
    none = len(among.minutes) - 1
    gain, ratio = rows @ among.weights[0].T, rows @ among.weights[1].T
    gain += bars
    if len(among.alone) > 1:
        resets = gain[:, among.alone]
        resets[np.arange(len(among.alone)) != resets.argmax(axis=1)[:, None]] = BARRED
        gain[:, among.alone] = resets
    starts = np.arange(len(rows)) * (none + 1)
    chosen: list[Places] = []
    worth: list[Floats] = []
    width, every = min(int(most.max()), none), int(most.min())
    for place in range(width):
        checks = gain.argmax(axis=1)
        if every <= place:
            checks[most <= place] = none
        cells = starts + checks
        chosen.append(checks)
        worth.append(ratio.take(cells))
        if place + 1 < width:
            gain.put(cells, BARRED)
            gain[:, none] = NOTHING
    return _by_ratio(chosen, worth)


def _by_ratio(chosen: list[Places], worth: list[Floats]) -> list[Places]:
    """The *chosen* checks of each row in the order of their *worth*, ties in file order; none, which is worth 0, last."""
    if len(chosen) < 2:
        return chosen
    if len(chosen) == 2:
        (one, other), (here, there) = chosen, worth
        swapped = (there > here) | ((there == here) & (other < one))
        return [np.where(swapped, other, one), np.where(swapped, one, other)]
    order = np.array(chosen)
    ranks = np.lexsort((order, -np.array(worth)), axis=0)
    return list(np.take_along_axis(order, ranks, axis=0))
