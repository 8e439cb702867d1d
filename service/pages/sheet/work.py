"""The part of a visit sheet that is about one machine: what was said, what is likely, what to do in order, what to load."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.conversation.state import Contact, TicketState
from service.diagnosis.model import SOMETHING_ELSE, PlannedTest, VisitPlan
from service.pages import words
from service.pages.desk.reading import Fact, Share, Sign, fact_words, shares_of, signs_of, tried_of
from service.pages.plate_words import recall_words, replace_words
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.common import Caution
from service.storage.desk import TicketRow
from service.storage.visits_view import MachineRow

BOLD = {"DANGER": 1, "WARNING": 2, "CAUTION": 3, "NOTICE": 4}


@dataclass(frozen=True, slots=True)
class Warned:
    """A caution under its signal word."""

    signal: str
    text: str


@dataclass(frozen=True, slots=True)
class Step:
    """A test in its place. minutes: of this test; looks_for: causes in words; opens: a panel it needs first; last: say so."""

    name: str
    minutes: str
    opens: str
    good: str
    bad: str
    looks_for: str
    last: bool
    cautions: tuple[Warned, ...]


@dataclass(frozen=True, slots=True)
class Load:
    """A part: carry it or not, and why."""

    id: str
    name: str
    why: str
    carry: bool


@dataclass(frozen=True, slots=True)
class Work:
    """One ticket of the visit, as the technician reads it."""

    key: str
    number: int
    machine: str
    complaint: str
    danger: tuple[str, ...]
    facts: tuple[Fact, ...]
    recalls: tuple[str, ...]
    replacing: str
    said: tuple[str, ...]
    known: tuple[Sign, ...]
    unknown: tuple[Sign, ...]
    tried: tuple[Fact, ...]
    theories: tuple[str, ...]
    likely: tuple[Share, ...]
    estimate: bool
    steps: tuple[Step, ...]
    load: tuple[Load, ...]
    tools: tuple[str, ...]
    finish: str
    finish_meant: str
    cautions: tuple[Warned, ...]
    proof: tuple[str, ...]
    before_closing: tuple[str, ...]
    minutes: int


def build_work(
    row: TicketRow,
    ticket: TicketState,
    contact: Contact,
    machine: MachineRow | None,
    rulebook: Rulebook,
    plan: VisitPlan | None,
    meant: float | None = None,
) -> Work:
    """
    The work on *row*'s machine. plan: None for a machine without rules; then only what was said stands there.

    meant: what such a chance to finish has come to in this shop.
    """
    appliance = rulebook.appliances.get(ticket.appliance)
    signs = signs_of(rulebook, appliance, ticket)
    ready = (appliance, plan) if appliance and plan else None
    of_plate = plate_facts(ticket, machine)
    likeliest = next((one.cause for one in plan.belief.likely if one.cause != SOMETHING_ELSE), None) if plan else None
    return Work(
        key=row.key,
        number=row.number,
        machine=words.appliance_words(rulebook, ticket.appliance),
        complaint=words.complaint_words(rulebook, ticket),
        danger=words.hazard_names(rulebook, ticket.hazards),
        facts=machine_facts(ticket, machine),
        recalls=recall_words(rulebook, ticket.appliance, of_plate),
        replacing=replace_words(rulebook, ticket.appliance, of_plate, likeliest),
        said=words.telling_words(ticket, contact, most=3),
        known=tuple(sign for sign in signs if sign.known),
        unknown=tuple(sign for sign in signs if not sign.known),
        tried=tried_of(appliance, ticket),
        theories=ticket.theory_words,
        likely=shares_of(ready[0], ready[1].belief, ticket, most=5) if ready else (),
        estimate=plan.estimate if plan else True,
        steps=_steps(*ready) if ready else (),
        load=_load(*ready) if ready else (),
        tools=tuple(ready[0].tools[t].name for t in ready[1].tools if t in ready[0].tools) if ready else (),
        finish=_finish(*ready) if ready else "",
        finish_meant=words.percent(meant) if meant is not None else "",
        cautions=warned(appliance.basics.cautions) if appliance else (),
        proof=tuple(text.en for text in appliance.basics.proof) if appliance else (),
        before_closing=tuple(text.en for text in appliance.basics.before_closing) if appliance else (),
        minutes=plan.minutes_usual if plan else 60,
    )


def machine_facts(ticket: TicketState, machine: MachineRow | None) -> tuple[Fact, ...]:
    """Brand, model, serial, age, fuel and kind: as told now, else as on record; what is missing is said to be."""
    known = plate_facts(ticket, machine)
    found = []
    for name, label in (
        ("brand", "Brand"), ("model", "Model"), ("serial", "Serial"), ("age_years", "Age, years"), ("fuel", "Fuel"),
        ("variant", "Kind"), ("code", "Code shown"), ("since", "Since"), ("pattern", "Pattern"), ("after", "After"),
    ):  # fmt: skip
        value = known.get(name)
        if value:
            found.append(Fact(label, fact_words(value)))
        elif name in ("brand", "model", "serial"):
            found.append(Fact(label, "not known"))
    return tuple(found)


def plate_facts(ticket: TicketState, machine: MachineRow | None) -> dict[str, object]:
    """Everything told of the machine now, and what is on record where nothing was."""
    on_record = (
        {"brand": machine.brand, "model": machine.model, "serial": machine.serial, **machine.facts} if machine else {}
    )
    return {**on_record, **{name: value for name, value in ticket.facts.items() if value}}


def warned(cautions: Sequence[Caution]) -> tuple[Warned, ...]:
    """Cautions, the gravest first."""
    ranked = sorted(cautions, key=lambda caution: BOLD[caution.signal])
    return tuple(Warned(caution.signal, caution.text.en) for caution in ranked)


def cause_name(appliance: Appliance, cause: str) -> str:
    """The cause as a technician calls it."""
    if cause == SOMETHING_ELSE:
        return "something else"
    return appliance.causes[cause].name.en if cause in appliance.causes else words.code_words(cause)


def _steps(appliance: Appliance, plan: VisitPlan) -> tuple[Step, ...]:
    opened: set[str] = set()
    steps = []
    before = 0.0
    for planned in plan.tests:
        steps.append(_step(appliance, planned, before, opened))
        before = planned.minutes
    return tuple(steps)


def _step(appliance: Appliance, planned: PlannedTest, before: float, opened: set[str]) -> Step:
    test = appliance.tests[planned.test]
    opens = ""
    if test.opening and test.opening not in opened and test.opening in appliance.openings:
        opened.add(test.opening)
        opens = appliance.openings[test.opening].do
    looks_for = ", ".join(cause_name(appliance, cause) for cause, _ in planned.looks_for[:3])
    return Step(
        name=test.do, minutes=f"{max(1, round(planned.minutes - before))} min", opens=opens, good=test.passes,
        bad=test.fails, looks_for=looks_for, last=test.last and not test.do.casefold().startswith("only"),
        cautions=warned(test.cautions),
    )  # fmt: skip


def _load(appliance: Appliance, plan: VisitPlan) -> tuple[Load, ...]:
    found = []
    for item in plan.load:
        name = appliance.parts[item.part].name.en if item.part in appliance.parts else words.code_words(item.part)
        odds = one_in(item.chance)
        why = f"saves a second trip {odds}" if item.carry else f"needed {odds}: order on finding"
        found.append(Load(item.part, name, why, item.carry))
    return tuple(found)


def one_in(chance: float) -> str:
    """``1 in 3``; from three quarters up it is said as ``most times``."""
    if chance >= 0.75:
        return "most times"
    return f"1 in {max(2, round(1 / chance))}" if chance > 0 else "hardly ever"


def _finish(appliance: Appliance, plan: VisitPlan) -> str:
    said = words.percent(plan.finish)
    if plan.finish_with and plan.finish_with[1] - plan.finish >= 0.01:
        part, chance = plan.finish_with
        name = appliance.parts[part].name.en if part in appliance.parts else words.code_words(part)
        said += f"; {words.percent(chance)} with the {name} on board"
    return said
