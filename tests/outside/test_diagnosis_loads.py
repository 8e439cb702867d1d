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
