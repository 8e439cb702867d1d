"""What comes next for each open complaint: fit, machine, what is wrong, which of these, a check, or a visit."""

from __future__ import annotations

from service.conversation import arranging, inside, premises, reasons, trying
from service.conversation.ask import OWN_WORDS, VAGUE, WHICH, pose
from service.conversation.fit import turn_away
from service.conversation.fuels import choices_for, told_by_fuel
from service.conversation.people import UPSET, call_person, has_complaint, reads_when
from service.conversation.saying_back import say_back
from service.conversation.state import TicketState
from service.conversation.summary import evidence_of
from service.conversation.underway import Turn
from service.diagnosis.model import Ask, Limits, NextStep, Stop, Try
from service.diagnosis.questions import next_step
from service.rulebook.schema.appliance import Appliance

OWNER_LIKELY = 0.5
"""With this much belief in an owner's own remedy, it is looked for before anybody asks where the machine stands."""
ONE_WAY_FACTS = ("after", "pattern", "since", "age_years", "fuel", "variant")
"""Facts that, once told in any way, leave nothing to ask about the same matter."""
LONG_AGO_DAYS = 60
"""A complaint that comes back later than this may be of another machine of the kind."""


def go_on(turn: Turn) -> None:
    """
    Say back what is new, then the next thing for the complaints that stand, one question at most. Who complains of the shop
    is not sent back to checks, fees and times: a person has that.
    """
    say_back(turn)
    for ticket in turn.open_tickets:
        if has_complaint(ticket):
            continue
        if ticket.visit is not None or ticket.ready or ticket.stage in ("visited", "deciding", "parts"):
            continue
        if _next(turn, ticket.key):
            turn.put(focus=ticket.key)
            return
    ready = [t.key for t in turn.open_tickets if t.ready and t.visit is None and not has_complaint(t)]
    if ready:
        arranging.arrange(turn, ready)
    elif not turn.pieces and any(map(has_complaint, turn.open_tickets)):
        turn.tell("person.asked_again", when=reads_when(turn))


def _next(turn: Turn, key: str) -> bool:
    """Ask or offer the next thing of one ticket; False when it is closed or ready for a visit."""
    ticket = turn.the(key)
    if inside.ask_which(turn, ticket) or premises.ask_where(turn, ticket):
        return True
    if turn_away(turn, ticket):
        return False
    if ticket.appliance == "unknown":
        return _which_machine(turn, ticket)
    rules = turn.rulebook.appliances.get(ticket.appliance)
    if rules is None:
        return _without_rules(turn, ticket)
    if _same_machine(turn, turn.the(key)):
        return True
    ticket = turn.the(key)
    if not any(ticket.symptoms.values()) and not ticket.one_of and _what_is_wrong(turn, ticket, rules):
        return True
    if _where(turn, turn.the(key), rules):
        return True
    return _narrowed(turn, turn.the(key), rules)


def _which_machine(turn: Turn, ticket: TicketState) -> bool:
    if "appliance" not in ticket.asked:
        pose(turn, "appliance", ticket=ticket.key, counts=True)
        turn.because("asked", "No appliance was named.")
        return True
    call_person(turn, "nobody could tell which appliance it is", ticket=ticket.key)
    turn.tell("person.takes", when=reads_when(turn))
    turn.change(ticket.key, asked=tuple(a for a in ticket.asked if a != "appliance"))
    return True


def _without_rules(turn: Turn, ticket: TicketState) -> bool:
    """A machine the shop mends and the rules do not know yet: what, where, then a person."""
    if "person.takes" in ticket.told:
        return True
    if not any(ticket.symptoms.values()) and len(ticket.words) < 2 and f"symptom:{OWN_WORDS}" not in ticket.asked:
        pose(turn, "symptom", ticket=ticket.key, code=OWN_WORDS, counts=True)
        turn.because(
            "asked", f"There are no rules for the {ticket.appliance} yet: what it does, for the person who takes it."
        )
        return True
    if turn.state.contact.postal_code is None and "postal_code" not in ticket.asked:
        pose(turn, "postal_code", ticket=ticket.key, counts=True)
        turn.because("asked", "Whether the shop comes there is told before more is asked.")
        return True
    call_person(turn, f"no rules for the {ticket.appliance} yet: take it from here", ticket=ticket.key)
    turn.tell("person.takes", when=reads_when(turn))
    turn.change(ticket.key, told=(*ticket.told, "person.takes"), stage="narrowing")
    return True


