"""One appliance: how it is named, the choices for a vague complaint, what every visit to it needs; and all its files joined."""

from __future__ import annotations

from pydantic import Field

from service.rulebook.schema.cause import Cause, CausesFile
from service.rulebook.schema.check import Check, ChecksFile
from service.rulebook.schema.common import Code, Example, Phrases, Strict, Text
from service.rulebook.schema.seen import Answer, FromFact, Observation, ObservationsFile, StopUse, Symptom, SymptomsFile
from service.rulebook.schema.visit import (
    Opening,
    Part,
    PartsFile,
    TestsFile,
    Tool,
    TradeCaution,
    TradeText,
    VisitTest,
)

__all__ = [
    "Answer",
    "Appliance",
    "ApplianceBasics",
    "Cause",
    "CausesFile",
    "Check",
    "ChecksFile",
    "FromFact",
    "Meanwhile",
    "Observation",
    "ObservationsFile",
    "Opening",
    "Part",
    "PartsFile",
    "StopUse",
    "Symptom",
    "SymptomsFile",
    "TestsFile",
    "Tool",
    "VagueChoice",
    "VisitLength",
    "VisitTest",
]


class VagueChoice(Strict):
    """One of at most five choices offered when a complaint says nothing of what is wrong."""

    say: Text = Field(description="the choice as the customer reads it")
    means: tuple[Code, ...] = Field(min_length=1, description="symptoms; several are told apart by the next question")
    tells: dict[Code, str] = Field(default={}, description="what it tells besides: an observation and its answer")


class VisitLength(Strict):
    """Minutes of a usual visit: half are done by the median, nine in ten by q90."""

    median_min: int = Field(gt=0, le=600, description="half the visits take no longer, minutes")
    q90_min: int = Field(gt=0, le=900, description="nine in ten take no longer, minutes")


class Meanwhile(Strict):
    """What the customer can safely do until somebody comes."""

    symptoms: tuple[Code, ...] = Field(min_length=1, description="said with one of these")
    say: Text = Field(description="what is told")
    source: str = Field(min_length=3, description="a source id with its title, or: common practice, no source")


class ApplianceBasics(Strict):
    """``appliance.yaml``: names, the choices for a vague complaint, visit length, proof of repair."""

    appliance: Code = Field(description="the code of the vocabulary; the folder has the same name")
    say: Text = Field(description="the name as the line says it")
    names: Phrases = Field(description="what people call it")
    examples: tuple[Example, ...] = Field(min_length=1, description="texts that name it, and near misses")
    choices: tuple[VagueChoice, ...] = Field(
        min_length=2, max_length=5, description="offered when nothing says what is wrong"
    )
    visit: VisitLength = Field(description="how long a usual visit takes")
    skills: tuple[Code, ...] = Field(default=(), description="skills every visit needs beyond the appliance's own")
    meanwhile: tuple[Meanwhile, ...] = Field(
        default=(), description="what the customer can safely do until somebody comes"
    )
    cautions: tuple[TradeCaution, ...] = Field(min_length=1, description="for the technician, on every sheet")
    proof: tuple[TradeText, ...] = Field(min_length=1, description="what proves the repair, in order")
    before_closing: tuple[TradeText, ...] = Field(
        min_length=1, description="what is looked at before the machine is closed"
    )


class Appliance(Strict):
    """All files of one appliance folder, joined."""

    basics: ApplianceBasics
    symptoms: dict[str, Symptom]
    observations: dict[str, Observation]
    causes: dict[str, Cause]
    something_else: float
    checks: dict[str, Check]
    tests: dict[str, VisitTest]
    openings: dict[str, Opening]
    parts: dict[str, Part]
    tools: dict[str, Tool]
    told: dict[str, tuple[str, ...]] = Field(default={})
    told_briefly: dict[str, tuple[str, ...]] = Field(default={})
    nothing_told: tuple[str, ...] = ()
    denied_told: dict[str, tuple[str, ...]] = Field(default={})
    nothing_denied: tuple[str, ...] = ()

    @property
    def code(self) -> str:
        """The vocabulary code."""
        return self.basics.appliance
