"""Which language a text is in, told by the small words and the trade's words of each."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from service.reading.model import Asked, Language
from service.reading.words.normalising import Word, Words

_NEUTRAL = frozenset(
    ["no", "ok", "a", "me", "he", "si", "tv", "gas", "error", "motor", "control", "panel", "total", "normal"]
)

MOST_KEPT = 20_000
"""Words whose worth is kept."""


class LanguageTeller:
    """Tells English from Spanish. ``common`` are everyday words of each, ``trade`` the words of its phrases."""

    def __init__(
        self, common: Mapping[str, frozenset[str]], trade: Mapping[str, frozenset[str]], borrowed: frozenset[str]
    ) -> None:
        english, spanish = common.get("en", frozenset()), common.get("es", frozenset())
        self._common = {"en": english - spanish, "es": spanish - english}
        self._trade = {
            "en": trade["en"] - trade["es"] - spanish,
            "es": trade["es"] - trade["en"] - english,
        }
        self._borrowed = borrowed
        self._told: dict[tuple[str, str], tuple[float, float]] = {}
        self._only_spanish = (self._common["es"] | self._trade["es"]) - borrowed

    def language(self, text: str, words: Sequence[Word]) -> Language:
        """The language of *words*; ``unknown`` without words of either, ``mixed`` when both carry statements."""
        english, spanish, english_words, spanish_words = 0.0, 0.0, 0, 0
        names = _named(text, words)
        for at, word in enumerate(words):
            if word.start in names or (word.form == "i" and self._is_and(text, words, at)):
                continue
            form = word.was or word.form
            if word.emoji or form in _NEUTRAL or (form == "se" and _is_quadrant(text, words, word)):
                continue
            worth = self._told.get((form, word.form)) or self._worth(form, word.form)
            english += worth[0]
            spanish += worth[1]
            english_words += worth[0] >= 0.6
            spanish_words += worth[1] >= 0.6
        if text.isascii():
            pass
        elif any(sign in text for sign in "¿¡ñÑ"):
            spanish += 1.0
        elif any(sign in text for sign in "áéíóúÁÉÍÓÚ"):
            spanish += 0.5
        return _decide(english, spanish, min(english_words, spanish_words), words)

    def _worth(self, form: str, corrected: str) -> tuple[float, float]:
        """What a word, as typed and as corrected, tells for English and for Spanish."""
        worths = [
            1.0 if form in self._common[language] else 0.6 if corrected in self._trade[language] else 0.0
            for language in ("en", "es")
        ]
        if form in self._borrowed:
            worths = [0.1 * worth for worth in worths]
        if len(self._told) > MOST_KEPT:
            self._told.clear()
        self._told[form, corrected] = worths[0], worths[1]
        return worths[0], worths[1]

    def _is_and(self, text: str, words: Sequence[Word], at: int) -> bool:
        """“le pico i no arranca”, as some write “y”: between words of which none is English."""
        if text[words[at].start] != "i" or not 0 < at < len(words) - 1:
            return False
        around = [self._worth(word.was or word.form, word.form) for word in (words[at - 1], words[at + 1])]
        return around[1][0] == 0.0 and (around[1][1] > 0.0 or around[0][1] > 0.0)

    def only_english(self, words: Words) -> bool:
        """Whether no word of *words* is Spanish alone."""
        return self._only_spanish.isdisjoint(words.keys().forms)


def _named(text: str, words: Sequence[Word]) -> set[int]:
    """
    Where words begin that are names by their capital inside a sentence: “its Dolores from Camino Verde”. None where most words
    have one.
    """
    if text.islower():
        return set()
    names = {
        word.start
        for at, word in enumerate(words)
        if at and not word.brk and text[word.start].isupper() and text[word.end - 1].islower()
    }
    return names if 2 * len(names) < len(words) else set()


def _is_quadrant(text: str, words: Sequence[Word], word: Word) -> bool:
    """“501 Garrow SE”: a part of town behind a number and a name."""
    if text[word.start : word.end] != "SE":
        return False
    return any(w.form.isdigit() and 0 < word.start - w.end < 40 for w in words)


def _decide(english: float, spanish: float, fewer: int, words: Sequence[Word]) -> Language:
    """*fewer*: how many words there are of the language that has fewer."""
    if not english and not spanish:
        return _bare(words)
    less, more = sorted((english, spanish))
    if (fewer >= 2 and less >= 0.15 * more) or (fewer and less >= 0.4 * more):
        return "mixed"
    if english == spanish:
        return "es" if any(word.form == "si" for word in words) else "en"
    return "en" if english > spanish else "es"


def _bare(words: Sequence[Word]) -> Language:
    if any(word.form == "si" and not word.emoji for word in words):
        return "es"
    return "unknown"


def is_readable(words: Sequence[Word], knows: Callable[[str], bool], language: Language, asked: Asked | None) -> bool:
    """Whether *words* say something in some language. Of what answers nothing, half must be words that are known."""
    known = [knows(word.form) and len(word.form) > 1 for word in words]
    if asked is not None:
        return language != "unknown" or any(known)
    spelled = [word for word in words if word.form.isalpha() and (word.emoji or word.end - word.start > 1)]
    said = [word for word in spelled if knows(word.form) and len(set(word.form)) > 1]
    if not spelled:
        return language != "unknown" or any(known)
    return 2 * len(said) >= len(spelled)
