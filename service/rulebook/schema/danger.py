"""Hazards: how they sound, what to tell people at once, who must be told."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from service.rulebook.schema.common import Caution, Code, Example, Phrases, SignalWord, Strict, Text


class Instruction(Strict):
    """What to do now, signal word first, alone in its text, three segments at most."""

    say: Text = Field(description="the one thing to do now, who to call, from where")
    source: str = Field(min_length=3, description="a source id with its title, or: common practice, no source")


class Danger(Strict):
    """
    One hazard of the vocabulary. ``signs`` raise it wherever they stand; ``innocent`` wordings hold their own words
    back ("smoke alarm battery", "shocked at the price"). ``ask_after`` is the one question that follows when they answer;
    ``ask_first`` the one that comes instead of the instruction where the words mostly tell of none.
    """

    code: Code = Field(description="a hazard of the vocabulary")
    signal: SignalWord = Field(description="the word it goes out under")
    rank: int = Field(ge=1, description="1 is answered before 2 when a text names both")
    signs: Phrases = Field(description="wordings that raise it, wherever they stand")
    innocent: Phrases = Field(default=Phrases(), description="wordings whose own words do not count")
    denials: Phrases = Field(default=Phrases(), description="wordings that say it is not so")
    instruction: Instruction = Field(description="what to do now")
    instruction_for: dict[Code, Instruction] = Field(default={}, description="by appliance, where it differs")
    ask_after: Text = Field(description="the one question that follows when they answer")
    ask_first: Text | None = Field(
        default=None,
        description="what is asked where it may be none; a yes means that it is so; without it nothing is asked",
    )
    again: Text | None = Field(
        default=None, description="the core of the instruction in one sentence, for an answer that does not follow it"
    )
    leave: bool = Field(
        default=False, description="yes: people must be out and help called before anything else is said"
    )
    visit: bool = Field(default=False, description="yes: a visit puts it right, so that the line asks where it is")
    desk: str = Field(min_length=3, description="what the office is told, English")
    tell: tuple[Literal["office", "on_call"], ...] = Field(default=("office", "on_call"), description="who is told")
    why: str = Field(min_length=3, description="what the rule guards, for whoever changes it next")
    source: str = Field(min_length=3, description="a source id with its title, or: common practice, no source")
    examples: tuple[Example, ...] = Field(
        min_length=1, description="texts that raise it, and near misses that must not"
    )


class Urgency(Strict):
    """A reason to be seen sooner that is no danger."""

    code: Code = Field(description="an urgency of the vocabulary")
    signs: Phrases = Field(description="wordings that mean it")
    innocent: Phrases = Field(default=Phrases(), description="wordings that look like it and are harmless")
    say: Text | None = Field(default=None, description="what to tell them, if anything")
    source: str | None = Field(default=None, description="where what is told comes from")
    why: str = Field(min_length=3, description="what the rule is for")
    examples: tuple[Example, ...] = Field(min_length=1, description="texts that mean it, and near misses")


class OnSite(Strict):
    """What a technician does first at a machine of which one of these dangers was named, whatever its rules would test."""

    dangers: tuple[Code, ...] = Field(min_length=1, description="hazards of the vocabulary")
    do: str = Field(min_length=3, description="what is done before any other test, English")
    minutes: int = Field(gt=0, le=60, description="how long it takes")
    bring: tuple[str, ...] = Field(default=(), description="what the van carries for it, English")
    passes: str = Field(min_length=3, description="what good looks like")
    fails: str = Field(min_length=3, description="what bad looks like, and what then")
    suggests: dict[Code, str] = Field(
        default={}, description="facts the machine is taken to have for the visit, where nobody told"
    )
    cautions: tuple[Caution, ...] = Field(min_length=1, description="what the technician minds while doing it")
    source: str = Field(min_length=3, description="a source id with its title, or: common practice, no source")


class DangersFile(Strict):
    """``dangers.yaml``."""

    dangers: tuple[Danger, ...] = Field(min_length=1, description="every hazard of the vocabulary")
    urgency: tuple[Urgency, ...] = Field(default=(), description="reasons to be seen sooner that are no danger")
    on_site: tuple[OnSite, ...] = Field(default=(), description="what a technician does first, by danger")
