"""The compiled rules of one shop: everything an author wrote, checked, joined, immutable, known by its fingerprint."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.common import Phrases
from service.rulebook.schema.danger import Danger, OnSite, Urgency
from service.rulebook.schema.shop import Shop
from service.rulebook.schema.talk import ApplianceName, TalkRule


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The codes everything agrees on, each with its meaning in words; and the values of facts that have a closed set."""

    appliances: Mapping[str, str]
    symptoms: Mapping[str, str]
    hazards: Mapping[str, str]
    urgency: Mapping[str, str]
    intents: Mapping[str, str]
    facts: Mapping[str, str]
    fact_values: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, eq=False, weakref_slot=True)
class Rulebook:
    """
    An edition: base rules with one shop's file laid over them.

    ``fingerprint`` is the SHA-256 (hex) of the canonical JSON of all of it; equal fingerprints mean equal behaviour.
    ``appliances`` holds those with a folder; ``names`` those that are only recognised. ``wording[language][id]`` is a
    sentence with ``{placeholders}``. ``talk`` maps code to rule; ``words`` maps list name to phrases.
    ``dangers_told`` and ``dangers_briefly`` are texts by hazard, ``harmless_told`` texts that tell none, ``nothing_told``
    texts that tell nothing at all; ``intents_told`` and ``no_intent_told`` the same of what people want,
    ``consent_told`` of whether they want texts (by intent; under "" what only sounds so).
    ``on_site`` is what a technician does first where a danger was named.
    ``heard_as`` is the fingerprint of another edition that hears the same words and differs in weights alone.
    ``kept_in`` is a folder for what is worked out of an edition and need not be worked out twice.
    ``source`` is the canonical JSON the fingerprint is taken of, enough to load the edition again.
    """

    vocabulary: Vocabulary
    appliances: Mapping[str, Appliance]
    names: Mapping[str, ApplianceName]
    dangers: Mapping[str, Danger]
    urgency: Mapping[str, Urgency]
    talk: Mapping[str, TalkRule]
    words: Mapping[str, Phrases]
    wording: Mapping[str, Mapping[str, str]]
    shop: Shop
    fingerprint: str
    source: str
    heard_as: str | None = None
    dangers_told: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    dangers_briefly: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    harmless_told: tuple[str, ...] = ()
    nothing_told: tuple[str, ...] = ()
    intents_told: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    no_intent_told: tuple[str, ...] = ()
    consent_told: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    on_site: tuple[OnSite, ...] = ()
    kept_in: Path | None = None

    def __hash__(self) -> int:
        return hash(self.fingerprint)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Rulebook) and other.fingerprint == self.fingerprint
