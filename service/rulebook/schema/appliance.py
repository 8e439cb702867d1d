"""One appliance: how it is named, what may be seen, what may be wrong, what to do about it. A file per class here."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from service.rulebook.schema.common import (
    Caution,
    Code,
    Example,
    Grade,
    Graded,
    Level,
    Phrases,
    SignalWord,
    Strict,
    Text,
)


class VagueChoice(Strict):
    """One of at most five choices offered when a complaint says nothing of what is wrong."""

    say: Text
    means: tuple[Code, ...] = Field(min_length=1, description="symptoms; several are told apart by the next question")


class VisitLength(Strict):
    """Minutes of a usual visit: half are done by the median, nine in ten by q90."""

    median_min: int = Field(gt=0, le=600)
    q90_min: int = Field(gt=0, le=900)


class Meanwhile(Strict):
    """What the customer can safely do until somebody comes."""

    symptoms: tuple[Code, ...] = Field(min_length=1)
    say: Text
    source: str = Field(min_length=3)


class ApplianceBasics(Strict):
    """``appliance.yaml``: names, the choices for a vague complaint, visit length, proof of repair."""

    appliance: Code
    say: Text
    names: Phrases
    examples: tuple[Example, ...] = Field(min_length=1)
    choices: tuple[VagueChoice, ...] = Field(min_length=2, max_length=5)
    visit: VisitLength
    skills: tuple[Code, ...] = ()
    meanwhile: tuple[Meanwhile, ...] = ()
    cautions: tuple[Caution, ...] = Field(min_length=1, description="for the technician, on every sheet")
    proof: tuple[Text, ...] = Field(min_length=1, description="what proves the repair, in order")
    before_closing: tuple[Text, ...] = Field(min_length=1)


class StopUse(Strict):
    """A fault that is no hazard code but must not be run: owner checks end, this is said at once."""

    signal: SignalWord
    say: Text
    source: str = Field(min_length=3)


class Symptom(Strict):
    """
    A code of the vocabulary as customers of this appliance say it.

    ``signs`` assert it (negated: denied). ``functions`` are what the machine should do: said to fail, the symptom is
    present; said to work, it is denied. ``over`` names more general codes that this one replaces when both are heard.
    """

    code: Code
    say: Text = Field(description="three to six words, said back to the customer")
    trade: str = Field(min_length=3, description="as a technician would write it, English")
    signs: Phrases = Phrases()
    functions: Phrases = Phrases()
    names_appliance: bool = Field(default=False, description="the signs alone tell which appliance it is")
    over: tuple[Code, ...] = ()
    level: Level = "routine"
    stop_use: StopUse | None = None
    otherwise: Grade = Field(default="rarely", description="how often seen with a cause that does not list it")
    why: str = Field(min_length=3)
    examples: tuple[Example, ...] = Field(min_length=1)


class FromFact(Strict):
    """A fact that answers an observation without asking: ``after`` is ``new_disposal`` means ``yes``."""

    fact: Code
    equals: str | None = None
    at_least: float | None = None
    at_most: float | None = None
    means: str


class Answer(Strict):
    """One answer to an observation, in the customer's terms; ``hears`` also finds it when nobody asked."""

    value: Code
    say: Text
    hears: Phrases = Phrases()


class Observation(Strict):
    """
    Something a customer or technician can report that is no symptom of the vocabulary.

    Without ``answers`` it is answered yes or no; ``signs`` and ``functions`` then work as in a symptom (function said to
    fail: yes). With ``answers`` it is one of them. ``who`` = technician: never asked by text. ``seen_only_by`` looking
    counts against nobody: "don't know" is always good.
    """

    id: Code
    who: Literal["customer", "technician"] = "customer"
    ask: Text
    trade: str = Field(min_length=3, description="as the visit sheet lists it, English")
    answers: tuple[Answer, ...] = ()
    signs: Phrases = Phrases()
    functions: Phrases = Phrases()
    when: tuple[Code, ...] = Field(
        default=(), description="worth asking only with one of these symptoms; empty: always"
    )
    unless: tuple[Code, ...] = Field(default=(), description="pointless with any of these symptoms reported")
    from_facts: tuple[FromFact, ...] = ()
    price: float = Field(default=1.0, ge=0, le=10, description="patience it costs, in texts")
    dont_know: float = Field(default=0.15, ge=0, le=1, description="chance that a customer cannot tell")
    otherwise: Graded = Field(default="sometimes", description="with a cause that does not list it")
    stop_use: dict[Code, StopUse] = Field(default={}, description="answers that end owner checks: yes: {...}")
    why: str = Field(min_length=3)
    examples: tuple[Example, ...] = ()

    @property
    def values(self) -> tuple[str, ...]:
        """The values it can take: ``("yes", "no")`` or the answers' own."""
        return tuple(a.value for a in self.answers) or ("yes", "no")


class Cause(Strict):
    """
    One fault. ``weight`` is its share among jobs on this appliance before anything is known (any positive scale).

    ``evidence`` maps a symptom or observation to how often its *yes* is seen with this cause, or each answer's grade.
    ``theory`` lists what customers call it ("the pump is shot"): kept, it lifts the cause a little.
    """

    id: Code
    name: Text
    weight: float = Field(gt=0)
    evidence: dict[Code, Graded] = Field(min_length=1)
    parts: tuple[Code, ...] = ()
    tools: tuple[Code, ...] = ()
    repair_min: int = Field(ge=0, le=600)
    repair: str = Field(min_length=3, description="what mends it, English, for the sheet")
    skills: tuple[Code, ...] = ()
    theory: Phrases = Phrases()
    level: Level | None = None
    stop_use: bool = False
    owner: bool = Field(default=False, description="an owner's mistake or upkeep, not a fault of the machine")
    source: str = Field(min_length=3)


