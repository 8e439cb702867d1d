"""
Dangers that a phrase raised in words that customers mostly use of none: doubted, to be asked about before anything else.

Nothing is excused here. “my neighbor's campfire, the whole street smells like smoke” and “there's smoke” have the phrase in
common; whether somebody must leave the house is better asked than guessed either way.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.reading.dangers.hazards import Screened
from service.reading.model import Asked
from service.reading.opinion.second_opinion import NOTHING, SecondOpinion
from service.reading.words.normalising import Word
from service.reading.words.sentences import parts, sentences

DOUBTED = -0.5
"""
The margin over nothing below which all of the words, and every part of them, must stand for each danger that was raised. On
texts of writers from whom nothing was learned a third to a half of the false alarms stood there, and hardly a danger.
"""

WORDS_TO_DOUBT = 14
"""
Fewer words leave no doubt: what is short and names a danger is one, or turned by a word that phrases hear better. From ten
on, at a lower margin, twelve of 90 false alarms would be spared and no danger in texts of strangers asked about; but ten of the
shop's own hard cases would be, “we put out two fires in the dryer this week” among them.
"""


def doubted(
    screened: Screened, taught: SecondOpinion, words: Sequence[Word], codes: tuple[str, ...], asked: Asked | None
) -> Screened:
    """
    *screened* with its danger doubted, if the words stand clear of it. Where two are told, or the text answers a question about
    a danger, none is doubted.
    """
    if len(screened.raised) != 1 or len(words) < WORDS_TO_DOUBT or (asked is not None and asked.code in codes):
        return screened
    (found,) = screened.raised
    spans = dict.fromkeys(((0, len(words)), *sentences(words), *parts(words)))
    opinions = [taught.of([word.form for word in words[first:end]], codes) for first, end in spans]
    if opinions[0] is None or any(
        opinion.margins.get(found.code, 0.0) - opinion.margins.get(NOTHING, 0.0) >= DOUBTED
        for opinion in opinions
        if opinion is not None
    ):
        return screened
    note = f"“{found.words}” is asked about: in such words customers mostly tell of no {found.code}."
    return replace(screened, raised=(), doubted=(found,), notes=(*screened.notes, note))
