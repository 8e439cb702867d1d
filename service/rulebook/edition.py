"""
One shop's edition: base rules with the shop's file laid over them, its source and its fingerprint.

The source is canonical: written mappings are sorted when read, lists keep the author's order, fields have the schema's.
What is stored and loaded again is therefore, to the letter, what was loaded from files.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TypeVar

from pydantic import Field

from service.rulebook.folder import LANGUAGES, Folder
from service.rulebook.model import Rulebook, Vocabulary
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.common import Grade, Phrases, Strict
from service.rulebook.schema.danger import DangersFile
from service.rulebook.schema.shop import Shop
from service.rulebook.schema.talk import NamesFile, TalkRule
from service.rulebook.schema.told import ToldIntentsFile
from service.rulebook.schema.vocabulary import VocabularyFile

Item = TypeVar("Item")
Graded = Grade | Mapping[str, Grade]
SOMETHING_ELSE = "something_else"
"""The name under which a shop may weigh what is not listed."""


@dataclass(frozen=True, slots=True)
class Learned:
    """What a shop accepted from its own outcomes for one appliance: cause to weight; cause to code to grade or grades."""

    weights: Mapping[str, float]
    evidence: Mapping[str, Mapping[str, Graded]]


class Source(Strict):
    """All an edition holds. ``form`` rises when a change of this shape needs old sources to be read differently."""

    form: int = 1
    vocabulary: VocabularyFile
    appliances: tuple[Appliance, ...]
    names: NamesFile
    dangers: DangersFile | None = None
    talk: tuple[TalkRule, ...] = ()
    words: dict[str, Phrases] = Field(default={})
    dangers_told: dict[str, tuple[str, ...]] = Field(default={})
    dangers_briefly: dict[str, tuple[str, ...]] = Field(default={})
    harmless_told: tuple[str, ...] = ()
    nothing_told: tuple[str, ...] = ()
    intents_told: dict[str, tuple[str, ...]] = Field(default={})
    no_intent_told: tuple[str, ...] = ()
    consent_told: dict[str, tuple[str, ...]] = Field(default={})
    wording: dict[str, dict[str, str]]
    shop: Shop


def source_of(folder: Folder, shop: Shop) -> Source:
    """The edition of *shop* from a folder that was read and found sound."""
    assert folder.vocabulary is not None  # noqa: S101 - loading has refused the folder otherwise
    talk = {rule.code: rule for page in folder.talk for rule in page.model.rules}
    words = {name: list_ for page in folder.talk for name, list_ in page.model.words.items()}
    joined = (appliance.joined() for appliance in folder.appliances.values())
    base = {language: page.model.root for language, page in folder.wording.items()}
    own = {str(language): sentences for language, sentences in shop.wording.items()}
    return Source(
        vocabulary=folder.vocabulary.model,
        appliances=tuple(overlaid(appliance, shop) for appliance in joined if appliance),
        names=folder.names.model if folder.names else NamesFile(appliances=()),
        dangers=folder.dangers.model if folder.dangers else None,
        talk=tuple(talk.values()),
        words=dict(sorted(words.items())),
        dangers_told=folder.told.model.dangers if folder.told else {},
        dangers_briefly=folder.told.model.briefly if folder.told else {},
        harmless_told=folder.told.model.harmless if folder.told else (),
        nothing_told=folder.told.model.nothing if folder.told else (),
        intents_told=folder.intents_told.model.told if folder.intents_told else {},
        no_intent_told=folder.intents_told.model.nothing if folder.intents_told else (),
        consent_told=_of_consent(folder.intents_told.model) if folder.intents_told else {},
        wording={language: _laid_over(base.get(language, {}), own.get(language, {})) for language in LANGUAGES},
        shop=shop,
    )


def _of_consent(told: ToldIntentsFile) -> dict[str, tuple[str, ...]]:
    """What was told of texting itself, by intent, and under "" what only sounds so."""
    return {"opt_out": told.no_more_texts, "opt_in": told.texts_again, "": told.texts_kept}


def overlaid(appliance: Appliance, shop: Shop) -> Appliance:
    """*appliance* as *shop* wants it: its weights and grades instead of the base's, without the checks it switched off."""
    off = {id_ for id_, override in shop.checks.get(appliance.code, {}).items() if not override.offered}
    checks = {check.id: check for check in appliance.checks.values() if check.id not in off}
    kept = appliance.model_copy(update={"checks": checks}) if off else appliance
    return weighed(kept, shop.weights.get(appliance.code, {}), shop.evidence.get(appliance.code, {}))


