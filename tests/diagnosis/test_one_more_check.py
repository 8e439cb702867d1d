"""One more check for who asks: the likeliest for its minutes, whatever the shop's count says, and never an unsafe one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.checks import chance_to_settle
from service.diagnosis.model import Evidence, Limits, Stop, Try
from service.diagnosis.questions import MORE_FROM, next_step, one_more
from service.diagnosis.table import compiled
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

NOTHING_DRAINS = Evidence(symptoms={"no_drain": True, "slow_drain": False})
USED_UP = Limits(questions_used=5, checks_used=2)


def offered(machine: Appliance, shop: Shop, evidence: Evidence = NOTHING_DRAINS, limits: Limits = USED_UP) -> list[Try]:
    """What is offered to somebody who asks for more after each check that did not help."""
    found: list[Try] = []
    while (step := one_more(machine, evidence, limits, shop)) is not None:
        found.append(step)
        evidence = replace(evidence, checks={**evidence.checks, step.check: "not_fixed"})
        assert len(found) <= len(machine.checks)
    return found


def test_it_is_offered_where_the_line_itself_would_stop(machine: Appliance, shop: Shop) -> None:
    assert isinstance(next_step(machine, NOTHING_DRAINS, USED_UP, shop), Stop)
    assert len(offered(machine, shop)) > 2


def test_the_first_is_the_likeliest_for_its_minutes_and_has_a_fair_chance(machine: Appliance, shop: Shop) -> None:
    table, belief = compiled(machine), believe(machine, NOTHING_DRAINS)
    shares = compiled(machine).prior * 0 + [belief.share(cause) for cause in table.causes]
    chances = {code: chance_to_settle(table, shares, code) for code in table.checks}
    first = offered(machine, shop)[0]
    rates = {code: chance / table.check_min[table.places[code]] for code, chance in chances.items()}
    safe = {code for code in rates if belief.share("wiring") < 0.01 or code != "run_tap"}
    assert first.check == max(safe, key=rates.__getitem__)
    assert first.chance == pytest.approx(chances[first.check])
    assert first.minutes == machine.checks[first.check].minutes
    assert all(step.chance >= MORE_FROM for step in offered(machine, shop))


def test_a_check_that_is_unsafe_done_declined_or_idle_is_no_more_offered_than_ever(
    machine: Appliance, shop: Shop
) -> None:
    noisy = Evidence(symptoms={"noise": True})
    assert believe(machine, noisy).share("wiring") >= 0.01
    assert "run_tap" not in {step.check for step in offered(machine, shop, noisy)}
    every = {step.check for step in offered(machine, shop)}
    assert "ask_installer" in every
    declined = replace(USED_UP, declined=frozenset({"ask_installer"}))
    assert "ask_installer" not in {step.check for step in offered(machine, shop, limits=declined)}
    slow = Evidence(symptoms={"slow_drain": True, "no_drain": False})
    assert "ask_installer" not in {step.check for step in offered(machine, shop, slow)}


@pytest.mark.parametrize(
    "evidence",
    [
        replace(NOTHING_DRAINS, hazards=frozenset({"burning_smell"})),
        replace(NOTHING_DRAINS, observations={"wet_floor": "yes"}),
        Evidence(symptoms={"no_drain": True, "broken_glass": True}),
        Evidence(),
    ],
)
def test_nothing_is_offered_in_danger_or_out_of_use_or_before_anything_is_said(
    machine: Appliance, shop: Shop, evidence: Evidence
) -> None:
    assert offered(machine, shop, evidence) == []


def test_a_shop_that_offers_no_checks_offers_no_more_either(machine: Appliance, shop: Shop) -> None:
    assert offered(machine, shop, limits=replace(USED_UP, checks_max=0)) == []
    assert offered(machine, shop, limits=replace(USED_UP, checks_allowed=False)) == []
