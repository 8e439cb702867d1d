"""Sources H1 to H20, W1, W3: what the danger rules tell people, checked line by line against home-safety guidance."""

import re
from pathlib import Path

import pytest
import yaml

from service.rulebook.schema.danger import DangersFile
from service.wording.grade import grade
from service.wording.segments import count, plain

RULES = Path(__file__).parents[2] / "rules"
FILE = DangersFile.model_validate(yaml.safe_load((RULES / "dangers.yaml").read_text(encoding="utf-8")))
DANGERS = {danger.code: danger for danger in FILE.dangers}
URGENCY = {urgency.code: urgency for urgency in FILE.urgency}
VOCABULARY = {
    "gas_smell", "carbon_monoxide", "fire", "smoke", "burning_smell", "sparks", "shock", "hot_wiring", "flooding",
    "water_near_power", "injury", "refrigerant_leak",
}  # fmt: skip
SPANISH_SIGNAL = {"DANGER": "PELIGRO", "WARNING": "ADVERTENCIA", "CAUTION": "PRECAUCIÓN", "NOTICE": "AVISO"}
EVERY = [
    pytest.param(danger, instruction, id=f"{danger.code}-{appliance}")
    for danger in FILE.dangers
    for appliance, instruction in [("any", danger.instruction), *danger.instruction_for.items()]
]


def told(code, appliance=None, language="en"):
    """The instruction for *code*, lower case."""
    danger = DANGERS[code]
    instruction = danger.instruction_for.get(appliance, danger.instruction)
    return instruction.say.in_(language).lower()


def order(text, *words):
    """True when *words* stand in *text* in this order."""
    places = [text.index(word) for word in words]
    return places == sorted(places)


def test_every_hazard_and_urgency_of_the_vocabulary_has_its_rule():
    assert set(DANGERS) == VOCABULARY
    assert set(URGENCY) == {"food_at_risk", "medicine_at_risk", "vulnerable_person", "active_leak"}
    assert sorted(danger.rank for danger in FILE.dangers) == list(range(1, 13))


@pytest.mark.parametrize(("danger", "instruction"), EVERY)
def test_w3_the_signal_word_is_first_and_the_text_stays_within_its_budget(danger, instruction):
    assert instruction.say.en.startswith(f"{danger.signal}: ")
    assert instruction.say.es.startswith(f"{SPANISH_SIGNAL[danger.signal]}: ")
    for language in ("en", "es"):
        assert count(plain(instruction.say.in_(language), language)).number <= 3
    assert grade(instruction.say.en) <= 6


@pytest.mark.parametrize(("danger", "instruction"), EVERY)
def test_no_instruction_promises_a_call_or_asks_for_a_tool_a_panel_or_a_photo(danger, instruction):
    english, spanish = instruction.say.en.lower(), instruction.say.es.lower()
    assert not re.search(r"we (will|'ll) call|someone will|screwdriver|remove|photo|picture|relight|gas valve", english)
    assert not re.search(r"llamaremos|le llamarán|desarmador|quite (el|la)|foto|llave de gas", spanish)


@pytest.mark.parametrize("code", ["gas_smell", "carbon_monoxide", "fire", "water_near_power"])
def test_w1_what_kills_is_called_danger(code):
    assert DANGERS[code].signal == "DANGER"


def test_h1_gas_leave_first_then_call_from_outside_and_nothing_is_touched():
    english, spanish = told("gas_smell"), told("gas_smell", language="es")
    assert english.startswith("danger: leave the building now")
    assert order(english, "leave", "no phone inside", "distance", "911", "gas company", "stay out")
    assert not re.search(r"unplug|valve|window|breaker|is it safe", english)
    assert spanish.startswith("peligro: salga ya del edificio")
    assert order(spanish, "salga", "teléfono adentro", "desde lejos", "911", "empresa de gas", "no vuelva")
    assert not re.search(r"desenchufe|desconecte|llave|válvula|ventana|breaker", spanish)


def test_h3_carbon_monoxide_outside_first_then_911_and_stay_out():
    english = told("carbon_monoxide")
    assert order(english, "outside", "fresh air", "911", "count heads", "do not go back in")
    assert order(told("carbon_monoxide", language="es"), "aire libre", "911", "no vuelva a entrar")


