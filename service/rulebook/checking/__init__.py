"""What a schema cannot see: that rules fit each other, the vocabulary, and what an owner may safely be told to do."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from service.rulebook.checking.appliance import appliance_problems
from service.rulebook.checking.checks import check_problems
from service.rulebook.checking.codes import Codes, codes_of
from service.rulebook.checking.examples import example_problems
from service.rulebook.checking.notation import phrase_problems, placeholder_problems
from service.rulebook.checking.shop import shop_problems
from service.rulebook.checking.sources import source_problems
from service.rulebook.checking.spoken import instruction_problems, spoken_problems
from service.rulebook.checking.talk import danger_problems, name_problems, talk_problems
from service.rulebook.checking.told import told_problems
from service.rulebook.checking.vocabulary import vocabulary_problems
from service.rulebook.checking.wording import wording_problems
from service.rulebook.folder import Folder, Page
from service.rulebook.problems import Problem


def problems_of(folder: Folder) -> list[Problem]:
    """Every problem of *folder*, those of reading it included, in no order."""
    codes = codes_of(folder)
    found = [*folder.problems, *_texts(folder)]
    return [*found, *_rules(folder, codes)] if codes else found


def _texts(folder: Folder) -> Iterator[Problem]:
    for page in _pages(folder):
        yield from phrase_problems(page)
        yield from placeholder_problems(page)
        yield from source_problems(page)


def _rules(folder: Folder, codes: Codes) -> Iterator[Problem]:
    if folder.vocabulary:
        yield from vocabulary_problems(folder.vocabulary)
    for appliance in folder.appliances.values():
        yield from appliance_problems(appliance, codes)
        yield from check_problems(appliance, codes)
        yield from spoken_problems(appliance)
    if folder.dangers:
        yield from danger_problems(folder.dangers, codes)
        yield from instruction_problems(folder.dangers)
    yield from talk_problems(folder, codes)
    yield from name_problems(folder.names, folder, codes)
    yield from told_problems(folder)
    yield from wording_problems(folder.wording)
    yield from example_problems(folder, codes)
    for name, shop in folder.shops.items():
        yield from shop_problems(name, shop, folder, codes)


def _pages(folder: Folder) -> Iterator[Page[Any]]:
    pages: list[Page[Any] | None] = [
        folder.dangers,
        folder.names,
        folder.told,
        folder.intents_told,
        *folder.talk,
        *folder.shops.values(),
    ]
    for appliance in folder.appliances.values():
        pages += [appliance.basics, appliance.symptoms, appliance.observations, appliance.causes]
        pages += [appliance.checks, appliance.tests, appliance.parts, appliance.told]
    yield from (page for page in pages if page)
