"""When a person is needed: asked for, complaints, abuse, machines that answer machines. And when a person reads this."""

from __future__ import annotations

from service.conversation.hear import open_ticket
from service.conversation.matters import named
from service.conversation.state import TicketState
from service.conversation.step import Alarm
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.scheduling.hours import is_open, next_opening
from service.scheduling.words import moment_words
from service.wording.segments import plain

LOOP = 3
"""The same words this often in a row: no person writes so, and no person should be answered so."""


def reads_when(turn: Turn) -> str:
    """When a person reads this, from the shop's hours: "today, in shop hours", "tomorrow at 8 am", "Mon 30 Nov at 8 am"."""
    shop = turn.rulebook.shop
    if is_open(shop, turn.now):
        return turn.words("when.open")
    opening = next_opening(shop, turn.now)
    return plain(moment_words(opening, turn.language, turn.now), turn.language, shop.policies.spanish)


def call_person(turn: Turn, why: str, *, ticket: str | None = None) -> None:
    """Ask the office for a person: marks the ticket in focus (made if there is none) and tells the desk."""
    key = ticket or (turn.state.in_focus.key if turn.state.in_focus and turn.state.in_focus.open else None)
    key = key or (turn.open_tickets[0].key if turn.open_tickets else open_ticket(turn, "unknown"))
    standing = turn.the(key).needs_person
    if standing is None or not standing.startswith("danger"):
        turn.change(key, needs_person=why[:190])
    turn.alarms.append(Alarm(kind="person", ticket=key, text=f"A person is needed: {why}"[:400]))
    turn.because("held", f"A person is asked for: {why}.")


def settle_warranty(turn: Turn) -> None:
    """Leave it to the office who pays under a warranty."""
    ticket = turn.state.in_focus
    if ticket is not None and ticket.open and ticket.needs_person is None:
        turn.change(ticket.key, needs_person="asks about a warranty: settle who pays")


def wanted(turn: Turn, reading: Reading) -> bool:
    """They want a human: told when one reads this; the line goes no further this turn. News that it works goes first."""
    if "talk_to_person" not in reading.intents or (reading.answer is not None and reading.answer.kind == "fixed"):
        return False
    if named(turn.rulebook, "machine_or_person", reading.text) is not None:
        turn.tell("answer.automatic")
    asked_before = turn.state.person_asked
    turn.put(person_asked=True)
    complaint = named(turn.rulebook, "complaint", reading.text)
    upset = complaint is not None or named(turn.rulebook, "upset", reading.text) is not None
    if complaint is not None:
        call_person(turn, f'{_COMPLAINT} ("{complaint}"): "{reading.text[:120]}"')
    elif not asked_before:
        call_person(turn, "the customer asks for a person")
    turn.clear_wake("silence")
    if "phone" in turn.learned:
        turn.tell("heard.noted.phone")
    if upset:
        _spare_checks(turn)
        turn.put(asked=None)
        turn.tell("person.sorry", when=reads_when(turn))
        return True
    turn.tell("person.asked" if not asked_before else "person.asked_again", when=reads_when(turn))
    return True


UPSET = "upset"
"""The mark on the complaints of who asked for a person in anger: no owner check is offered for them."""


def _spare_checks(turn: Turn) -> None:
    """Who asks for a person in anger is sent to no check from then on; one under way is over."""
    for ticket in turn.open_tickets:
        if UPSET not in ticket.told:
            stage = "narrowing" if ticket.stage == "trying" else ticket.stage
            turn.change(ticket.key, told=(*ticket.told, UPSET), stage=stage)


def complains(turn: Turn, reading: Reading) -> bool:
    """Damage, money back, harm: never the line's to settle."""
    phrase = named(turn.rulebook, "complaint", reading.text)
    if phrase is None:
        return False
    call_person(turn, f'{_COMPLAINT} ("{phrase}"): "{reading.text[:120]}"')
    turn.tell("person.complaint", when=reads_when(turn))
    return True


_COMPLAINT = "a complaint"


def has_complaint(ticket: TicketState) -> bool:
    """Whether *ticket* is a complaint of the shop that waits for a person."""
    return ticket.open and (ticket.needs_person or "").startswith(_COMPLAINT)


def abuses(turn: Turn, reading: Reading, *, told: bool) -> bool:
    """
    Insults and threats with nothing said of a machine: answered once, calmly, and read by a person; then not answered.

    told: these texts answered something or brought news; then the work goes on, whatever its tone, and nothing is counted.
    """
    if told:
        turn.put(abused=0)
    phrase = None if told else named(turn.rulebook, "abuse", reading.text)
    if phrase is None:
        return False
    turn.put(abused=turn.state.abused + 1)
    turn.clear_wake("silence")
    if turn.state.abused > 1:
        turn.because("held", f'Abuse again ("{phrase}"): not answered.')
        return True
    call_person(turn, f'abuse ("{phrase}"): "{reading.text[:120]}"')
    turn.tell("person.abuse", when=reads_when(turn))
    return True


def loops(turn: Turn, *, told: bool) -> bool:
    """
    Whether the other side repeats itself as machines do; then a person is told once and the line is silent.

    told: these texts answered something or brought news. Three times "no" to three questions is no loop.
    """
    heard = " ".join(" ".join(turn.texts).split()).lower()[:200]
    same = bool(heard) and heard == turn.state.last_heard and not told
    by_itself = None if told else named(turn.rulebook, "auto_reply", heard)
    again = turn.state.heard_again + 1 if same else LOOP if by_itself else 1
    turn.put(last_heard=heard or turn.state.last_heard, heard_again=again)
    if again < LOOP:
        return False
    if again == LOOP:
        why = f'a telephone answers by itself ("{by_itself}")' if by_itself else ""
        call_person(turn, why or f"the same text came {LOOP} times in a row; it may be an auto-reply")
        turn.clear_wake("silence")
    turn.because("held", "A machine seems to answer: not answered.")
    return True
