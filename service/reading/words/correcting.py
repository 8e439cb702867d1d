"""A text's words with their slips mended, toward words the rulebook knows, and never a name's."""

from __future__ import annotations

from collections.abc import Collection
from itertools import zip_longest

from service.reading.words.normalising import Normal, Word, Words
from service.reading.words.spelling import LEAST_LETTERS, MOST_CORRECTED, Speller

_SMELLS = {"hule": "huele"}
"""Right words that stand for another where a smell is told: "hule" is rubber in “el hule” and “a hule”, not in “hule a gas”."""

_OF_A_SMELL = frozenset(["a", "como", "feo", "mal", "mucho", "bien", "horrible", "raro", "bastante", "harto", "rico"])
_BEFORE_A_THING = frozenset((
    "el", "un", "del", "de", "al", "a", "su", "mi", "puro", "ese", "este", "como", "con", "ni", "y", "en", "todo",
))  # fmt: skip


class Corrector:
    """Mends spelling with one rulebook's *speller*; *everyday* are words that are in no name."""

    def __init__(self, speller: Speller, everyday: Collection[str]) -> None:
        self._speller = speller
        self._everyday = everyday

    def corrected(self, typed: Normal) -> tuple[Normal, list[str]]:
        """*typed* with what was mended, and a sentence for each word that was."""
        words: list[Word] = []
        notes: list[str] = []
        tries = MOST_CORRECTED
        for word, after in zip_longest(typed.words, typed.words[1:]):
            meant = _meant_of_smell(word, words[-1] if words else None, after)
            if meant is None and (
                len(word.form) >= LEAST_LETTERS - 1
                and tries > 0
                and not self._speller.knows(word.form)
                and not (word.brk < 2 and words and self._looks_like_a_name(typed.text, words[-1], word))
            ):
                tries -= 1
                meant = self._speller.correct(word.form)
            if meant is None:
                words.append(word)
                continue
            notes.append(f"“{word.form}” is read as “{' '.join(meant)}”.")
            for place, form in enumerate(meant):
                spelled = word.respell(form)
                spelled.brk = word.brk if place == 0 else 0
                words.append(spelled)
        return (Normal(typed.text, typed.folded, Words(words), corrected=True), notes) if notes else (typed, notes)

    def _looks_like_a_name(self, text: str, before: Word, word: Word) -> bool:
        """“Dana Reyes”: a word with a capital behind another one that is no everyday word; shouted texts tell nothing."""
        capitals = text[before.start].isupper() and text[word.start].isupper() and not text.isupper()
        return capitals and (before.form not in self._everyday or before.brk < 2)


def _meant_of_smell(word: Word, before: Word | None, after: Word | None) -> tuple[str, ...] | None:
    meant = _SMELLS.get(word.form)
    told = meant is not None and after is not None and after.form in _OF_A_SMELL
    thing = before is not None and before.form in _BEFORE_A_THING
    return (meant,) if meant is not None and told and not thing else None
