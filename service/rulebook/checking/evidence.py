"""Observations and causes: what may be asked, which values it has, and how often each is seen with each cause."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Any

from service.rulebook.checking.codes import YES_NO, Codes, Path, observations, symptoms, twice, unknown
from service.rulebook.folder import ApplianceFolder, Page
from service.rulebook.problems import Problem, one_of
from service.rulebook.schema.appliance import CausesFile, FromFact, Observation, ObservationsFile

LEAST_SOMETHING_ELSE = 1 / 20
"""The share that what is not listed keeps at least. Source: computation notes, section 2, leak cause."""


def observation_problems(folder: ApplianceFolder, codes: Codes) -> Iterator[Problem]:
    """What is wrong with the observations of *folder*."""
    page = folder.observations
    if page is None:
        return
    items = page.model.observations
    yield from twice(page, "observations", {place: item.id for place, item in enumerate(items)}, "observation")
    expected = f"The symptoms of {folder.name} are listed in {folder.file}/symptoms.yaml."
    for place, item in enumerate(items):
        at: Path = ("observations", place)
        if item.id in codes.vocabulary.hazards or item.id in codes.vocabulary.facts:
            yield page.problem((*at, "id"), f'"{item.id}" is a code of the vocabulary.', remedy="Give it another name.")
        for number, code in enumerate(item.when if folder.symptoms else ()):
            path = (*at, "when", number)
            yield from unknown(page, path, code, f"a symptom of {folder.name}", symptoms(folder), expected)
        for number, told in enumerate(item.unless if folder.symptoms else ()):
            yield from _unless(page, (*at, "unless", number), item, told, folder)
        yield from _asks_once(page, at, item)
        yield from _answers(page, at, item)
        yield from _heard(page, at, item)
        for number, fact in enumerate(item.from_facts):
            yield from _from_fact(page, (*at, "from_facts", number), item, fact, codes)


def _unless(
    page: Page[ObservationsFile], at: Path, item: Observation, told: str, folder: ApplianceFolder
) -> Iterator[Problem]:
    """A symptom, or an answer to another observation than *item*."""
    name, sign, value = told.partition("=")
    others = {one.id: one.values for one in page.model.observations if one is not item}
    if not sign:
        yield from unknown(page, at, name, f"a symptom of {folder.name}", symptoms(folder), "Or observation=value.")
    elif name not in others:
        yield from unknown(page, at, name, f"another observation of {folder.name}", others, "Write observation=value.")
    else:
        expected = f"Its answers are {one_of(others[name])}."
        yield from unknown(page, at, value, f"an answer of {name}", others[name], expected)


def _asks_once(page: Page[ObservationsFile], at: Path, item: Observation) -> Iterator[Problem]:
    for language, asked in (("en", item.ask.en), ("es", item.ask.es)):
        if asked.count("?") > 1:
            remedy = "Ask one thing; what else is worth knowing is an answer of it."
            yield page.problem((*at, "ask", language), "It asks two questions at once.", remedy=remedy)


def _answers(page: Page[ObservationsFile], at: Path, item: Observation) -> Iterator[Problem]:
    values = [answer.value for answer in item.answers]
    for number, value in enumerate(values):
        if value in values[:number]:
            yield page.problem((*at, "answers", number), f'The answer "{value}" is given twice.', remedy="Keep one.")
    if len(values) == 1:
        remedy = "Write at least two, or leave answers out for yes and no."
        yield page.problem((*at, "answers"), "There is one answer only.", remedy=remedy)
    if isinstance(item.otherwise, dict):
        yield from _row(page, (*at, "otherwise"), item, item.otherwise)
    for value in item.replies:
        yield from unknown(page, (*at, "replies", value), value, f"an answer of {item.id}", item.values, _values(item))
    for value in item.stop_use:
        yield from unknown(page, (*at, "stop_use", value), value, f"an answer of {item.id}", item.values, _values(item))


def _heard(page: Page[ObservationsFile], at: Path, item: Observation) -> Iterator[Problem]:
    own = chain(item.signs.en, item.signs.es, item.functions.en, item.functions.es)
    heard = any(own)
    if item.answers and heard:
        remedy = "Write them beside the answer they stand for, under hears."
        yield page.problem(at, "It has answers, so signs and functions do not count.", remedy=remedy)
    heard = heard or any(answer.hears.en or answer.hears.es for answer in item.answers)
    if heard and not item.examples:
        remedy = "Write at least one text, and what it means."
        yield page.problem(at, "There are phrases to listen for, but no examples.", remedy=remedy)


def _from_fact(page: Page[Any], at: Path, item: Observation, fact: FromFact, codes: Codes) -> Iterator[Problem]:
    vocabulary = codes.vocabulary
    yield from unknown(page, (*at, "fact"), fact.fact, "a fact", vocabulary.facts)
    yield from unknown(page, (*at, "means"), fact.means, f"an answer of {item.id}", item.values, _values(item))
    if fact.equals is None and fact.at_least is None and fact.at_most is None:
        remedy = "Write equals, at_least or at_most."
        yield page.problem(at, "Nothing says which value of the fact is meant.", remedy=remedy)
    closed = vocabulary.fact_values.get(fact.fact)
    if closed and fact.equals is not None:
        path = (*at, "equals")
        yield from unknown(
            page, path, fact.equals, f"a value of {fact.fact}", closed, f"Its values are {one_of(closed)}."
        )


def cause_problems(folder: ApplianceFolder, codes: Codes) -> Iterator[Problem]:
    """What is wrong with the causes of *folder*."""
    page = folder.causes
    if page is None:
        return
    yield from twice(page, "causes", {place: item.id for place, item in enumerate(page.model.causes)}, "cause")
    yield from leak_problems(page)
    if folder.symptoms is None:
        return
    known, observed = codes.evidence(folder), {item.id: item for item in observations(folder)}
    expected = f"Evidence is a symptom or observation of {folder.name}, or a hazard."
    parts = [item.id for item in folder.parts.model.parts] if folder.parts else None
    tools = [item.id for item in folder.parts.model.tools] if folder.parts else None
    for place, cause in enumerate(page.model.causes):
        at: Path = ("causes", place)
        for code, graded in cause.evidence.items():
            path = (*at, "evidence", code)
            yield from unknown(page, path, code, "evidence", known, expected)
            yield from _graded(page, path, observed.get(code), graded, code in known)
        for field, have in (("parts", parts), ("tools", tools)):
            for number, name in enumerate(getattr(cause, field) if have is not None else ()):
                listed = f"The {field} of {folder.name} are listed in {folder.file}/parts.yaml."
                yield from unknown(page, (*at, field, number), name, f"one of the {field}", have or (), listed)


def leak_problems(page: Page[CausesFile]) -> Iterator[Problem]:
    """Whether what is not listed keeps its twentieth."""
    named = sum(cause.weight for cause in page.model.causes)
    least = named * LEAST_SOMETHING_ELSE / (1 - LEAST_SOMETHING_ELSE)
    if page.model.something_else < least - 1e-9:
        found = f"{page.model.something_else:g} is less than a twentieth of the whole."
        path = ("something_else",)
        yield page.problem(
            path, found, remedy=f"Write {least:.4g} or more.", expected="What is not listed is never ruled out."
        )


def _graded(
    page: Page[Any], path: Path, item: Observation | None, graded: str | Mapping[str, str], known: bool
) -> Iterator[Problem]:
    if item is not None and item.answers:
        if isinstance(graded, str):
            remedy = f"Write how often each answer is seen: {{{item.values[0]}: {graded}, ...}}."
            yield page.problem(path, f'"{graded}" is one grade, but {item.id} has answers of its own.', remedy=remedy)
        else:
            yield from _row(page, path, item, graded)
    elif known and not isinstance(graded, str):
        for value in graded:
            name = str(path[-1])
            yield from unknown(
                page, (*path, value), value, f"an answer of {name}", YES_NO, "Its answers are yes or no."
            )


def _row(page: Page[Any], path: Path, item: Observation, row: Mapping[str, str]) -> Iterator[Problem]:
    """A grade for every answer of *item*: what the row leaves out must stand under otherwise."""
    values = item.values
    for value in (value for value in row if value not in values):
        yield from unknown(page, (*path, value), value, f"an answer of {item.id}", values, _values(item))
    usual = item.otherwise if isinstance(item.otherwise, dict) else {}
    left = [value for value in values if value not in row and value not in usual]
    if left and item.answers:
        found = f"It says nothing of {one_of(left).replace(' or ', ' and ')}."
        yield page.problem(path, found, remedy="Write a grade for every answer.", expected=_values(item))


def _values(item: Observation) -> str:
    return f"Its answers are {one_of(item.values)}."
