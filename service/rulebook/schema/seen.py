"""What may be seen on an appliance: the symptoms its customers report, and what else is worth asking or noting."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from service.rulebook.schema.common import Code, Example, Grade, Graded, Level, Phrases, SignalWord, Strict, Text, Told


class StopUse(Strict):
    """A fault that is no hazard code but must not be run: owner checks end, this is said at once."""

    signal: SignalWord = Field(description="the word it goes out under")
    say: Text = Field(description="what the customer is told at once")
    source: str = Field(min_length=3, description="a source id with its title, or: common practice, no source")


class Symptom(Strict):
    """
    A code of the vocabulary as customers of this appliance say it.

    ``signs`` assert it (negated: denied). ``functions`` are what the machine should do: said to fail, the symptom is
    present; said to work, it is denied. ``over`` names more general codes that this one replaces when both are heard.
    """

    code: Code = Field(description="a symptom of the vocabulary")
    say: Text = Field(description="three to six words, said back to the customer")
    trade: str = Field(min_length=3, description="as a technician would write it, English")
    signs: Phrases = Field(default=Phrases(), description="wordings that mean it; denied, they mean that it is not so")
    functions: Phrases = Field(
        default=Phrases(), description="what the machine should do; said to fail, this is the symptom"
    )
    names_appliance: bool = Field(default=False, description="yes: the signs alone tell which appliance it is")
    over: tuple[Code, ...] = Field(
        default=(), description="more general symptoms that this one replaces when both are heard"
    )
    level: Level = Field(default="routine", description="how soon somebody should come for it")
    stop_use: StopUse | None = Field(default=None, description="what is said at once when the machine must not be run")
    otherwise: Grade = Field(default="rarely", description="how often it is seen with a cause that does not list it")
    why: str = Field(min_length=3, description="what this rule is for, for whoever changes it next")
    examples: tuple[Example, ...] = Field(
        min_length=1, description="texts and what they must be read as; near misses too"
    )


class FromFact(Strict):
    """A fact that answers an observation without asking: ``after`` is ``new_disposal`` means ``yes``."""

    fact: Code = Field(description="a fact of the vocabulary")
    equals: str | None = Field(default=None, description="the value that counts")
    at_least: float | None = Field(default=None, description="for a number: this or more")
    at_most: float | None = Field(default=None, description="for a number: this or less")
    means: str = Field(description="the answer it gives")


class Answer(Strict):
    """One answer to an observation, in the customer's terms; ``hears`` also finds it when nobody asked."""

    value: Code = Field(description="the id of the answer")
    say: Text = Field(description="the choice as the customer reads it")
    hears: Phrases = Field(default=Phrases(), description="wordings that mean this answer, also when nobody asked")


class Observation(Strict):
    """
    Something a customer or technician can report that is no symptom of the vocabulary.

    Without ``answers`` it is answered yes or no; ``signs`` and ``functions`` then work as in a symptom (function said to
    fail: yes). With ``answers`` it is one of them. ``who`` = technician: never asked by text. "Don't know" is always good.
    """

    id: Code = Field(description="its name in causes, checks and tickets")
    who: Literal["customer", "technician"] = Field(default="customer", description="technician: never asked by text")
    ask: Text = Field(description="the question, about what one sees, hears, smells or feels from where one stands")
    trade: str = Field(min_length=3, description="as the visit sheet lists it, English")
    answers: tuple[Answer, ...] = Field(default=(), description="two to five choices; left out: yes or no")
    signs: Phrases = Field(default=Phrases(), description="of a yes-or-no observation: wordings that mean yes")
    functions: Phrases = Field(
        default=Phrases(), description="what the machine should do; said to fail, the answer is yes"
    )
    replies: dict[Code, Phrases] = Field(
        default={}, description="by answer: short ways to give it, heard only where this was asked"
    )
    when: tuple[Code, ...] = Field(
        default=(), description="worth asking only with one of these symptoms; empty: always"
    )
    unless: tuple[Told, ...] = Field(
        default=(), description="pointless with any of these told: a symptom, or observation=value of another"
    )
    from_facts: tuple[FromFact, ...] = Field(default=(), description="facts that answer it without asking")
    price: float = Field(default=1.0, ge=0, le=10, description="patience it costs, in texts")
    dont_know: float = Field(default=0.15, ge=0, le=1, description="chance that a customer cannot tell")
    otherwise: Graded = Field(default="sometimes", description="how often seen with a cause that does not list it")
    stop_use: dict[Code, StopUse] = Field(default={}, description="answers with which the machine must not be run")
    why: str = Field(min_length=3, description="which decision it serves, for whoever changes it next")
    examples: tuple[Example, ...] = Field(
        default=(), description="texts and what they must be read as; needed beside phrases"
    )

    @property
    def values(self) -> tuple[str, ...]:
        """The values it can take: ``("yes", "no")`` or the answers' own."""
        return tuple(a.value for a in self.answers) or ("yes", "no")


class SymptomsFile(Strict):
    """``symptoms.yaml``."""

    symptoms: tuple[Symptom, ...] = Field(min_length=1, description="every symptom that applies to the appliance")


class ObservationsFile(Strict):
    """``observations.yaml``."""

    observations: tuple[Observation, ...] = Field(default=(), description="what else is worth asking or noting")
