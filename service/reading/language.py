"""Which language a text is in, told by the small words and the trade's words of each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from service.reading.normalising import Word

Language = Literal["en", "es", "mixed", "unknown"]
_NEUTRAL = frozenset(
    ["no", "ok", "a", "me", "he", "si", "tv", "gas", "error", "motor", "control", "panel", "total", "normal"]
)


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
        self._only_spanish = (self._common["es"] | self._trade["es"]) - borrowed

    def language(self, text: str, words: Sequence[Word]) -> Language:
        """The language of *words*; ``unknown`` without words of either, ``mixed`` when both carry statements."""
        score = {"en": 0.0, "es": 0.0}
        count = {"en": 0, "es": 0}
        for word in words:
            form = word.was or word.form
            if word.emoji or form in _NEUTRAL or (form == "se" and _is_quadrant(text, words, word)):
                continue
            for language in ("en", "es"):
                worth = 1.0 if form in self._common[language] else 0.6 if word.form in self._trade[language] else 0.0
                if form in self._borrowed:
                    worth *= 0.1
                score[language] += worth
                count[language] += worth >= 0.6
        if any(sign in text for sign in "¿¡ñÑ"):
            score["es"] += 1.0
        elif any(sign in text for sign in "áéíóúÁÉÍÓÚ"):
            score["es"] += 0.5
        return _decide(score, count, words)

    def only_english(self, words: Sequence[Word]) -> bool:
        """Whether no word of *words* is Spanish alone."""
        return not any(word.form in self._only_spanish for word in words)


def _is_quadrant(text: str, words: Sequence[Word], word: Word) -> bool:
    """“501 Girard SE”: a part of town behind a number and a name."""
    if text[word.start : word.end] != "SE":
        return False
    return any(w.form.isdigit() and 0 < word.start - w.end < 40 for w in words)


def _decide(score: Mapping[str, float], count: Mapping[str, int], words: Sequence[Word]) -> Language:
    english, spanish = score["en"], score["es"]
    if not english and not spanish:
        return _bare(words)
    less, more = sorted((english, spanish))
    fewer = min(count["en"], count["es"])
    if fewer >= 2 and less >= 0.2 * more:
        return "mixed"
    if english == spanish:
        return "es" if any(word.form == "si" for word in words) else "en"
    return "en" if english > spanish else "es"


def _bare(words: Sequence[Word]) -> Language:
    if any(word.form == "si" and not word.emoji for word in words):
        return "es"
    return "unknown"
