"""A text's words with their slips mended, toward words the rulebook knows, and never a name's."""

from __future__ import annotations

from collections.abc import Collection

from service.reading.normalising import Normal, Word, Words
from service.reading.spelling import LEAST_LETTERS, MOST_CORRECTED, Speller


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
        for word in typed.words:
            meant = None
            if (
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
