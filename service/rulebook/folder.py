"""The rules folder as its authors wrote it: which file holds what, each read and shaped, with every problem of all of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Generic, TypeVar

from pydantic import BaseModel

from service.rulebook.problems import Problem
from service.rulebook.schema.appliance import (
    Appliance,
    ApplianceBasics,
    CausesFile,
    ChecksFile,
    ObservationsFile,
    PartsFile,
    SymptomsFile,
    TestsFile,
)
from service.rulebook.schema.danger import DangersFile
from service.rulebook.schema.shop import Shop
from service.rulebook.schema.talk import NamesFile, TalkFile
from service.rulebook.schema.told import ToldElsewhereFile, ToldFile, ToldIntentsFile
from service.rulebook.schema.vocabulary import VocabularyFile
from service.rulebook.schema.wording import WordingFile
from service.rulebook.shapes import shaped
from service.rulebook.yaml_text import Written, read_yaml

Model = TypeVar("Model", bound=BaseModel)
LANGUAGES = ("en", "es")
APPLIANCE_FILES: dict[str, type[BaseModel]] = {
    "appliance": ApplianceBasics,
    "symptoms": SymptomsFile,
    "observations": ObservationsFile,
    "causes": CausesFile,
    "checks": ChecksFile,
    "tests": TestsFile,
    "parts": PartsFile,
    "told": ToldFile,
}
NEEDED = ("appliance", "symptoms", "causes")
"""Without these there is no appliance to speak of; the others may still be on their way."""


@dataclass(frozen=True, slots=True)
class Page(Generic[Model]):
    """One file: what was typed and what it says."""

    written: Written
    model: Model

    def problem(
        self,
        path: Sequence[str | int],
        found: str,
        *,
        remedy: str = "",
        expected: str = "",
        blocks: bool = True,
    ) -> Problem:
        """A problem at *path* of this file."""
        line, where = self.written.line(path), self.written.where(path)
        return Problem(self.written.file, line, where, found, expected, remedy, blocks)


@dataclass(slots=True)
class ApplianceFolder:
    """The files of one appliance. ``broken``: some file could not be read, so what refers to it cannot be judged."""

    name: str
    file: str
    basics: Page[ApplianceBasics] | None = None
    symptoms: Page[SymptomsFile] | None = None
    observations: Page[ObservationsFile] | None = None
    causes: Page[CausesFile] | None = None
    checks: Page[ChecksFile] | None = None
    tests: Page[TestsFile] | None = None
    parts: Page[PartsFile] | None = None
    told: Page[ToldFile] | None = None
    broken: bool = False

    def joined(self) -> Appliance | None:
        """All files as one appliance; None while one of the needed ones is not there."""
        if self.basics is None or self.symptoms is None or self.causes is None:
            return None
        tests = self.tests.model if self.tests else None
        parts = self.parts.model if self.parts else None
        return Appliance(
            basics=self.basics.model,
            symptoms={item.code: item for item in self.symptoms.model.symptoms},
            observations={item.id: item for item in self.observations.model.observations} if self.observations else {},
            causes={item.id: item for item in self.causes.model.causes},
            something_else=self.causes.model.something_else,
            checks={item.id: item for item in self.checks.model.checks} if self.checks else {},
            tests={item.id: item for item in tests.tests} if tests else {},
            openings={item.id: item for item in tests.openings} if tests else {},
            parts={item.id: item for item in parts.parts} if parts else {},
            tools={item.id: item for item in parts.tools} if parts else {},
            told=self.told.model.told if self.told else {},
            told_briefly=self.told.model.briefly if self.told else {},
            nothing_told=self.told.model.nothing if self.told else (),
            denied_told=self.told.model.denied if self.told else {},
            nothing_denied=self.told.model.not_denied if self.told else (),
        )


@dataclass(slots=True)
class Folder:
    """Everything under ``rules/`` that could be read, and what could not."""

    path: Path
    problems: list[Problem] = field(default_factory=list)
    vocabulary: Page[VocabularyFile] | None = None
    dangers: Page[DangersFile] | None = None
    names: Page[NamesFile] | None = None
    talk: list[Page[TalkFile]] = field(default_factory=list)
    told: Page[ToldElsewhereFile] | None = None
    intents_told: Page[ToldIntentsFile] | None = None
    wording: dict[str, Page[WordingFile]] = field(default_factory=dict)
    appliances: dict[str, ApplianceFolder] = field(default_factory=dict)
    shops: dict[str, Page[Shop]] = field(default_factory=dict)

    def named(self, path: Path) -> str:
        """How a file is named to its author: from the rules folder on."""
        return f"{self.path.name}/{path.relative_to(self.path).as_posix()}"

    def read(self, path: Path, model: type[Model]) -> Page[Model] | None:
        """The file at *path* as a *model*; None, with its problems kept, when it cannot be had."""
        written, problems = read_yaml(path, self.named(path))
        found: Model | None = None
        if written:
            found, problems = shaped(written, model)
        self.problems += problems
        return Page(written, found) if written and found else None

    def missing(self, path: Path, what: str, *, blocks: bool = False) -> None:
        """Note that *path*, which holds *what*, is not there (yet); *blocks*: no shop can do without."""
        problem = Problem(self.named(path), 0, "", f"This file is missing; it holds {what}.", blocks=blocks)
        self.problems.append(problem)


def read_folder(rules: Path, shops: Iterable[str] | None = None) -> Folder:
    """The rules at *rules* with the shop files named *shops*, or all of them."""
    folder = Folder(rules.resolve())
    _read_common(folder)
    for path in sorted(p for p in (folder.path / "appliances").glob("*") if p.is_dir()):
        folder.appliances[path.name] = _read_appliance(folder, path)
    wanted = None if shops is None else set(shops)
    for path in sorted((folder.path / "shops").glob("*.yaml")):
        if (wanted is None or path.stem in wanted) and (shop := folder.read(path, Shop)):
            folder.shops[path.stem] = shop
    return folder


def _read_common(folder: Folder) -> None:
    vocabulary, dangers = folder.path / "vocabulary.yaml", folder.path / "dangers.yaml"
    if vocabulary.exists():
        folder.vocabulary = folder.read(vocabulary, VocabularyFile)
    else:
        folder.missing(vocabulary, "every code", blocks=True)
    if dangers.exists():
        folder.dangers = folder.read(dangers, DangersFile)
    else:
        folder.missing(dangers, "the hazards", blocks=True)
    told = folder.path / "told.yaml"
    if told.exists():
        folder.told = folder.read(told, ToldElsewhereFile)
    for path in sorted((folder.path / "talk").glob("*.yaml")):
        if path.stem == "appliances":
            folder.names = folder.read(path, NamesFile)
        elif path.stem == "told":
            folder.intents_told = folder.read(path, ToldIntentsFile)
        elif page := folder.read(path, TalkFile):
            folder.talk.append(page)
    for language in LANGUAGES:
        path = folder.path / "wording" / f"{language}.yaml"
        if not path.exists():
            folder.missing(path, "every sentence the line sends")
        elif wording := folder.read(path, WordingFile):
            folder.wording[language] = wording


def _read_appliance(folder: Folder, path: Path) -> ApplianceFolder:
    found = ApplianceFolder(path.name, folder.named(path))
    for name, model in APPLIANCE_FILES.items():
        file = path / f"{name}.yaml"
        if file.exists():
            page = folder.read(file, model)
            setattr(found, "basics" if name == "appliance" else name, page)
            found.broken |= page is None
        elif name in (*NEEDED, "tests", "parts"):
            folder.missing(file, f"the {name} of {path.name}" if name != "appliance" else f"what {path.name} is")
    for file in sorted(path.glob("*.yaml")):
        if file.stem not in APPLIANCE_FILES:
            known = ", ".join(f"{name}.yaml" for name in APPLIANCE_FILES)
            folder.problems.append(
                Problem(folder.named(file), 0, "", "No such file belongs here.", f"Expected {known}.")
            )
    return found
