"""One rulebook's phrases, compiled once for listening: what every phrase stands for and where it may count."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from service.reading.words.matching import PhraseTree
from service.reading.words.spelling import LEAST_LETTERS, inflected
from service.reading.words.stemming import stem_en, stem_es
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance, Observation
from service.rulebook.schema.common import Phrases
from service.rulebook.schema.talk import TalkRule

LANGUAGES = ("en", "es")
MARK_LISTS = (
    "negators", "pseudo", "stoppers", "failing", "broken_down", "fine", "gone", "diminishers", "unsure", "conditional",
    "past", "others", "contrast", "joiners", "always_joiners", "subjects", "places", "wonders", "complains", "theories",
    "corrections", "began", "hedges", "not_names", "settled", "checked_safe", "machine_gone", "elsewhere", "ours", "old_ones",
    "explained", "never_said", "as_ever",
)  # fmt: skip
"""Word lists of the rules that the reader's own machinery listens for."""


CONSENT_CODES = ("opt_out", "opt_in", "help_word")
"""Talk rules that are about texting itself; they are also heard apart, on arrival."""


@dataclass(frozen=True, slots=True)
class Meaning:
    """
    What a phrase stands for.

    kind: mark, name, symptom, observation, hazard, urgency, talk or theory. code: list, appliance, code, id or cause.
    role: sign, function, thing, faint, innocent, denial, alone, or an observation's value. appliances: those it can be about,
    empty for all.
    names: it tells the appliance by itself. own: it comes from that appliance's own rules. rule: where an author finds it.
    spanish: of a function, that the phrase is Spanish, whose verbs tell the present by other endings.
    """

    kind: str
    code: str
    role: str = "sign"
    appliances: frozenset[str] = frozenset()
    names: bool = False
    own: bool = False
    rule: str = ""
    spanish: bool = False


@dataclass(slots=True)
class Lexicon:
    """
    The compiled phrases of a rulebook and what goes with them. ``over``: (appliance or "", code) to codes replaced;
    ``function_trees``: the functions alone, for those whose words a negation parts.

    codes: the symptoms of each appliance that has rules of its own.
    """

    trees: dict[str, PhraseTree] = field(default_factory=lambda: {lang: PhraseTree(lang) for lang in LANGUAGES})
    hazard_trees: dict[str, PhraseTree] = field(default_factory=lambda: {lang: PhraseTree(lang) for lang in LANGUAGES})
    function_trees: dict[str, PhraseTree] = field(
        default_factory=lambda: {lang: PhraseTree(lang) for lang in LANGUAGES}
    )
    consent_trees: dict[str, PhraseTree] = field(default_factory=lambda: {lang: PhraseTree(lang) for lang in LANGUAGES})
    consent_innocents: dict[str, PhraseTree] = field(
        default_factory=lambda: {lang: PhraseTree(lang) for lang in LANGUAGES}
    )
    over: dict[tuple[str, str], frozenset[str]] = field(default_factory=dict)
    words: dict[str, dict[str, frozenset[str]]] = field(default_factory=dict)
    codes: dict[str, frozenset[str]] = field(default_factory=dict)

    def add(self, phrases: Phrases, meaning: Meaning) -> None:
        """Listen for *phrases*; hazards and consent stand in trees of their own: they are heard by other rules, and alone."""
        trees = self.trees
        if meaning.kind == "hazard":
            trees = self.hazard_trees
        elif meaning.kind == "talk" and meaning.code in CONSENT_CODES:
            trees = self.consent_trees if meaning.role != "innocent" else self.consent_innocents
        for language in LANGUAGES:
            told = replace(meaning, spanish=True) if meaning.role == "function" and language == "es" else meaning
            trees[language].add(phrases.in_(language), told)
            if meaning.role == "function":
                self.function_trees[language].add(phrases.in_(language), told)

    def forms(self, language: str) -> set[str]:
        """Every word of a phrase of *language*."""
        kept = (self.trees, self.hazard_trees, self.consent_trees, self.consent_innocents)
        return set().union(*(trees[language].forms for trees in kept))


def compile_lexicon(rulebook: Rulebook) -> Lexicon:
    """The lexicon of *rulebook*. Raises PhraseMistaken for a phrase out of notation."""
    lexicon = Lexicon()
    for name, phrases in rulebook.words.items():
        lexicon.words[name] = {language: frozenset(phrases.in_(language)) for language in LANGUAGES}
        if name in MARK_LISTS:
            lexicon.add(phrases, Meaning("mark", name))
    for appliance in rulebook.appliances.values():
        _add_appliance(lexicon, appliance)
    for name_of in rulebook.names.values():
        if name_of.appliance not in rulebook.appliances:
            lexicon.add(name_of.names, Meaning("name", name_of.appliance))
    for danger in rulebook.dangers.values():
        for role, phrases in (("sign", danger.signs), ("innocent", danger.innocent), ("denial", danger.denials)):
            lexicon.add(phrases, Meaning("hazard", danger.code, role, rule=f"dangers.{danger.code}"))
    for urgency in rulebook.urgency.values():
        for role, phrases in (("sign", urgency.signs), ("innocent", urgency.innocent)):
            lexicon.add(phrases, Meaning("urgency", urgency.code, role, rule=f"urgency.{urgency.code}"))
    for rule in rulebook.talk.values():
        _add_talk(lexicon, rule, rulebook)
    return lexicon


