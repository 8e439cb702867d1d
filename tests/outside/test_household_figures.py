"""
The safety and household figures that the rules state, against published ones. Each source is named beside its figures.

Two ways: what a rule file says beside a cited source must be a figure of that source, in whatever folder it stands; and the
figures that a machine's rules must state are looked for there, so that a folder that comes later is held to them too.

Sources: F1 USDA FSIS and FDA, 40 F and 0 F. F2 FSIS, FDA: 4 h; 48 h full, 24 h half full. F3: 2 h above 40 F, 1 h above 90 F.
F4 FDA insulin: 36 to 46 F, 59 to 86 F for 28 days. F5 state energy office: 35 to 38 F, 0 to 5 F. P1 UPC 807: air gap. P2 IPC
802.1.6, IRC P2717.2: air gap or high loop. P3 IPC 802.4, IRC P2706: 18 to 42 in, 2 in. P4 UPC 804.1: 18 to 30 in, 6 to 18 in.
P5 IRC M1502: 4 in, 3 ft, 8 ft, 12 ft, 1/8 in, no screen. P6 IRC M1502.4: 35 ft less 5 and 2.5. P7 UMC 504: 14 ft. P8 makers'
sheets: 120 F, 20 to 120 psi, loop 20 in. H12 USFA: no extension cord. H13 CPSC, UL 858: anti-tip bracket, 250 lb. H14 CPSC
Doc. 5061: microwave covers. H15 21 CFR 1030.10: microwave doors. H16 40 CFR 82 F: certified hands. H17 EPA SNAP: no chipping,
57 g and 150 g. H18 CPSC Doc. 5098: 120 F.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

import pytest

from service.rulebook.folder import Folder, read_folder
from service.rulebook.schema.appliance import Appliance
from tests.conftest import RULES

FOLDER: Folder = read_folder(RULES, [])
MACHINES: dict[str, Appliance] = {
    name: joined for name, folder in FOLDER.appliances.items() if (joined := folder.joined()) is not None
}
COLD = {"refrigerator", "freezer", "ice_maker", "beverage_cooler"}

PUBLISHED: dict[str, dict[str, tuple[float | tuple[float, float], ...]]] = {
    "F1": {"F": (40, 0)},
    "F2": {"hour": (4, 24, 48)},
    "F3": {"F": (40, 90), "hour": (1, 2)},
    "F4": {"F": ((36, 46), (59, 86)), "day": (28,)},
    "F5": {"F": ((35, 38), (0, 5))},
    "P3": {"in": (18, 42, 2)},
    "P4": {"in": (18, 30, 6)},
    "P5": {"in": (4, 0.125), "ft": (3, 8, 12)},
    "P6": {"ft": (35, 5, 2.5)},
    "P7": {"ft": (14, 2)},
    "P8": {"F": (120,), "psi": ((15, 145),), "in": (20,)},
    "H13": {"lb": (250,)},
    "H16": {"lb": (5,)},
    "H17": {"g": (57, 150)},
    "H18": {"F": (120, 130, 140, 150)},
}
"""Source to unit to its figures; a pair is a range."""

_FIGURE = re.compile(
    r"(?<![\d./])(\d+(?:\.\d+)?(?:/\d+)?)(?:\s*(?:to|a|-|and|y|or|o)\s*(\d+(?:\.\d+)?(?:/\d+)?))?[\s-]*"
    r"(F|hours?|horas?|days?|días|inches|inch|in|ft|feet|pies|psi|lb|pounds|g)\b"
)
_UNITS = {"hours": "hour", "horas": "hour", "hora": "hour", "days": "day", "días": "day", "inches": "in", "inch": "in",
          "feet": "ft", "pies": "ft", "pounds": "lb"}  # fmt: skip
_ID = re.compile(r"\b([A-Z]\d{1,2})\b")


def figures(text: str) -> Iterator[tuple[float, str]]:
    """Every figure of *text* with its unit; both ends of a range."""
    for first, second, unit in _FIGURE.findall(text):
        for number in filter(None, (first, second)):
            yield float(Fraction(number)) if "/" in number else float(number), _UNITS.get(unit, unit)


def texts(value: object, *, cut: bool = False) -> Iterator[str]:
    """Every text within *value* but sources; *cut*: nothing of what is nested with a source of its own."""
    if isinstance(value, str):
        yield value
        return
    inner = [item for name, item in value.items() if name != "source"] if isinstance(value, Mapping) else value
    for item in inner if isinstance(inner, list) else ():
        if not (cut and isinstance(item, Mapping) and "source" in item):
            yield from texts(item, cut=cut)


def cited() -> Iterator[tuple[str, dict[str, Any]]]:
    """Every rule whose source is published and nothing else, with where it stands."""
    pages = [FOLDER.dangers, *FOLDER.talk]
    for folder in FOLDER.appliances.values():
        pages += [folder.basics, folder.symptoms, folder.observations, folder.causes, folder.checks, folder.tests]
    for page in filter(None, pages):
        for path, mapping in page.written.speaking():
            source = mapping.get("source")
            if isinstance(source, str) and "common practice" not in source and _ID.search(source):
                yield f"{page.written.file}, line {page.written.line(path)}", mapping


def among(number: float, allowed: tuple[float | tuple[float, float], ...]) -> bool:
    return any(one[0] <= number <= one[1] if isinstance(one, tuple) else number == one for one in allowed)


def test_a_figure_beside_a_published_source_is_a_figure_of_that_source() -> None:
    wrong, seen = [], 0
    for where, rule in cited():
        sources = [PUBLISHED[id] for id in _ID.findall(str(rule["source"])) if id in PUBLISHED]
        for number, unit in figures(" / ".join(texts(rule, cut=True))):
            allowed = [source[unit] for source in sources if unit in source]
            seen += bool(allowed)
            if allowed and not any(among(number, one) for one in allowed):
                wrong.append(f"{where}: {number:g} {unit} is not what {rule['source']} says")
    assert wrong == []
    assert seen >= 20


def told(machine: Appliance) -> str:
    """All that the rules of *machine* say, in English and Spanish, as one text."""
    return " / ".join(text for text in texts(machine.model_dump(mode="json")))


def meanwhile(machine: str) -> str:
    return " / ".join(one.say.en for one in MACHINES[machine].basics.meanwhile)


def test_f1_to_f3_what_is_said_of_food_in_a_warm_refrigerator_and_freezer() -> None:
    assert {(40.0, "F"), (4.0, "hour"), (2.0, "hour")} <= set(figures(meanwhile("refrigerator")))
    assert {(40.0, "F"), (2.0, "hour")} <= set(figures(meanwhile("freezer")))
    for name in ("refrigerator", "freezer"):
        assert "Full, it holds about 48 hours, half full about 24." in meanwhile(name)


def test_f3_food_with_ice_in_it_may_be_frozen_again_and_nobody_tastes() -> None:
    for name in ("refrigerator", "freezer"):
        assert "only food that still has ice" in meanwhile(name)
        assert not re.search(r"\btaste\b", meanwhile(name))


def test_f5_the_settings_advised_are_within_the_published_ones() -> None:
    advised = [
        number
        for name in COLD & MACHINES.keys()
        for check in MACHINES[name].checks.values()
        for step in check.steps
        for number, unit in figures(step.en)
        if unit == "F"
    ]
    assert advised
    assert all(among(number, ((35, 38), (0, 5), (40, 40))) or number > 40 for number in advised), advised
    assert {37.0, 0.0} <= set(advised)


def test_h18_p9_nobody_is_told_of_water_hotter_than_120_degrees() -> None:
    for name in {"dishwasher", "washer"} & MACHINES.keys():
        degrees = {number for number, unit in figures(told(MACHINES[name])) if unit == "F" and number >= 100}
        assert max(degrees, default=120.0) <= 120, name
    assert 120.0 in {number for number, unit in figures(told(MACHINES["dishwasher"])) if unit == "F"}


def test_p1_p2_a_dishwashers_hose_has_an_air_gap_or_a_high_loop() -> None:
    dishwasher = MACHINES["dishwasher"]
    mended = dishwasher.causes["no_high_loop"].repair if "no_high_loop" in dishwasher.causes else told(dishwasher)
    assert re.search(r"underside of the counter", mended)
    assert re.search(r"air gap where the town wants one", mended)


def test_p3_a_washers_standpipe_is_18_to_42_inches_above_its_trap_and_local_code_governs() -> None:
    height = MACHINES["washer"].observations["standpipe_height"]
    within = next(answer.say.en for answer in height.answers if answer.value == "within")
    assert set(figures(within)) == {(18.0, "in"), (42.0, "in")}
    assert "local code" in height.trade


def developed(straight_ft: float, right_angles: int, halves: int, per: Mapping[str, float]) -> float:
    return straight_ft + right_angles * per["90"] + halves * per["45"]


@pytest.mark.parametrize(
    ("straight_ft", "right_angles", "halves", "length_ft", "fits"),
    [(18, 2, 0, 28.0, True), (20, 2, 2, 35.0, True), (25, 2, 1, 37.5, False), (30.5, 1, 0, 35.5, False),
     (24, 3, 0, 39.0, False)],
)  # fmt: skip
def test_p6_the_dryers_duct_is_reckoned_as_the_code_does(
    straight_ft: float, right_angles: int, halves: int, length_ft: float, fits: bool
) -> None:
    """The worked examples of P-A, with the figures that the rules give the technician."""
    measure = next(test.do for test in MACHINES["dryer"].tests.values() if "90-degree" in test.do)
    found = re.search(r"(\d+) ft less ([\d.]+) per 90-degree and ([\d.]+) per 45-degree", measure)
    assert found
    per = {"90": float(found[2]), "45": float(found[3])}
    assert developed(straight_ft, right_angles, halves, per) == length_ft
    assert (length_ft <= float(found[1])) is fits


def test_p5_a_dryers_duct_is_smooth_metal_four_inches_wide_without_a_screen() -> None:
    said = told(MACHINES["dryer"])
    assert re.search(r"4-inch smooth metal; no screen", said)
    assert re.search(r"One piece of metal transition duct, 8 ft at most", said)
    assert "the maker's figure and local code govern" in said


def test_h11_the_lint_filter_is_for_every_load() -> None:
    assert "every load" in told(MACHINES["dryer"])


def test_h12_nobody_is_told_to_use_an_extension_cord() -> None:
    for name, machine in MACHINES.items():
        spoken = [text for check in machine.checks.values() for text in texts(check.model_dump(mode="json"))]
        spoken += list(texts(machine.basics.model_dump(mode="json")))
        spoken += [cause.repair for cause in machine.causes.values()]
        for text in spoken:
            if "extension cord" in text.lower():
                assert re.search(r"\b(no|not|never|without|off an)\b[^.]*extension cord", text, re.I), (name, text)


def test_h13_every_free_standing_ranges_sheet_names_the_anti_tip_bracket() -> None:
    for name in {"range"} & MACHINES.keys():
        sheet = " ".join(text for text in texts(MACHINES[name].basics.model_dump(mode="json")))
        assert re.search(r"anti-?tip", sheet), "the bracket is looked at before the machine is closed"
        assert not re.search(r"pull (it|the range) out", " ".join(c.title.en for c in MACHINES[name].checks.values()))


def test_h14_h15_a_microwaves_cover_is_nobodys_and_a_bent_door_stops_it() -> None:
    for name in {"microwave"} & MACHINES.keys():
        machine = MACHINES[name]
        assert re.search(r"capacitor|high voltage", " ".join(c.text.en for c in machine.basics.cautions))
        doors = [
            code
            for code, symptom in machine.symptoms.items()
            if symptom.stop_use and "door" in symptom.stop_use.say.en.lower()
        ]
        answers = [code for code, item in machine.observations.items() if item.stop_use and "door" in code]
        assert doors or answers, "a damaged door, or one that it runs open with, stops use"


def test_h16_sealed_systems_are_for_certified_hands_wherever_they_are() -> None:
    for name, machine in MACHINES.items():
        sealed = [cause for cause in machine.causes.values() if "sealed_system" in cause.skills]
        if sealed:
            said = " ".join(caution.text.en for caution in machine.basics.cautions)
            said += " ".join([*(c.repair for c in sealed), *(test.fails for test in machine.tests.values())])
            assert re.search(r"[Cc]ertified", said), name
    assert any("sealed_system" in cause.skills for cause in MACHINES["refrigerator"].causes.values())


def test_h17_nobody_chips_or_heats_ice_where_tubes_may_hold_a_gas_that_burns() -> None:
    for name in COLD & MACHINES.keys():
        for check in MACHINES[name].checks.values():
            for step in check.steps:
                assert not re.search(r"\b(chip|chisel|scrape|hair ?dryer|heat gun|knife)\b", step.en), (name, check.id)
    for name in ("refrigerator", "freezer"):
        assert "Do not chip at the ice or heat it" in meanwhile(name)


def test_h16_no_owner_check_settles_what_needs_certified_hands() -> None:
    for machine in MACHINES.values():
        skilled = {code for code, cause in machine.causes.items() if "sealed_system" in cause.skills}
        for check in machine.checks.values():
            assert not skilled & check.settles.keys(), check.id


def test_a_figure_is_found_with_its_unit() -> None:
    text = "18 to 42 in, 35 ft less 2.5, at 40 F for 2 hours; screws of 1/8 in; de 3 a 4 horas"
    assert set(figures(text)) == {
        (18.0, "in"), (42.0, "in"), (35.0, "ft"), (40.0, "F"), (2.0, "hour"), (0.125, "in"), (3.0, "hour"), (4.0, "hour"),
    }  # fmt: skip
