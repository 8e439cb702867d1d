"""A technician's tests, openings, parts and tools: each leads somewhere, and the tests have an order."""

from __future__ import annotations

from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter
from typing import Any

from service.rulebook.checking.codes import Path, causes, observations, twice, unknown
from service.rulebook.folder import ApplianceFolder, Page
from service.rulebook.problems import Problem, one_of
from service.rulebook.schema.appliance import ApplianceBasics, PartsFile, TestsFile


def visit_problems(folder: ApplianceFolder) -> Iterator[Problem]:
    """What is wrong with the tests and parts of *folder*."""
    if folder.tests:
        yield from _tests(folder, folder.tests)
    if folder.parts:
        yield from _parts(folder.parts)
    if folder.tests and folder.observations:
        yield from _kinds(folder, folder.tests, list(_kinds_of_tests(folder.tests.model)))
    if folder.basics and folder.observations:
        yield from _kinds(folder, folder.basics, list(_kinds_of_basics(folder.basics.model)))


def _tests(folder: ApplianceFolder, page: Page[TestsFile]) -> Iterator[Problem]:
    tests, openings = page.model.tests, [item.id for item in page.model.openings]
    yield from twice(page, "tests", {place: item.id for place, item in enumerate(tests)}, "test")
    yield from twice(page, "openings", dict(enumerate(openings)), "opening")
    tools = [item.id for item in folder.parts.model.tools] if folder.parts else None
    listed = f"The tools of {folder.name} are listed in {folder.file}/parts.yaml."
    ids = [item.id for item in tests]
    for place, opening in enumerate(page.model.openings):
        for at, tool in enumerate(opening.tools if tools is not None else ()):
            yield from unknown(page, ("openings", place, "tools", at), tool, "one of the tools", tools or (), listed)
    for place, test in enumerate(tests):
        base: Path = ("tests", place)
        for at, tool in enumerate(test.tools if tools is not None else ()):
            yield from unknown(page, (*base, "tools", at), tool, "one of the tools", tools or (), listed)
        if test.opening is not None:
            expected = "Openings are listed above the tests."
            yield from unknown(page, (*base, "opening"), test.opening, "an opening", openings, expected)
        for at, name in enumerate(test.after):
            yield from unknown(page, (*base, "after", at), name, "a test", ids, "Tests are listed in this file.")
        for cause in test.finds if folder.causes else ():
            expected = f"The causes of {folder.name} are listed in {folder.file}/causes.yaml."
            yield from unknown(page, (*base, "finds", cause), cause, "a cause", causes(folder), expected)
    yield from _circle(page)


def _kinds(folder: ApplianceFolder, page: Page[Any], written: list[tuple[Path, tuple[str, ...]]]) -> Iterator[Problem]:
    """A problem for each ``never_if`` that names no answer of an observation of *folder*."""
    known = {seen.id: seen.values for seen in observations(folder)}
    expected = f"The observations of {folder.name} are listed in {folder.file}/observations.yaml."
    for base, answers in written:
        for at, answer in enumerate(answers):
            name, _, value = answer.partition("=")
            path = (*base, "never_if", at)
            yield from unknown(page, path, name, "an observation", known, expected)
            if name in known:
                answers_of = f"Its answers are {one_of(known[name])}."
                yield from unknown(page, path, value, f"an answer of {name}", known[name], answers_of)


def _kinds_of_tests(file: TestsFile) -> Iterator[tuple[Path, tuple[str, ...]]]:
    for place, opening in enumerate(file.openings):
        if opening.also:
            yield ("openings", place, "also"), opening.also.never_if
    for place, test in enumerate(file.tests):
        yield ("tests", place), test.never_if
        for at, caution in enumerate(test.cautions):
            yield ("tests", place, "cautions", at), caution.never_if


def _kinds_of_basics(basics: ApplianceBasics) -> Iterator[tuple[Path, tuple[str, ...]]]:
    for section in ("cautions", "proof", "before_closing"):
        for place, line in enumerate(getattr(basics, section)):
            yield (section, place), line.never_if


def _circle(page: Page[TestsFile]) -> Iterator[Problem]:
    order = {test.id: set(test.after) for test in page.model.tests}
    try:
        TopologicalSorter(order).prepare()
    except CycleError as error:
        circle: list[str] = error.args[1]
        place = next(at for at, test in enumerate(page.model.tests) if test.id == circle[-1])
        found = f"These tests wait for each other: {', '.join(reversed(circle))}."
        yield page.problem(("tests", place, "after"), found, remedy="Take one of the afters out.")


def _parts(page: Page[PartsFile]) -> Iterator[Problem]:
    yield from twice(page, "parts", {place: item.id for place, item in enumerate(page.model.parts)}, "part")
    yield from twice(page, "tools", {place: item.id for place, item in enumerate(page.model.tools)}, "tool")
    for place, part in enumerate(page.model.parts):
        if part.price_high_cents < part.price_low_cents:
            found = f"The high price, {part.price_high_cents} cents, is below the low one, {part.price_low_cents}."
            yield page.problem(("parts", place, "price_high_cents"), found, remedy="Exchange them.")
