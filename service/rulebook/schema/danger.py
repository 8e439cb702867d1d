"""Hazards: how they sound, what to tell people at once, who must be told."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from service.rulebook.schema.common import Code, Example, Phrases, SignalWord, Strict, Text


class Instruction(Strict):
    """What to do now, signal word first, alone in its text, three segments at most."""

    say: Text
    source: str = Field(min_length=3)


class Danger(Strict):
    """
    One hazard of the vocabulary. ``signs`` raise it wherever they stand; ``innocent`` wordings hold their own words
    back ("smoke alarm battery", "shocked at the price"). ``ask_after`` is the one question that follows when they answer.
    """

    code: Code
    signal: SignalWord
    rank: int = Field(ge=1, description="1 is answered before 2 when a text names both")
    signs: Phrases
    innocent: Phrases = Phrases()
    denials: Phrases = Phrases()
    instruction: Instruction
    instruction_for: dict[Code, Instruction] = Field(default={}, description="by appliance, where it differs")
    ask_after: Text
    desk: str = Field(min_length=3, description="what the office is told, English")
    tell: tuple[Literal["office", "on_call"], ...] = ("office", "on_call")
    why: str = Field(min_length=3)
    source: str = Field(min_length=3)
    examples: tuple[Example, ...] = Field(min_length=1)


class Urgency(Strict):
    """A reason to be seen sooner that is no danger."""

    code: Code
    signs: Phrases
    say: Text | None = Field(default=None, description="what to tell them, if anything")
    source: str | None = None
    why: str = Field(min_length=3)
    examples: tuple[Example, ...] = Field(min_length=1)


class DangersFile(Strict):
    """``dangers.yaml``."""

    dangers: tuple[Danger, ...] = Field(min_length=1)
    urgency: tuple[Urgency, ...] = ()
