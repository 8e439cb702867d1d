"""Whole texts as customers wrote them: what the reader leans on where no phrase of the rules is heard."""

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


class NothingToldFile(Strict):
    """``told.yaml``: texts that tell no symptom of any machine."""

    nothing: tuple[Sentence, ...] = Field(description="whole texts that say nothing of what is wrong with a machine")
