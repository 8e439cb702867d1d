"""
Posteriors against an exact inference engine: pgmpy's variable elimination on the same network.

200 random networks as bare arrays, and 200 random machines as an author would write them, in words of frequency: denied,
doubted and told with one another. The numbers behind the words are those of Mosteller and Youtz 1990, written out here.
"""

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

from service.diagnosis.belief import believe, weigh
from service.diagnosis.model import Evidence
from service.rulebook.schema.appliance import Appliance
from tests.diagnosis.drain_machine import BOTH, appliance, cause, keyed, observation, symptom

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


MEDIANS = {
    "never": 0.01, "rarely": 0.07, "sometimes": 0.25, "about half": 0.5, "often": 0.72, "very often": 0.83,
    "almost always": 0.92, "always": 0.99,
}  # fmt: skip
COLOURS = ("red", "green", "blue")


@pytest.mark.filterwarnings("ignore")
def test_two_hundred_machines_written_in_words_agree_to_nine_digits() -> None:
    rng = np.random.default_rng(20261127)
    worst = 0.0
    for _ in range(200):
        machine = _machine(rng)
        signs = [code for code in machine.symptoms if code.startswith("sign")]
        said = {code: bool(rng.random() < 0.6) for code in signs if rng.random() < 0.7}
        values = {code: str(rng.choice(("yes", "no"))) for code in ("seen0", "seen1") if rng.random() < 0.6}
        values |= {"lamp": str(rng.choice(COLOURS))} if rng.random() < 0.6 else {}
        known = [*said, *(code for code in values if code != "lamp")]
        group = ("group0", "group1") if rng.random() < 0.5 else ()
        told = Evidence(
            symptoms=said, observations=values, hedged=frozenset(code for code in known if rng.random() < 0.3),
            one_of=(group,) if group else (),
        )  # fmt: skip
        belief, exact = believe(machine, told), _by_network(machine, told)
        worst = max(worst, *(abs(belief.share(code) - exact[code]) for code in exact))
    assert worst < 1e-9


def _machine(rng: np.random.Generator) -> Appliance:
    def word() -> str:
        return str(rng.choice(list(MEDIANS)))

    signs = [*(f"sign{k}" for k in range(int(rng.integers(1, 4)))), "group0", "group1"]
    causes = []
    for k in range(int(rng.integers(2, 7))):
        evidence: dict[str, object] = {code: word() for code in (*signs, "seen0", "seen1") if rng.random() < 0.7}
        evidence["lamp"] = {colour: word() for colour in COLOURS}
        causes.append(cause(f"cause{k}", float(rng.integers(1, 40)), evidence))
    lamp = observation("lamp", answers=[{"value": colour, "say": BOTH} for colour in COLOURS])
    return appliance(
        symptoms=keyed(*(symptom(code, otherwise=word()) for code in signs)),
        observations=keyed(observation("seen0", otherwise=word()), observation("seen1", otherwise=word()), lamp),
        causes=keyed(*causes), something_else=float(rng.integers(0, 20)),
    )  # fmt: skip


def _by_network(machine: Appliance, told: Evidence) -> dict[str, float]:
    """The same belief from a network: signs below the cause, a doubtful word below its sign, "one of these" below both."""
    causes = list(machine.causes.values())
    weights = np.array([one.weight for one in causes])
    other = max(machine.something_else, weights.sum() * 0.05 / 0.95)
    prior = np.append(weights, other) / (weights.sum() + other)
    network = DiscreteBayesianNetwork()
    network.add_node("cause")
    network.add_cpds(TabularCPD("cause", len(prior), prior[:, None]))
    evidence: dict[str, int] = {}
    for code, sign in {**machine.symptoms, **machine.observations}.items():
        rows = np.array([_of_cause(one.evidence.get(code, sign.otherwise)) for one in causes])
        rows = np.vstack([rows, weights @ rows / weights.sum()]).T
        network.add_edge("cause", code)
        network.add_cpds(TabularCPD(code, len(rows), rows, evidence=["cause"], evidence_card=[len(prior)]))
        value = told.observations.get(code, {True: "yes", False: "no"}.get(told.symptoms.get(code)))
        if value is None:
            continue
        place = (COLOURS if code == "lamp" else ("yes", "no")).index(value)
        if code in told.hedged:
            network.add_edge(code, f"{code} they think")
            network.add_cpds(
                TabularCPD(f"{code} they think", 2, [[0.7, 0.3], [0.3, 0.7]], evidence=[code], evidence_card=[2])
            )
            evidence[f"{code} they think"] = place
        else:
            evidence[code] = place
    if told.one_of:
        network.add_edges_from([("group0", "one of"), ("group1", "one of")])
        either = TabularCPD(
            "one of", 2, [[1, 1, 1, 0], [0, 0, 0, 1]], evidence=["group0", "group1"], evidence_card=[2, 2]
        )
        network.add_cpds(either)
        evidence["one of"] = 0
    shares = VariableElimination(network).query(["cause"], evidence, show_progress=False).values
    return dict(zip([*machine.causes, "something_else"], shares.tolist(), strict=True))


def _of_cause(graded: object) -> list[float]:
    """Chances of each answer: yes and no of a word; of several answers their words, made to sum to 1."""
    if isinstance(graded, dict):
        chances = np.array([MEDIANS[graded[colour]] for colour in COLOURS])
        return list(chances / chances.sum())
    yes = MEDIANS[str(graded)]
    return [yes, 1 - yes]
