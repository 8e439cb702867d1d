"""The guide for rule authors and the published schema say what the loader does."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from pydantic import BaseModel

from service.diagnosis.grades import GRADES
from service.reading.readers import reader_for
from service.rulebook.checking.forbidden import ACTS
from service.rulebook.checking.safety import BEFORE_A_BREAKER
from service.rulebook.examples import every_example
from service.rulebook.loading import check_rules, load_rulebook
from service.rulebook.problems import render
from service.rulebook.published import FILES, PLACES, json_schema, models
from service.workshop.examples import missed_by
from service.workshop.publish import BEGIN, END, publish, with_fields
from tests.conftest import RULES
from tests.rulebook.sound import SOUND, write

GUIDE = (RULES / "README.md").read_text("utf-8")

HOOD = {
    "appliance": """
appliance: range_hood
say: {en: range hood, es: campana}
names: {en: [range hood, stove hood, hood fan], es: [campana]}
examples: [{says: the range hood is loud, means: [appliance=range_hood]}]
choices:
  - {say: {en: The fan, es: El ventilador}, means: [fan_dead]}
  - {say: {en: The lamp, es: La luz}, means: [light_out]}
visit: {median_min: 40, q90_min: 70}
cautions: [{signal: WARNING, text: {en: Power off., es: Sin corriente.}, source: "common practice, no source"}]
proof: [{en: It draws smoke., es: Jala el humo.}]
before_closing: [{en: Filters back in., es: Filtros en su lugar.}]
""",
    "symptoms": """
