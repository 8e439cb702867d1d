"""Owner checks: what they refer to is there, and each is safe by ``safety``."""

from __future__ import annotations

from collections.abc import Iterator

from service.rulebook.checking.codes import Codes, Path, causes, symptoms, twice, unknown
from service.rulebook.checking.safety import screened, unsafe
from service.rulebook.folder import ApplianceFolder, Page
from service.rulebook.problems import Problem, one_of
from service.rulebook.schema.appliance import Check, ChecksFile


def check_problems(folder: ApplianceFolder, codes: Codes) -> Iterator[Problem]:
    """What is wrong or unsafe in the owner checks of *folder*."""
    page = folder.checks
    if page is None:
        return
    yield from twice(page, "checks", {place: item.id for place, item in enumerate(page.model.checks)}, "check")
    for place, check in enumerate(page.model.checks):
        at: Path = ("checks", place)
        if not folder.broken:
            yield from _references(folder, page, at, check, codes)
        for field, found, remedy in unsafe(check):
            yield page.problem((*at, field), found, remedy=remedy)
        yield from screened(page, at, check)


def _references(
    folder: ApplianceFolder, page: Page[ChecksFile], at: Path, check: Check, codes: Codes
) -> Iterator[Problem]:
    listed = f"The causes of {folder.name} are listed in {folder.file}/causes.yaml."
    if folder.causes:
        for cause in check.settles:
            yield from unknown(page, (*at, "settles", cause), cause, "a cause", causes(folder), listed)
        for number, cause in enumerate(check.unsafe_for):
            yield from unknown(page, (*at, "unsafe_for", number), cause, "a cause", causes(folder), listed)
    if folder.symptoms:
        expected = f"The symptoms of {folder.name} are listed in {folder.file}/symptoms.yaml."
        for number, code in enumerate(check.when):
            yield from unknown(
                page, (*at, "when", number), code, f"a symptom of {folder.name}", symptoms(folder), expected
            )
        held = codes.evidence(folder)
        conditions = [("never_if", *one) for one in enumerate(check.never_if)]
        conditions += [("only_if", *one) for one in enumerate(check.only_if)]
        for field, number, written in conditions:
            name, sign, value = written.partition("=")
            path, either = (*at, field, number), "Write observation=value, or a code."
            yield from unknown(page, path, name, "a symptom, hazard or observation", held, either)
            if sign and name in held:
                expected = f"Its answers are {one_of(held[name])}."
                yield from unknown(page, path, value, f"an answer of {name}", held[name], expected)
    tried = codes.vocabulary.fact_values.get("tried", ())
    for number, value in enumerate(check.done_if_tried):
        expected = f"Its values are {one_of(tried)}." if tried else ""
        yield from unknown(page, (*at, "done_if_tried", number), value, "a value of tried", tried, expected)
