"""An owner check under way: cautions before the step, what they should see, did it help, and what the result means."""

from __future__ import annotations

from datetime import timedelta

from service.conversation import found_broken, reasons, refusing
from service.conversation.ask import again, lead_of, named_in, pose
from service.conversation.but_worse import but_worse
from service.conversation.closing import close
from service.conversation.matters import bare_words, named, nothing_but
from service.conversation.state import TicketState
from service.conversation.summary import evidence_of, machine_words
from service.conversation.underway import Turn
from service.conversation.visit_words import held_words
from service.diagnosis.checks import out_of_place
from service.diagnosis.table import compiled
from service.reading.model import Reading
from service.rulebook.schema.appliance import Check

RESULTS = {"fixed": "fixed", "yes": "fixed", "not_fixed": "not_fixed", "no": "not_fixed", "declined": "declined",
           "dont_know": "unable"}  # fmt: skip
"""Answers to "did it help?" as the check's result."""
SHORT = 4
"""Up to this many words that say neither yes nor no: they are at it ("ok will do", "trying now")."""
KIN = (frozenset(("range", "wall_oven", "cooktop")), frozenset(("refrigerator", "freezer", "ice_maker")))
"""Machines that go by one another's names."""
BARE_YES = 3
"""A yes of at most this many words is about the question, if all of them are a yes, thanks or a small word."""

REPEATS = frozenset(("veces", "vez", "nuevo", "times", "again", "twice"))
"""Words beside a yes that tell that it happened again: “sí, dos veces” of a breaker."""


def offer(turn: Turn, key: str, check: Check) -> None:
    """Offer *check*: why, who must leave it, cautions, steps; what to see, what ends it; then ask whether it helped."""
    ticket = turn.the(key)
    first = not any(t.startswith("check:") for t in ticket.told)
    turn.tell("try.lead" if first else "try.lead_again", spare=True)
    turn.tell("try.title", title=lead_of(turn, ticket) + turn.own(check.title).rstrip("."))
    hands_on = set(check.touches) != {"nothing"}
    if hands_on:
        turn.tell_own(f"check.{check.id}.not_for", turn.own(check.not_for))
    for caution in check.cautions:
        text = turn.own(caution.text)
        signal = turn.words(f"signal.{caution.signal.lower()}")
        said = text if text.startswith((signal, caution.signal)) else f"{signal}: {text}"
        turn.tell_own(f"check.{check.id}.caution", named_in(turn, ticket, said))
    for step in check.steps:
        turn.tell_own(f"check.{check.id}.steps", turn.own(step))
    turn.may_break()
    turn.tell_own(f"check.{check.id}.see", turn.own(check.see))
    if hands_on:
        turn.tell_own(f"check.{check.id}.ends_if", turn.own(check.ends_if))
    told = (*ticket.told, f"check:{check.id}")
    counted = ticket.questions + (1 if ticket.just_send else 0)
    turn.change(key, stage="trying", checks={**ticket.checks, check.id: "offered"}, told=told, questions=counted)
    pose(turn, "check_result", ticket=key, code=check.id)


def result(turn: Turn, reading: Reading) -> bool:
    """
    Take the result of a check, or news that it works again. True when that ends this turn's talk.

    A result that did not help is evidence; the talk goes on from there.
    """
    asked = turn.state.asked
    ticket = turn.state.ticket(asked.ticket) if asked else None
    if asked is None or asked.kind != "check_result" or ticket is None or not ticket.open:
        return _volunteered(turn, reading)
    if _other_works(turn, reading, ticket):
        return _volunteered(turn, reading)
    check = asked.code or ""
    outcome = _outcome(turn, reading, ticket)
    if outcome != "fixed" and found_broken.is_broken(reading) and not _says_it_works(turn, reading, ticket):
        found_broken.to_the_visit(turn, ticket, check, reading)
        return False
    if outcome is None and _out_of_place(turn, ticket, check):
        turn.put(asked=None)
        turn.change(ticket.key, checks={**ticket.checks, check: "unable"}, stage="narrowing")
        turn.tell("try.leave")
        turn.because("heard", f"The check {check} is called off: what they told speaks against it.", check)
        return False
    if outcome is None:
        return _not_yet(turn, reading, ticket, check)
    turn.answered = True
    turn.put(asked=None)
    before = reasons.belief_of(turn, ticket)
    turn.change(ticket.key, checks={**ticket.checks, check: outcome}, stage="narrowing")
    turn.because("heard", f"The check {check}: {outcome.replace('_', ' ')}.", check, outcome=outcome)
    if outcome == "fixed":
        return settle(turn, ticket.key, check)
    reasons.believed(turn, turn.the(ticket.key), before)
    if outcome == "not_fixed":
        turn.tell("try.not_helped", spare=True)
    else:
        turn.change(ticket.key, declined=(*turn.the(ticket.key).declined, check))
        if outcome == "declined" and refusing.is_long(turn.rulebook.appliances.get(ticket.appliance), check):
            refusing.no_long_ones(turn, ticket.key)
        turn.tell("try.declined", spare=True)
    return False


