"""A machine taken back: “no the dryer is fine its just the washer” closes the dryer's complaint; the washer's goes on."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from service.conversation.closing import close
from service.conversation.matters import bare_words
from service.conversation.state import Asked, TicketState
from service.conversation.underway import Turn
from service.conversation.visit_words import held_words
from service.reading.model import Reading

_LOOKED_AT = frozenset(("trying", "arranged", "visited", "deciding", "parts"))
"""Stages in which somebody has looked at the machine or is about to: that it is fine now is that it works again."""
_OF_OTHERS = frozenset((
    "only", "just", "else", "other", "others", "all", "every", "everything", "rest", "solo", "nomas", "otro", "otra", "otros",
    "otras", "todo", "todos", "toda", "resto",
))  # fmt: skip
"""A choice with these sets one thing apart from others: “just the washer” may take it, and takes nothing back."""
_NUMBERED = re.compile(r"\b[1-9]\b")


def take(turn: Turn, reading: Reading) -> Reading:
    """
    Close the complaints of machines that are taken back, while another stands or is named; gives what *reading* says of the
    rest.

    A danger that was told stays, whatever is said of its machine. What was looked at already is not taken back: it works.
    """
    if turn.state.danger is not None or not (reading.taken_back or reading.meant_alone):
        return reading
    out = [t for t in turn.open_tickets if _is_out(turn, reading, t)]
    left = [t for t in turn.open_tickets if t not in out]
    others = [a for a in reading.appliances if a not in reading.taken_back]
    if out and not left and not others:
        return reading
    for ticket in out:
        if ticket.unsafe:
            turn.because(
                "held", f"The {ticket.appliance} must not be run: its complaint stays, whatever is taken back."
            )
    out = [t for t in out if not t.unsafe]
    again = "fixed" in reading.intents and not reading.meant_alone
    works = [t for t in out if again or t.stage in _LOOKED_AT or t.checks]
    if works and left:
        return replace(reading, intents=("fixed",), appliances=(works[0].appliance,), answer=None)
    if out and not works:
        if left or _complains_of(reading, others):
            _close(turn, out)
        elif len(others) == 1:
            reading = replace(reading, corrects=True)
    if not out and (turn.open_tickets or not others):
        return reading
    return _without(reading, {*reading.taken_back, *(t.appliance for t in out)})


def _is_out(turn: Turn, reading: Reading, ticket: TicketState) -> bool:
    """Whether *ticket*'s machine is said to be fine, or another is meant alone and nothing is told of this one."""
    if ticket.appliance in reading.taken_back:
        return True
    told = {*(f.appliance for f in reading.symptoms), *(s.appliance for s in reading.observations)}
    if ticket.appliance in {*reading.meant_alone, *told} or not reading.meant_alone:
        return False
    standing = {t.appliance for t in turn.open_tickets}
    drops = reading.corrects or _drops_the_rest(reading.text) or not _may_answer(turn.state.asked)
    return drops and standing.issuperset(reading.meant_alone)


def _drops_the_rest(text: str) -> bool:
    """“ok just the dishwasher then”, “bueno nomás la lavadora entonces”: what is to be seen to, and no answer to a question."""
    words = bare_words(text)
    wanted = words[-1] in _THEN or words[0] in _WELL or not _DO.isdisjoint(words)
    return wanted and len(words) <= _SHORT


_THEN = frozenset(("then", "entonces", "pues", "instead"))
_WELL = frozenset(
    ("ok", "okay", "k", "fine", "alright", "well", "bueno", "esta", "va", "lets", "mejor", "sale", "forget")
)
_DO = frozenset((
    "do", "fix", "come", "look", "see", "worry", "handle", "deal", "focus", "arregle", "arreglen", "vengan", "venga", "vean",
    "revise", "revisen", "mejor", "want", "quiero", "need",
))  # fmt: skip
_SHORT = 9
"""A text of more words tells of the machine besides."""


def _may_answer(asked: Asked | None) -> bool:
    """Whether “just the washer” may answer what was asked: a yes or no, or which of several things."""
    if asked is None or asked.kind not in ("observation", "yes_no"):
        return False
    return not asked.choices or any(not _OF_OTHERS.isdisjoint(bare_words(say)) for _, say in asked.choices)


def _complains_of(reading: Reading, machines: Collection[str]) -> bool:
    return any(found.appliance in machines for found in reading.symptoms)


def _close(turn: Turn, out: Collection[TicketState]) -> None:
    for ticket in out:
        close(turn, ticket.key, "withdrawn")
        turn.because("heard", f"They took the {ticket.appliance} back: nothing is wrong with it.", ticket=ticket.key)
    turn.learned.add("corrected")
    visit = next((t.visit for t in turn.open_tickets if t.visit is not None), None)
    if visit is not None:
        turn.tell("cancel.kept", window=held_words(turn, visit))


def _without(reading: Reading, gone: Collection[str]) -> Reading:
    """*reading* without what it says of the machines that are *gone*; words that take one back answer nothing else."""
    numbered = reading.answer is not None and reading.answer.kind == "choice" and _NUMBERED.search(reading.text)
    return replace(
        reading,
        appliances=tuple(a for a in reading.appliances if a not in gone),
        symptoms=tuple(f for f in reading.symptoms if f.appliance not in gone),
        denied=tuple(f for f in reading.denied if f.appliance not in gone),
        observations=tuple(s for s in reading.observations if s.appliance not in gone),
        intents=tuple(i for i in reading.intents if i not in ("fixed", "cancel")),
        answer=reading.answer if numbered else None,
    )
