"""A small drain machine, built from the schema itself: enough causes, checks and parts to decide between."""

from __future__ import annotations

from typing import Any

from service.rulebook.schema.appliance import (
    Appliance,
    ApplianceBasics,
    Cause,
    Check,
    Observation,
    Opening,
    Part,
    StopUse,
    Symptom,
    Tool,
    VisitTest,
)  # fmt: skip

BOTH = {"en": "words", "es": "palabras"}
CAUTION = {"signal": "WARNING", "text": BOTH, "source": "common practice, no source"}
EXAMPLE = {"says": "it does not drain"}


def symptom(code: str, **own: Any) -> Symptom:
    return Symptom.model_validate(
        {"code": code, "say": BOTH, "trade": code, "why": "told apart", "examples": [EXAMPLE], **own}
    )


def observation(code: str, **own: Any) -> Observation:
    return Observation.model_validate({"id": code, "ask": BOTH, "trade": code, "why": "told apart", **own})


def cause(code: str, weight: float, evidence: dict[str, Any], **own: Any) -> Cause:
    base = {"id": code, "name": {"en": code, "es": code}, "weight": weight, "evidence": evidence, "repair_min": 20}
    return Cause.model_validate({**base, "repair": "mend it", "source": "common practice, no source", **own})


def check(code: str, settles: dict[str, str], **own: Any) -> Check:
    base = {"id": code, "title": BOTH, "touches": ["filter"], "power": "off", "water": "either", "not_for": BOTH}
    base |= {"ends_if": BOTH, "cautions": [CAUTION], "steps": [BOTH], "see": BOTH, "helped": BOTH, "minutes": 5}
    more = {"effort": 1, "settles": settles, "why": "it helps", "source": "common practice, no source"}
    return Check.model_validate({**base, **more, **own})


def visit_test(code: str, minutes: float, finds: dict[str, str], **own: Any) -> VisitTest:
    base = {"id": code, "do": f"do {code}", "minutes": minutes, "place": "tub", "finds": finds, "passes": "good"}
    return VisitTest.model_validate({**base, "fails": "bad", "source": "common practice, no source", **own})


def part(code: str, carry_cents: int, volume_l: float = 2) -> Part:
    base = {"id": code, "name": BOTH, "price_low_cents": 1000, "price_high_cents": 3000}
    return Part.model_validate({**base, "carry_cents": carry_cents, "volume_l": volume_l})


def keyed(*items: Any) -> dict[str, Any]:
    return {getattr(item, "id", None) or item.code: item for item in items}


def appliance(**files: Any) -> Appliance:
    basics = ApplianceBasics.model_validate(
        {
            "appliance": "dishwasher", "say": BOTH, "names": {}, "examples": [EXAMPLE],
            "choices": [{"say": BOTH, "means": ["no_drain"]}, {"say": BOTH, "means": ["leak"]}],
            "visit": {"median_min": 60, "q90_min": 110}, "cautions": [CAUTION], "proof": [BOTH], "before_closing": [BOTH],
        }
    )  # fmt: skip
    kinds = ("symptoms", "observations", "causes", "checks", "tests", "openings", "parts", "tools")
    empty: dict[str, Any] = {kind: {} for kind in kinds}
    return Appliance.model_validate({"basics": basics, "something_else": 1.0, **empty, **files})


STOP = StopUse.model_validate({"signal": "WARNING", "say": BOTH, "source": "common practice, no source"})


def small_machine() -> Appliance:
    return appliance(
        symptoms=keyed(
            symptom("vague"),
            symptom("no_drain"),
            symptom("slow_drain"),
            symptom("leak", level="soon"),
            symptom("noise"),
            symptom("poor_clean"),
            symptom("wet_load"),
            symptom("broken_glass", stop_use=STOP),
        ),
        observations=keyed(
            observation("hums"),
            observation("sink_backs_up", when=["no_drain", "slow_drain"]),
            observation("new_disposal", from_facts=[{"fact": "after", "equals": "new_disposal", "means": "yes"}]),
            observation("old", from_facts=[{"fact": "age_years", "at_least": 10, "means": "yes"}], who="technician"),
            observation("drain_type", who="technician", answers=[
                {"value": "valve", "say": BOTH}, {"value": "pump", "say": BOTH}, {"value": "unknown", "say": BOTH}]),
            observation("wet_floor", stop_use={"yes": STOP}),
        ),
        something_else=8,
        causes=keyed(
            cause("filter", 30, {"no_drain": "often", "slow_drain": "almost always", "sink_backs_up": "rarely",
                  "new_disposal": "rarely"}, owner=True, tools=["screwdriver"]),
            cause("knockout", 4, {"no_drain": "always", "slow_drain": "rarely", "new_disposal": "always"}, owner=True),
            cause("pump", 20, {"no_drain": "almost always", "hums": "sometimes", "sink_backs_up": "rarely",
                  "new_disposal": "rarely", "drain_type": {"pump": "always", "valve": "never", "unknown": "never"}},
                  parts=["pump_kit"], repair_min=45, tools=["nut_driver"], theory={"en": ["pump is shot"]}),
            cause("seal", 18, {"no_drain": "sometimes", "slow_drain": "very often", "hums": "often",
                  "new_disposal": "rarely", "drain_type": {"valve": "always", "pump": "never"}}, parts=["seal_kit"]),
            cause("line", 15, {"no_drain": "about half", "slow_drain": "often", "sink_backs_up": "almost always",
                  "new_disposal": "rarely"}),
            cause("wiring", 3, {"no_drain": "sometimes", "noise": "rarely"}, level="today", parts=["harness", "board"]),
        ),
        checks=keyed(
            check("clean_filter", {"filter": "very often"}, done_if_tried=["cleaned_filter"]),
            check("ask_installer", {"knockout": "often"}, when=["no_drain"], minutes=4, effort=0, touches=["nothing"]),
            check("run_tap", {"line": "sometimes"}, unsafe_for=["wiring"], touches=["tap"], minutes=3),
            check("reset", {"wiring": "rarely", "pump": "sometimes"}, reset=True, touches=["breaker"],
                  never_if=["wet_floor=yes"], done_if_tried=["reset_breaker"]),
        ),
        tests=keyed(
            visit_test("full_fill", 6, {"filter": "rarely"}),
            visit_test("seal_size", 8, {"seal": "almost always"}, after=["full_fill"], tools=["nut_driver"], place="sump"),
            visit_test("sump", 5, {"filter": "almost always"}, place="tub", tools=["towel"]),
            visit_test("line_off", 12, {"line": "very often", "knockout": "almost always"}, place="sink"),
            visit_test("meter", 6, {"wiring": "often"}, opening="toe_panel", place="underneath"),
            visit_test("pump_out", 15, {"pump": "always"}, last=True, opening="toe_panel", place="underneath"),
        ),
        openings=keyed(Opening(id="toe_panel", do="take the toe panel off", minutes=4, tools=("quarter_driver",))),
        parts=keyed(part("pump_kit", 900, 6), part("seal_kit", 200), part("harness", 100), part("board", 150)),
        tools=keyed(*(Tool(id=code, name=code) for code in ("nut_driver", "towel", "quarter_driver")),
                    Tool(id="screwdriver", name="screwdriver", standard=True)),
    )  # fmt: skip
