"""Properties of plans and of what an answer is worth, on random figures."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from service.diagnosis.load import Carried, best_load, saving_cents
from service.diagnosis.prefixes import choices, in_order, prefixes
from service.diagnosis.table import barring
from service.diagnosis.worth import entropy_bits, expected_gain_bits, value_of

Floats = NDArray[np.float64]
seeds = st.integers(0, 2**32 - 1)


def own_checks(rng: np.random.Generator, count: int) -> tuple[Floats, Floats, Floats]:
    """Belief with a share nothing settles; checks that each settle a part of one cause; minutes."""
    shares = rng.dirichlet(np.ones(count + 1))
    return (
        shares[None, :],
        np.eye(count, count + 1) * rng.uniform(0.2, 0.99, size=(count, 1)),
        rng.uniform(1, 30, count),
    )


def ends(rows: Floats, settles: Floats, minutes: Floats, visit: float, most: int | None = None) -> Floats:
    limit = len(minutes) if most is None else most
    bars = barring(np.zeros((len(rows), len(minutes)), dtype=bool))
    return prefixes(rows, choices(settles, minutes, visit), bars, limit, lambda left: visit * left.sum(axis=1))


def order_of(
    rows: Floats, settles: Floats, minutes: Floats, visit: float = 95, without: tuple[int, ...] = ()
) -> list[int]:
    """Every check in the order in which the first row does them, but those that are barred; "none" is their number."""
    blocked = np.zeros((1, len(minutes)), dtype=bool)
    blocked[0, list(without)] = True
    chosen = in_order(rows, choices(settles, minutes, visit), barring(blocked), len(minutes))
    return [int(checks[0]) for checks in chosen]


def least_of_subsets(rows: Floats, settles: Floats, minutes: Floats, visit: float) -> float:
    """The least cost over every ordered subset of the checks."""
    best = visit

    def on(left: Floats, spent: float, done: frozenset[int]) -> None:
        nonlocal best
        best = min(best, spent + visit * float(left.sum()))
        for check in set(range(len(minutes))) - done:
            on(left * (1 - settles[check]), spent + minutes[check] * float(left.sum()), done | {check})

    on(rows[0], 0.0, frozenset())
    return best


@given(seed=seeds, count=st.integers(1, 5), visit=st.floats(5, 200))
def test_the_best_prefix_is_the_best_ordered_subset(seed: int, count: int, visit: float) -> None:
    rows, settles, minutes = own_checks(np.random.default_rng(seed), count)
    assert ends(rows, settles, minutes, visit).min() == pytest.approx(least_of_subsets(rows, settles, minutes, visit))


@given(seed=seeds, count=st.integers(1, 5), scale=st.floats(0.1, 10))
def test_scaling_all_costs_keeps_the_order(seed: int, count: int, scale: float) -> None:
    rows, settles, minutes = own_checks(np.random.default_rng(seed), count)
    assert order_of(rows, settles, minutes * scale, 95 * scale) == order_of(rows, settles, minutes)


@given(seed=seeds, count=st.integers(2, 5))
def test_sorting_again_after_a_failure_gives_the_same_order(seed: int, count: int) -> None:
    rows, settles, minutes = own_checks(np.random.default_rng(seed), count)
    first, *others = order_of(rows, settles, minutes)
    left = rows * (1 - settles[first])
    assert order_of(left / left.sum(), settles, minutes, without=(first,)) == [*others, count]


@given(seed=seeds, count=st.integers(1, 5), visit=st.floats(5, 200), more=st.floats(1, 100))
def test_a_dearer_visit_never_shortens_the_list_of_checks(seed: int, count: int, visit: float, more: float) -> None:
    rows, settles, minutes = own_checks(np.random.default_rng(seed), count)
    before = ends(rows, settles, minutes, visit)[:, 0]
    after = ends(rows, settles, minutes, visit + more)[:, 0]
    assert np.flatnonzero(after <= after.min() + 1e-9)[-1] >= np.flatnonzero(before <= before.min() + 1e-9)[0]


@given(seed=seeds, count=st.integers(1, 5), visit=st.floats(5, 200))
def test_one_more_check_never_raises_the_cost(seed: int, count: int, visit: float) -> None:
    rows, settles, minutes = own_checks(np.random.default_rng(seed), count)
    fewer = ends(rows, settles[:-1], minutes[:-1], visit).min() if count > 1 else visit
    assert ends(rows, settles, minutes, visit).min() <= fewer + 1e-9


@given(seed=seeds, most=st.integers(0, 3))
def test_more_checks_allowed_never_raises_the_cost(seed: int, most: int) -> None:
    rows, settles, minutes = own_checks(np.random.default_rng(seed), 5)
    costs = [ends(rows, settles, minutes, 95, most=n).min() for n in (most, most + 1, 5)]
    assert costs[2] <= costs[1] + 1e-9
    assert costs[1] <= costs[0] + 1e-9


def plan(rows: Floats) -> Floats:
    """One check, one visit, two parts and room for one of them: concave, as every plan is."""
    chance = rows.sum(axis=1)
    checks = np.minimum(95 * chance, 15 * chance + 95 * (chance - rows[:, 0]))
    return np.asarray(checks + 120 * np.minimum(rows[:, 1], rows[:, 2:].sum(axis=1)))


@given(seed=seeds, causes=st.integers(3, 8), answers=st.integers(2, 4))
def test_an_answer_is_never_worth_less_than_nothing(seed: int, causes: int, answers: int) -> None:
    rng = np.random.default_rng(seed)
    shares, question = rng.dirichlet(np.ones(causes)), rng.dirichlet(np.ones(answers), size=causes).T
    rows = np.concatenate([shares[None, :], question * shares])
    cost = plan(rows)
    assert cost[0] - cost[1:].sum() >= -1e-9
    assert value_of(cost, [answers])[0] >= 0
    assert -1e-12 <= expected_gain_bits(shares, question) <= entropy_bits(shares) + 1e-12


@given(seed=seeds, causes=st.integers(3, 8), chance=st.floats(0.01, 0.99))
def test_an_answer_equally_likely_everywhere_is_worth_nothing(seed: int, causes: int, chance: float) -> None:
    shares = np.random.default_rng(seed).dirichlet(np.ones(causes))
    question = np.array([np.full(causes, chance), np.full(causes, 1 - chance)])
    cost = plan(np.concatenate([shares[None, :], question * shares]))
    assert value_of(cost, [2])[0] == pytest.approx(0, abs=1e-9)
    assert expected_gain_bits(shares, question) == pytest.approx(0, abs=1e-9)


def case(seed: int) -> tuple[list[tuple[float, frozenset[str]]], dict[str, Carried]]:
    rng = np.random.default_rng(seed)
    parts = {f"p{k}": Carried(float(rng.integers(10, 900)), float(rng.integers(1, 20))) for k in range(6)}
    chances = rng.dirichlet(np.ones(7))
    return [(float(p), frozenset({f"p{k}"} if k < 6 else ())) for k, p in enumerate(chances)], parts


@given(seed=seeds, litres=st.floats(0, 60), more=st.floats(0, 60))
def test_a_larger_van_never_saves_less(seed: int, litres: float, more: float) -> None:
    needs, parts = case(seed)
    small = saving_cents(best_load(needs, parts, 11_000, litres), needs, parts, 11_000)
    assert saving_cents(best_load(needs, parts, 11_000, litres + more), needs, parts, 11_000) >= small - 1e-6


@given(seed=seeds, trip=st.floats(100, 20_000), more=st.floats(0, 20_000))
def test_with_room_enough_the_load_only_grows_with_the_cost_of_a_second_trip(
    seed: int, trip: float, more: float
) -> None:
    needs, parts = case(seed)
    assert best_load(needs, parts, trip, 1e9) <= best_load(needs, parts, trip + more, 1e9)
