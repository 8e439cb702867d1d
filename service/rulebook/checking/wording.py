"""The sentences of both languages side by side: the same names, the same placeholders; also where a shop prefers its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from service.rulebook.checking.notation import Spoken, placeholders, same_placeholders
from service.rulebook.folder import LANGUAGES, Page
from service.rulebook.problems import Problem, did_you_mean
from service.rulebook.schema.shop import Shop
from service.rulebook.schema.wording import WordingFile

OTHER = {"en": "es", "es": "en"}
ALWAYS_KNOWN = frozenset({"shop", "phone"})
"""Placeholders that every sentence may use: the shop's name and its office's number."""
NAMES = {"en": "English", "es": "Spanish"}


def wording_problems(wording: Mapping[str, Page[WordingFile]]) -> Iterator[Problem]:
    """What differs between the languages; nothing until both files are there."""
    if set(wording) != set(LANGUAGES):
        return
    for language in LANGUAGES:
        page, other = wording[language], wording[OTHER[language]]
        for name in sorted(other.model.root.keys() - page.model.root.keys()):
            found = f'"{name}" is not here in {NAMES[language]}.'
            remedy = did_you_mean(name, page.model.root.keys() - other.model.root.keys())
            place = f"{other.written.file}, line {other.written.line((name,))}"
            remedy = remedy or "Write it, or take it out there if the line sends no such sentence."
            yield page.problem((), found, remedy=remedy, expected=f"It stands in {place}.")
    english, spanish = wording["en"], wording["es"]
    for name, sentence in english.model.root.items():
        if name in spanish.model.root:
            there = Spoken(english, (name,), sentence), Spoken(spanish, (name,), spanish.model.root[name])
            yield from same_placeholders(*there)


def shop_wording_problems(shop: Page[Shop], wording: Mapping[str, Page[WordingFile]]) -> Iterator[Problem]:
    """Sentences of *shop* that the line does not send, or that need what the base sentence does not have."""
    for language, sentences in shop.model.wording.items():
        if language not in wording:
            continue
        base = wording[language].model.root
        for name, sentence in sentences.items():
            path = ("wording", language, name)
            if name not in base:
                remedy = did_you_mean(name, base)
                yield shop.problem(path, f'The line has no sentence "{name}".', remedy=remedy)
                continue
            own, usual = placeholders(sentence), (placeholders(base[name]) or frozenset()) | ALWAYS_KNOWN
            extra = sorted((own or frozenset()) - usual)
            if own is None:
                yield shop.problem(path, "A brace { or } stands alone.", remedy="A placeholder is written {name}.")
            elif extra:
                found = f"{{{extra[0]}}} is not known here."
                known = ", ".join(f"{{{placeholder}}}" for placeholder in sorted(usual))
                remedy = did_you_mean(extra[0], usual)
                yield shop.problem(path, found, remedy=remedy, expected=f"The placeholders are {known}.")
