"""One appliance's files against each other: every reference leads somewhere, every id is given once."""

from __future__ import annotations

from collections.abc import Iterator

from service.rulebook.checking.codes import Codes, causes, observations, symptoms, twice, unknown
from service.rulebook.checking.evidence import cause_problems, observation_problems
from service.rulebook.checking.visit import visit_problems
from service.rulebook.folder import ApplianceFolder, Page
from service.rulebook.problems import Problem
from service.rulebook.schema.appliance import ApplianceBasics, SymptomsFile

RESERVED = ("something_else", "unknown")


def appliance_problems(folder: ApplianceFolder, codes: Codes) -> Iterator[Problem]:
    """What is wrong between the files of *folder*; nothing while one of them cannot be read."""
    if folder.basics:
        yield from _basics(folder, folder.basics, codes)
    if folder.symptoms:
        yield from _symptoms(folder.symptoms, codes)
    if folder.broken:
        return
    yield from observation_problems(folder, codes)
    yield from cause_problems(folder, codes)
    yield from visit_problems(folder)
    yield from _names_meet(folder)


def _basics(folder: ApplianceFolder, page: Page[ApplianceBasics], codes: Codes) -> Iterator[Problem]:
    basics = page.model
    yield from unknown(page, ("appliance",), basics.appliance, "an appliance", codes.vocabulary.appliances)
    if basics.appliance != folder.name and basics.appliance in codes.vocabulary.appliances:
        found = f'The folder is named "{folder.name}", this file is about "{basics.appliance}".'
        yield page.problem(("appliance",), found, remedy="Rename the folder or mend the code.")
    if basics.visit.q90_min < basics.visit.median_min:
        found = f"Nine visits in ten last {basics.visit.q90_min} minutes, half of them {basics.visit.median_min}."
        yield page.problem(("visit", "q90_min"), found, remedy="q90_min is the longer one.")
    if folder.symptoms is None:
        return
    known = symptoms(folder)
    expected = f"The symptoms of {folder.name} are listed in {folder.file}/symptoms.yaml."
    for place, choice in enumerate(basics.choices):
        for at, code in enumerate(choice.means):
            path = ("choices", place, "means", at)
            yield from unknown(page, path, code, f"a symptom of {folder.name}", known, expected)
        yield from _told_besides(folder, page, place)
    for place, meanwhile in enumerate(basics.meanwhile):
        for at, code in enumerate(meanwhile.symptoms):
            path = ("meanwhile", place, "symptoms", at)
            yield from unknown(page, path, code, f"a symptom of {folder.name}", known, expected)


def _told_besides(folder: ApplianceFolder, page: Page[ApplianceBasics], place: int) -> Iterator[Problem]:
    """What a choice tells besides its symptoms must be an observation and one of its answers."""
    known = {item.id: item.values for item in observations(folder)}
    for id, value in page.model.choices[place].tells.items():
        path = ("choices", place, "tells", id)
        yield from unknown(page, path, id, f"an observation of {folder.name}", known)
        yield from unknown(page, path, value, f"an answer of {id}", known.get(id, (value,)))


def _symptoms(page: Page[SymptomsFile], codes: Codes) -> Iterator[Problem]:
    items = page.model.symptoms
    yield from twice(page, "symptoms", {place: item.code for place, item in enumerate(items)}, "symptom")
    over = {item.code: item.over for item in items}
    for place, item in enumerate(items):
        yield from unknown(page, ("symptoms", place, "code"), item.code, "a symptom", codes.vocabulary.symptoms)
        for at, code in enumerate(item.over):
            path = ("symptoms", place, "over", at)
            yield from unknown(page, path, code, "a symptom", codes.vocabulary.symptoms)
            if item.code in over.get(code, ()):
                found = f'"{item.code}" and "{code}" each stand over the other.'
                yield page.problem(path, found, remedy="Keep it with the more exact one.")


def _names_meet(folder: ApplianceFolder) -> Iterator[Problem]:
    """Ids that a ticket could not tell apart."""
    taken = dict.fromkeys(symptoms(folder), "a symptom")
    if page := folder.observations:
        for place, item in enumerate(observations(folder)):
            if item.id in taken:
                found = f'"{item.id}" is already {taken[item.id]}.'
                yield page.problem(("observations", place, "id"), found, remedy="Give the observation another name.")
    if folder.causes:
        for place, name in enumerate(causes(folder)):
            if name in RESERVED:
                found = f'"{name}" is a name the line keeps for itself.'
                yield folder.causes.problem(("causes", place, "id"), found, remedy="Give the cause another name.")
