"""Load lists against SciPy's exact mixed-integer solver (HiGHS): 100 random cases with bundles and too little room."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from service.diagnosis.load import Carried, best_load, saving_cents

Needs = list[tuple[float, frozenset[str]]]


def random_case(rng: np.random.Generator) -> tuple[Needs, dict[str, Carried], float]:
    codes = [f"p{k}" for k in range(int(rng.integers(3, 13)))]
    parts = {code: Carried(float(rng.integers(20, 1500)), float(rng.integers(1, 30))) for code in codes}
    chances = rng.dirichlet(np.ones(int(rng.integers(3, 20))))
    needs = [
        (float(p), frozenset(rng.choice(codes, size=int(rng.choice([0, 1, 1, 1, 2, 3])), replace=False).tolist()))
        for p in chances
    ]
    return needs, parts, float(rng.integers(5, 90))


def solved(needs: Needs, parts: dict[str, Carried], trip: float, litres: float) -> float:
    """The largest saving: a variable per part and one per cause that is 1 only if all its parts are on board."""
    codes, causes = list(parts), [(p, need) for p, need in needs if need]
    gain = np.array([*(parts[code].cents for code in codes), *(-trip * p for p, _ in causes)])
    rows, upper = [np.array([*(parts[code].litres for code in codes), *([0.0] * len(causes))])], [litres]
    for k, (_, need) in enumerate(causes):
        for code in need:
            row = np.zeros(len(gain))
            row[len(codes) + k], row[codes.index(code)] = 1, -1
            rows.append(row)
            upper.append(0.0)
    limits = LinearConstraint(np.array(rows), ub=np.array(upper))
    best = milp(
        gain, constraints=limits, integrality=np.ones(len(gain)), bounds=Bounds(0, 1), options={"mip_rel_gap": 0}
    )
    assert best.success
    return float(-best.fun)


def test_a_hundred_loads_save_as_much_as_the_solver_can() -> None:
    rng = np.random.default_rng(20261125)
    for _ in range(100):
        needs, parts, litres = random_case(rng)
        load = best_load(needs, parts, 11_000, litres)
        assert sum(parts[code].litres for code in load) <= litres + 1e-9
        assert saving_cents(load, needs, parts, 11_000) == pytest.approx(solved(needs, parts, 11_000, litres), abs=1e-6)


def independent(chances: tuple[float, ...]) -> Needs:
    """All sets of parts that may have failed together, each part on its own, with the chance of each set."""
    needs: Needs = []
    for number in range(2 ** len(chances)):
        failed = [bool(number >> k & 1) for k in range(len(chances))]
        chance = float(np.prod([p if out else 1 - p for p, out in zip(chances, failed, strict=True)]))
        needs.append((chance, frozenset(str(k + 1) for k, out in enumerate(failed) if out)))
    return needs


def kit_cost(load: frozenset[str], chances: tuple[float, ...], carrying: tuple[float, ...], trip: float) -> float:
    """Smith, Chambers and Shlifer's f(M): what the kit costs to carry, and a second trip when a part beside it has failed."""
    beside = [1 - p for k, p in enumerate(chances) if str(k + 1) not in load]
    return sum(carrying[int(part) - 1] for part in load) + trip * (1 - float(np.prod(beside)))


@pytest.mark.parametrize(
    ("chances", "carrying", "kit", "cost"),
    [
        ((0.4, 0.6, 0.2), (20, 40, 3), "", 48.48),  # each part by itself would seem to pay: {1, 3}, at 59
        ((0.30, 0.20, 0.10, 0.05, 0.02), (6, 2, 3, 4, 0.5), "1235", 14.5),
    ],
)
def test_repair_kits_of_parts_that_fail_on_their_own(
    chances: tuple[float, ...], carrying: tuple[float, ...], kit: str, cost: float
) -> None:
    """The model of Smith, Chambers and Shlifer 1980, Management Science 26(8):849-852; figures worked out for it by hand."""
    parts = {str(k + 1): Carried(h, 1) for k, h in enumerate(carrying)}
    load = best_load(independent(chances), parts, 60, 100)
    assert load == frozenset(kit)
    assert kit_cost(load, chances, carrying, 60) == pytest.approx(cost, abs=5e-4)


def test_the_best_repair_kit_takes_the_first_of_the_parts_by_cost_for_chance() -> None:
    """Their theorem: sorted by carrying cost for chance of failure, the best kit is some number of the first ones."""
    rng = np.random.default_rng(1980)
    for _ in range(150):
        count = int(rng.integers(1, 7))
        chances = tuple(rng.uniform(0.01, 0.7, count).tolist())
        carrying = tuple(rng.uniform(0.2, 30, count).tolist())
        load = best_load(independent(chances), {str(k + 1): Carried(carrying[k], 1) for k in range(count)}, 60, 100)
        order = sorted(range(count), key=lambda k: carrying[k] / chances[k])
        kits = [frozenset(str(k + 1) for k in order[:first]) for first in range(count + 1)]
        best = min(kit_cost(kit, chances, carrying, 60) for kit in kits)
        assert kit_cost(load, chances, carrying, 60) == pytest.approx(best, abs=1e-9)
