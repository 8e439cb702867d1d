"""Which of a technician's tests are worth doing at this machine, and their order: looks first, then measured, then opened."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from service.diagnosis.actions import Actions
from service.diagnosis.held import makes_sense
from service.diagnosis.likelihoods import Floats
from service.diagnosis.table import Bools, Table
from service.diagnosis.tests_order import best_order
from service.rulebook.schema.appliance import Appliance, VisitTest

WORTH_A_TEST = 0.02
"""A test is on the sheet if it shows at least this share more; one that others need first comes with them. Own choice."""
TESTS_AT_MOST = 12
MOVING_MIN = 1.0
"""Minutes to kneel, stand up or walk to another place of the work. Our own choice."""
QUICK_MIN = 6.0
"""
Up to so long, a look without a tool comes before anything measured, and whatever needs no panel opened before any panel is.
Common practice, no source: what was taken apart must be put together again whatever it shows, and a pulled machine hides
how it stood.
"""
TELLS_MORE = 4.0
"""What tells so many times as much a minute waits for no look: the one likely plug is looked for first. Own choice."""
METER = "meter"
"""The place where something is measured."""


def tests_in_order(table: Table, shares: Floats, values: Mapping[str, str]) -> list[int]:
    """
    The tests worth doing, as places in the table, in their order; with those they need first.

    values: what is known of the machine; tests that make no sense with it are left out. Short looks come first, then what
    opens nothing, then the rest, but for what tells far more a minute; within that, the order of least expected minutes
    until the fault shows.
    """
    sensible = [makes_sense(test.never_if, values) for test in table.appliance.tests.values()]
    chosen = _worth_doing(table, shares, np.array(sensible, dtype=bool))
    waiting = list(chosen)
    while waiting:
        for needed in table.appliance.tests[table.tests[waiting.pop()]].after:
            place = table.tests.index(needed)
            if place not in chosen and sensible[place]:
                chosen.add(place)
                waiting.append(place)
    tests = sorted(chosen)
    actions = actions_of(table, shares, tests)
    rules = [table.appliance.tests[table.tests[test]] for test in tests]
    grades = _grades(table.appliance, rules, actions.after)
    waits = _waits(grades, _minutes_in_all(actions), (actions.finds @ shares).tolist())
    after = tuple(before | lower for before, lower in zip(actions.after, waits, strict=True))
    return [tests[place] for place in best_order(replace(actions, after=after))]


def actions_of(table: Table, shares: Floats, tests: Sequence[int]) -> Actions:
    """*tests*, places in the table, as bare figures."""
    appliance = table.appliance
    rules = [appliance.tests[table.tests[test]] for test in tests]
    panels, places = list(appliance.openings), sorted({rule.place for rule in rules})
    number = {table.tests[test]: place for place, test in enumerate(tests)}
    return Actions(
        shares=shares,
        finds=table.finds[list(tests)],
        minutes=table.test_min[list(tests)],
        opening=tuple(panels.index(rule.opening) if rule.opening else -1 for rule in rules),
        opening_min=tuple(opening.minutes for opening in appliance.openings.values()),
        place=tuple(places.index(rule.place) for rule in rules),
        moving_min=MOVING_MIN,
        after=tuple(frozenset(number[code] for code in rule.after if code in number) for rule in rules),
        last=tuple(rule.last for rule in rules),
    )


def _worth_doing(table: Table, shares: Floats, sensible: Bools) -> set[int]:
    """Tests that still show something worth a test after all that show more per minute."""
    left, chosen = shares.copy(), set[int]()
    for _ in range(min(TESTS_AT_MOST, len(table.tests))):
        shown = np.where(sensible, table.finds @ left, 0.0)
        shown[list(chosen)] = 0.0
        rate = np.where(shown >= WORTH_A_TEST, shown / table.test_min, 0.0)
        best = int(rate.argmax())
        if rate[best] <= 0:
            break
        chosen.add(best)
        left = left * (1 - table.finds[best])
    return chosen


def _grades(appliance: Appliance, rules: Sequence[VisitTest], after: tuple[frozenset[int], ...]) -> list[int]:
    """0 for a look, 1 for what opens nothing, 2 behind a panel, 3 for what comes last; none below what it needs first."""
    grades = [_grade(appliance, rule) for rule in rules]
    for _ in rules:
        grades = [max([grade, *(grades[b] for b in before)]) for grade, before in zip(grades, after, strict=True)]
    return grades


def _grade(appliance: Appliance, rule: VisitTest) -> int:
    if rule.last:
        return 3
    if rule.opening is not None:
        return 2
    bare = all(appliance.tools[tool].standard for tool in rule.tools if tool in appliance.tools)
    return 0 if bare and rule.place != METER else 1


def _waits(grades: Sequence[int], minutes: Sequence[float], shown: Sequence[float]) -> list[frozenset[int]]:
    """
    By test, the quick ones of a lower grade that it waits for, unless it tells far more a minute.

    minutes: with its panel and all that it needs first. shown: chance that it shows the fault.
    """
    rates = [chance / spent for chance, spent in zip(shown, minutes, strict=True)]
    quick = [b for b, spent in enumerate(minutes) if spent <= QUICK_MIN]
    return [
        frozenset(b for b in quick if grades[b] < grade and rates[b] * TELLS_MORE >= rate)
        for grade, rate in zip(grades, rates, strict=True)
    ]


def _minutes_in_all(actions: Actions) -> list[float]:
    """Minutes of each test with its panel and all tests that it needs first."""
    alone = [
        m + (actions.opening_min[panel] if panel >= 0 else 0.0)
        for m, panel in zip(actions.minutes.tolist(), actions.opening, strict=True)
    ]
    return [spent + sum(alone[b] for b in _behind(actions.after, test)) for test, spent in enumerate(alone)]


def _behind(after: tuple[frozenset[int], ...], test: int) -> frozenset[int]:
    """All that must come before *test*, at once or by way of others."""
    found: set[int] = set()
    waiting = [*after[test]]
    while waiting:
        if (before := waiting.pop()) not in found:
            found.add(before)
            waiting += after[before]
    return frozenset(found)
