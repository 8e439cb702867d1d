"""The part of a visit sheet that is about one machine: what was said, what is likely, what to do in order, what to load."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.conversation.state import Contact, TicketState
from service.conversation.summary import evidence_of
from service.diagnosis.held import known_values, makes_sense
from service.diagnosis.model import SOMETHING_ELSE, Evidence, LoadItem, PlannedTest, VisitPlan
from service.diagnosis.on_site import done_first, taken_for
from service.pages import words
from service.pages.desk.reading import Fact, Share, Sign, fact_words, shares_of, signs_of, tried_of
from service.pages.plate_words import recall_words, replace_words
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.common import Caution
from service.rulebook.schema.danger import OnSite
from service.rulebook.schema.visit import Opening, TradeCaution, TradeText
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
    """
    A test in its place. minutes: of this test; looks_for: causes in words; opens: a panel it needs first; last: say so.

    before_all: it is done first because a danger was named.
    """

    name: str
    minutes: str
    opens: str
    good: str
    bad: str
    looks_for: str
    last: bool
    cautions: tuple[Warned, ...]
    before_all: bool = False


@dataclass(frozen=True, slots=True)
class Load:
    """A part: carry it or not, and why."""

    id: str
    name: str
    why: str
    carry: bool


@dataclass(frozen=True, slots=True)
class Work:
    """One ticket of the visit, as the technician reads it. bring: what to load in the order it matters, in words."""

    key: str
    number: int
    machine: str
    complaint: str
    danger: tuple[str, ...]
    facts: tuple[Fact, ...]
    untold: tuple[str, ...]
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
    bring: tuple[str, ...]
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
    told: tuple[str, ...] = (),
) -> Work:
    """
    The work on *row*'s machine. plan: None for a machine without rules; then only what was said stands there.

    meant: what such a chance to finish has come to in this shop. told: their texts, where all of them are to be read.
    """
    appliance = rulebook.appliances.get(ticket.appliance)
    signs = signs_of(rulebook, appliance, ticket)
    ready = (appliance, plan) if appliance and plan else None
    values = known_values(appliance, evidence_for(rulebook, ticket)) if appliance else {}
    first = done_first(rulebook.on_site, ticket.hazards)
    load = _load(*ready) if ready else ()
    tools = _tools(first, *ready) if ready else tuple(item for rule in first for item in rule.bring)
    of_plate = plate_facts(ticket, machine)
    likeliest = next((one.cause for one in plan.belief.likely if one.cause != SOMETHING_ELSE), None) if plan else None
    return Work(
        key=row.key,
        number=row.number,
        machine=words.appliance_words(rulebook, ticket.appliance),
        complaint=_complaint(rulebook, ticket),
        danger=words.hazard_names(rulebook, ticket.hazards),
        facts=machine_facts(ticket, machine),
        untold=tuple(name for name in ("brand", "model", "serial") if not of_plate.get(name)),
        recalls=recall_words(rulebook, ticket.appliance, of_plate),
        replacing=replace_words(rulebook, ticket.appliance, of_plate, likeliest),
        said=told or words.telling_words(ticket, contact, most=3),
        known=tuple(sign for sign in signs if sign.known),
        unknown=tuple(sign for sign in signs if not sign.known),
        tried=tried_of(appliance, ticket),
        theories=ticket.theory_words,
        likely=shares_of(ready[0], ready[1].belief, ticket, most=5) if ready else (),
        estimate=plan.estimate if plan else True,
        steps=(*map(_before_all, first), *(_steps(*ready, values) if ready else ())),
        load=load,
        tools=tools,
        bring=_bring(first, load, tools),
        finish=_finish(*ready) if ready else "",
        finish_meant=words.percent(meant) if meant is not None else "",
        cautions=warned(fitting(appliance.basics.cautions, values)) if appliance else (),
        proof=_lines(appliance.basics.proof, values) if appliance else (),
        before_closing=_lines(appliance.basics.before_closing, values) if appliance else (),
        minutes=plan.minutes_usual if plan else 60,
    )


def _complaint(rulebook: Rulebook, ticket: TicketState) -> str:
    """What is wrong in a line: a danger stands before symptoms of which nobody said yet which one it is."""
    named = words.hazard_names(rulebook, ticket.hazards)
    if named and not any(so for code, so in ticket.symptoms.items() if code != "vague"):
        return named[0][:1].lower() + named[0][1:]
    return words.complaint_words(rulebook, ticket)


def evidence_for(rulebook: Rulebook, ticket: TicketState) -> Evidence:
    """What the visit is planned from."""
    return taken_for(rulebook.on_site, ticket.hazards, evidence_of(ticket))


def machine_facts(ticket: TicketState, machine: MachineRow | None) -> tuple[Fact, ...]:
    """Brand, model, serial, age, fuel and kind: as told now, else as on record."""
    known = plate_facts(ticket, machine)
    found = []
    for name, label in (
        ("brand", "Brand"), ("model", "Model"), ("serial", "Serial"), ("age_years", "Age, years"), ("fuel", "Fuel"),
        ("variant", "Kind"), ("code", "Code shown"), ("since", "Since"), ("pattern", "Pattern"), ("after", "After"),
    ):  # fmt: skip
        value = known.get(name)
        if value:
            found.append(Fact(label, fact_words(value)))
    return tuple(found)


def plate_facts(ticket: TicketState, machine: MachineRow | None) -> dict[str, object]:
    """Everything told of the machine now, and what is on record where nothing was."""
    on_record = (
        {"brand": machine.brand, "model": machine.model, "serial": machine.serial, **machine.facts} if machine else {}
    )
    return {**on_record, **{name: value for name, value in ticket.facts.items() if value}}


def fitting(cautions: Sequence[TradeCaution], values: Mapping[str, str]) -> list[TradeCaution]:
    """The cautions that make sense for what is known of the machine (*values*: its observations)."""
    return [caution for caution in cautions if makes_sense(caution.never_if, values)]


def warned(cautions: Sequence[Caution]) -> tuple[Warned, ...]:
    """Cautions, the gravest first."""
    ranked = sorted(cautions, key=lambda caution: BOLD[caution.signal])
    return tuple(Warned(caution.signal, caution.text.en) for caution in ranked)


def cause_name(appliance: Appliance, cause: str) -> str:
    """The cause as a technician calls it."""
    if cause == SOMETHING_ELSE:
        return "something else"
    return appliance.causes[cause].name.en if cause in appliance.causes else words.code_words(cause)


def _before_all(rule: OnSite) -> Step:
    return Step(
        name=rule.do, minutes=f"{rule.minutes} min", opens="", good=rule.passes, bad=rule.fails, looks_for="",
        last=False, cautions=warned(rule.cautions), before_all=True,
    )  # fmt: skip


def _steps(appliance: Appliance, plan: VisitPlan, values: Mapping[str, str]) -> tuple[Step, ...]:
    opened: set[str] = set()
    steps = []
    before = 0.0
    for planned in plan.tests:
        steps.append(_step(appliance, planned, before, opened, values))
        before = planned.minutes
    return tuple(steps)


def _step(
    appliance: Appliance, planned: PlannedTest, before: float, opened: set[str], values: Mapping[str, str]
) -> Step:
    test = appliance.tests[planned.test]
    opens = ""
    if test.opening and test.opening not in opened and test.opening in appliance.openings:
        opened.add(test.opening)
        opens = _opening(appliance.openings[test.opening], values)
    looks_for = ", ".join(cause_name(appliance, cause) for cause, _ in planned.looks_for[:3])
    return Step(
        name=test.do, minutes=f"{max(1, round(planned.minutes - before))} min", opens=opens, good=test.passes,
        bad=test.fails, looks_for=looks_for, last=test.last and not test.do.casefold().startswith("only"),
        cautions=warned(fitting(test.cautions, values)),
    )  # fmt: skip


def _opening(opening: Opening, values: Mapping[str, str]) -> str:
    also = opening.also
    return f"{also.do} {opening.do}" if also and makes_sense(also.never_if, values) else opening.do


def _lines(texts: Sequence[TradeText], values: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(text.en for text in texts if makes_sense(text.never_if, values))


def _tools(first: Sequence[OnSite], appliance: Appliance, plan: VisitPlan) -> tuple[str, ...]:
    """What the first steps need, then the tools of the plan; a tool that both name stands once."""
    planned = [appliance.tools[tool].name for tool in plan.tools if tool in appliance.tools]
    return tuple(dict.fromkeys([*(item for rule in first for item in rule.bring), *planned]))


def _bring(first: Sequence[OnSite], load: Sequence[Load], tools: Sequence[str]) -> tuple[str, ...]:
    needed = [item for rule in first for item in rule.bring]
    return tuple(dict.fromkeys([*needed, *(item.name for item in load if item.carry), *tools]))


def _load(appliance: Appliance, plan: VisitPlan) -> tuple[Load, ...]:
    found = []
    for item in plan.load:
        part = appliance.parts.get(item.part)
        name, cents = (part.name.en, part.carry_cents) if part else (words.code_words(item.part), 0)
        odds = one_in(item.chance)
        why = f"saves a second trip {odds}" if item.carry else f"needed {odds}: order on finding"
        found.append(Load(item.part, name, f"{why}{_weighed(item, cents)}", item.carry))
    return tuple(found)


def _weighed(item: LoadItem, cents: int) -> str:
    """What the trips it saves are worth against having it along: a lamp of cents pays where a large part does not."""
    worth = item.saving_cents + cents
    return f" (worth {words.money(worth)} a visit, carrying it {words.money(cents)})" if worth > 0 else ""


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
