"""What people say in any conversation: intents, answers, consent words, numbers, days. One file per topic in ``talk/``."""

from __future__ import annotations

from pydantic import Field

from service.rulebook.schema.common import Code, Example, Phrases, Strict, Text


class TalkRule(Strict):
    """
    Wordings for one code: an intent, an answer (yes, no, dont_know...), a fact value (``tried=cleaned_filter``).

    ``washer=no_spin`` or ``any=leak`` is a symptom in general household wording, for appliances without a folder and for
    wordings no folder has: ``functions`` and ``over`` then work as in an appliance's own symptom; ``things`` are nouns that say
    nothing until they are said to work or to be fine; ``appliances`` limits
    ``any``; ``names_appliance`` says that the signs alone tell which appliance it is.
    """

    code: str = Field(
        pattern=r"^[a-z_]+(=[a-z0-9_]+)?$", description="an intent, an answer, fact=value or appliance=symptom"
    )
    alone: Phrases = Field(default=Phrases(), description="only when the text is nothing else (consent words)")
    signs: Phrases = Field(default=Phrases(), description="wordings that mean it, wherever they stand")
    faint: Phrases = Field(
        default=Phrases(),
        description="of opt_out: wordings that mean it where no machine and no visit is spoken of; a single word stands apart",
    )
    innocent: Phrases = Field(default=Phrases(), description="wordings whose words do not count here")
    functions: Phrases = Field(default=Phrases(), description="of a symptom: what the machine should do")
    things: Phrases = Field(
        default=Phrases(), description="of a symptom: what it is that fails; said to be fine or to work, denies it"
    )
    appliances: tuple[Code, ...] = Field(default=(), description="of an any= symptom: only for these; empty: for all")
    names_appliance: bool = Field(default=False, description="the signs alone tell which appliance it is")
    over: tuple[Code, ...] = Field(default=(), description="more general symptoms that this one replaces")
    why: str = Field(min_length=3, description="what the rule is for")
    source: str | None = Field(default=None, description="where the wordings come from, where that matters")
    examples: tuple[Example, ...] = Field(min_length=1, description="texts that mean it, and near misses")


class TalkFile(Strict):
    """``talk/NAME.yaml``: rules, and plain word lists by name and language for the reader's own machinery."""

    rules: tuple[TalkRule, ...] = Field(default=(), description="wordings by what they mean")
    words: dict[Code, Phrases] = Field(default={}, description="list name: words, for the reader's own machinery")


class ApplianceName(Strict):
    """An appliance that has no folder yet, or ``other``: recognised by name, so that it can be referred."""

    appliance: Code = Field(description="an appliance of the vocabulary without a folder, or other")
    say: Text = Field(description="the name as the line says it")
    names: Phrases = Field(description="what people call it")
    examples: tuple[Example, ...] = Field(min_length=1, description="texts that name it, and near misses")


class NamesFile(Strict):
    """``talk/appliances.yaml``: appliances without a folder."""

    appliances: tuple[ApplianceName, ...] = Field(description="those without a folder, and other")
