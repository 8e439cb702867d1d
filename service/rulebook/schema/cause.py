"""What may be wrong with an appliance: how often, what it looks like, what mends it."""

from __future__ import annotations

from pydantic import Field

from service.rulebook.schema.common import Code, Graded, Level, Phrases, Strict, Text


class Cause(Strict):
    """
    One fault. ``weight`` is its share among jobs on this appliance before anything is known (any positive scale).

    ``evidence`` maps a symptom or observation to how often its *yes* is seen with this cause, or each answer's grade.
    ``theory`` lists what customers call it ("the pump is shot"): kept, it lifts the cause a little.
    """

    id: Code = Field(description="its name in checks, tests and tickets")
    name: Text = Field(description="as sheet and desk name it")
    weight: float = Field(gt=0, description="its share among jobs before anything is known, on any scale")
    evidence: dict[Code, Graded] = Field(
        min_length=1, description="symptom or observation: how often seen with this cause"
    )
    parts: tuple[Code, ...] = Field(default=(), description="the parts that mend it")
    tools: tuple[Code, ...] = Field(default=(), description="the tools that mend it")
    repair_min: int = Field(ge=0, le=600, description="minutes to mend it once it is found")
    repair: str = Field(min_length=3, description="what mends it, English, for the sheet")
    skills: tuple[Code, ...] = Field(
        default=(), description="skills beyond the appliance's own, such as gas or sealed_system"
    )
    theory: Phrases = Field(default=Phrases(), description="what customers call it when they guess")
    level: Level | None = Field(default=None, description="how soon somebody should come if this leads the list")
    stop_use: bool = Field(default=False, description="yes: no owner check while this cause is likely")
    owner: bool = Field(default=False, description="yes: an owner's mistake or upkeep, not a fault of the machine")
    source: str = Field(min_length=3, description="where weight and evidence come from, or: common practice, no source")


class CausesFile(Strict):
    """``causes.yaml``. ``something_else`` is the weight of what is not listed: never below a twentieth of the whole."""

    something_else: float = Field(
        gt=0, description="the weight of what is not listed, a twentieth of the whole at least"
    )
    causes: tuple[Cause, ...] = Field(min_length=1, description="every fault worth naming")
