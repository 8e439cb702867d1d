"""What a technician does and brings: tests, the panels they share, parts and tools."""

from __future__ import annotations

from pydantic import Field

from service.rulebook.schema.common import Caution, Code, Grade, Strict, Text, Told

NEVER_IF = "answers (observation=value) with which it makes no sense: no gas step on an electric machine"


class TradeCaution(Caution):
    """A warning to the technician, that may be for some kinds of the machine only."""

    never_if: tuple[Told, ...] = Field(default=(), description=NEVER_IF)


class TradeText(Text):
    """A line for the technician, that may be for some kinds of the machine only."""

    never_if: tuple[Told, ...] = Field(default=(), description=NEVER_IF)


class Also(Strict):
    """What is done besides on some kinds of the machine."""

    do: str = Field(min_length=3, description="what is done, English")
    never_if: tuple[Told, ...] = Field(min_length=1, description=NEVER_IF)


class VisitTest(Strict):
    """A technician's test: what it costs, what it tells, what pass and fail look like."""

    id: Code = Field(description="its name on the sheet and in after")
    do: str = Field(min_length=3, description="what is done, English")
    minutes: float = Field(gt=0, le=120, description="how long it takes, opening not counted")
    tools: tuple[Code, ...] = Field(default=(), description="what it needs, from parts.yaml")
    place: Code = Field(description="where the technician stands: front, tub, sink, underneath, door, panel, meter")
    opening: Code | None = Field(default=None, description="a panel or cover opened once for all tests that share it")
    after: tuple[Code, ...] = Field(
        default=(), description="tests that must come first, as a drain test after a full fill"
    )
    last: bool = Field(default=False, description="condemns a costly assembly: only after every other test")
    finds: dict[Code, Grade] = Field(
        min_length=1, description="cause: how often the test shows it when it is the true one"
    )
    passes: str = Field(min_length=3, description="what good looks like")
    fails: str = Field(min_length=3, description="what bad looks like")
    never_if: tuple[Told, ...] = Field(default=(), description=NEVER_IF)
    cautions: tuple[TradeCaution, ...] = Field(default=(), description="what the technician minds while doing it")
    source: str = Field(min_length=3, description="a source id with its title, or: common practice, no source")


class Opening(Strict):
    """A panel, cover or pull-out that several tests share; its minutes are spent once."""

    id: Code = Field(description="its name in tests")
    do: str = Field(description="what is opened, English")
    also: Also | None = Field(default=None, description="what comes before it on some kinds of the machine")
    minutes: float = Field(gt=0, description="how long opening and closing take")
    tools: tuple[Code, ...] = Field(default=(), description="what it needs, from parts.yaml")


class Part(Strict):
    """A part by its generic trade name. Money in whole cents; carrying it costs ``carry_cents`` a visit."""

    id: Code = Field(description="its name in causes")
    name: Text = Field(description="the generic trade name")
    price_low_cents: int = Field(ge=0, description="the low end of the usual price, whole cents")
    price_high_cents: int = Field(ge=0, description="the high end of the usual price, whole cents")
    carry_cents: int = Field(ge=0, description="what carrying it costs a visit, whole cents")
    volume_l: float = Field(gt=0, description="room on the van, litres")


class Tool(Strict):
    """A tool or supply the sheet may name."""

    id: Code = Field(description="its name in causes, tests and openings")
    name: str = Field(description="as the sheet names it")
    standard: bool = Field(default=False, description="always on the van; named only when a test needs it")


class TestsFile(Strict):
    """``tests.yaml``: the technician's tests and the openings they share."""

    openings: tuple[Opening, ...] = Field(default=(), description="panels and covers that several tests share")
    tests: tuple[VisitTest, ...] = Field(min_length=1, description="the technician's tests, in any order")


class PartsFile(Strict):
    """``parts.yaml``: parts and tools."""

    parts: tuple[Part, ...] = Field(default=(), description="parts by generic trade name")
    tools: tuple[Tool, ...] = Field(default=(), description="tools and supplies the sheet may name")
