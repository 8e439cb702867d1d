"""Texts customers wrote: each under a symptom that the machine can have, and each told once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from service.rulebook.checking.codes import symptoms, unknown
from service.rulebook.folder import ApplianceFolder, Folder, Page
from service.rulebook.problems import Problem
from service.rulebook.schema.told import ToldElsewhereFile, ToldFile, ToldIntentsFile


def told_problems(folder: Folder) -> Iterator[Problem]:
    """What is wrong with the texts told, of all machines and of none."""
    for appliance in folder.appliances.values():
        if appliance.told:
            yield from _of_appliance(appliance, appliance.told)
    if folder.told:
        hazards = folder.vocabulary.model.hazards if folder.vocabulary else {}
        page = folder.told
        for field, by_code in (("dangers", page.model.dangers), ("briefly", page.model.briefly)):
            for code, texts in by_code.items():
                yield from unknown(page, (field, code), code, "a hazard", hazards)
                yield from _twice(page, (field, code), texts)
        yield from _twice(page, ("harmless",), page.model.harmless)
        yield from _twice(page, ("nothing",), page.model.nothing)
    if folder.intents_told:
        intents = folder.vocabulary.model.intents if folder.vocabulary else {}
        for code, texts in folder.intents_told.model.told.items():
            yield from unknown(folder.intents_told, ("told", code), code, "an intent", intents)
            yield from _twice(folder.intents_told, ("told", code), texts)
        for field in ("nothing", "no_more_texts", "texts_again", "texts_kept"):
            yield from _twice(folder.intents_told, (field,), getattr(folder.intents_told.model, field))


def _of_appliance(appliance: ApplianceFolder, page: Page[ToldFile]) -> Iterator[Problem]:
    known = symptoms(appliance)
    told = page.model
    for field, by_code in (("told", told.told), ("briefly", told.briefly), ("denied", told.denied)):
        for code, texts in by_code.items():
            yield from unknown(page, (field, code), code, f"a symptom of {appliance.name}", known)
            if code == "vague":
                remedy = "Leave it out: what is vague has nothing to be recognised by."
                yield page.problem((field, code), "No text can teach what is vague.", remedy=remedy)
            yield from _twice(page, (field, code), texts)
    yield from _twice(page, ("nothing",), told.nothing)
    yield from _twice(page, ("not_denied",), told.not_denied)


def _twice(
    page: Page[ToldFile] | Page[ToldElsewhereFile] | Page[ToldIntentsFile], path: Sequence[str], texts: Sequence[str]
) -> Iterator[Problem]:
    seen: set[str] = set()
    for place, text in enumerate(texts):
        if text.casefold() in seen:
            yield page.problem((*path, place), "This text stands here twice.", remedy="Strike one.")
        seen.add(text.casefold())
