"""Which codes and ids a rule may refer to, and how to say that one is unknown."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.rulebook.folder import ApplianceFolder, Folder, Page
from service.rulebook.problems import Problem, did_you_mean
from service.rulebook.schema.appliance import Observation
from service.rulebook.schema.vocabulary import VocabularyFile

Path = tuple[str | int, ...]
VOCABULARY = "The known ones are listed in rules/vocabulary.yaml."
YES_NO = ("yes", "no")


@dataclass(frozen=True, slots=True)
class Codes:
    """The vocabulary, and what the folders and talk files add."""

    vocabulary: VocabularyFile
    folders: frozenset[str]
    talk: frozenset[str]

    def evidence(self, appliance: ApplianceFolder) -> dict[str, tuple[str, ...]]:
        """What can be seen on *appliance*, with the values it can take: symptoms, observations and hazards."""
        observed = {item.id: item.values for item in observations(appliance)}
        return {**dict.fromkeys((*symptoms(appliance), *self.vocabulary.hazards), YES_NO), **observed}


def codes_of(folder: Folder) -> Codes | None:
    """The codes of *folder*; None while there is no vocabulary to judge by."""
    if folder.vocabulary is None:
        return None
    talk = frozenset(rule.code for page in folder.talk for rule in page.model.rules)
    return Codes(folder.vocabulary.model, frozenset(folder.appliances), talk)


def symptoms(appliance: ApplianceFolder) -> tuple[str, ...]:
    """The symptom codes of *appliance*."""
    return tuple(item.code for item in appliance.symptoms.model.symptoms) if appliance.symptoms else ()


def observations(appliance: ApplianceFolder) -> tuple[Observation, ...]:
    """The observations of *appliance*."""
    return appliance.observations.model.observations if appliance.observations else ()


def causes(appliance: ApplianceFolder) -> tuple[str, ...]:
    """The cause ids of *appliance*."""
    return tuple(item.id for item in appliance.causes.model.causes) if appliance.causes else ()


def unknown(
    page: Page[Any], path: Path, code: str, what: str, known: Collection[str], expected: str = VOCABULARY
) -> Iterator[Problem]:
    """A problem if *code* at *path* is not a *what* (with its article: ``a symptom``) among *known*."""
    if code not in known:
        remedy = did_you_mean(code, known)
        yield page.problem(path, f'"{code}" is not {what}.', remedy=remedy, expected=expected)


def twice(page: Page[Any], section: str, names: Mapping[int, str], what: str) -> Iterator[Problem]:
    """A problem for each of *names* (by their place in *section*) that was given before."""
    first: dict[str, int] = {}
    for place, name in names.items():
        if name in first:
            line = page.written.line((section, first[name]))
            found = f'The {what} "{name}" is given twice; the first is in line {line}.'
            yield page.problem((section, place), found, remedy="Join them, or rename one.")
        first.setdefault(name, place)
