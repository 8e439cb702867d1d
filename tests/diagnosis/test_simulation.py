"""Simulated customers: asking by value costs less than a list or entropy, and outcomes bring a shop near its own truth."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from service.diagnosis.learning import applied, counted, propose
from service.diagnosis.model import Ask, Evidence, Limits, Stop, Try
from service.diagnosis.simulate import POLICIES, answered, by_value, draw_customer, run, runs
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop
from service.workshop.simulation import compare, drifted, learning_curve


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(Path(__file__).parents[2] / "rules", "demo")


def test_the_same_seed_gives_the_same_customers_and_runs(machine: Appliance, shop: Shop) -> None:
    first, second = ([draw_customer(machine, rng) for _ in range(30)] for rng in (Random(5), Random(5)))
    assert first == second
    assert runs(first, machine, shop, by_value) == runs(second, machine, shop, by_value)


def test_a_customer_complains_of_something_they_have(machine: Appliance) -> None:
    rng = Random(6)
    for _ in range(100):
        customer = draw_customer(machine, rng)
        assert customer.symptoms[customer.complains]


def test_what_a_customer_cannot_tell_adds_nothing(machine: Appliance) -> None:
    customer = draw_customer(machine, Random(7))
    ask, evidence = Ask("observation", "hums"), Evidence(symptoms={"noise": True})
    told = answered(evidence, ask, customer)
    assert told.observations == ({} if "hums" in customer.cannot else {"hums": customer.values["hums"]})


def test_a_check_that_helps_ends_the_ticket_without_a_visit(machine: Appliance, shop: Shop) -> None:
    def only_the_filter(appliance: Appliance, evidence: Evidence, limits: Limits, own: Shop) -> Try | Stop:
        return Stop("cap") if evidence.checks else Try("clean_filter", 0.5, 5)

    rng = Random(8)
    for _ in range(60):
        customer = draw_customer(machine, rng)
        ended = run(customer, machine, shop, only_the_filter)
        assert ended.settled is ("clean_filter" in customer.helps)
        assert (ended.minutes < 20) is ended.settled


def test_asking_by_value_costs_less_than_a_fixed_list_and_no_more_than_entropy(rulebook: Rulebook) -> None:
    dishwasher, rng = rulebook.appliances["dishwasher"], Random(1)
    customers = [draw_customer(dishwasher, rng) for _ in range(700)]
    value, listed, entropy = compare(dishwasher, rulebook.shop, customers)
    assert [value.policy, listed.policy, entropy.policy] == list(POLICIES)
    assert listed.more.mean - listed.more.half > 0
    assert entropy.more.mean > 0
    assert value.questions < entropy.questions - 0.5


def test_outcomes_bring_a_shop_near_its_own_truth(rulebook: Rulebook) -> None:
    dishwasher, rng = rulebook.appliances["dishwasher"], Random(2)
    truth = drifted(dishwasher, rng)
    rows = learning_curve(dishwasher, truth, rulebook.shop, (0, 200), 400, rng)
    curve = {name: minutes.mean for name, minutes, _ in rows}
    known, before, after = (curve[name] for name in ("knowing the truth", "after 0 outcomes", "after 200 outcomes"))
    assert after < before
    assert after < 1.05 * known


def test_learned_rules_hold_the_proposed_weights_and_words(machine: Appliance, shop: Shop) -> None:
    rng = Random(9)
    found = [one.found for one in runs([draw_customer(machine, rng) for _ in range(80)], machine, shop, by_value)]
    proposal = propose(machine, counted(found))
    rules = applied(machine, proposal)
    assert {one.cause: rules.causes[one.cause].weight for one in proposal.weights if one.cause in rules.causes} == {
        one.cause: one.weight for one in proposal.weights if one.cause in rules.causes
    }
    for moved in proposal.grades:
        graded = rules.causes[moved.cause].evidence[moved.code]
        assert (graded if isinstance(graded, str) else graded[moved.value]) == moved.word
