"""The maker: a brand of the shop's file, or a word nobody knows where a brand stands."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping

from service.reading.machines.maker_places import in_a_name, may_name
from service.reading.machines.makers import KIN, SHORTEST, UnlistedMakers, looks_ordinary, surely_ordinary
from service.reading.machines.mentions import Mentions
from service.reading.words.normalising import Normal

_ITS_BRAND = re.compile(
    r"^(?:(?:it'?s|its|it is|the brand is|brand is|brand|i think(?: it'?s)?|es|es una?|la marca es|marca|maybe|"
    r"creo que es|a|an|una?)\s+)+"
)
_UNLISTED = 7
"""An answer of at most this many words may hold a brand nobody listed: “it says tolvana on the door”."""

_TOLD_BRAND = re.compile(
    r"(?:\b(?:brand|make(?= is| name|:)|marca) (?:is |name is |es |de |called |: ?)?(?:an? |the |la |una )?|\bmade by |"
    r"\bmarca[: ]+"
    r"|\b(?:it is|it's|its|is|mine'?s|ours|got|have|es|son|tengo) (?:an?|una?|de marca|de la marca) )([^\W\d_]{3,})\b"
)

_BESIDE_BRAND = re.compile(
    r"\b([^\W\d_]{4,})(?: brand\b| warranty\b| (?:model|modelo)\b|,? (?:maybe |about |like |around )?\d+ ?(?:yrs?|years?)\b)"
)
"""“Larkspur brand”, “my larkspur warranty”, “Tessaly, maybe 9 yrs old”."""

_BEHIND_KIN = re.compile(rf"\b(?:{'|'.join(sorted(KIN))}) $")
"""“my son Zayden 6 years old”."""
_BEFORE_BRAND = frozenset((
    "says", "say", "is", "its", "a", "an", "the", "brand", "called", "named", "by", "think", "maybe", "dice", "es", "un", "una",
    "marca", "llama", "creo", "la", "el", "old", "my", "mi", "de",
))  # fmt: skip
_GOES_BY = (" warranty", " model", " modelo")
_ARTICLES = frozenset(("mi", "el", "la", "un", "una", "nuestra", "nuestro", "su", "tengo"))
_SURELY_NO_VERB = 6
"""Behind a machine's name a shorter word may be a verb as it is spoken ("kemo")."""

_SAID_SO = re.compile(r"\s+(?:i think|i believe|i guess|creo|maybe|is what|it says)\b.*$")
"""What an answer says besides the brand: “norvane i think it says”."""


