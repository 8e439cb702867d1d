"""Examples: every code they name can be read from a text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from service.rulebook.checking.codes import Codes, Path, causes, observations, unknown
from service.rulebook.folder import ApplianceFolder, Folder, Page
from service.rulebook.problems import Problem, one_of
from service.rulebook.schema.common import ASKED_KINDS, Example

EXPECTED = "Expected a symptom, hazard, urgency, intent, talk code, observation=value, fact=value or appliance=code."
_PLACES = ("denies", "lacks", "means")


def example_problems(folder: Folder, codes: Codes) -> Iterator[Problem]:
    """Every code in an example of *folder* that nothing could be read as."""
    for appliance in folder.appliances.values():
        if appliance.broken:
            continue
        values = {item.id: item.values for item in observations(appliance)}
        judge = _Judge(codes, values, causes(appliance))
        if appliance.basics:
            yield from judge.examples(appliance.basics, (), appliance.basics.model.examples)
        for page, section in _sections(appliance):
            yield from judge.section(page, section, getattr(page.model, section))
    judge = _Judge(codes, {}, ())
    if folder.dangers:
        yield from judge.section(folder.dangers, "dangers", folder.dangers.model.dangers)
        yield from judge.section(folder.dangers, "urgency", folder.dangers.model.urgency)
    if folder.names:
        yield from judge.section(folder.names, "appliances", folder.names.model.appliances)
    for talk in folder.talk:
        yield from judge.section(talk, "rules", talk.model.rules)


def _sections(appliance: ApplianceFolder) -> Iterator[tuple[Page[Any], str]]:
    if appliance.symptoms:
        yield appliance.symptoms, "symptoms"
    if appliance.observations:
        yield appliance.observations, "observations"


class _Judge:
    """Knows what the examples of one file may name."""

    def __init__(self, codes: Codes, observed: dict[str, tuple[str, ...]], theories: Iterable[str]) -> None:
        vocabulary = codes.vocabulary
        kinds = (vocabulary.symptoms, vocabulary.hazards, vocabulary.urgency, vocabulary.intents, codes.talk)
        self.plain = {code for kind in kinds for code in kind}
        self.facts = vocabulary.facts
        self.closed: dict[str, Iterable[str]] = {**vocabulary.fact_values, **observed}
        self.closed |= {"appliance": vocabulary.appliances, "theory": tuple(theories)}
        self.observed = observed

    def section(self, page: Page[Any], section: str, rules: Iterable[Any]) -> Iterator[Problem]:
        for place, rule in enumerate(rules):
            yield from self.examples(page, (section, place), rule.examples)

    def examples(self, page: Page[Any], at: Path, examples: Iterable[Example]) -> Iterator[Problem]:
        for number, example in enumerate(examples):
            here = (*at, "examples", number)
            if not (example.means or example.denies or example.lacks):
                remedy = "Write what it means, denies or lacks."
                yield page.problem(here, "This example expects nothing.", remedy=remedy)
            for field in _PLACES:
                for place, code in enumerate(getattr(example, field)):
                    yield from self.code(page, (*here, field, place), code)
            if example.asked is not None and example.asked not in self.observed:
                kinds = ASKED_KINDS
                expected = f"Expected an observation of this appliance or one of {one_of(kinds)}."
                known = {*kinds, *self.observed}
                yield from unknown(
                    page, (*here, "asked"), example.asked, "something that can be asked", known, expected
                )

    def code(self, page: Page[Any], path: Path, code: str) -> Iterator[Problem]:
        name, sign, value = code.partition("=")
        if not sign:
            yield from unknown(page, path, code, "something a text can be read as", self.plain, EXPECTED)
        elif name in self.closed:
            known = tuple(self.closed[name])
            expected = f"{name} may be {one_of(known)}." if 0 < len(known) <= 12 else ""
            yield from unknown(page, path, value, f"a value of {name}", known, expected)
        else:
            names = {*self.facts, *self.closed}
            yield from unknown(page, path, name, "an observation or fact", names, EXPECTED)