def _out_of_place(turn: Turn, ticket: TicketState, check: str) -> bool:
    rules = turn.rulebook.appliances.get(ticket.appliance)
    return rules is not None and check in rules.checks and out_of_place(compiled(rules), evidence_of(ticket), check)


def tells_result(turn: Turn, reading: Reading) -> bool:
    """Whether the text says how the check under way went."""
    asked = turn.state.asked
    ticket = turn.state.ticket(asked.ticket) if asked else None
    return ticket is not None and _outcome(turn, reading, ticket) is not None


def _outcome(turn: Turn, reading: Reading, ticket: TicketState) -> str | None:
    """
    The result that the words carry, or None.

    A yes that goes on about something else, or about what was before ("yes, the plumber did it Friday"), is no news that
    it works. Neither is a mere "ok": they mean to do it.
    """
    if nothing_but(turn.rulebook, reading.text, "at_it") or but_worse(turn, reading):
        return None
    if _nobody_asked(turn, reading, ticket):
        return "unable"
    if named(turn.rulebook, "worked", reading.text) and nothing_but(turn.rulebook, reading.text, "worked", "cheers"):
        return "fixed"
    given = RESULTS.get(reading.answer.kind) if reading.answer else None
    if given == "fixed" and not _says_it_works(turn, reading, ticket):
        if REPEATS & set(bare_words(reading.text)):
            return "not_fixed"
        if _too_soon(turn, ticket):
            return None
    if given == "fixed" and not _bare_yes(turn, reading):
        works = _says_it_works(turn, reading, ticket)
        history = "after" in reading.facts or "since" in reading.facts
        return "fixed" if works and not history else None
    if given is not None:
        return given
    if "fixed" in reading.intents and "not_fixed" not in reading.intents:
        return "fixed"
    return "not_fixed" if "not_fixed" in reading.intents else None


def _nobody_asked(turn: Turn, reading: Reading, ticket: TicketState) -> bool:
    """Of a check that is a call to somebody: whether nobody answers or comes, or they fitted it themselves. No result."""
    asked, rules = turn.state.asked, turn.rulebook.appliances.get(ticket.appliance)
    check = rules.checks.get(asked.code or "") if rules is not None and asked is not None else None
    if check is None or check.looks != "nowhere" or check.fixed_elsewhere is None:
        return False
    return any(named(turn.rulebook, matter, reading.text) for matter in ("not_reached", "fitted_themselves"))


def _bare_yes(turn: Turn, reading: Reading) -> bool:
    """Whether the text is a yes and no more: “yes its gas” answers something else."""
    short = len(reading.text.split()) <= BARE_YES
    return short and nothing_but(turn.rulebook, reading.text, "plain_yes", "worked", "cheers", "small_words")


def _says_it_works(turn: Turn, reading: Reading, ticket: TicketState) -> bool:
    """Whether the words say so even where nothing is asked."""
    by_itself = turn.reader.read(reading.text, about=ticket.appliance)
    return "fixed" in by_itself.intents or any(ticket.symptoms.get(f.code) is not None for f in reading.denied)


def _too_soon(turn: Turn, ticket: TicketState) -> bool:
    """Whether the check cannot have helped yet, since it takes hours: a mere yes says then that they do it."""
    asked, rules = turn.state.asked, turn.rulebook.appliances.get(ticket.appliance)
    check = rules.checks.get(asked.code or "") if rules is not None and asked is not None else None
    return check is not None and asked is not None and turn.now - asked.at < timedelta(hours=check.wait_h / 2)


def _volunteered(turn: Turn, reading: Reading) -> bool:
    """It works again, though nobody asked: closed, and a visit that stands is asked about, never dropped unasked."""
    ticket = _said_to_work(turn, reading)
    if "fixed" not in reading.intents or {"not_fixed", "report_problem"} & set(reading.intents):
        return False
    if but_worse(turn, reading):
        return False
    if ticket is None and turn.open_tickets:
        turn.learned.add("settled")
        turn.because("heard", "A machine works that nobody complains of here: nothing is closed.")
    if ticket is None or not ticket.open or {"symptom", "ticket"} & turn.learned:
        return False
    if ticket.visit is not None and not _shares_its_visit(turn, ticket):
        turn.tell("try.works_with_visit")
        pose(turn, "confirm", ticket=ticket.key, code="cancel")
        return True
    return settle(turn, ticket.key, next((c for c, r in ticket.checks.items() if r == "offered"), None))


