"""
Whether somebody wants no more texts, or texts again, by their words as a whole, where no wording of the rules is heard.

Any reasonable wording ends texts (source T1), and people find new ones: “each one of these costs me 15 cents so that has to
be the last”. What such words mostly mean is taken for said where they are plain; where they are not, the reply says how
texts end.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from service.reading.aims.consent import MISSING, Consent, consent_of
from service.reading.opinion.second_opinion import NOTHING, SecondOpinion
from service.reading.words.lexicon import Lexicon
from service.reading.words.normalising import Normal

CODES = ("opt_in", "opt_out")

PLAIN = 1.0
"""
The margin over nothing from which it is taken for said. Of 120 texts by a writer from whom nothing was learned the rules'
wordings and this heard 100; of 6,250 that do not ask for it three were taken for one that does. At 0.2 one more was heard.
"""

PERHAPS = -0.8
"""The margin from which the reply says how texts end: to one text in two thousand that did not ask for it."""

LEAST = 4
"""Fewer words are left to the wordings of the rules: a listed word counts alone."""


class Texting:
    """What the words of a text say of texting itself, by an *opinion* that was taught it."""

    def __init__(self, opinion: SecondOpinion) -> None:
        self._opinion = opinion

    def said(self, words: Sequence[str]) -> Consent | Literal["perhaps"] | None:
        """``out`` or ``in`` where *words* say so plainly, ``perhaps`` where they may want no more; None otherwise."""
        if len(words) < LEAST:
            return None
        opinion = self._opinion.of(words, CODES)
        if opinion is None:
            return None
        nothing = opinion.margins.get(NOTHING, 0.0)
        most = max(CODES, key=lambda code: opinion.margins.get(code, -9.0))
        over = opinion.margins.get(most, -9.0) - nothing
        if over >= PLAIN:
            return "out" if most == "opt_out" else "in"
        return "perhaps" if opinion.margins.get("opt_out", -9.0) - nothing >= PERHAPS else None


class OfTexting:
    """
    What a text says of texting itself: by the wordings of *lexicon*, and where none stands by what its words mostly mean.
    typed: gives the words of a text as they came.
    """

    def __init__(self, lexicon: Lexicon, typed: Callable[[str], Normal], opinion: SecondOpinion) -> None:
        self._lexicon, self._typed, self._texting = lexicon, typed, Texting(opinion)

    def said(self, text: str) -> tuple[Consent | None, bool]:
        """What *text* asks for, and whether it may ask for no more texts."""
        typed = self._typed(text).words
        worded = consent_of(self._lexicon, typed, text)
        if worded.says is not None or MISSING in text:
            return worded.says, False
        said = self._texting.said(typed.keys().forms)
        if worded.heard:  # and turned round, as in “please don't stop texting me”: no more than perhaps
            return None, said == "out"
        return (None, True) if said == "perhaps" else (said, False)
