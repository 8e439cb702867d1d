"""Phrases that come down to one everyday word once all that may be missing is left out: they are heard nearly everywhere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Any

from service.reading.words.lexicon import LANGUAGES
from service.reading.words.notation import Gap, Group, Phrase, PhraseMistaken, Plain, parse
from service.rulebook.folder import ApplianceFolder, Folder, Page
from service.rulebook.schema.common import Phrases
from service.workshop.cover.finding import Finding, Findings

Place = tuple[str | int, ...]


def loose(folder: Folder, appliance: ApplianceFolder) -> Findings:
    """The loose phrases of an appliance's symptoms and observations; an answer to a question may be one word."""
    everyday = _everyday(folder)
    if page := appliance.symptoms:
        for place, symptom in enumerate(page.model.symptoms):
            yield from _of(page, ("symptoms", place, "signs"), symptom.signs, everyday)
    if seen := appliance.observations:
        for place, item in enumerate(seen.model.observations):
            yield from _of(seen, ("observations", place, "signs"), item.signs, everyday)


def loose_talk(folder: Folder) -> Findings:
    """The loose phrases of the talk files and of the dangers."""
    everyday = _everyday(folder)
    for page in folder.talk:
        for place, rule in enumerate(page.model.rules):
            yield from _of(page, ("rules", place, "signs"), rule.signs, everyday)
    if folder.dangers:
        for place, danger in enumerate(folder.dangers.model.dangers):
            yield from _of(folder.dangers, ("dangers", place, "signs"), danger.signs, everyday)


def _everyday(folder: Folder) -> dict[str, frozenset[str]]:
    """The everyday words of the rules' lists, by language."""
    found: dict[str, frozenset[str]] = dict.fromkeys(LANGUAGES, frozenset())
    for page in folder.talk:
        for name, phrases in page.model.words.items():
            if name == "common":
                found |= {language: found[language] | set(phrases.in_(language)) for language in LANGUAGES}
    return found


def _of(page: Page[Any], at: Place, phrases: Phrases, everyday: dict[str, frozenset[str]]) -> Iterator[Finding]:
    for language in LANGUAGES:
        written = phrases.in_(language)
        alone = {phrase.strip("=") for phrase in written}
        for number, phrase in enumerate(written):
            words = [word for word in least(phrase) if word in everyday[language] and word not in alone]
            if words:
                found = f'"{phrase}" may come down to "{words[0]}" alone, an everyday word.'
                remedy = "Write [a|b] for (a|b) where one of them must be there."
                yield Finding("loose", page.problem((*at, language, number), found, remedy=remedy, blocks=False))


def least(phrase: str) -> list[str]:
    """The single words that *phrase* may come down to; none if two words must be there, or nothing may be missing."""
    try:
        parsed = parse(phrase)
    except PhraseMistaken:
        return []
    if not any(isinstance(part, Group) and part.optional for part in parsed):
        return []
    return [way[0] for way in _shortest(parsed) if len(way) == 1]


def _shortest(phrase: Phrase) -> list[tuple[str, ...]]:
    ways: Sequence[list[tuple[str, ...]]] = [_part(part) for part in phrase]
    return [tuple(word for piece in way for word in piece) for way in product(*ways)]


def _part(part: Plain | Gap | Group) -> list[tuple[str, ...]]:
    if isinstance(part, Gap) or (isinstance(part, Group) and part.optional):
        return [()]
    if isinstance(part, Plain):
        return [(part.form,)]
    options = [way for option in part.options for way in _shortest(option)]
    fewest = min(map(len, options))
    return [way for way in options if len(way) == fewest]