def _add_appliance(lexicon: Lexicon, appliance: Appliance) -> None:
    code, only = appliance.code, frozenset([appliance.code])
    lexicon.add(appliance.basics.names, Meaning("name", code))
    lexicon.codes[code] = frozenset(appliance.symptoms)
    for symptom in appliance.symptoms.values():
        lexicon.over[(code, symptom.code)] = frozenset(symptom.over)
        rule = f"{code}.{symptom.code}"
        for role, phrases in (("sign", symptom.signs), ("function", symptom.functions)):
            names = symptom.names_appliance and role == "sign"
            lexicon.add(phrases, Meaning("symptom", symptom.code, role, only, names, own=True, rule=rule))
    for observation in appliance.observations.values():
        for role, phrases in _observed(observation):
            meaning = Meaning("observation", observation.id, role, only, own=True, rule=f"{code}.{observation.id}")
            lexicon.add(phrases, meaning)
    for cause in appliance.causes.values():
        lexicon.add(cause.theory, Meaning("theory", cause.id, "sign", only, own=True, rule=f"{code}.{cause.id}"))


def _observed(observation: Observation) -> Iterator[tuple[str, Phrases]]:
    yield "sign", observation.signs
    yield "function", observation.functions
    for answer in observation.answers:
        yield f"={answer.value}", answer.hears


def _add_talk(lexicon: Lexicon, rule: TalkRule, rulebook: Rulebook) -> None:
    where, _, code = rule.code.partition("=")
    if code and (where == "any" or where in rulebook.vocabulary.appliances) and code in rulebook.vocabulary.symptoms:
        only = frozenset(rule.appliances) if where == "any" else frozenset([where])
        for appliance in (only or {""}) - set(rulebook.appliances):
            key = (appliance, code)
            lexicon.over[key] = lexicon.over.get(key, frozenset()) | frozenset(rule.over)
        told = (("sign", rule.signs), ("function", rule.functions), ("thing", rule.things), ("innocent", rule.innocent))
        for role, phrases in told:
            names = rule.names_appliance and role == "sign"
            lexicon.add(phrases, Meaning("symptom", code, role, only, names, rule=f"talk.{rule.code}"))
        return
    told = (("sign", rule.signs), ("faint", rule.faint), ("innocent", rule.innocent), ("alone", rule.alone))
    for role, phrases in told:
        lexicon.add(phrases, Meaning("talk", rule.code, role, rule=f"talk.{rule.code}"))


def pairs(entries: Iterable[str]) -> dict[str, str]:
    """Entries written ``from > to`` as a mapping; raises ValueError for one without the sign."""
    found = {}
    for entry in entries:
        written, sign, meant = entry.partition(">")
        if not sign:
            raise ValueError(f"“{entry}” should be written “from > to”")
        found[written.strip()] = meant.strip()
    return found


def both_languages(words: dict[str, dict[str, frozenset[str]]], name: str) -> frozenset[str]:
    """One of the rules' word lists, its languages together."""
    return frozenset[str]().union(*words.get(name, {}).values())


def spelling_targets(lexicon: Lexicon) -> dict[str, int]:
    """
    The words that a slip may have been meant for, with their rank: 2 a word of a phrase, 1 a regular English form of one, 0 an
    everyday word of the rules' lists.
    """
    targets = {
        word: 0 for word in both_languages(lexicon.words, "common") if word.isalpha() and len(word) >= LEAST_LETTERS - 1
    }
    for language in LANGUAGES:
        for form in lexicon.forms(language):
            if form.isalpha():
                targets[form] = 2
                for other in inflected(form) if language == "en" else ():
                    targets[other] = max(targets.get(other, 0), 1)
    return targets


def known_stems(lexicon: Lexicon) -> dict[str, frozenset[str]]:
    """The stems of every phrase word of five letters and more, by language: a form of one is right as it stands."""
    stems = {"en": stem_en, "es": stem_es}
    return {
        language: frozenset(stem(form) for form in lexicon.forms(language) if len(form) >= LEAST_LETTERS)
        for language, stem in stems.items()
    }
