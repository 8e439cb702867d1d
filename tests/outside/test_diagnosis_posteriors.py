"""Posteriors against an exact inference engine: pgmpy's variable elimination on the same network, 200 random small models."""

from __future__ import annotations

import logging
import warnings

import numpy as np
import pytest

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork

from service.diagnosis.belief import weigh

logging.getLogger("pgmpy").setLevel(logging.ERROR)


@pytest.mark.filterwarnings("ignore")
def test_two_hundred_random_networks_agree_to_nine_digits() -> None:
    rng = np.random.default_rng(20261125)
    worst = 0.0
    for _ in range(200):
        causes, signs = int(rng.integers(2, 8)), int(rng.integers(1, 6))
        prior = rng.dirichlet(np.full(causes, 0.7)).clip(1e-4)
        prior /= prior.sum()
        sizes = rng.integers(2, 5, size=signs)
        tables = [_likelihoods(rng, causes, int(size)) for size in sizes]
        answers = {k: int(rng.integers(0, size)) for k, size in enumerate(sizes) if rng.random() < 0.8}
        ours = weigh(prior, np.array([tables[k][value] for k, value in answers.items()]).reshape(-1, causes))
        worst = max(worst, float(np.abs(ours - _exact(prior, tables, answers)).max()))
    assert worst < 1e-9


def _likelihoods(rng: np.random.Generator, causes: int, values: int) -> np.ndarray:
    """Values by causes; each cause's column sums to 1."""
    table = rng.dirichlet(np.ones(values), size=causes).clip(0.005)
    return (table / table.sum(axis=1, keepdims=True)).T


def _exact(prior: np.ndarray, tables: list[np.ndarray], answers: dict[int, int]) -> np.ndarray:
    network = DiscreteBayesianNetwork([("cause", f"sign{k}") for k in range(len(tables))])
    network.add_cpds(TabularCPD("cause", len(prior), prior[:, None]))
    for k, table in enumerate(tables):
        network.add_cpds(TabularCPD(f"sign{k}", len(table), table, evidence=["cause"], evidence_card=[len(prior)]))
    evidence = {f"sign{k}": value for k, value in answers.items()}
    return np.asarray(VariableElimination(network).query(["cause"], evidence, show_progress=False).values)
