"""
A danger that may be none, for it is told in words that customers mostly use of none: asked about before anything else.

Where it cannot be asked (a person holds the thread, they opted out, another danger stands) it is taken for one.
"""

from __future__ import annotations

from dataclasses import replace

from service.conversation.ask import pose
from service.conversation.people import call_person
from service.conversation.smalltalk import ASKED_MOST
from service.conversation.underway import Turn
from service.reading.dangers.danger_answers import told_when_asked
from service.reading.model import Reading


def weighed(turn: Turn, reading: Reading) -> Reading:
    """*reading* with the dangers that count: those that are so by an answer to our question, or cannot be asked about."""
    asked = turn.state.asked
    code = asked.code if asked is not None and asked.kind == "yes_no" else None
    if asked is not None and code in turn.rulebook.dangers and code is not None and turn.state.danger is None:
        answered = told_when_asked(reading, code)
        known = {found.code for found in (*answered.hazards, *answered.denied_hazards)}
        if code not in known and asked.tries >= ASKED_MOST:
            call_person(turn, f"may have told of a danger ({code.replace('_', ' ')}), asked and not answered")
        return answered
    if not reading.doubted_hazards or (_may_ask(turn) and _to_ask(turn, reading)):
        return reading
    if all(found.code in _denied(turn) for found in reading.doubted_hazards) and turn.state.danger is None:
        return reading  # asked before, and answered with no
    return replace(reading, hazards=(*reading.hazards, *reading.doubted_hazards), doubted_hazards=())


def ask(turn: Turn, reading: Reading) -> bool:
    """Ask about the gravest danger in doubt; True when the question was put, and then nothing else is said."""
    codes = _to_ask(turn, reading)
    if not codes:
        return False
    focus = turn.state.in_focus
    pose(turn, "yes_no", ticket=focus.key if focus and focus.open else None, code=codes[0])
    turn.because("asked", "A danger may be told here, in words that mostly tell of none: asked first.", codes[0])
    return True


def _may_ask(turn: Turn) -> bool:
    return not turn.held and turn.state.consent == "in" and turn.state.danger is None


def _to_ask(turn: Turn, reading: Reading) -> list[str]:
    """The dangers in doubt that were not asked about on this ticket, the gravest first; none where one has no question."""
    rules = turn.rulebook.dangers
    doubted = [rules[found.code] for found in reading.doubted_hazards if found.code in rules]
    if any(rule.ask_first is None for rule in doubted):
        return []
    before = _denied(turn)
    return [rule.code for rule in sorted(doubted, key=lambda rule: rule.rank) if rule.code not in before]


def _denied(turn: Turn) -> tuple[str, ...]:
    """What was asked of the ticket in focus already; had it been answered with a yes, a danger would stand."""
    focus = turn.state.in_focus
    return focus.asked if focus is not None and focus.open else ()