def _same_machine(turn: Turn, ticket: TicketState) -> bool:
    """A complaint that comes back after months: the same machine, or another of the kind?"""
    earlier = turn.state.ticket(ticket.earlier)
    if earlier is None or "confirm:same_machine" in ticket.asked:
        return False
    if (turn.now - earlier.opened_at).days < LONG_AGO_DAYS:
        return False
    pose(turn, "confirm", ticket=ticket.key, code="same_machine")
    turn.because("asked", f"An earlier {ticket.appliance} is known; its history counts only if it is the same one.")
    return True


def _what_is_wrong(turn: Turn, ticket: TicketState, rules: Appliance) -> bool:
    """The numbered choice for a vague complaint; then their own words; then a visit without."""
    if _questions_left(turn, ticket) <= 0:
        return False
    if f"symptom:{VAGUE}" not in ticket.asked:
        values = ["+".join(c.means) for c in rules.basics.choices]
        pose(turn, "symptom", ticket=ticket.key, code=VAGUE, choices=values, counts=True)
        turn.because("asked", "The complaint says nothing of what is wrong: the closest of a short list.")
        return True
    if f"symptom:{OWN_WORDS}" not in ticket.asked:
        pose(turn, "symptom", ticket=ticket.key, code=OWN_WORDS, counts=True)
        turn.because("asked", "None of the list fits: asked for their own words.")
        return True
    return False


def _where(turn: Turn, ticket: TicketState, rules: Appliance) -> bool:
    """The ZIP code by the second question, unless the owner can likely settle it and nobody needs to come."""
    checks = sum(1 for t in ticket.told if t.startswith("check:"))
    if turn.state.contact.postal_code or "postal_code" in ticket.asked or ticket.questions + checks < 1:
        return False
    if owner_share(turn, ticket, rules) >= OWNER_LIKELY and not ticket.just_send:
        return False
    pose(turn, "postal_code", ticket=ticket.key, counts=not ticket.just_send)
    turn.because("asked", "Whether the shop comes there is told before more is asked.")
    return True


def owner_share(turn: Turn, ticket: TicketState, rules: Appliance) -> float:
    """How much of the belief is in causes that an owner, or whoever fitted the machine, settles without a visit."""
    belief = reasons.belief_of(turn, ticket)
    if belief is None or ticket.unsafe:
        return 0.0
    return sum(item.share for item in belief.likely if item.cause in rules.causes and rules.causes[item.cause].owner)


def _questions_left(turn: Turn, ticket: TicketState) -> int:
    most = turn.rulebook.shop.policies.questions_max
    cap = most if ticket.questions_cap is None else min(most, ticket.questions_cap)
    return cap - ticket.questions


def limits(turn: Turn, ticket: TicketState, *, wants_more: bool = False) -> Limits:
    """How far the line may still go with *ticket*. wants_more: they ask for a check, though they only wanted a visit."""
    policies = turn.rulebook.shop.policies
    overrides = turn.rulebook.shop.checks.get(ticket.appliance, {})
    off = {id for id, o in overrides.items() if not o.offered} | set(ticket.checks)
    left = _questions_left(turn, ticket)
    return Limits(
        questions_used=ticket.questions,
        questions_max=ticket.questions + max(0, left),
        checks_used=sum(1 for t in ticket.told if t.startswith("check:")),
        checks_max=policies.checks_max,
        asked=frozenset(ticket.asked)
        | frozenset(ticket.observations)
        | _told_by_facts(turn, ticket)
        | told_by_fuel(turn.rulebook.appliances.get(ticket.appliance), ticket)
        | _takes_running(turn, ticket),
        declined=frozenset(ticket.declined),
        checks_off=frozenset(off),
        checks_allowed=not (ticket.unsafe or _upset(turn)) and (wants_more or not (ticket.just_send and left <= 0)),
    )


