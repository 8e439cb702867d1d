"""The codes that rules, readers and pages agree on, each with its meaning in words."""

from __future__ import annotations

from pydantic import Field

from service.rulebook.schema.common import Code, Strict


class VocabularyFile(Strict):
    """
    ``vocabulary.yaml``: a code and its meaning, by kind. Rules may use these and no other.

    ``fact_values`` lists what a fact may be, for those with a closed set of values.
    """

    appliances: dict[Code, str] = Field(min_length=1, description="kinds of appliance, what belongs to each")
    symptoms: dict[Code, str] = Field(min_length=1, description="what a customer sees, hears, smells or feels")
    hazards: dict[Code, str] = Field(min_length=1, description="dangers, looked for first in every text")
    urgency: dict[Code, str] = Field(min_length=1, description="no dangers, but reasons to be seen sooner")
    intents: dict[Code, str] = Field(min_length=1, description="what a text wants")
    facts: dict[Code, str] = Field(min_length=1, description="what else a text may state")
    fact_values: dict[Code, tuple[Code, ...]] = Field(
        default={}, description="the values of facts that have a closed set"
    )