def _said_to_work(turn: Turn, reading: Reading) -> TicketState | None:
    """The complaint whose machine is said to work again: the one that is named, if one is, else the one in focus."""
    focus = turn.state.in_focus
    named = [t for t in turn.open_tickets if t.appliance in reading.appliances]
    if focus is None or focus in named or not reading.appliances or focus.appliance == "unknown":
        return focus
    kin = next((kin for kin in KIN if focus.appliance in kin), frozenset[str]())
    return named[0] if named else focus if kin & {*reading.appliances} else None


def _other_works(turn: Turn, reading: Reading, ticket: TicketState) -> bool:
    """Whether it is another open complaint's machine that works, while a check is under way at *ticket*'s."""
    other = _said_to_work(turn, reading)
    return "fixed" in reading.intents and other is not None and other.key != ticket.key


def _shares_its_visit(turn: Turn, ticket: TicketState) -> bool:
    """Whether the visit of *ticket* is for another complaint as well."""
    id = ticket.visit.id if ticket.visit is not None else ""
    return any(t.visit is not None and t.visit.id == id for t in turn.open_tickets if t.key != ticket.key)


def _not_yet(turn: Turn, reading: Reading, ticket: TicketState, check: str) -> bool:
    """Neither done nor declined: they ask how, or wait for somebody, or talk of something else."""
    if nothing_but(turn.rulebook, reading.text, "at_it"):
        return _at_it(turn, check)
    if {"symptom", "denied", "observation", "answer"} & turn.learned or but_worse(turn, reading):
        turn.put(asked=None)
        checks = {**ticket.checks, check: "unable"}
        turn.change(ticket.key, checks=checks, stage="narrowing")
        turn.because("heard", f"The check {check} was passed over: they told something else.", check)
        return False
    if "ask_help" in reading.intents:
        turn.tell("try.how")
        return again(turn)
    if "wish" in turn.learned or {"book", "reschedule", "cancel", "ask_price", "ask_status", "ask_warranty"} & set(
        reading.intents
    ):
        return _rather_a_visit(turn, reading, ticket, check)
    if named(turn.rulebook, "will_do", reading.text) is not None and "wish" not in turn.learned:
        return _at_it(turn, check)
    if named(turn.rulebook, "did_it", reading.text) is not None:
        turn.tell("try.done")
        return again(turn)
    if "unreadable" in reading.intents:
        return False
    if turn.learned & {"postal_code", "address", "name", "access", "phone", "email"}:
        return again(turn)
    if "thanks" in reading.intents or reading.answer is not None or len(reading.text.split()) <= SHORT:
        return _at_it(turn, check)
    return False


def _at_it(turn: Turn, check: str) -> bool:
    turn.tell("try.waiting")
    turn.because("heard", f"No result of the check {check} yet: they are at it.", check)
    return True


def _rather_a_visit(turn: Turn, reading: Reading, ticket: TicketState, check: str) -> bool:
    if "book" not in reading.intents and "wish" not in turn.learned:
        return False
    turn.put(asked=None)
    turn.change(ticket.key, checks={**ticket.checks, check: "declined"}, stage="narrowing")
    turn.because("heard", f"They would rather have a visit than do the check {check}.", check)
    return False


def settle(turn: Turn, key: str, check: str | None) -> bool:
    """
    It works: closed as settled by the owner, with the likeliest cause that the check settles.

    True when that ends this turn's talk; False when another complaint waits for its next question.
    """
    ticket = turn.the(key)
    rules = turn.rulebook.appliances.get(ticket.appliance)
    cause = None
    if rules is not None and check in rules.checks:
        belief = reasons.belief_of(turn, ticket.model_copy(update={"checks": {**ticket.checks, check: "offered"}}))
        settles = rules.checks[check].settles
        shares = {i.cause: i.share for i in belief.likely} if belief else {}
        cause = max(settles, key=lambda c: (shares.get(c, 0.0), c))
    close(turn, key, "settled_by_owner", cause=cause)
    left = turn.open_tickets
    if not left:
        turn.tell("try.fixed")
        return True
    machine = machine_words(turn.rulebook, ticket.appliance, turn.language)
    turn.tell("try.fixed_one", machine=machine[:1].upper() + machine[1:])
    visit = next((t.visit for t in left if t.visit is not None), None)
    if visit is not None:
        turn.tell("cancel.kept", window=held_words(turn, visit))
    elif turn.state.asked is None:
        turn.learned.add("settled")
        return False
    return again(turn) or visit is not None
