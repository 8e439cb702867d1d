"""Words that make a text another matter: a complaint for a person, a machine in a business, a telephone's own reply."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from service.rulebook.model import Rulebook


def named(rulebook: Rulebook, matter: str, text: str) -> str | None:
    """
    The phrase of the rules' list *matter* that stands in *text* as whole words, accents and case set aside; None if none.

    matter: a list of ``talk/matters.yaml``, such as ``complaint``; a rulebook without the list has none.
    """
    words = f" {_bare(text)} "
    by_first = _by_first_word(rulebook, matter)
    found = [phrase for word in set(words.split()) for phrase in by_first.get(word, ()) if phrase[1] in words]
    return min(found)[2] if found else None


def nothing_but(rulebook: Rulebook, text: str, *matters: str) -> bool:
    """Whether *text* is made of phrases of the rules' lists *matters* and nothing else ("ok, will do")."""
    return bool(_bare(text)) and not without(rulebook, text, *matters)


def said_alone(rulebook: Rulebook, text: str, matter: str, *beside: str) -> bool:
    """Whether *text* says something of the list *matter*, and besides it nothing but small words and the lists *beside*."""
    return named(rulebook, matter, text) is not None and nothing_but(rulebook, text, matter, "small_words", *beside)


def without(rulebook: Rulebook, text: str, *matters: str) -> str:
    """The words of *text*, bare, that no phrase of the rules' lists *matters* covers."""
    left = f" {_bare(text)} "
    phrases = [bare for matter in matters for bare, _ in _phrases(rulebook, matter)]
    for bare in sorted(phrases, key=len, reverse=True):
        left = left.replace(bare, "  ").replace("  ", " ") if bare.strip() else left
    return left.strip()


def bare_words(text: str) -> list[str]:
    """The words of *text*, small, without accents or marks."""
    return _bare(text).split()


def words_before(text: str, phrase: str, count: int) -> list[str]:
    """Up to *count* bare words of *text* right before *phrase*."""
    return f" {_bare(text)} ".partition(f" {_bare(phrase)} ")[0].split()[-count:]


@lru_cache(maxsize=64)
def phrases_of(rulebook: Rulebook, matter: str, *, spanish: bool = False) -> tuple[tuple[str, ...], ...]:
    """The phrases of the list *matter* as bare words; spanish: the Spanish ones alone."""
    listed = rulebook.words.get(matter)
    said = () if listed is None else listed.es if spanish else (*listed.en, *listed.es)
    return tuple(dict.fromkeys(words for phrase in said if (words := tuple(_bare(phrase).split()))))


@lru_cache(maxsize=64)
def _phrases(rulebook: Rulebook, matter: str) -> tuple[tuple[str, str], ...]:
    listed = rulebook.words.get(matter)
    return tuple((f" {_bare(said)} ", said) for said in (*listed.en, *listed.es)) if listed else ()


@lru_cache(maxsize=64)
def _by_first_word(rulebook: Rulebook, matter: str) -> dict[str, list[tuple[int, str, str]]]:
    """The phrases of *matter* under their first words: place in the list, bare, as written."""
    by_first: dict[str, list[tuple[int, str, str]]] = {}
    for place, (bare, said) in enumerate(_phrases(rulebook, matter)):
        if bare.strip():
            by_first.setdefault(bare.split()[0], []).append((place, bare, said))
    return by_first


@lru_cache(maxsize=64)  # one text is asked after many matters
def _bare(text: str) -> str:
    apart = unicodedata.normalize("NFD", text.lower().replace("'", "").replace("’", ""))
    return " ".join(re.findall(r"[a-z0-9]+", "".join(c for c in apart if not unicodedata.combining(c))))
