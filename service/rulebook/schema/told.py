"""How things are told, in texts and in brief: what the reader weighs words by where no phrase of the rules is heard."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from service.rulebook.schema.common import Code, Strict

Sentence = Annotated[str, Field(min_length=3)]


class ToldFile(Strict):
    """``appliances/NAME/told.yaml``: how this machine's symptoms were told; a text may stand under several of them."""

    told: dict[Code, tuple[Sentence, ...]] = Field(
        description="per symptom whole texts that tell it, in any language; better a new wording than one more of the same"
    )
    briefly: dict[Code, tuple[Sentence, ...]] = Field(
        default={},
        description="per symptom short ways to tell it, with or without the machine; of dangers they teach what is none",
    )
    nothing: tuple[Sentence, ...] = Field(
        default=(), description="texts that speak of this machine and tell nothing that is wrong with it"
    )
    denied: dict[Code, tuple[Sentence, ...]] = Field(
        default={}, description="per symptom texts, short or long, that say it is not so, or that the function works"
    )
    not_denied: tuple[Sentence, ...] = Field(
        default=(), description="texts that only sound so and deny nothing: too much, too little, once, a wish"
    )


class ToldIntentsFile(Strict):
    """``talk/told.yaml``: how people said what they want; a text may stand under several intents."""

    told: dict[Code, tuple[Sentence, ...]] = Field(
        description="per intent short texts that say it, alone or beside something else, in any language"
    )
    nothing: tuple[Sentence, ...] = Field(description="texts that say none of these intents, though their words may")
    no_more_texts: tuple[Sentence, ...] = Field(
        default=(), description="texts by people who want no more of ours, whatever else they say"
    )
    texts_again: tuple[Sentence, ...] = Field(
        default=(), description="texts by people who had them stopped and want them again"
    )
    texts_kept: tuple[Sentence, ...] = Field(
        default=(), description="texts that sound like one of the two and are neither; they teach nothing else"
    )


class ToldElsewhereFile(Strict):
    """``told.yaml``: how dangers were told, and texts that tell neither a danger nor a symptom."""

    dangers: dict[Code, tuple[Sentence, ...]] = Field(
        default={}, description="per hazard whole texts that tell it, whether or not they tell a symptom besides"
    )
    briefly: dict[Code, tuple[Sentence, ...]] = Field(
        default={}, description="per hazard short ways to tell it; they teach nothing of symptoms"
    )
    harmless: tuple[Sentence, ...] = Field(
        default=(),
        description="texts that sound like a danger and tell none, whatever else; they teach nothing of symptoms",
    )
    nothing: tuple[Sentence, ...] = Field(
        description="whole texts that tell no danger, and nothing of what is wrong with a machine"
    )
