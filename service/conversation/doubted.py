"""
A danger that may be none, for it is told in words that customers mostly use of none: asked about before anything else.

Where it cannot be asked (a person holds the thread, they opted out, another danger stands) it is taken for one.
"""

from __future__ import annotations

from dataclasses import replace

from service.conversation import help_came
from service.conversation.ask import pose
from service.conversation.people import call_person
from service.conversation.smalltalk import ASKED_MOST
from service.conversation.step import Alarm
from service.conversation.underway import Turn
from service.reading.dangers.danger_answers import told_when_asked
from service.reading.model import Reading


def weighed(turn: Turn, reading: Reading) -> Reading:
    """*reading* with the dangers that count: those that are so by an answer to our question, or cannot be asked about."""
    reading = help_came.of_the_danger_alone(turn, reading)
    asked = turn.state.asked
    code = asked.code if asked is not None and asked.kind == "yes_no" else None
    if asked is not None and code in turn.rulebook.dangers and code is not None and turn.state.danger is None:
        answered = told_when_asked(reading, code)
        known = {found.code for found in (*answered.hazards, *answered.denied_hazards)}
        if code not in known and asked.tries >= ASKED_MOST:
            call_person(turn, f"may have told of a danger ({code.replace('_', ' ')}), asked and not answered")
        return answered
    if not reading.doubted_hazards or _may_ask(turn, reading.doubted_hazards[0].code):
        return reading
    return replace(reading, hazards=(*reading.hazards, *reading.doubted_hazards), doubted_hazards=())


def ask(turn: Turn, reading: Reading) -> bool:
    """
    Ask about a danger in doubt, and let the office know; True when the question was put, and then nothing else is said.

    Who answered it with a no on the same ticket is not asked again.
    """
    code = next((found.code for found in reading.doubted_hazards), None)
    focus = turn.state.in_focus
    ticket = focus.key if focus is not None and focus.open else None
    if code is None or (ticket is not None and code in turn.the(ticket).asked):
        return False
    pose(turn, "yes_no", ticket=ticket, code=code)
    turn.because("asked", "A danger may be told here, in words that mostly tell of none: asked first.", code)
    text = f"May tell of a danger ({code.replace('_', ' ')}), in words that mostly tell of none: the line has asked."
    turn.alarms.append(Alarm(kind="person", ticket=ticket, text=text))
    return True


def _may_ask(turn: Turn, code: str) -> bool:
    """Whether a question can be put: there is one, nobody holds the thread or opted out, and no other danger stands."""
    rule = turn.rulebook.dangers.get(code)
    if rule is None or rule.ask_first is None:
        return False
    return not turn.held and turn.state.consent == "in" and turn.state.danger is None