@pytest.mark.parametrize("code", ["shock", "burning_smell", "hot_wiring", "sparks"])
def test_h5_do_not_touch_it_again_and_breaker_only_if_the_way_is_dry(code):
    english = told(code)
    assert order(english, "touch", "dry", "breaker off")
    assert "unplug" not in english
    assert order(re.sub(r"to[cq]\w+", "toque", told(code, language="es")), "toque", "seco", "baje")


def test_h5_an_electrician_looks_at_a_hot_outlet():
    assert "electrician" in told("hot_wiring")
    assert "electricista" in told("hot_wiring", language="es")


@pytest.mark.parametrize("code", ["water_near_power", "flooding"])
def test_h6_water_and_power_keep_out_and_never_reach_for_the_plug(code):
    english, spanish = told(code), told(code, language="es")
    assert re.match(r"\w+: (stay|keep) out of", english)
    assert "unplug" not in english
    assert "dry" in english
    assert spanish.split(": ")[1].startswith("no pise")
    assert not re.search(r"desenchuf|desconect", spanish)


def test_h6_without_a_dry_way_the_power_company_or_an_electrician_is_called():
    assert order(told("water_near_power"), "dry", "power company", "electrician")


@pytest.mark.parametrize("code", ["fire", "smoke"])
@pytest.mark.parametrize("appliance", ["range", "wall_oven"])
def test_h7_an_oven_is_turned_off_with_its_door_closed_and_never_watered(code, appliance):
    english = told(code, appliance)
    assert re.match(r"\w+: turn it off and keep the (oven )?door closed", english)
    assert "911" in english
    assert "water" not in english
    assert order(told(code, appliance, "es"), "apague", "puerta", "cerrada", "911")


@pytest.mark.parametrize("code", ["fire", "smoke"])
def test_h8_a_microwave_keeps_its_door_closed_and_is_unplugged_only_if_safe(code):
    english = told(code, "microwave")
    assert english.split(": ")[1].startswith("keep the door closed")
    assert "only if you can do it safely" in english
    assert "911" in english


def test_h9_a_pan_gets_its_lid_and_never_water():
    english = told("fire", "cooktop")
    assert order(english, "lid on", "heat off", "do not move", "never pour water", "close the door", "911")


def test_h14_nobody_opens_a_microwave():
    assert "never open the case" in told("sparks", "microwave")


@pytest.mark.parametrize("appliance", ["refrigerator", "freezer"])
def test_h17_refrigerant_flames_away_and_no_tool_on_ice(appliance):
    english = told("refrigerant_leak", appliance)
    assert order(english, "flames", "never chip ice", "tubes")


def test_section_10_an_injury_is_for_911():
    assert told("injury").startswith("warning: call 911 now")


def test_f2_f3_food_hours_are_as_published():
    said = URGENCY["food_at_risk"].say
    assert re.findall(r"\d+", said.en) == ["4", "48", "24", "40", "2"]
    assert sorted(re.findall(r"\d+", said.es)) == sorted(["4", "48", "24", "40", "2"])


def test_f4_medicine_is_for_the_pharmacist_and_gets_no_dose():
    said = URGENCY["medicine_at_risk"].say
    assert "pharmacist" in said.en
    assert "farmacia" in said.es
    assert not re.search(r"\d", said.en + said.es)


@pytest.mark.parametrize("code", ["food_at_risk", "medicine_at_risk", "active_leak"])
def test_what_is_said_to_an_urgency_is_short_plain_and_sourced(code):
    urgency = URGENCY[code]
    assert urgency.source
    assert grade(urgency.say.en) <= 6
    assert urgency.say.en.split(":")[0] in SPANISH_SIGNAL
    assert urgency.say.es.split(":")[0] == SPANISH_SIGNAL[urgency.say.en.split(":")[0]]
    assert count(plain(urgency.say.en, "en")).number <= 2
    assert count(plain(urgency.say.es, "es")).number <= 3


@pytest.mark.parametrize("rule", [*FILE.dangers, *FILE.urgency], ids=lambda rule: rule.code)
def test_every_rule_has_a_dozen_examples_in_both_languages_with_near_misses(rule):
    hits = [e for e in rule.examples if rule.code in e.means]
    misses = [e for e in rule.examples if rule.code in e.lacks]
    spanish = [
        e
        for e in rule.examples
        if re.search(r"[áéíóúñ]|\b(el|la|los|una?|se|me|huele|no puedo|gotea|soy|mi)\b", e.says)
    ]
    assert len(rule.examples) >= 12
    assert len(hits) >= 9
    assert len(misses) >= 2
    assert len(spanish) >= 4
