"""The small words every rule file shares: bilingual text, phrase lists, grades, examples."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag

Language = Literal["en", "es"]

Grade = Literal["never", "rarely", "sometimes", "about half", "often", "very often", "almost always", "always"]
"""How often an answer is seen when a cause is the true one. Numbers: ``service.diagnosis.grades``."""

Level = Literal["now", "today", "soon", "routine"]
"""Triage, most pressing first: danger; food, medicine, active leak or dependence; sooner than usual; in turn."""

SignalWord = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
"""ANSI Z535.6 signal words, gravest first. Source W1."""

Code = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]
"""A code of the vocabulary or an id of the rules: lower case, digits, underscores."""

Told = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*(=[a-z0-9_]+)?$")]
"""A code, or ``observation=value``: an answer given."""


ASKED_KINDS = (
    "appliance", "symptom", "yes_no", "fuel", "variant", "brand", "age", "model", "serial", "code", "check_result",
    "name", "address", "postal_code", "phone", "offer", "access", "payer", "photo", "observation", "confirm",
)  # fmt: skip
"""What an example's ``asked`` may be besides an observation: the kinds of question the line asks."""


def _graded_as(written: object) -> str:
    return "each" if isinstance(written, dict) else "yes"


Graded = Annotated[
    Annotated[Grade, Tag("yes")] | Annotated[dict[Code, Grade], Tag("each")],
    Discriminator(_graded_as),
]
"""The grade of *yes*, or a grade for each answer."""


class Strict(BaseModel):
    """A frozen model that refuses fields it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", str_strip_whitespace=True, allow_inf_nan=False)


class Text(Strict):
    """One sentence or label in both languages, as a customer or technician reads it."""

    en: str = Field(min_length=1, description="English")
    es: str = Field(min_length=1, description="Spanish, for Spanish readers; usted")

    def in_(self, language: str) -> str:
        """The text in *language*; English for anything but ``es``."""
        return self.es if language == "es" else self.en


class Phrases(Strict):
    """
    Wordings to listen for, a list per language, in the phrase notation of ``rules/README.md``.

    Words match any of their forms (drain, drains, draining). ``[a|b c]`` is one of several; ``(a)`` may be missing;
    ``*`` stands for up to three words; ``=word`` matches that very form only.
    """

    en: tuple[str, ...] = Field(default=(), description="English phrases, one a line")
    es: tuple[str, ...] = Field(default=(), description="Spanish phrases as US households write them")

    def in_(self, language: str) -> tuple[str, ...]:
        """The phrases of *language*."""
        return self.es if language == "es" else self.en


class Caution(Strict):
    """A warning that stands before the step it is about."""

    signal: SignalWord = Field(description="DANGER kills, WARNING may, CAUTION hurts, NOTICE is not about people")
    text: Text = Field(description="the hazard, what happens, how to avoid it")
    source: str = Field(min_length=3, description="a source id with its title, or: common practice, no source")


class Example(Strict):
    """
    A text that the reader must read as stated; each is a test.

    ``means`` and ``denies`` list codes that must be found (symptom, hazard, urgency, intent, or ``observation=value``,
    ``fact=value``, ``appliance=code`` for the machine named, ``theory=cause``); ``lacks`` lists codes that must not be
    found as present. ``asked`` is the kind or observation that was asked before. An example in an appliance's folder is
    read as about that machine.
    """

    says: str = Field(min_length=1, description="the text as a customer would send it")
    means: tuple[str, ...] = Field(default=(), description="codes that must be found")
    denies: tuple[str, ...] = Field(default=(), description="codes that must be found denied")
    lacks: tuple[str, ...] = Field(default=(), description="codes that must not be found: a near miss")
    asked: str | None = Field(
        default=None, description="what the line had asked before: a kind of question or an observation"
    )
    why: str | None = Field(default=None, description="what the example guards, where it is not plain")