def _upset(turn: Turn) -> bool:
    """Whether they asked for a person in anger."""
    return any(UPSET in ticket.told for ticket in turn.open_tickets)


def _told_by_facts(turn: Turn, ticket: TicketState) -> frozenset[str]:
    """Observations that a volunteered fact speaks to ("since the new disposal" tells how it began): not asked again."""
    rules = turn.rulebook.appliances.get(ticket.appliance)
    known = {name for name in ONE_WAY_FACTS if name in ticket.facts}
    if rules is None or not known:
        return frozenset()
    return frozenset(o.id for o in rules.observations.values() if any(f.fact in known for f in o.from_facts))


def _takes_running(turn: Turn, ticket: TicketState) -> frozenset[str]:
    """Symptoms that nobody is asked after where the machine must not be run: whoever looks would run it."""
    rules = turn.rulebook.appliances.get(ticket.appliance)
    return frozenset(rules.symptoms) if rules is not None and ticket.stop_use is not None else frozenset()


def _narrowed(turn: Turn, ticket: TicketState, rules: Appliance) -> bool:
    """The next question or check of the diagnosis; False when there is none worth its price."""
    step = next_step(rules, evidence_of(ticket), limits(turn, ticket), turn.rulebook.shop)
    _why(turn, step)
    if isinstance(step, Ask):
        turn.change(ticket.key, stage="narrowing")
        _ask(turn, ticket, rules, step)
        return True
    if isinstance(step, Try):
        offer_check(turn, ticket.key, rules, step)
        return True
    turn.change(ticket.key, ready=True, stage="arranging")
    return False


def offer_check(turn: Turn, key: str, rules: Appliance, step: Try) -> None:
    """Offer the check, and keep the chance it is offered with: it is judged by that."""
    trying.offer(turn, key, rules.checks[step.check])
    turn.change(key, check_chances={**turn.the(key).check_chances, step.check: round(step.chance, 4)})


def _ask(turn: Turn, ticket: TicketState, rules: Appliance, step: Ask) -> None:
    if step.kind == "observation":
        known = rules.observations[step.code]
        values = choices_for(known, ticket)
        pose(turn, "observation", ticket=ticket.key, code=step.code, choices=values, counts=True)
    elif step.kind == "one_of":
        pose(turn, "symptom", ticket=ticket.key, code=WHICH, choices=step.options, counts=True)
        turn.change(ticket.key, asked=tuple(dict.fromkeys([*turn.the(ticket.key).asked, step.code])))
    else:
        pose(turn, "yes_no", ticket=ticket.key, code=step.code, counts=True)


def _why(turn: Turn, step: NextStep) -> None:
    weighed = reasons.weighed(step.considered)
    if isinstance(step, Ask):
        words = f"Asked {step.code}: the answer is worth {step.value:.1f} minutes and costs {step.price:.1f}."
        turn.because("asked", words, step.code, considered=weighed)
    elif isinstance(step, Try):
        words = f"Offered the check {step.check}: {step.chance:.0%} chance to settle it in {step.minutes} minutes."
        turn.because("offered", words, step.check, considered=weighed)
    elif isinstance(step, Stop):
        turn.because(
            "ruled_out", f"Nothing more to ask or try ({step.why.replace('_', ' ')}): a visit.", considered=weighed
        )


def greet(turn: Turn) -> None:
    """Nothing to go on yet: who we are and what it is about."""
    if not turn.open_tickets and (not (turn.pieces or turn.replies) or "photo" in turn.learned):
        pose(turn, "appliance")
        turn.because("asked", "Nothing is known yet: which appliance, and what it does.")
