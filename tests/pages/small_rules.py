"""A small shop with a small dishwasher: enough to fill every corner of a page, and it stays as it is when rules change."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from service.rulebook.model import Rulebook, Vocabulary
from service.rulebook.schema.appliance import (
    Appliance,
    ApplianceBasics,
    Cause,
    Check,
    Observation,
    Opening,
    Part,
    Symptom,
    Tool,
    VisitTest,
)
from service.rulebook.schema.common import Phrases
from service.rulebook.schema.shop import Shop

SOURCE = "common practice, no source"
EXAMPLE = {"says": "it does not drain"}
HOURS = {day: {"start": "08:00", "end": "18:00"} for day in ("mon", "tue", "wed", "thu", "fri")}


def both(en: str, es: str = "") -> dict[str, str]:
    return {"en": en, "es": es or en}


def _symptom(code: str, say: str, trade: str) -> Symptom:
    return Symptom.model_validate(
        {"code": code, "say": both(say), "trade": trade, "why": "told apart", "examples": [EXAMPLE]}
    )


def _cause(code: str, name: str, weight: float, evidence: dict[str, str], **more: Any) -> Cause:
    own = {"id": code, "name": both(name), "weight": weight, "evidence": evidence, "repair_min": 20, "source": SOURCE}
    return Cause.model_validate({"repair": "mend it", **own, **more})


def _test(code: str, do: str, minutes: float, finds: dict[str, str], **more: Any) -> VisitTest:
    own = {"id": code, "do": do, "minutes": minutes, "finds": finds, "place": "tub", "source": SOURCE}
    return VisitTest.model_validate({"passes": "clear", "fails": "worn or blocked", **own, **more})


def _part(code: str, name: str, low: int, high: int, carry: int) -> Part:
    own = {"id": code, "name": both(name), "price_low_cents": low, "price_high_cents": high}
    return Part.model_validate({**own, "carry_cents": carry, "volume_l": 1.5})


def _caution(signal: str, text: str) -> dict[str, Any]:
    return {"signal": signal, "text": both(text), "source": SOURCE}


@lru_cache
def dishwasher() -> Appliance:
    """Four symptoms, two observations, four causes, a check, four tests."""
    check = {
        "id": "clean_filter", "title": both("Clean the filter"), "touches": ["filter"], "power": "off", "water": "either",
        "not_for": both("nobody"), "ends_if": both("it is broken"), "cautions": [_caution("CAUTION", "Broken glass cuts.")],
        "steps": [both("Turn the filter and lift it out.")], "see": both("A clean mesh."), "helped": both("Did it help?"),
        "minutes": 5, "effort": 1, "settles": {"filter_clogged": "often"}, "why": "cheap", "source": SOURCE,
    }  # fmt: skip
    basics = {
        "appliance": "dishwasher", "say": both("dishwasher", "lavaplatos"), "names": {}, "examples": [EXAMPLE],
        "choices": [{"say": both("water stays"), "means": ["no_drain"]}, {"say": both("leaks"), "means": ["leak"]}],
        "visit": {"median_min": 60, "q90_min": 110}, "cautions": [
            _caution("WARNING", "Water and power together: breaker off before the sump is opened."),
            _caution("CAUTION", "Sharp edges and glass in the sump: wear a glove."),
        ], "proof": [both("Full fill, then a full drain without a stop.")],
    }  # fmt: skip
    fields = ApplianceBasics.model_fields
    if "before_closing" in fields:
        basics["before_closing"] = [both("Look underneath for leaks while it drains.")]
    items: dict[str, Any] = {
        "symptoms": [
            _symptom("slow_drain", "drains, but slowly", "drains at a trickle"),
            _symptom("no_drain", "water stays in it", "does not drain"),
            _symptom("leak", "leaks", "leaks"),
            _symptom("backflow", "dirty water comes back", "back-flow from sink"),
        ],
        "observations": [
            Observation.model_validate(
                {"id": "sink_backs_up", "ask": both("Does the sink back up?"), "trade": "sink backs up", "why": "line"}
            ),
            Observation.model_validate(
                {
                    "id": "drain_type", "ask": both("Which drain?"), "trade": "drain type", "why": "seal or pump",
                    "who": "technician", "answers": [
                        {"value": "valve", "say": both("drain valve")}, {"value": "pump", "say": both("separate pump")},
                    ],
                }
            ),
        ],
        "causes": [
            _cause("seal_worn", "drain-valve seal worn", 20, {"slow_drain": "very often"}, parts=["seal_kit"],
                   tools=["nut_driver"]),
            _cause("line_grease", "drain line partly blocked by grease", 18,
                   {"slow_drain": "often", "sink_backs_up": "sometimes"}, tools=["tubing"]),
            _cause("sump_glass", "glass or scraps at the sump screen", 9,
                   {"slow_drain": "sometimes", "no_drain": "sometimes"}),
            _cause("filter_clogged", "filter clogged", 14, {"slow_drain": "sometimes"}, owner=True),
            _cause("pump_worn", "motor and pump assembly", 5, {"no_drain": "often"}, parts=["pump_assembly"]),
        ],
        "checks": [Check.model_validate(check)],
        "tests": [
            _test("full_drain", "Fill it full, then watch a full drain", 6, {"seal_worn": "often", "line_grease": "often"}),
            _test("measure_seal", "Take the drain-valve seal out and measure it", 8, {"seal_worn": "always"},
                  opening="lower_panel", after=["full_drain"], passes="about 24 mm across", fails="about 18 mm: worn"),
            _test("sump_screen", "Feel the sump and its screen", 5, {"sump_glass": "always", "filter_clogged": "always"},
                  cautions=[_caution("CAUTION", "Glass: glove on.")]),
            _test("clear_line", "Take the hose off at the sink end and clear it through", 12, {"line_grease": "always"}),
            _test("pump_last", "Judge the motor and pump assembly", 10, {"pump_worn": "always"}, last=True),
        ],
        "openings": [
            Opening.model_validate(
                {"id": "lower_panel", "do": "Take the lower panel off", "minutes": 4, "tools": ["nut_driver"]}
            )
        ],
        "parts": [
            _part("seal_kit", "drain-valve seal kit", 900, 2400, 40),
            _part("pump_assembly", "motor and pump assembly", 11000, 24000, 900),
        ],
        "tools": [
            Tool.model_validate({"id": "nut_driver", "name": "nut drivers 1/4 and 5/16 inch"}),
            Tool.model_validate({"id": "tubing", "name": "a length of 1/4-inch tubing"}),
        ],
    }  # fmt: skip
    keyed = {name: {getattr(i, "id", None) or i.code: i for i in found} for name, found in items.items()}
    return Appliance(basics=ApplianceBasics.model_validate(basics), something_else=8, **keyed)


@lru_cache
def shop() -> Shop:
    """Two technicians, three ZIP codes, one fee."""
    common = {"skills": ["dishwasher"], "days": HOURS}
    technicians = [
        {
            "id": "ray",
            "name": "Ray Ortega",
            "phone": "+15055550111",
            "start_zip": "87107",
            "language": ["en", "es"],
            **common,
        },
        {"id": "dee", "name": "Dee Whitfield", "phone": "+15055550112", "start_zip": "87111", **common},
    ]
    return Shop.model_validate(
        {
            "shop": "demo", "name": "Tarnwick Appliance Repair", "number": "+15055550100", "office_phone": "+15055550101",
            "timezone": "America/Denver", "serves": ["dishwasher"], "refer_otherwise": both("Somebody else can help."),
            "area": {
                "87105": {"lat": 35.0448, "lon": -106.6893, "name": "South Valley"},
                "87107": {"lat": 35.1347, "lon": -106.6427, "name": "North Valley"},
                "87111": {"lat": 35.1347, "lon": -106.5222, "name": "Far Northeast Heights"},
            },
            "hours": HOURS, "technicians": technicians, "policies": {"autonomy": "automatic", "rest_s": 0},
            "windows": {"starts": ["08:00", "10:00", "13:00", "15:00"]},
            "fees": {"visit_cents": 9500, "say": both("The visit is {fee}, and counts toward the repair.")},
        }
    )  # fmt: skip


@lru_cache
def small_rulebook() -> Rulebook:
    """All of it, as if loaded."""
    words = Vocabulary(
        appliances={"dishwasher": "", "washer": ""},
        symptoms={"slow_drain": "drains slowly", "no_drain": "does not drain", "leak": "water where it should not be"},
        hazards={"burning_smell": "smell of burning", "hot_wiring": "cord, plug or outlet is hot or scorched"},
        urgency={"active_leak": "water is still coming"},
        intents={},
        facts={},
    )
    return Rulebook(
        vocabulary=words, appliances={"dishwasher": dishwasher()}, names={}, dangers={}, urgency={}, talk={},
        words={"none": Phrases()}, wording={"en": {}, "es": {}}, shop=shop(), fingerprint="small", source="{}",
    )  # fmt: skip
