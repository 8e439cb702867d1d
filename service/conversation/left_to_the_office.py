"""What they ask that the line has no answer to: said so, and kept for the office."""

from __future__ import annotations

from service.conversation.makes import asked_make, is_served
from service.conversation.moving import standing
from service.conversation.office_questions import for_the_office
from service.conversation.people import call_person, reads_when
from service.conversation.underway import Turn
from service.reading.model import Reading


def noted_for_the_office(turn: Turn, reading: Reading) -> bool:
    """
    Whether they ask of the shop: answered from its file where that says it, else said to be for the office, and kept.

    A reason to call a person that stands already is weightier.
    """
    make = asked_make(turn, reading)
    if make is not None and is_served(turn, make):
        return True
    if (asked := for_the_office(turn, reading.text) or make) is None:
        return False
    turn.tell("answer.office")
    turn.because("told", f'"{asked}": for the office to answer.')
    ticket = turn.state.in_focus
    if ticket is not None and ticket.open and ticket.needs_person is None:
        turn.change(ticket.key, needs_person=f'asks what the office answers: "{reading.text[:80]}"')
    return True


def unanswered(turn: Turn, reading: Reading) -> None:
    """A question to which the line has nothing to say, while a visit stands: a person answers it."""
    if turn.pieces or turn.replies or not asks_of_a_visit(turn, reading):
        return
    call_person(turn, f'asks what the line does not answer: "{reading.text[:120]}"')
    turn.tell("person.asked_again", when=reads_when(turn))


def asks_of_a_visit(turn: Turn, reading: Reading) -> bool:
    """Whether the text asks something while a visit stands."""
    return standing(turn) is not None and reading.text.rstrip().endswith("?")
