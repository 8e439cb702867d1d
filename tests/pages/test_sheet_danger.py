"""A sheet of a visit with a danger: what comes first, what is loaded, what they said of it, and nothing nobody said."""

from __future__ import annotations

import re
from typing import Any

import pytest
from sqlalchemy import update

from service.pages.links import sheet_path
from service.storage import visits_view
from service.storage.engine import reading, writing
from service.storage.tables import tickets
from tests.pages.makers import Thread
from tests.pages.office import Office

METER = "we are outside. the fire department came, gas is off at the meter"


def sheet_of(office: Office, **changed: Any) -> str:
    """Maria's sheet with her ticket *changed*, and a text about the meter."""
    row = office.ticket(1001)
    state = {**row.state, "symptoms": {}, "observations": {}, "words": ["I smell gas by the stove"], **changed}
    with writing(office.deps.engine) as connection:
        Thread(connection, "thmaria", "", office.clock(), turn=90).heard(METER, 70)
        connection.execute(
            update(tickets).where(tickets.c.id == row.id).values(state=state, appliance=state["appliance"])
        )
    with reading(office.deps.engine) as connection:
        visit = visits_view.visit_by_id(connection, "demo", "vmaria")
    assert visit is not None
    return str(office.client.get(sheet_path(office.deps, "demo", visit)).text)


def steps(html: str) -> list[str]:
    return re.findall(r"<p><strong>(?:Only then: )?(.*?)</strong>", html.split("Do in this order")[1])


def load(html: str) -> str:
    return re.split(r"<h2 id=.load-", html)[1].split("</ul>")[0]


@pytest.mark.parametrize("facts", [{"fuel": "gas"}, {}])
@pytest.mark.parametrize("cleared", [True, False])
def test_a_smell_of_gas_begins_with_a_leak_check_and_no_pan_is_loaded(
    office: Office, facts: dict[str, str], cleared: bool
) -> None:
    html = sheet_of(office, appliance="range", hazards=["gas_smell"], hazards_cleared=cleared, facts=facts)

    assert steps(html)[0].startswith("Before any flame")
    assert "gas leak solution" in load(html)
    assert "test pan" not in load(html)
    assert "gas leak solution" in html.split("</header>")[0]


def test_what_is_loaded_and_what_is_not_stands_with_both_sides_of_the_sum(office: Office) -> None:
    html = sheet_of(office, appliance="range", hazards=[], facts={}, symptoms={"vague": True}, words=["it is broken"])
    weighed = re.findall(r"worth \$([\d.]+) a visit, carrying it \$([\d.]+)", html)
    carried, left = html.split("Not worth carrying")
    taken = re.findall(r"worth \$([\d.]+) a visit, carrying it \$([\d.]+)", carried)

    assert len(weighed) > len(taken) > 3
    assert all(float(worth) > float(cost) for worth, cost in taken)
    assert all(float(worth) <= float(cost) for worth, cost in weighed[len(taken) :])
    assert "order on finding" in left


def test_all_that_they_said_of_a_danger_is_there(office: Office) -> None:
    html = sheet_of(office, appliance="range", hazards=["gas_smell"], facts={})

    assert METER in html.split("In ours")[0]
    assert "hurt" not in html.split("<main")[1].split("</header>")[0]
    assert "DANGER named:</strong> Smell of gas" in html.split("</header>")[0]


def test_a_named_danger_is_what_is_wrong_where_no_symptom_was_said(office: Office) -> None:
    html = sheet_of(office, appliance="range", hazards=["gas_smell"], facts={}, one_of=[["door_fault", "broken_glass"]])

    assert "Range, smell of gas" in html.split("</h1>")[0]


@pytest.mark.parametrize("hazard", ["burning_smell", "shock", "water_near_power"])
def test_power_is_proved_dead_before_the_first_test(office: Office, hazard: str) -> None:
    html = sheet_of(office, appliance="dishwasher", hazards=[hazard])

    assert "proved dead" in steps(html)[0]
    assert "non-contact voltage tester" in load(html)


def test_a_machine_without_rules_has_its_first_step_too(office: Office) -> None:
    assert "proved dead" in steps(sheet_of(office, appliance="unknown", hazards=["shock"]))[0]


def test_an_electric_dryer_has_no_gas_step(office: Office) -> None:
    html = sheet_of(
        office, appliance="dryer", symptoms={"no_heat": True}, facts={"fuel": "electric"}, words=["no heat"]
    )

    body = html.casefold()
    assert not re.search(r"\bgas (cock|dryer|joints)|manometer|leak solution|igniter", body.split('id="outcome"')[0])
    assert steps(html)[0].startswith("Look at what is dried")
