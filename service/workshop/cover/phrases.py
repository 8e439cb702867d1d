"""Symptoms nobody is heard saying in a language, and wordings that two symptoms of one appliance claim."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import islice, pairwise, product

from service.reading.words.notation import Gap, Group, Phrase, PhraseMistaken, Plain, parse
from service.reading.words.stemming import stem_en, stem_es
from service.rulebook.folder import ApplianceFolder, Folder, Page
from service.rulebook.schema.appliance import Observation, Symptom, SymptomsFile
from service.rulebook.schema.common import Phrases
from service.workshop.cover.finding import Finding, Findings

MOST_WORDINGS = 400
"""Wordings of one phrase that are compared; a phrase with more of them is compared by its first ones."""
LANGUAGES = {"en": "English", "es": "Spanish"}
_STEM = {"en": stem_en, "es": stem_es}

Stems = tuple[str, ...]
Way = tuple[Plain | None, ...]
Place = tuple[str | int, ...]


def unheard(folder: Folder, appliance: ApplianceFolder) -> Findings:
    """Symptoms without a phrase in a language, there or in the talk files; observations heard in one language only."""
    page = appliance.symptoms
    talked = _talked(folder, appliance.name)
    for place, symptom in enumerate(page.model.symptoms if page else ()):
        for language, name in LANGUAGES.items():
            own = symptom.signs.in_(language) + symptom.functions.in_(language)
            if page and not own and (symptom.code, language) not in talked:
                found = f"No phrase in {name} is heard as {symptom.code}."
                remedy = f"Write what people say under signs, {language}, with an example."
                yield Finding("unheard", page.problem(("symptoms", place), found, remedy=remedy, blocks=False))
    if appliance.observations:
        for place, item in enumerate(appliance.observations.model.observations):
            for path, phrases in _heard(item):
                here, there = (bool(phrases.in_(language)) for language in LANGUAGES)
                if here != there:
                    missing = "es" if here else "en"
                    found = f"This is heard in one language only, not in {LANGUAGES[missing]}."
                    problem = appliance.observations.problem(
                        ("observations", place, *path), found, remedy=f"Write phrases under {missing}.", blocks=False
                    )
                    yield Finding("unheard", problem)


def dangers_unheard(folder: Folder) -> Findings:
    """Hazards and reasons for haste that nobody is heard saying in a language."""
    if folder.dangers is None:
        return
    for section in ("dangers", "urgency"):
        for place, rule in enumerate(getattr(folder.dangers.model, section)):
            for language, name in LANGUAGES.items():
                if not rule.signs.in_(language):
                    found = f"No phrase in {name} raises {rule.code}."
                    remedy = f"Write what people say under signs, {language}, with an example."
                    yield Finding(
                        "unheard", folder.dangers.problem((section, place), found, remedy=remedy, blocks=False)
                    )


def _heard(item: Observation) -> Iterator[tuple[Place, Phrases]]:
    both = {language: item.signs.in_(language) + item.functions.in_(language) for language in LANGUAGES}
    yield ("signs",), Phrases.model_construct(None, **both)
    for number, answer in enumerate(item.answers):
        yield ("answers", number, "hears"), answer.hears


def _talked(folder: Folder, appliance: str) -> set[tuple[str, str]]:
    """Symptoms of *appliance* that the talk files hear, with the language."""
    heard = set()
    for page in folder.talk:
        for rule in page.model.rules:
            owner, _, code = rule.code.partition("=")
            if owner == appliance or (owner == "any" and (not rule.appliances or appliance in rule.appliances)):
                heard |= {(code, lang) for lang in LANGUAGES if rule.signs.in_(lang) or rule.functions.in_(lang)}
    return heard


def claimed(appliance: ApplianceFolder) -> Findings:
    """Wordings that stand under two symptoms, of which neither stands over the other."""
    page = appliance.symptoms
    if page is None:
        return
    for field in ("signs", "functions"):
        for language in LANGUAGES:
            yield from _claimed_twice(page, field, language)


def _claimed_twice(page: Page[SymptomsFile], field: str, language: str) -> Findings:
    symptoms = page.model.symptoms
    owners: dict[Stems, list[tuple[int, int]]] = defaultdict(list)
    written: dict[Stems, str] = {}
    for place, symptom in enumerate(symptoms):
        for number, phrase in enumerate(getattr(symptom, field).in_(language)):
            for stems, words in dict(wordings(phrase, language)).items():
                written.setdefault(stems, words)
                owners[stems].append((place, number))
    told: set[tuple[int, int, int]] = set()
    for stems, places in owners.items():
        for (place, number), (other, elsewhere) in pairwise(places):
            key = (place, number, other)
            if place != other and key not in told and not _over(symptoms, place, other):
                told.add(key)
                line = page.written.line(("symptoms", other, field, language, elsewhere))
                found = f'"{written[stems]}" is also heard as {symptoms[other].code}, in line {line}.'
                remedy = "Keep it with one, or name the more general symptom under over."
                path = ("symptoms", place, field, language, number)
                yield Finding("claimed", page.problem(path, found, remedy=remedy, blocks=False))


def _over(symptoms: Sequence[Symptom], one: int, other: int) -> bool:
    a, b = symptoms[one], symptoms[other]
    return a.code in b.over or b.code in a.over


def wordings(phrase: str, language: str) -> Iterator[tuple[Stems, str]]:
    """
    The wordings of *phrase* as stems and as written, at most ``MOST_WORDINGS``; a gap stands as itself.

    None of a mistaken phrase: that is for the check to tell.
    """
    try:
        parsed = parse(phrase)
    except PhraseMistaken:
        return
    for way in islice(_ways(parsed), MOST_WORDINGS):
        yield tuple(_stem(word, language) for word in way), " ".join("*" if w is None else w.form for w in way)


def _stem(word: Plain | None, language: str) -> str:
    if word is None:
        return "*"
    return f"={word.form}" if word.exact else _STEM[language](word.form)


def _ways(phrase: Phrase) -> Iterator[Way]:
    choices = [list(islice(_part(part), MOST_WORDINGS)) for part in phrase]
    for way in product(*choices):
        yield tuple(word for piece in way for word in piece)


def _part(part: Plain | Gap | Group) -> Iterator[Way]:
    """The wordings of one part; a gap is None."""
    if isinstance(part, Gap):
        yield (None,)
    elif isinstance(part, Plain):
        yield (part,)
    else:
        if part.optional:
            yield ()
        for option in part.options:
            yield from _ways(option)
