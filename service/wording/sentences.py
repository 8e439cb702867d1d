"""The sentence behind an id, with its values filled in and its signs made plain. What to say is decided elsewhere."""

from __future__ import annotations

import string
from collections.abc import Mapping

from service.rulebook.model import Rulebook
from service.wording.segments import plain


class WordingError(LookupError):
    """A sentence cannot be said as asked: the id is not in the wording, or a value it needs was not given."""


def say(rulebook: Rulebook, language: str, id: str, /, **values: object) -> str:
    """
    The sentence *id* in *language* (English for anything but ``es``), values filled in, signs made plain.

    Values that the sentence does not name are ignored, so that a shop may shorten a sentence.
    Raises WordingError naming the file, the id and the remedy.
    """
    language = "es" if language == "es" else "en"
    template = rulebook.wording.get(language, {}).get(id)
    if template is None:
        raise WordingError(f"wording/{language}.yaml has no sentence '{id}'. Add it, or mend the id that asks for it.")
    return plain(fill(template, values, f"wording/{language}.yaml, '{id}'"), language, rulebook.shop.policies.spanish)


def fill(template: str, values: Mapping[str, object], where: str) -> str:
    """
    *template* with every ``{name}`` replaced; ``{{`` and ``}}`` stand for the braces themselves.

    *where* names the sentence in an error. Raises WordingError for a missing value, and for placeholders that are
    more than a name: a sentence reaches into nothing.
    """
    said = []
    for literal, name in _pieces(template, where):
        said.append(literal)
        if name is None:
            continue
        if name not in values:
            given = ", ".join(sorted(values)) or "none"
            raise WordingError(
                f"{where}: nothing was given for {{{name}}} (given: {given}). Give it, or take it out of the sentence."
            )
        said.append(str(values[name]))
    return "".join(said)


def placeholders(template: str, where: str = "sentence") -> frozenset[str]:
    """The names that *template* needs. Raises WordingError as ``fill`` does."""
    return frozenset(name for _, name in _pieces(template, where) if name is not None)


def _pieces(template: str, where: str) -> list[tuple[str, str | None]]:
    try:
        pieces = list(string.Formatter().parse(template))
    except ValueError as wrong:
        raise WordingError(f"{where}: {wrong}. Write a lone brace twice.") from wrong
    for _, name, form, conversion in pieces:
        if name is not None and (not name.isidentifier() or form or conversion):
            raise WordingError(f"{where}: '{{{name}}}' must be a plain name such as {{shop}}.")
    return [(literal, name) for literal, name, _, _ in pieces]
