"""Test orders against brute force over every order that the preconditions allow, and the bound of the rule for long lists."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest

from service.diagnosis.actions import Actions, before_each, expected_min
from service.diagnosis.blocks import by_blocks
from service.diagnosis.tests_order import EXACT, best_order


def random_actions(rng: np.random.Generator, count: int, plain: bool = False) -> Actions:
    causes = int(rng.integers(2, 7))
    shares = rng.dirichlet(np.ones(causes + 1))
    finds = rng.choice([0, 0, 0.25, 0.72, 0.92, 0.99], size=(count, causes + 1))
    finds[:, -1] = 0
    minutes = rng.integers(1, 20, size=count).astype(float)
    if plain:
        return Actions(shares, finds, minutes)
    after = tuple(frozenset(int(b) for b in range(t) if rng.random() < 0.15) for t in range(count))
    last = tuple(bool(rng.random() < 0.2) and not any(t in other for other in after) for t in range(count))
    return Actions(
        shares, finds, minutes, opening=tuple(int(o) for o in rng.integers(-1, 2, size=count)), opening_min=(8.0, 3.0),
        place=tuple(int(p) for p in rng.integers(0, 3, size=count)), moving_min=1.5, after=after, last=last,
    )  # fmt: skip


def least_of_all(actions: Actions) -> float:
    needs = before_each(actions)
    return min(
        expected_min(actions, order)
        for order in permutations(range(actions.count))
        if all(needs[test] <= set(order[:step]) for step, test in enumerate(order))
    )


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6])
def test_the_order_is_the_cheapest_of_all(count: int) -> None:
    rng = np.random.default_rng(count)
    for _ in range(40 if count < 6 else 12):
        actions = random_actions(rng, count)
        assert expected_min(actions, best_order(actions)) == pytest.approx(least_of_all(actions), abs=1e-9)


def test_the_order_of_seven_is_the_cheapest_of_all() -> None:
    rng = np.random.default_rng(7)
    for case in range(20):
        actions = random_actions(rng, 7, plain=case < 5)
        assert expected_min(actions, best_order(actions)) == pytest.approx(least_of_all(actions), abs=1e-9)


def test_chance_over_minutes_is_the_order_when_each_test_has_its_own_cause() -> None:
    rng = np.random.default_rng(8)
    for _ in range(60):
        count = int(rng.integers(2, 9))
        shares, minutes = rng.dirichlet(np.ones(count + 1)), rng.uniform(1, 20, size=count)
        actions = Actions(shares, np.eye(count, count + 1) * 0.92, minutes)
        by_ratio = tuple((-(shares[:-1] / minutes)).argsort(kind="stable").tolist())
        assert best_order(actions) == by_ratio


def test_the_rule_for_long_lists_stays_within_a_factor_four_and_mostly_close() -> None:
    """Greedy on shared causes is within a factor 4 of the best: Feige, Lovasz and Tetali 2004, min-sum set cover."""
    rng = np.random.default_rng(9)
    ratios = []
    for _ in range(120):
        actions = random_actions(rng, 7, plain=True)
        ratios.append(expected_min(actions, by_blocks(actions)) / expected_min(actions, best_order(actions)))
    assert max(ratios) <= 4
    assert np.mean(ratios) < 1.02


def test_a_long_list_keeps_its_preconditions_and_is_no_dearer_than_the_rule() -> None:
    rng = np.random.default_rng(10)
    for _ in range(15):
        actions = random_actions(rng, EXACT + 4)
        order, needs = best_order(actions), before_each(actions)
        assert sorted(order) == list(range(actions.count))
        assert all(needs[test] <= set(order[:step]) for step, test in enumerate(order))
        assert expected_min(actions, order) <= expected_min(actions, by_blocks(actions)) + 1e-9
