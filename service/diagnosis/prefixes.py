"""Owner checks done one after the other: which of them, in what order, and what it costs to stop after each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.diagnosis.likelihoods import Floats

Places = NDArray[np.intp]
After = Callable[[Floats], Floats]
"""Rows of belief to what it costs from there on."""

BARRED, NOTHING = -np.inf, -1e300
"""Added to what a check gains where it must not be done; what doing nothing gains: less than any check that may be done."""


class Choices(NamedTuple):
    """
    The checks to choose from, ready for many beliefs at once; behind the last of them stands "none".

    gains, ratios: checks and none by causes, what a check saves against the visit alone, and its chance over its minutes;
    both are linear in the belief. fails: the same, the chance that it fails. minutes: of checks and none.
    alone: of these one only is ever done.
    """

    gains: Floats
    ratios: Floats
    fails: Floats
    minutes: Floats
    alone: Sequence[int] = ()

    def of(self, each: Places, causes: Places, alone: Sequence[int]) -> Choices:
        """The same for some checks and none, *each*, and *causes*; *alone* are places among these checks."""
        gains, ratios, fails = (
            one.take(each, axis=0).take(causes, axis=1) for one in (self.gains, self.ratios, self.fails)
        )
        return Choices(gains, ratios, fails, self.minutes.take(each), alone)


def choices(settles: Floats, minutes: Floats, visit: float, alone: Sequence[int] = ()) -> Choices:
    """Choices among checks. settles: checks by causes; each settles something that is believed in. visit: its minutes."""
    count, causes = settles.shape
    gains, ratios, fails = np.zeros((count + 1, causes)), np.zeros((count + 1, causes)), np.ones((count + 1, causes))
    gains[:count] = settles * visit - minutes[:, None]
    ratios[:count] = settles / minutes[:, None]
    fails[:count] -= settles
    return Choices(gains, ratios, fails, np.append(minutes, 0.0), alone)


def prefixes(
    rows: Floats, among: Choices, bars: Floats, most: int, after: After, fewer_from: int | None = None
) -> Floats:
    """
    Cost from each row of doing the first 0, 1, 2... of the chosen checks and then going on as *after* says: 0, 1, 2... by rows.

    bars, most, fewer_from: see ``in_order``. The least is to be taken over all, for the first check may not pay although
    two do.
    """
    chosen = in_order(rows, among, bars, most, fewer_from)
    lefts = np.empty((len(chosen) + 1, *rows.shape))
    lefts[0] = rows
    for place, checks in enumerate(chosen):
        np.multiply(lefts[place], among.fails.take(checks, axis=0), out=lefts[place + 1])
    ends = after(lefts.reshape(-1, rows.shape[1])).reshape(len(lefts), len(rows))
    spent = np.zeros(len(rows))
    for place, checks in enumerate(chosen):
        spent += lefts[place].dot(among.fails[-1]) * among.minutes.take(checks)  # "none" fails for sure: sums of rows
        ends[place + 1] += spent
    return ends


def in_order(rows: Floats, among: Choices, bars: Floats, most: int, fewer_from: int | None = None) -> list[Places]:
    """
    The check each row does first, second... as places among the choices, at most *most*, rows from *fewer_from* on one less.

    Those with the largest gain are taken, and done by chance over minutes; ties in file order. bars: rows by checks and none,
    0, ``BARRED`` or ``NOTHING``.
    """
    none = len(among.minutes) - 1
    gain, ratio = rows.dot(among.gains.T), rows.dot(among.ratios.T)
    gain += bars
    if len(among.alone) > 1:
        resets = gain[:, among.alone]
        resets[np.arange(len(among.alone)) != resets.argmax(axis=1)[:, None]] = BARRED
        gain[:, among.alone] = resets
    starts = np.arange(0, gain.size, none + 1)
    chosen: list[Places] = []
    worth: list[Floats] = []
    steps = min(most, none)
    for place in range(steps):
        checks = gain.argmax(axis=1)
        if place == most - 1 and fewer_from is not None:
            checks[fewer_from:] = none
        cells = starts + checks
        chosen.append(checks)
        worth.append(ratio.take(cells))
        if place + 1 < steps:
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
