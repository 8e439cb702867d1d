"""A danger that no phrase told, where such words mostly tell one: raised if it stands clear enough of nothing."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from service.reading.dangers.danger_answers import says_not_me
from service.reading.dangers.excepting import says_no_gas
from service.reading.dangers.hazards import Screened
from service.reading.dangers.sensed import senses
from service.reading.model import Asked, HazardFound
from service.reading.opinion.leaning import LEANT, TOLD_TEXTS
from service.reading.opinion.second_opinion import NOTHING, Opinion, SecondOpinion
from service.reading.words.normalising import Normal, Word

ENOUGH_FOR_DANGER = -0.4
"""
The margin of a danger over nothing from which it is raised: below 0, for a danger missed costs more than a false alarm.
Chosen, as those below, on texts held apart from the learning.
"""

ENOUGH_IN_AN_ANSWER = 0.0
"""The margin from which it is raised in the answer to a question that asks for no danger: “silver hose out the wall”."""

SURE_OF_DANGER = 0.1
"""
The margin below which a danger that no phrase told is asked about first, in a text of twelve words and more that answers no
question about a danger. Of seven writers' texts from which nothing was learned nine false alarms stood there, and no danger.
"""

WORDS_TO_ASK = 12
"""Fewer words are not asked about: so short, what sounds like a danger is one."""

LEAST_FOR_DANGER = -0.9
"""The margin of its own it must have besides: below, the words are only unlike the harmless texts that were learned from."""

ENOUGH_THOUGH_EXCUSED = 0.8
"""The margin from which it is raised though a phrase of it was heard and excused: “smoke from the grille”."""

WORDS_FOR_DANGER = 5
"""Fewer words raise none: what is that short and dangerous, phrases hear."""


def danger_told(
    taught: SecondOpinion, words: Sequence[str], codes: tuple[str, ...], denied: Collection[str]
) -> Opinion | None:
    """Which of the hazards *codes* such *words* mostly tell; None if they are too few to tell, or say that it is not."""
    if len(words) < WORDS_FOR_DANGER:
        return None
    opinion = taught.of(words, codes)
    return None if opinion is None or opinion.code in denied else opinion


_NEVER_UNSENSED = frozenset(["gas_smell", "water_near_power"])
"""Dangers that no margin raises without a word of their own field."""

_OF_FUEL = frozenset(["gas_smell", "carbon_monoxide"])


def alarmed(screened: Screened, opinion: Opinion | None, normal: Normal, asked: Asked | None = None) -> Screened:
    """
    *screened* with the danger of *opinion*, if it stands clear enough of nothing; where a phrase of it was excused, or the line
    asked for such words (“gas or electric?”), it must be surer.
    """
    if opinion is None:
        return screened
    own = opinion.margins[opinion.code]
    over_nothing = own - opinion.margins.get(NOTHING, 0.0)
    enough = ENOUGH_FOR_DANGER if asked is None or asked.kind == "yes_no" else ENOUGH_IN_AN_ANSWER
    if own < LEAST_FOR_DANGER or over_nothing < enough or opinion.code in screened.explained:
        return screened
    if opinion.code == "gas_smell" and says_no_gas(_behind_what_smells(normal.words)):
        return screened
    sensed = senses(opinion.code, normal.words)
    if opinion.code in _NEVER_UNSENSED and not sensed:
        return screened
    if asked is not None and asked.kind == "yes_no" and asked.code == opinion.code and says_not_me(normal.words):
        return screened
    expected = opinion.code in _OF_FUEL and asked is not None and asked.kind == "fuel" and not sensed
    if over_nothing < ENOUGH_THOUGH_EXCUSED and (
        expected or opinion.code in screened.heard or not sensed or _smoky(opinion.code, screened)
    ):
        return screened
    found = HazardFound(opinion.code, normal.text.strip(), 0, len(normal.text), TOLD_TEXTS)
    carried = ", ".join(f"“{word}”" for word in opinion.because(opinion.code))
    told = f"{LEANT} {opinion.code} ({opinion.share:.0%}), for {carried}"
    of_dangers = asked is not None and asked.kind == "yes_no" and asked.code in opinion.margins
    if over_nothing < SURE_OF_DANGER and len(normal.words) >= WORDS_TO_ASK and not of_dangers:
        return replace(screened, doubted=(found,), notes=(*screened.notes, f"{told}: it is asked about first."))
    return replace(screened, raised=(*screened.raised, found), notes=(*screened.notes, f"{told}: it is raised."))


def _behind_what_smells(words: Sequence[Word]) -> Sequence[Word]:
    """“real skunk, it's not gas” takes back what smells; “it's not gas, smells like eggs” does not."""
    last = max((at for at, word in enumerate(words) if word.form.startswith(_SMELLS)), default=-1)
    return words[last + 1 :]


_SMELLS = ("smell", "stink", "stank", "reek", "odor", "egg", "hiss", "huele", "olor", "apest", "huevo", "skunk", "sulf")

_SMOKY = frozenset(["smoke", "fire", "burning_smell"])


def _smoky(code: str, screened: Screened) -> bool:
    """Whether *code* tells of what was told to be no matter under another name: smoke of a fireplace is no fire either."""
    return code in _SMOKY and bool(_SMOKY & screened.explained)