symptoms:
  - code: fan_dead
    say: {en: the fan does not run, es: no prende el ventilador}
    trade: fan dead
    functions: {en: ["fan [runs|works]"], es: [prende el ventilador]}
    why: the usual call
    examples: [{says: the fan doesn't run, means: [fan_dead]}]
""",
    "causes": """
something_else: 3
causes:
  - id: motor_seized
    name: {en: motor seized, es: motor trabado}
    weight: 10
    evidence: {fan_dead: always}
    repair_min: 40
    repair: fit a motor
    source: common practice, no source
""",
    "checks": "checks:\n",
    "parts": "parts:\n",
    "tests": """
tests:
  - {id: turn_by_hand, do: turn the wheel, minutes: 2, place: front, finds: {motor_seized: always}, passes: it turns,
     fails: it does not, source: "common practice, no source"}
""",
}
"""A range hood that knows nothing of lamps, as the guide's example finds it."""


def blocks() -> dict[str, str]:
    """The guide's worked example, a block per file."""
    found = re.findall(r"```yaml\n# range_hood/(\w+)\.yaml\n(.*?)```", GUIDE, re.S)
    return dict(found)


def test_the_worked_example_loads_as_it_stands_in_the_guide(tmp_path: Path) -> None:
    folder = {f"appliances/range_hood/{name}.yaml": text.lstrip() for name, text in HOOD.items()}
    for name, text in blocks().items():
        folder[f"appliances/range_hood/{name}.yaml"] += text
    names = SOUND["talk/appliances.yaml"]
    named = {"talk/appliances.yaml": "appliances:\n" + names[names.index("  - appliance: other") :]}

    rules = write(tmp_path, {**SOUND, **folder, **named})

    assert set(blocks()) == {"symptoms", "causes", "parts", "checks"}
    assert render(check_rules(rules)) == ""
    hood = load_rulebook(rules, "corner").appliances["range_hood"]
    assert list(hood.causes) == ["motor_seized", "lamp_burned_out", "lamp_switched_off"]
    assert hood.checks["lamp_switch"].settles == {"lamp_switched_off": "almost always"}


def test_the_examples_of_the_worked_example_are_read_as_they_say(tmp_path: Path) -> None:
    """With the talk of all rules around it, as its reader has it."""
    rules = Path(shutil.copytree(RULES, tmp_path / "rules", ignore=shutil.ignore_patterns("appliances", ".kept")))
    hood = rules / "appliances" / "range_hood"
    hood.mkdir(parents=True)
    for name, text in HOOD.items():
        (hood / f"{name}.yaml").write_text(text.lstrip() + blocks().get(name, ""), "utf-8")
    names = (RULES / "talk" / "appliances.yaml").read_text("utf-8").split("\n  - appliance: ")
    others = [name for name in names if not name.startswith("range_hood\n")]
    (rules / "talk" / "appliances.yaml").write_text("\n  - appliance: ".join(others), "utf-8")
    rulebook = load_rulebook(rules, "demo")

    reader = reader_for(rulebook)
    written = [
        placed for placed in every_example(rulebook) if placed.rule == "light_out" and "range_hood" in placed.file
    ]

    assert len(written) == 5
    assert [str(missed) for placed in written if (missed := missed_by(reader, rulebook, placed))] == []


def test_the_overrides_of_the_guide_fit_the_rules_of_the_house(tmp_path: Path) -> None:
    block = re.search(r"```yaml\n# shops/NAME\.yaml\n(.*?)```", GUIDE, re.S)
    rules = tmp_path / "rules"
    shutil.copytree(RULES, rules)
    demo = rules / "shops" / "demo.yaml"
    demo.write_text(demo.read_text("utf-8") + block[1], "utf-8")

    book = load_rulebook(rules, "demo")

    assert book.appliances["dishwasher"].causes["filter_clogged"].weight == 90
    assert "reset_breaker" not in book.appliances["dishwasher"].checks
    assert book.wording["en"]["consent.in"].startswith("{shop} here")


@pytest.mark.parametrize("model", models(), ids=lambda model: model.__name__)
def test_every_field_an_author_writes_has_its_line_in_the_guide(model: type[BaseModel]) -> None:
    table = GUIDE[GUIDE.index(BEGIN) : GUIDE.index(END)]

    for name, field in model.model_fields.items():
        assert field.description, f"{model.__name__}.{name} says nothing of itself"
        assert re.search(rf"^- `{name}`.*: {re.escape(field.description)}$", table, re.M), f"{model.__name__}.{name}"


def test_every_kind_of_rule_file_is_in_the_guide() -> None:
    for name, place in PLACES.items():
        if name != "wording":
            assert f"### `{place}`" in GUIDE


def test_the_table_of_fields_is_in_step_with_the_schema() -> None:
    assert with_fields(GUIDE) == GUIDE, "run: plainfault workshop publish"


@pytest.mark.parametrize("name", FILES)
def test_the_published_schema_is_in_step(name: str) -> None:
    published = (RULES / "schema" / f"{name}.json").read_text("utf-8")

    assert published == json_schema(name), "run: plainfault workshop publish"


def test_publishing_writes_what_is_missing_and_nothing_twice(tmp_path: Path) -> None:
    (tmp_path / "README.md").write_text(f"# Rules\n{BEGIN}\n{END}\nThe end.\n", "utf-8")

    changed = publish(tmp_path)

    assert {path.name for path in changed} == {*(f"{name}.json" for name in FILES), "README.md"}
    assert (tmp_path / "README.md").read_text("utf-8").endswith("\nThe end.\n")
    assert publish(tmp_path) == ()


def test_editors_are_told_that_yes_and_no_and_times_are_text() -> None:
    shop, parts = json.loads(json_schema("shop")), json.loads(json_schema("parts"))

    assert shop["$defs"]["Span"]["properties"]["start"]["type"] == "string"
    assert parts["$defs"]["Tool"]["properties"]["standard"]["enum"] == [True, False, "yes", "no"]


def test_the_grades_of_the_guide_are_those_the_belief_counts_with() -> None:
    table = dict(re.findall(r"^\| ([a-z ]+) \| (\d+) \|$", GUIDE, re.M))

    assert {word: int(share) / 100 for word, share in table.items()} == GRADES


def test_the_guide_names_every_act_and_hazard_that_loading_refuses() -> None:
    told = re.sub(r"\s+", " ", GUIDE)

    assert all(f"`{code}`" in told for code in BEFORE_A_BREAKER)
    for act in ACTS:
        assert act.name in told, f"the guide does not say: {act.name}"


@pytest.mark.parametrize("path", sorted(RULES.rglob("*.yaml")), ids=lambda path: str(path.relative_to(RULES)))
def test_a_rule_file_names_the_schema_that_an_editor_completes_by(path: Path) -> None:
    first = path.read_text("utf-8").splitlines()[0]
    match = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)

    assert match, f"the first line of {path.name} should name its schema"
    schema = (path.parent / match[1]).resolve()
    assert schema.parent == RULES / "schema"
    assert schema.exists()