class Check(Strict):
    """
    Something an owner can safely look at or do. Loading refuses what is not safe by these fields.

    ``settles`` maps a cause to how often the check settles it. A check is never offered while a cause in ``unsafe_for``
    has belief of 0.01 or more, nor at all when an answer in ``never_if`` (``observation=value``, symptom or hazard) is held.
    """

    id: Code
    title: Text
    touches: tuple[
        Literal[
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
            "levelling_foot",
        ],
        ...,
    ] = Field(min_length=1)
    power: Literal["off", "on", "either"]
    water: Literal["off", "on", "either"]
    gas: Literal["none", "untouched"] = "none"
    opens: Literal["nothing", "door", "user_filter", "lid", "cabinet_under_sink"] = "nothing"
    tools: tuple[Literal["none", "towel", "glove", "flashlight", "pan", "soft_brush", "cup", "thermometer"], ...] = ()
    may_be: tuple[Literal["hot", "sharp", "wet", "heavy"], ...] = ()
    reset: bool = Field(default=False, description="resets a breaker or a reset button: one time only")
    running: bool = Field(default=False, description="the machine runs while the owner watches")
    looks: Literal["inside", "front", "sink_cabinet", "outside_wall", "panel", "nowhere"] = "front"
    not_for: Text = Field(description="who must leave it")
    ends_if: Text = Field(description="what ends it at once")
    cautions: tuple[Caution, ...] = Field(min_length=1)
    steps: tuple[Text, ...] = Field(min_length=1, max_length=5)
    see: Text = Field(description="what they should see, and what to do if they do not")
    helped: Text = Field(description="the question that tells whether it helped")
    minutes: int = Field(gt=0, le=30)
    effort: int = Field(ge=0, le=3, description="0 a look, 1 hands, 2 bending and wet, 3 as much as may be asked")
    when: tuple[Code, ...] = Field(default=(), description="only with one of these symptoms; empty: always")
    settles: dict[Code, Grade] = Field(min_length=1)
    unsafe_for: tuple[Code, ...] = ()
    never_if: tuple[str, ...] = ()
    done_if_tried: tuple[Code, ...] = Field(default=(), description="values of the fact tried that mean it was done")
    fixed_elsewhere: Text | None = Field(default=None, description="who else settles it, as an installer who returns")
    why: str = Field(min_length=3)
    source: str = Field(min_length=3)


class VisitTest(Strict):
    """A technician's test: what it costs, what it tells, what pass and fail look like."""

    id: Code
    do: str = Field(min_length=3)
    minutes: float = Field(gt=0, le=120)
    tools: tuple[Code, ...] = ()
    place: Code = Field(description="where the technician stands: front, tub, sink, underneath, door, panel, meter")
    opening: Code | None = Field(default=None, description="a panel or cover opened once for all tests that share it")
    after: tuple[Code, ...] = Field(
        default=(), description="tests that must come first, as a drain test after a full fill"
    )
    last: bool = Field(default=False, description="condemns a costly assembly: only after every other test")
    finds: dict[Code, Grade] = Field(min_length=1, description="how often it shows the cause when that is the true one")
    passes: str = Field(min_length=3)
    fails: str = Field(min_length=3)
    cautions: tuple[Caution, ...] = ()
    source: str = Field(min_length=3)


class Opening(Strict):
    """A panel, cover or pull-out that several tests share; its minutes are spent once."""

    id: Code
    do: str
    minutes: float = Field(gt=0)
    tools: tuple[Code, ...] = ()


class Part(Strict):
    """A part by its generic trade name. Money in whole cents; carrying it costs ``carry_cents`` a visit."""

    id: Code
    name: Text
    price_low_cents: int = Field(ge=0)
    price_high_cents: int = Field(ge=0)
    carry_cents: int = Field(ge=0)
    volume_l: float = Field(gt=0, description="room on the van, litres")


class Tool(Strict):
    """A tool or supply the sheet may name."""

    id: Code
    name: str
    standard: bool = Field(default=False, description="always on the van; named only when a test needs it")


class TestsFile(Strict):
    """``tests.yaml``: the technician's tests and the openings they share."""

    openings: tuple[Opening, ...] = ()
    tests: tuple[VisitTest, ...] = Field(min_length=1)


class PartsFile(Strict):
    """``parts.yaml``: parts and tools."""

    parts: tuple[Part, ...] = ()
    tools: tuple[Tool, ...] = ()


class SymptomsFile(Strict):
    """``symptoms.yaml``."""

    symptoms: tuple[Symptom, ...] = Field(min_length=1)


class ObservationsFile(Strict):
    """``observations.yaml``."""

    observations: tuple[Observation, ...] = ()


class CausesFile(Strict):
    """``causes.yaml``. ``something_else`` is the weight of what is not listed: never below a twentieth of the whole."""

    something_else: float = Field(gt=0)
    causes: tuple[Cause, ...] = Field(min_length=1)


class ChecksFile(Strict):
    """``checks.yaml``."""

    checks: tuple[Check, ...] = ()


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

    @property
    def code(self) -> str:
        """The vocabulary code."""
        return self.basics.appliance
