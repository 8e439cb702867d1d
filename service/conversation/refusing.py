"""Who refuses a long check is sent no other long one; who cannot look from where they are is sent none."""

from __future__ import annotations

import re

from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.words.normalising import fold
from service.rulebook.schema.appliance import Appliance

LONG_H = 1
"""From so many hours of waiting on a check is a long one. Our own choice, no source."""
_SHORT = 8
"""A text of more words tells more than where they are."""

_WORK = (
    r"(?:defrost|unplug|empty|emptying|thaw|wait|waiting|leave|move|moving|pull|pulling|do|doing|descongel|desconect|vaci|"
    r"esper|mover|hacer)\w*"
)
_REFUSES = re.compile(
    rf"\b(?:im|i am|i'm|ill|i will|i'll|were|we're) (?:not|never) (?:gonna |going to |about to )?{_WORK}\b"
    rf"|\b(?:i )?(?:wont|won't|refuse to) (?:be )?{_WORK}\b"
    rf"|^(?:no,? )?(?:i'?m )?not {_WORK} (?:it|that|this|all)\b"
    rf"|\bno (?:lo |la |le )?(?:voy a|pienso|quiero) {_WORK}"
)
_MADE_TO = re.compile(
    rf"\b(?:mak(?:e|ing)|hav(?:e|ing)|want|tell(?:ing)?) me (?:to )?{_WORK}"
    rf"|\bme (?:va|van|vas) a (?:poner a|hacer|pedir que) {_WORK}"
)
_SAYS_NO = re.compile(r"\b(?:no|nope|nah|not|never|forget it|pass|nunca|ni loc[oa]|olvidelo)\b")

_AWAY = re.compile(
    r"\b(?:can ?not|cant|can't|couldnt|unable to|not able to) (?:check|look|see|tell|get to it)\b"
    r".*\b(?:work|home|away|out of town|office)\b"
    r"|^(?:sorry,? )?(?:im |i'm |i am |still )?at (?:work|the office)(?: right now| now| rn)?\W*$"
    r"|\bno (?:puedo|alcanzo a) (?:ver|revisar|checar)\w*\b.*\b(?:trabaj\w+|casa|fuera)\b"
    r"|^(?:ando|sigo|estoy) (?:en el trabajo|en la oficina|trabajando)\b"
)


def is_away(text: str) -> str | None:
    """The words that say that they cannot look from where they are; None if none do."""
    told = fold(text).strip()
    found = _AWAY.search(told) if len(told.split()) <= _SHORT else None
    return found.group() if found else None


def refuses(reading: Reading) -> bool:
    """Whether they refuse a check before or while it is asked of them: “u gonna make me defrost it? no”."""
    told = fold(reading.text)
    made = _MADE_TO.search(told)
    return bool(_REFUSES.search(told)) or (made is not None and bool(_SAYS_NO.search(told[made.end() :])))


def take(turn: Turn, reading: Reading) -> None:
    """No long check more where one is refused; what was asked about the machine is left."""
    asked = turn.state.asked
    if reading.hazards or not refuses(reading):
        return
    for ticket in turn.open_tickets:
        if ticket.visit is None:
            no_long_ones(turn, ticket.key)
    turn.because("heard", "They refuse to do a long check: no other long one is offered.")
    if asked is not None and asked.kind in ("observation", "yes_no") and asked.code not in turn.rulebook.dangers:
        turn.put(asked=None)
        turn.answered = True
        turn.tell("try.declined", spare=True)


def no_long_ones(turn: Turn, key: str) -> None:
    """Every check of the ticket's machine that takes hours is noted as declined."""
    ticket = turn.the(key)
    rules = turn.rulebook.appliances.get(ticket.appliance)
    long = () if rules is None else [c.id for c in rules.checks.values() if c.wait_h >= LONG_H]
    turn.change(key, declined=tuple(dict.fromkeys([*ticket.declined, *long])))


def is_long(rules: Appliance | None, check: str) -> bool:
    """Whether *check* takes hours."""
    return rules is not None and check in rules.checks and rules.checks[check].wait_h >= LONG_H
