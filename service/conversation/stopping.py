"""Faults that are no danger of the list and yet must not be run: told in the turn in which they are heard, and to who asks."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.conversation import leak_above, water_off
from service.conversation.ask import again, named_in
from service.conversation.matters import named
from service.conversation.smalltalk import TELLS
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.words.normalising import fold
from service.rulebook.schema.appliance import Appliance, StopUse

UNKNOWN = "unknown"


def stop_use_of(ticket: TicketState, rules: Appliance) -> tuple[str, StopUse] | None:
    """The first thing held that must not be run though it is no danger of the list, with what to say."""
    for code, said in ticket.symptoms.items():
        symptom = rules.symptoms.get(code)
        if said and symptom is not None and symptom.stop_use is not None:
            return code, symptom.stop_use
    for id, value in ticket.observations.items():
        known = rules.observations.get(id)
        if known is not None and value in known.stop_use:
            return id, known.stop_use[value]
    return None


def warn(turn: Turn, reading: Reading) -> bool:
    """
    Say the stop-use line of every open complaint that has one, once; owner checks are over from then on.

    True when one was said. Whatever else the turn is about, the warning goes first, and how to shut water from above.
    """
    leak_above.note(turn, reading)
    told = False
    for ticket in turn.open_tickets:
        found = _held(turn, ticket)
        if found is None or f"stop:{found[1]}" in ticket.told:
            continue
        rules, code, line = found
        said = named_in(turn, ticket, f"{_signal(turn, line)}: {_bare(turn, line)}")
        turn.tell_own(f"{rules.code}.stop_use.{code}", said)
        turn.change(ticket.key, stop_use=code, told=(*ticket.told, f"stop:{code}"))
        turn.because("ruled_out", f"{code}: must not be run; owner checks end.", code, source=line.source)
        _end_check(turn, ticket, reading)
        told = True
    return told


def _held(turn: Turn, ticket: TicketState) -> tuple[Appliance, str, StopUse] | None:
    """
    What of *ticket* must not be run, with the rules that say so.

    Of a machine that is not told yet: what none that it can be may be run with, by the rules of the first of them.
    """
    shop = turn.rulebook.shop
    rules = turn.rulebook.appliances.get(ticket.appliance)
    if rules is not None:
        found = stop_use_of(ticket, rules) if ticket.appliance in shop.serves else None
        return (rules, *found) if found is not None else None
    served = [own for code, own in turn.rulebook.appliances.items() if code in shop.serves]
    for id, value in ticket.observations.items() if ticket.appliance == UNKNOWN else ():
        able = [own for own in served if id in own.observations and value in own.observations[id].values]
        if able and all(value in own.observations[id].stop_use for own in able):
            return able[0], id, able[0].observations[id].stop_use[value]
    return None


def _end_check(turn: Turn, ticket: TicketState, reading: Reading) -> None:
    """An owner check under way is over, and its question with it; a result that is told now is still taken."""
    asked = turn.state.asked
    if reading.answer is not None:
        return
    if asked is not None and asked.kind == "check_result" and asked.ticket == ticket.key:
        turn.put(asked=None)
    if ticket.stage == "trying":
        turn.change(ticket.key, stage="narrowing")


def asks_to_use(turn: Turn, reading: Reading) -> bool:
    """Whether they ask if a machine may be used."""
    if named(turn.rulebook, "may_use", reading.text) is not None:
        return True
    offered = turn.state.asked is not None and turn.state.asked.kind in ("offer", "check_result", "access")
    return named(turn.rulebook, "is_it_safe", reading.text) is not None and reading.wish is None and not offered


_DANGEROUS = re.compile(r"\b(?:dangerous|danger|risky|hazard|unsafe|peligros[oa]|peligro|riesgo)\b")
"""So it may be asked the other way round, and “no” would say that nothing is wrong."""


def answer(turn: Turn, reading: Reading, *, warned: bool) -> bool:
    """Tell who asks whether a machine may be used that must not be run: no, and why. The open question stays."""
    if not asks_to_use(turn, reading):
        return False
    held = [(t, rules) for t in turn.open_tickets if (rules := turn.rulebook.appliances.get(t.appliance))]
    found = next((stop for ticket, rules in held if (stop := stop_use_of(ticket, rules))), None)
    if warned:
        return False
    if found is None:
        checking = turn.state.asked is not None and turn.state.asked.kind == "check_result"
        return False if checking else _until_then(turn, held)
    code, line = found
    turned = "stop.dangerous" if _DANGEROUS.search(fold(reading.text)) else "stop.no"
    turn.tell(turned, signal=_signal(turn, line), why=_bare(turn, line))
    turn.because("told", "Asked whether it may be used: no, and why.", code, source=line.source)
    if TELLS & turn.learned:
        return False
    again(turn)
    return True


def _until_then(turn: Turn, held: Sequence[tuple[TicketState, Appliance]]) -> bool:
    """What the rules say of such a fault until somebody has looked, where they say it; more is for a person."""
    for ticket, rules in held:
        symptoms = {code for code, said in ticket.symptoms.items() if said}
        fit = next((m for m in rules.basics.meanwhile if symptoms & {*m.symptoms}), None)
        if fit is None or ticket.visit is not None:
            continue
        left = water_off.left_to_do(turn, ticket, turn.own(fit.say))
        turn.tell_own(f"{rules.code}.meanwhile", named_in(turn, ticket, left) if left else left)
        turn.because("told", "Asked whether it may be used: what holds until somebody has looked.", source=fit.source)
        return False if TELLS & turn.learned else again(turn)
    return False


def _signal(turn: Turn, line: StopUse) -> str:
    return turn.words(f"signal.{line.signal.lower()}")


def _bare(turn: Turn, line: StopUse) -> str:
    """The line without a signal word of its own."""
    text = turn.own(line.say)
    for signal in (_signal(turn, line), line.signal):
        text = text.removeprefix(f"{signal}: ")
    return text
