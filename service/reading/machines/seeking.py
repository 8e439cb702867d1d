"""The phrases of a text, also those that a machine's name or a negation parts."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.machines.mentions import name_places
from service.reading.words.language import LanguageTeller
from service.reading.words.lexicon import LANGUAGES, Lexicon
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Words

MOST_NEGATIONS = 12
"""Negations of a text that are looked behind; more of them are no language."""

_PARTING = frozenset(["no", "never", "nunca"])
"""Negations besides the auxiliaries that may stand between a part and what it does not do."""


class Seeker:
    """Seeks the phrases of one lexicon; *teller* says where those of one language are enough."""

    def __init__(self, lexicon: Lexicon, teller: LanguageTeller) -> None:
        self._lexicon = lexicon
        self._teller = teller

    def hits(self, normal: Normal, language: str) -> list[Hit]:
        """
        All phrases of a text. A text that is plainly English is not searched for Spanish ones; Spanish borrows,
        English rarely.
        """
        languages = ("en",) if language == "en" and self._teller.only_english(normal.words) else LANGUAGES
        return [hit for code in languages for hit in self._lexicon.trees[code].hits(normal.words)]

    def seen_through(self, hits: Sequence[Hit], names: Sequence[Hit], normal: Normal, language: str) -> list[Hit]:
        """
        Faults told around a machine's name ("buttons on the dishwasher dont respond"): phrases found with the name
        taken out.
        """
        hidden = name_places(names, normal.words)
        if not hidden:
            return []
        kept = [at for at in range(len(normal.words)) if at not in hidden]
        without = Normal(normal.text, normal.folded, Words(normal.words[at] for at in kept), normal.corrected)
        known = {(h.start, h.end, id(h.payload)) for h in hits}
        found = []
        for hit in self.hits(without, language):
            start, end = kept[hit.start], kept[hit.end - 1] + 1
            if (
                hit.payload.kind in ("symptom", "observation")
                and (start, end, id(hit.payload)) not in known
                and end - start > hit.end - hit.start
            ):
                found.append(Hit(start, end, hit.payload, hit.skipped, hit.negated))
        return found

    def negated_inside(self, normal: Normal, language: str) -> list[Hit]:
        """
        Functions whose words a negation parts (“fan wont blow”, “foco no prende”): found with the negations taken out.
        """
        words = normal.words
        kept = [at for at, word in enumerate(words) if word.en != "not" and word.form not in _PARTING]
        if not 0 < len(words) - len(kept) <= MOST_NEGATIONS:
            return []
        without, found = Words(words[at] for at in kept), []
        for code in ("en",) if language == "en" else LANGUAGES:
            for hit in self._lexicon.function_trees[code].hits(without):
                start, end = kept[hit.start], kept[hit.end - 1] + 1
                parted = (end - start) - (hit.end - hit.start)
                if parted and not any(words[at].brk for at in range(start + 1, end)):
                    found.append(Hit(start, end, hit.payload, hit.skipped, hit.negated + parted))
        return found