class BrandFinder:
    """
    Finds brands. ``spellings``: those of the shop's file; ``is_word``: everyday and trade words and their slips, which are no
    brands; ``knows``: the words alone; ``ordinary``: words that are no brand though the question was for one.
    """

    def __init__(
        self,
        spellings: Mapping[str, str],
        is_word: Callable[[str], bool],
        knows: Callable[[str], bool],
        ordinary: Callable[[str], bool],
        names: Collection[str] = (),
    ) -> None:
        self._is_word, self._knows, self._ordinary = is_word, knows, ordinary
        self._unlisted_makers = UnlistedMakers(knows, names)
        listed = "|".join(map(re.escape, sorted(spellings, key=len, reverse=True)))
        self._pattern = re.compile(rf"\b({listed})\b") if listed else None

    def brand(self, normal: Normal, mentions: Mentions, *, asked: bool, besides: str = "") -> str | None:
        """
        A brand the shop knows, or an unknown word right beside the appliance's name, or the answer when it was asked.
        besides: what is known to be a name or an address.
        """
        match = self._pattern.search(normal.folded) if self._pattern else None
        if match:
            return normal.text[match.start() : match.end()]
        words = normal.words
        for mention in mentions.found:
            if mention.implied:
                continue
            said = self._said_of(normal, mention.end)
            if said:
                return said
            for at in (mention.start - 1, mention.end):
                if (
                    0 <= at < len(words)
                    and words[max(at, mention.start)].brk == 0
                    and self._looks_like_brand(normal, at, before=at < mention.start)
                ):
                    return normal.text[words[at].start : words[at].end]
        told = self._told_brand(normal, besides) or self._unlisted_makers.told(normal, mentions, besides, asked=asked)
        if told:
            return told
        if asked:
            bare = _SAID_SO.sub("", _ITS_BRAND.sub("", normal.folded.strip())).strip(" .!,")
            start = normal.folded.find(bare) if bare else -1
            if bare and len(bare.split()) <= 2 and not all(self._ordinary(part) for part in bare.split()):
                return normal.text[start : start + len(bare)]
            return self._unlisted(normal)
        return None

    def _unlisted(self, normal: Normal) -> str | None:
        """The one word nobody knows in a short answer to the question for the brand, where it says or begins it."""
        words = normal.words
        names = [
            normal.text[word.start : word.end]
            for at, word in enumerate(words)
            if not word.was
            and not self._is_word(word.form)
            and word.end - word.start >= SHORTEST
            and (at == 0 or words[at - 1].form in _BEFORE_BRAND or normal.text[word.start].isupper())
        ]
        return names[0] if len(names) == 1 and names[0].isalpha() and len(words) <= _UNLISTED else None

    def _said_of(self, normal: Normal, at: int) -> str | None:
        """“range is a norvane”, “the compactor says Norvane”: an unknown word that a machine is or says."""
        words = normal.words
        verb = words[at].form if at < len(words) and words[at].brk == 0 else ""
        at += 1
        if verb in ("is", "es") and at < len(words) and words[at].form in ("a", "an", "un", "una", "marca"):
            at += 1
        elif verb not in ("says", "dice"):
            return None
        return normal.text[words[at].start : words[at].end] if self._may_be_brand(normal, at) else None

    def _may_be_brand(self, normal: Normal, at: int) -> bool:
        """Whether the word at *at* is one that nobody knows, and the last of what is said."""
        if at >= len(normal.words):
            return False
        word, last = normal.words[at], at + 1 == len(normal.words) or normal.words[at + 1].brk > 0
        shown = normal.text[word.start : word.end]
        return last and not word.was and shown.isalpha() and len(shown) >= SHORTEST and not self._is_word(word.form)

    def _told_brand(self, normal: Normal, besides: str) -> str | None:
        """An unknown word that is said to be the brand: “the brand is Zorvex”, “it is a Zorvex”, “es marca zorvex”."""
        for match in (*_TOLD_BRAND.finditer(normal.folded), *_BESIDE_BRAND.finditer(normal.folded)):
            shown = normal.text[match.start(1) : match.end(1)]
            if in_a_name(shown, besides) or _BEHIND_KIN.search(normal.folded[: match.start(1)]):
                continue
            named = match.group().startswith(("brand", "make", "made", "marca")) or match.group().endswith(" brand")
            if (named or shown[0].isupper()) and not (self._knows(match.group(1)) or surely_ordinary(match.group(1))):
                return shown
            if match.group().endswith(_GOES_BY) and not self._is_word(match.group(1)):
                return shown
        return None

    def _looks_like_brand(self, normal: Normal, at: int, *, before: bool) -> bool:
        word = normal.words[at]
        shown = normal.text[word.start : word.end]
        if word.was or self._is_word(word.form) or not shown.isalpha() or len(shown) < 2 or word.emoji:
            return False
        if normal.text[word.end : word.end + 1] == "-" and normal.text[word.end + 1 : word.end + 2].isdigit():
            return False  # "WX-220" is a number
        if shown[0].isupper() and (at > 0 or may_name(word.form)):
            return True
        if looks_ordinary(word.form) or not shown.isascii() or not may_name(word.form):
            return False
        return len(shown) >= SHORTEST if before else len(shown) >= _SURELY_NO_VERB and self._in_spanish(normal, at)

    @staticmethod
    def _in_spanish(normal: Normal, at: int) -> bool:
        """“mi lavavajillas larkspur”, “la maquina de hielo tolvane”: in Spanish the brand follows the name."""
        far = 5 if any(word.form == "de" for word in normal.words[max(0, at - 3) : at]) else 3
        return any(word.form in _ARTICLES for word in normal.words[max(0, at - far) : at])


def brand_spellings(serves: Mapping[str, tuple[str, ...]], refuses: Mapping[str, tuple[str, ...]]) -> dict[str, str]:
    """Every spelling of every brand a shop's file lists, lower case, to its proper name."""
    return {
        spelling.lower(): name
        for brands in (serves, refuses)
        for name, spellings in brands.items()
        for spelling in (name, *spellings)
    }
