"""Dangers, talk rules and the names of appliances without a folder: each code known, each given once, no hazard left out."""

from __future__ import annotations

from collections.abc import Iterator

from service.rulebook.checking.codes import Codes, Path, twice, unknown
from service.rulebook.folder import Folder, Page
from service.rulebook.problems import Problem, one_of
from service.rulebook.schema.danger import DangersFile
from service.rulebook.schema.talk import NamesFile, TalkFile


def danger_problems(page: Page[DangersFile], codes: Codes) -> Iterator[Problem]:
    """What is wrong with the hazards and urgencies."""
    dangers, urgency, vocabulary = page.model.dangers, page.model.urgency, codes.vocabulary
    yield from twice(page, "dangers", {place: item.code for place, item in enumerate(dangers)}, "hazard")
    yield from twice(page, "urgency", {place: item.code for place, item in enumerate(urgency)}, "urgency")
    for place, danger in enumerate(dangers):
        yield from unknown(page, ("dangers", place, "code"), danger.code, "a hazard", vocabulary.hazards)
        for code in danger.instruction_for:
            path = ("dangers", place, "instruction_for", code)
            yield from unknown(page, path, code, "an appliance", vocabulary.appliances)
        for field in ("signs", "denials"):
            phrases = getattr(danger, field)
            if bool(phrases.en) != bool(phrases.es):
                language = "Spanish" if phrases.en else "English"
                found = f"There are no {language} {field}."
                yield page.problem(("dangers", place, field), found, remedy="A danger is heard in both languages.")
    for place, item in enumerate(urgency):
        yield from unknown(page, ("urgency", place, "code"), item.code, "an urgency", vocabulary.urgency)
    for place, first in enumerate(page.model.on_site):
        for at, code in enumerate(first.dangers):
            yield from unknown(page, ("on_site", place, "dangers", at), code, "a hazard", vocabulary.hazards)
        for fact, value in first.suggests.items():
            path = ("on_site", place, "suggests", fact)
            yield from unknown(page, path, fact, "a fact", vocabulary.facts)
            closed = vocabulary.fact_values.get(fact)
            if closed is not None:
                yield from unknown(page, path, value, f"a value of {fact}", closed, f"Its values are {one_of(closed)}.")
    left = [code for code in vocabulary.hazards if code not in {danger.code for danger in dangers}]
    for code in left:
        yield page.problem(("dangers",), f'The hazard "{code}" is not here.', remedy="Every hazard needs a rule.")


def talk_problems(folder: Folder, codes: Codes) -> Iterator[Problem]:
    """Rules and word lists that stand in two talk files, and facts with a value they cannot have."""
    rules: dict[str, Page[TalkFile]] = {}
    lists: dict[str, Page[TalkFile]] = {}
    for page in folder.talk:
        for place, rule in enumerate(page.model.rules):
            if rule.code in rules:
                found = f'The code "{rule.code}" already has a rule, in {rules[rule.code].written.file}.'
                yield page.problem(("rules", place, "code"), found, remedy="Join the two.")
            rules.setdefault(rule.code, page)
            fact, sign, value = rule.code.partition("=")
            path = ("rules", place, "code")
            if sign:
                yield from _talk_code(page, path, fact, value, codes)
        for name in page.model.words:
            if name in lists:
                found = f'The word list "{name}" already stands in {lists[name].written.file}.'
                yield page.problem(("words", name), found, remedy="Join the two.")
            lists.setdefault(name, page)


def _talk_code(page: Page[TalkFile], path: Path, name: str, value: str, codes: Codes) -> Iterator[Problem]:
    """``fact=value``; ``appliance=symptom`` or ``any=symptom`` in general household wording; ``implies=appliance``."""
    vocabulary = codes.vocabulary
    if name == "implies":
        yield from unknown(page, path, value, "an appliance", vocabulary.appliances)
    elif name == "any" or name in vocabulary.appliances:
        yield from unknown(page, path, value, "a symptom", vocabulary.symptoms)
    elif name in vocabulary.fact_values:
        closed = vocabulary.fact_values[name]
        yield from unknown(page, path, value, f"a value of {name}", closed, f"Its values are {one_of(closed)}.")
    else:
        yield from unknown(page, path, name, "a fact or appliance", {*vocabulary.facts, *vocabulary.appliances})


def name_problems(page: Page[NamesFile] | None, folder: Folder, codes: Codes) -> Iterator[Problem]:
    """Appliances that are named twice, have a folder of their own, or that nobody would recognise."""
    named = [item.appliance for item in page.model.appliances] if page else []
    if page:
        yield from twice(page, "appliances", dict(enumerate(named)), "appliance")
        for place, code in enumerate(named):
            path = ("appliances", place, "appliance")
            yield from unknown(page, path, code, "an appliance", codes.vocabulary.appliances)
            if code in codes.folders and folder.appliances[code].basics:
                found = f'"{code}" has a folder of its own.'
                remedy = f"Move the names to {folder.appliances[code].file}/appliance.yaml."
                yield page.problem(path, found, remedy=remedy)
    known = {*named, *codes.folders}
    for code in (code for code in codes.vocabulary.appliances if code not in known):
        file = folder.named(folder.path / "talk" / "appliances.yaml")
        found = f'Nothing says how people call the appliance "{code}".'
        yield Problem(file, 0, "", found, "", "Give it a folder, or a name here.", blocks=False)
