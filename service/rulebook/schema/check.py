"""What an owner may safely look at or do: the closed words that make a check safe by rule."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from service.rulebook.schema.common import Caution, Code, Grade, Strict, Text

Touched = Literal[
    "nothing",
    "controls",
    "door",
    "rack",
    "filter",
    "spray_arm",
    "float",
    "hose_in_view",
    "shutoff_valve",
    "plug",
    "breaker",
    "wall_switch",
    "sink_drain",
    "air_gap_cap",
    "tap",
    "detergent",
    "rinse_aid",
    "load",
    "vent_hood_flap",
    "lint_filter",
    "pump_filter_low",
    "disposal_reset_button",
    "disposal_switch",
    "thermostat_dial",
    "grille",
    "gasket",
    "ice_bin",
    "burner_cap",
    "cookware",
    "turntable",
    "lamp",
    "levelling_foot",
    "water_tank",
]
"""All that an owner may be asked to touch. What is not here is for the technician."""


class Check(Strict):
    """
    Something an owner can safely look at or do. Loading refuses what is not safe by these fields.

    ``settles`` maps a cause to how often the check settles it. A check is never offered while a cause in ``unsafe_for``
    has belief of 0.01 or more, nor at all when an answer in ``never_if`` (``observation=value``, symptom or hazard) is held,
    or when one in ``only_if`` is not.
    """

    id: Code = Field(description="its name in tickets and shop files")
    title: Text = Field(description="what it is, in a few words, as the customer reads it")
    touches: tuple[Touched, ...] = Field(min_length=1, description="everything the owner's hands are on")
    power: Literal["off", "on", "either"] = Field(description="off wherever hands go in")
    water: Literal["off", "on", "either"] = Field(description="whether the water is shut off")
    gas: Literal["none", "untouched"] = Field(
        default="none", description="whether the machine has gas; nobody touches it"
    )
    opens: Literal["nothing", "door", "user_filter", "lid", "cabinet_under_sink"] = Field(
        default="nothing", description="the only things an owner opens"
    )
    tools: tuple[Literal["none", "towel", "glove", "flashlight", "pan", "soft_brush", "cup", "thermometer"], ...] = (
        Field(default=(), description="the only things an owner uses")
    )
    may_be: tuple[Literal["hot", "sharp", "wet", "heavy"], ...] = Field(
        default=(), description="each needs its caution"
    )
    reset: bool = Field(default=False, description="resets a breaker or a reset button: one time only")
    running: bool = Field(default=False, description="the machine runs while the owner watches")
    looks: Literal["inside", "front", "sink_cabinet", "outside_wall", "panel", "nowhere"] = Field(
        default="front", description="where the owner looks"
    )
    not_for: Text = Field(description="who must leave it")
    ends_if: Text = Field(description="what ends it at once")
    cautions: tuple[Caution, ...] = Field(min_length=1, description="what is said before the steps")
    steps: tuple[Text, ...] = Field(min_length=1, max_length=5, description="one movement each")
    see: Text = Field(description="what they should see, and what to do if they do not")
    helped: Text = Field(description="the question that tells whether it helped")
    minutes: int = Field(gt=0, le=30, description="how long it takes an owner")
    wait_h: int = Field(
        default=0, ge=0, le=48, description="hours until it can have helped; a bare yes before is an ok"
    )
    effort: int = Field(ge=0, le=3, description="0 a look, 1 hands, 2 bending and wet, 3 as much as may be asked")
    when: tuple[Code, ...] = Field(default=(), description="only with one of these symptoms; empty: always")
    settles: dict[Code, Grade] = Field(min_length=1, description="cause: how often the check settles it")
    unsafe_for: tuple[Code, ...] = Field(default=(), description="never offered while one of these causes is possible")
    never_if: tuple[str, ...] = Field(
        default=(), description="not offered with one of these: observation=value, symptom, hazard"
    )
    only_if: tuple[str, ...] = Field(
        default=(), description="offered only when each of these is told: observation=value, symptom"
    )
    done_if_tried: tuple[Code, ...] = Field(default=(), description="values of the fact tried that mean it was done")
    fixed_elsewhere: Text | None = Field(default=None, description="who else settles it, as an installer who returns")
    why: str = Field(min_length=3, description="why it is worth an owner's time")
    source: str = Field(min_length=3, description="a source id with its title, or: common practice, no source")


class ChecksFile(Strict):
    """``checks.yaml``."""

    checks: tuple[Check, ...] = Field(default=(), description="what an owner may safely look at or do")
