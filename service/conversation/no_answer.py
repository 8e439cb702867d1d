"""What is no answer, whatever it sounds like: put off till later, no address by text, a child at the phone."""

from __future__ import annotations

from service.conversation import refusing
from service.conversation.ask import again
from service.conversation.matters import bare_words, named, said_alone
from service.conversation.passing import leave_for_later
from service.conversation.underway import Turn
from service.reading.model import Reading

OF_THE_VISIT = ("offer", "confirm", "access", "check_result")
"""Questions to which “later” and “not today” are answers."""
_WILL_NOT = frozenset((
    "dont", "not", "wont", "wouldnt", "rather", "never", "no", "cant", "uncomfortable", "refuse", "prefiero",
))  # fmt: skip


def answers_nothing(turn: Turn, reading: Reading) -> bool:
    """Whether the text puts the answer off, refuses the address or is a child's: whatever it sounds like, it is no answer."""
    asked = turn.state.asked
    if named(turn.rulebook, "later", reading.text) is not None or not_now(turn, reading):
        return True
    if asked is not None and asked.kind in ("observation", "yes_no") and refusing.refuses(reading):
        return asked.code not in turn.rulebook.dangers
    return (_keeps(turn, reading) is not None and asked is not None and asked.kind != "address") or _is_child(
        turn, reading
    )


def not_now(turn: Turn, reading: Reading) -> bool:
    """“cant today”, “later”, asked about the machine or where it is."""
    asked = turn.state.asked
    if asked is None or asked.kind in OF_THE_VISIT or asked.code in turn.rulebook.dangers:
        return False
    return said_alone(turn.rulebook, reading.text, "not_now")


def _is_child(turn: Turn, reading: Reading) -> bool:
    asked = turn.state.asked
    ages = asked is not None and (asked.kind == "age" or "age" in (asked.code or ""))
    return not ages and said_alone(turn.rulebook, reading.text, "a_child", "beside_a_child")


def child(turn: Turn, reading: Reading) -> bool:
    """A child writes: an adult is asked to, nothing is tried at the machine, and the open question waits for them."""
    if not _is_child(turn, reading):
        return False
    for ticket in turn.open_tickets:
        turn.change(ticket.key, just_send=True, questions_cap=ticket.questions)
    turn.tell("child.adult")
    turn.because("held", "A child writes: an adult is asked for, and no check is offered.")
    return True


def _keeps(turn: Turn, reading: Reading) -> str | None:
    """The words with which they refuse the address; “can i give my address to him” refuses nothing."""
    phrase = named(turn.rulebook, "keeps_address", reading.text)
    return phrase if _WILL_NOT & set(bare_words(reading.text)) else None


def keeps_address(turn: Turn, reading: Reading) -> bool:
    """They will not text their address: the office can take it by phone; it is not asked for, and the talk goes on."""
    phrase = _keeps(turn, reading)
    ticket, asked = turn.state.in_focus, turn.state.asked
    if phrase is None or ticket is None or not ticket.open or "address" in turn.learned:
        return False
    turn.change(ticket.key, declined=tuple(dict.fromkeys([*ticket.declined, "address"])))
    turn.because("heard", f'"{phrase}": they give no address by text.')
    if asked is not None and asked.kind == "address":
        turn.put(asked=None)
        turn.answered = True
        return False
    turn.tell("address.by_phone")
    turn.learned.add("answer")
    return again(turn)


def puts_off(turn: Turn, reading: Reading) -> bool:
    """They mean to write or call later: said that this is fine; the open question is left for then, and no answer to it."""
    phrase = named(turn.rulebook, "later", reading.text)
    busy = phrase is None and not_now(turn, reading)
    if not busy and (
        phrase is None
        or reading.wish is not None
        or {"symptom", "cancel", "reschedule"} & turn.learned
        or {"book", "reschedule", "cancel", "report_problem"} & set(reading.intents)
    ):
        return False
    leave_for_later(turn)
    turn.tell("later.fine")
    turn.because("held", f'"{phrase or reading.text[:40]}": they write when it suits them.')
    return True
