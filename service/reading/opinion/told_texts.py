"""What a rulebook teaches the second opinion: whole texts, examples and phrases, each with the code it tells, or nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator

from service.reading.faults.symptoms import VAGUE
from service.reading.opinion.teaching import NOTHING, Taught
from service.reading.words.normalising import fold
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance

_ONE_WORD = re.compile(r"[a-z]+")
_WORDS = re.compile(r"\w+(?:['’]\w+)*")
_SIGNS = re.compile(r"[\[\]()|=*]")


def taught_symptoms(rulebook: Rulebook) -> Iterator[Taught]:
    """Texts and phrases of *rulebook* with the symptom each tells, or NOTHING."""
    told: set[str] = set()
    for appliance in rulebook.appliances.values():
        for symptom in appliance.symptoms.values():
            if symptom.code == VAGUE:
                continue
            for example in symptom.examples:
                means = [code for code in example.means if code in appliance.symptoms and code != VAGUE]
                yield from (Taught(example.says, code, appliance.code) for code in means or (NOTHING,))
            yield from (
                Taught(_bare(phrase), symptom.code, appliance.code) for phrase in (*symptom.signs.en, *symptom.signs.es)
            )
        for code, texts in (*appliance.told.items(), *appliance.told_briefly.items()):
            told.update(texts)
            yield from (Taught(text, code, appliance.code) for text in texts)
        yield from (Taught(text, NOTHING, appliance.code) for text in appliance.nothing_told)
    yield from (Taught(text, NOTHING) for text in rulebook.nothing_told)
    dangers = (text for texts in rulebook.dangers_told.values() for text in texts)
    yield from (Taught(text, NOTHING) for text in dict.fromkeys(dangers) if text not in told)


def taught_denials(rulebook: Rulebook) -> Iterator[Taught]:
    """Texts of *rulebook* with the symptom each says not to be so, or NOTHING."""
    for appliance in rulebook.appliances.values():
        denying: set[str] = set()
        for code, texts in appliance.denied_told.items():
            denying.update(texts)
            yield from (Taught(text, code, appliance.code) for text in texts)
        others = (text for texts in (*appliance.told.values(), appliance.nothing_denied) for text in texts)
        yield from (Taught(text, NOTHING, appliance.code) for text in dict.fromkeys(others) if text not in denying)
    yield from (Taught(text, NOTHING) for text in rulebook.nothing_told)


def taught_dangers(rulebook: Rulebook) -> Iterator[Taught]:
    """Texts and phrases of *rulebook* with the hazard each tells, or NOTHING."""
    dangers = rulebook.dangers
    for danger in dangers.values():
        for example in danger.examples:
            means = [code for code in example.means if code in dangers]
            yield from (Taught(example.says, code) for code in means or (NOTHING,))
        yield from (Taught(_bare(phrase), danger.code) for phrase in (*danger.signs.en, *danger.signs.es))
        yield from (Taught(_bare(phrase), NOTHING) for phrase in (*danger.innocent.en, *danger.innocent.es))
    for haste in rulebook.urgency.values():
        yield from (Taught(e.says, NOTHING) for e in haste.examples if not dangers.keys() & set(e.means))
    told: set[str] = set()
    for code, texts in (*rulebook.dangers_told.items(), *rulebook.dangers_briefly.items()):
        told.update(texts)
        yield from (Taught(text, code) for text in texts)
    harmless = [text for a in rulebook.appliances.values() for text in _told_of(a)] + list(rulebook.harmless_told)
    yield from (
        Taught(text, NOTHING) for text in (*dict.fromkeys(harmless), *rulebook.nothing_told) if text not in told
    )
    for appliance in rulebook.appliances.values():
        for symptom in appliance.symptoms.values():
            yield from (Taught(e.says, NOTHING) for e in symptom.examples if not dangers.keys() & set(e.means))


def taught_intents(rulebook: Rulebook) -> Iterator[Taught]:
    """Texts and examples of *rulebook* with the intent each says, or NOTHING."""
    intents = rulebook.intents_told
    for rule in rulebook.talk.values():
        for example in rule.examples if rule.code in intents else ():
            means = [code for code in example.means if code in intents]
            yield from (Taught(example.says, code) for code in means or (NOTHING,))
    for code, texts in intents.items():
        yield from (Taught(text, code) for text in texts)
    yield from (Taught(text, NOTHING) for text in rulebook.no_intent_told)


def taught_consent(rulebook: Rulebook) -> Iterator[Taught]:
    """Texts of *rulebook* with what each says of texting itself, or NOTHING; all other texts told say nothing of it."""
    said = {text for code, texts in rulebook.consent_told.items() if code for text in texts}
    yield from (Taught(text, code) for code, texts in rulebook.consent_told.items() for text in texts)
    others = [text for appliance in rulebook.appliances.values() for text in _told_of(appliance)]
    others += [text for texts in (*rulebook.dangers_told.values(), *rulebook.intents_told.values()) for text in texts]
    others += [*rulebook.no_intent_told, *rulebook.nothing_told, *rulebook.harmless_told]
    yield from (Taught(text, NOTHING) for text in dict.fromkeys(others) if text not in said)


def taught_machines(rulebook: Rulebook) -> Iterator[Taught]:
    """Texts of *rulebook*, without machines' names, each with the machine it is told of, or NOTHING where it is of none."""
    told_of: dict[str, set[str]] = {}
    for appliance in rulebook.appliances.values():
        denied = (text for texts in appliance.denied_told.values() for text in texts)
        for text in (*_told_of(appliance), *denied, *appliance.nothing_denied):
            told_of.setdefault(text, set()).add(appliance.code)
    names = name_words(rulebook)
    for text, machines in told_of.items():
        if len(machines) == 1:
            yield Taught(_without(names, text), *machines)
    dangers = (text for texts in rulebook.dangers_told.values() for text in texts)
    intents = (text for texts in rulebook.intents_told.values() for text in texts)
    for text in dict.fromkeys((*rulebook.nothing_told, *rulebook.harmless_told, *dangers, *intents)):
        if text not in told_of:
            yield Taught(_without(names, text), NOTHING)


def _without(names: frozenset[str], text: str) -> str:
    """*text* in words, folded, but for those that are *names*, and “dryer's” with them."""
    # Fifty thousand texts at every start: one pattern of all names takes ten times as long.
    words = _WORDS.findall(fold(text))
    return " ".join([word for word in words if word not in names and (word.isalnum() or not _is_of(names, word))])


def _is_of(names: frozenset[str], word: str) -> bool:
    return word.replace("’", "'").partition("'")[0] in names


def name_words(rulebook: Rulebook) -> frozenset[str]:
    """Every name of one word that a machine has in *rulebook*, folded."""
    phrases = (
        phrase
        for appliance in rulebook.appliances.values()
        for phrase in (*appliance.basics.names.en, *appliance.basics.names.es)
    )
    return frozenset(fold(phrase) for phrase in phrases if _ONE_WORD.fullmatch(fold(phrase)))


def _told_of(appliance: Appliance) -> Iterator[str]:
    for texts in (*appliance.told.values(), *appliance.told_briefly.values(), appliance.nothing_told):
        yield from texts


def _bare(phrase: str) -> str:
    return _SIGNS.sub(" ", phrase)