def weighed(
    appliance: Appliance, weights: Mapping[str, float], evidence: Mapping[str, Mapping[str, Graded]]
) -> Appliance:
    """*appliance* with these *weights* by cause, and this *evidence* by cause and code, laid over its own."""
    if not (weights or evidence):
        return appliance
    causes = {
        cause.id: cause.model_copy(
            update={
                "weight": weights.get(cause.id, cause.weight),
                "evidence": _laid_over(cause.evidence, evidence.get(cause.id, {})),
            }
        )
        for cause in appliance.causes.values()
    }
    leak = weights.get(SOMETHING_ELSE, appliance.something_else)
    return appliance.model_copy(update={"causes": causes, "something_else": leak})


def with_learned(rulebook: Rulebook, learned: Mapping[str, Learned]) -> Rulebook:
    """
    The edition of *rulebook* with what its shop has *learned*, by appliance, laid over base rules and shop's file.

    Causes and codes that the rules no longer have are passed over; with nothing left it is *rulebook* itself.
    """
    laid = {
        code: laid_over(rulebook.appliances[code], learned[code]) for code in learned if code in rulebook.appliances
    }
    if all(appliance is rulebook.appliances[code] for code, appliance in laid.items()):
        return rulebook
    source = Source.model_validate_json(rulebook.source)
    appliances = tuple(laid.get(appliance.code, appliance) for appliance in source.appliances)
    edition = compiled(source.model_copy(update={"appliances": appliances}))
    return replace(edition, heard_as=rulebook.heard_as or rulebook.fingerprint)


def laid_over(appliance: Appliance, learned: Learned) -> Appliance:
    """*appliance* with what was *learned* laid over it; itself where nothing of that fits."""
    fitting = _fitting(learned, appliance)
    return weighed(appliance, fitting.weights, fitting.evidence)


def _fitting(learned: Learned, appliance: Appliance) -> Learned:
    codes = appliance.symptoms.keys() | appliance.observations.keys()
    weights = {
        cause: weight
        for cause, weight in learned.weights.items()
        if (cause in appliance.causes or cause == SOMETHING_ELSE) and weight > 0
    }
    evidence = {
        cause: {code: grade for code, grade in graded.items() if code in codes}
        for cause, graded in learned.evidence.items()
        if cause in appliance.causes
    }
    return Learned(weights, {cause: graded for cause, graded in evidence.items() if graded})


def compiled(source: Source, text: str | None = None) -> Rulebook:
    """The rulebook of *source*; *text* is its JSON as it was stored, made here when there is none yet."""
    text = source.model_dump_json() if text is None else text
    dangers = source.dangers.dangers if source.dangers else ()
    urgency = source.dangers.urgency if source.dangers else ()
    return Rulebook(
        vocabulary=Vocabulary(**{name: getattr(source.vocabulary, name) for name in VocabularyFile.model_fields}),
        appliances=_by(source.appliances, "code"),
        names=_by(source.names.appliances, "appliance"),
        dangers=_by(dangers, "code"),
        urgency=_by(urgency, "code"),
        on_site=source.dangers.on_site if source.dangers else (),
        talk=_by(source.talk, "code"),
        words=MappingProxyType(source.words),
        dangers_told=MappingProxyType(source.dangers_told),
        dangers_briefly=MappingProxyType(source.dangers_briefly),
        harmless_told=source.harmless_told,
        nothing_told=source.nothing_told,
        intents_told=MappingProxyType(source.intents_told),
        no_intent_told=source.no_intent_told,
        consent_told=MappingProxyType(source.consent_told),
        wording=MappingProxyType(source.wording),
        shop=source.shop,
        fingerprint=hashlib.sha256(text.encode()).hexdigest(),
        source=text,
    )


def rulebook_from_source(source: str) -> Rulebook:
    """
    The edition whose ``Rulebook.source`` was *source*.

    Raises pydantic's ``ValidationError`` if it is not one: it was written by this program, so that is our mistake.
    """
    return compiled(Source.model_validate_json(source), source)


def _by(items: Iterable[Item], key: str) -> Mapping[str, Item]:
    return MappingProxyType({getattr(item, key): item for item in items})


def _laid_over(base: Mapping[str, Item], over: Mapping[str, Item]) -> dict[str, Item]:
    return dict(sorted({**base, **over}.items()))
