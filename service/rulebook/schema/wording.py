"""Every sentence the line sends, by its name; one file per language."""

from __future__ import annotations

from typing import Annotated

from pydantic import ConfigDict, Field, RootModel

SentenceId = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_.]*$")]
"""The name of a sentence: lower-case letters, digits, underscores, dots."""
Sentence = Annotated[str, Field(min_length=1)]
"""A sentence with ``{placeholders}``."""


class WordingFile(RootModel[dict[SentenceId, Sentence]]):
    """``wording/LANGUAGE.yaml``: name to sentence, the same names and placeholders in every language."""

    model_config = ConfigDict(frozen=True)
