"""Whether what they answer says that a danger's instruction was followed: all out and called, switched off, found safe."""

from __future__ import annotations

from service.conversation.matters import named, nothing_but, without
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.opinion.leaning import TOLD_TEXTS

_DONE = ("all_out", "help_called", "plain_yes", "small_words")


def only_out_and_called(turn: Turn, reading: Reading) -> bool:
    """Whether the text says that people are out or help is called, and nothing else that could be a danger of its own."""
    told = _named(turn, "all_out", reading) or _named(turn, "help_called", reading)
    return told and nothing_but(turn.rulebook, reading.text, *_DONE)


def part_done(turn: Turn, reading: Reading) -> bool:
    """Whether people are out or help is called, and not a word takes it back."""
    return not _taken_back(turn, reading) and (_named(turn, "all_out", reading) or _named(turn, "help_called", reading))


def out_and_called(turn: Turn, reading: Reading, *, asked: bool) -> bool:
    """
    Whether the text is a plain "all out and called". asked: it answers that very question, so that a bare yes says both.

    A refusal, a doubt or a yes to something else ("yes I turned it off") is none: what stays in doubt counts as not done.
    """
    if _taken_back(turn, reading):
        return False
    if _named(turn, "all_out", reading) and _named(turn, "help_called", reading):
        return True
    return asked and _named(turn, "plain_yes", reading) and nothing_but(turn.rulebook, reading.text, *_DONE)


def made_safe(turn: Turn, reading: Reading) -> bool:
    """Whether they say that the machine, its power or the water is off."""
    given = reading.answer.kind if reading.answer else None
    return given != "no" and not reading.hazards and (given == "yes" or _named(turn, "made_safe", reading))


def found_safe(turn: Turn, reading: Reading) -> bool:
    """
    Whether the gas company or the fire department has found it safe, and no danger is told besides.

    That words about gas sound like a danger as a whole is none told besides.
    """
    if any(h.rule != TOLD_TEXTS for h in reading.hazards) or "?" in reading.text:
        return False
    return _named(turn, "who_may_clear", reading) and _named(turn, "found_safe", reading)


def _taken_back(turn: Turn, reading: Reading) -> bool:
    left = without(turn.rulebook, reading.text, *_DONE)
    return "?" in reading.text or named(turn.rulebook, "takes_back", left) is not None


def _named(turn: Turn, matter: str, reading: Reading) -> bool:
    return named(turn.rulebook, matter, reading.text) is not None
