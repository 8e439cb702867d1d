"""
What is made of a second opinion: a symptom or a danger that no phrase of the rules told.

It is learned from the rules' examples and signs and from the texts told under each code, never speaks against a phrase, and
where a phrase was heard, denied or excused, it has no say about that code.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from service.reading.hazards import Screened
from service.reading.model import Found, HazardFound
from service.reading.normalising import Normal
from service.reading.second_opinion import NOTHING, Opinion, SecondOpinion
from service.reading.stated import Statements
from service.reading.symptoms import VAGUE
from service.rulebook.model import Rulebook

LEANT = "Most like what is told of"
"""How the note begins that says why something was taken from the words as a whole."""

ENOUGH = 0.4
"""The share from which an opinion counts."""

ENOUGH_OVER_VAGUE = 0.75
"""The share from which it says more than a phrase that heard a vague complaint, or something that is not so."""

ENOUGH_BESIDE = 0.9
"""The share from which it is added to symptoms that were heard, where all of those are DOUBTED."""

DOUBTED = 0.05
"""A share below which the words as a whole do not tell what one of them was heard as."""

MANY_WORDS = 2
"""A phrase with so many gaps between its words leaves no room for doubt."""

ENOUGH_FOR_DANGER = 0.4
"""The share from which a danger is raised."""

WORDS_FOR_SYMPTOM = 7
"""Fewer words tell none: what is that short, phrases hear or nobody."""

WORDS_FOR_DANGER = 8
"""Fewer words raise none: what is that short and dangerous, phrases hear."""

_SIGNS = re.compile(r"[\[\]()|=*]")


def taught_symptoms(rulebook: Rulebook) -> Iterator[tuple[str, str]]:
    """Texts and phrases of *rulebook* with the symptom each tells, or NOTHING."""
    told: set[str] = set()
    for appliance in rulebook.appliances.values():
        for symptom in appliance.symptoms.values():
            if symptom.code == VAGUE:
                continue
            for example in symptom.examples:
                means = [code for code in example.means if code in appliance.symptoms and code != VAGUE]
                yield from ((example.says, code) for code in means or (NOTHING,))
            yield from ((_bare(phrase), symptom.code) for phrase in (*symptom.signs.en, *symptom.signs.es))
        for code, texts in appliance.told.items():
            told.update(texts)
            yield from ((text, code) for text in texts)
    yield from ((text, NOTHING) for text in rulebook.nothing_told)
    dangers = (text for texts in rulebook.dangers_told.values() for text in texts)
    yield from ((text, NOTHING) for text in dict.fromkeys(dangers) if text not in told)


def taught_dangers(rulebook: Rulebook) -> Iterator[tuple[str, str]]:
    """Texts and phrases of *rulebook* with the hazard each tells, or NOTHING."""
    dangers = rulebook.dangers
    for danger in dangers.values():
        for example in danger.examples:
            means = [code for code in example.means if code in dangers]
            yield from ((example.says, code) for code in means or (NOTHING,))
        yield from ((_bare(phrase), danger.code) for phrase in (*danger.signs.en, *danger.signs.es))
        yield from ((_bare(phrase), NOTHING) for phrase in (*danger.innocent.en, *danger.innocent.es))
    for code, texts in rulebook.dangers_told.items():
        yield from ((text, code) for text in texts)
    told = {text for texts in rulebook.dangers_told.values() for text in texts}
    harmless = [text for a in rulebook.appliances.values() for texts in a.told.values() for text in texts]
    yield from ((text, NOTHING) for text in (*dict.fromkeys(harmless), *rulebook.nothing_told) if text not in told)
    for appliance in rulebook.appliances.values():
        for symptom in appliance.symptoms.values():
            yield from ((e.says, NOTHING) for e in symptom.examples if not dangers.keys() & set(e.means))


def leant_on(opinion: Opinion | None, stated: Statements, appliance: str, text: str) -> Statements:
    """*stated* with the symptom of *opinion*, if it is sure enough; it takes the place of a vague complaint."""
    if opinion is None or opinion.share < max(_needed(opinion, stated), opinion.shares.get(NOTHING, 0.0)):
        return stated
    words = text.strip()
    start = text.find(words)
    score = round(0.3 + 0.4 * opinion.share, 2)
    found = Found(appliance, opinion.code, score, words, start, start + len(words), "told texts")
    carried = ", ".join(f"“{word}”" for word in opinion.because)
    note = f"{LEANT} {opinion.code} of {appliance} ({opinion.share:.0%}), for {carried}."
    kept = tuple(f for f in stated.symptoms if f.code != VAGUE)
    return replace(stated, symptoms=(*kept, found), notes=(*stated.notes, note))


def _needed(opinion: Opinion, stated: Statements) -> float:
    """How sure an opinion must be to count beside what phrases told; never, where they told something likely."""
    told = [f.code for f in stated.symptoms if f.code != VAGUE]
    if not told:
        return ENOUGH_OVER_VAGUE if stated.symptoms or stated.denied or stated.dismissed else ENOUGH
    doubted = all(opinion.shares.get(code, 0.0) < DOUBTED for code in told)
    return ENOUGH_BESIDE if doubted else 2.0


def danger_told(
    taught: SecondOpinion, words: Sequence[str], codes: tuple[str, ...], heard: Collection[str]
) -> Opinion | None:
    """Which of the hazards *codes* such *words* mostly tell, but for those a phrase *heard*; None if it is none for sure."""
    if len(words) < WORDS_FOR_DANGER or not taught.may_tell(words, ENOUGH_FOR_DANGER):
        return None
    return taught.of(words, codes, heard)


def alarmed(screened: Screened, opinion: Opinion | None, normal: Normal, everyday: Collection[str]) -> Screened:
    """*screened* with the danger of *opinion*, if it is sure enough and not by *everyday* words alone ("called him")."""
    if opinion is None or opinion.share < ENOUGH_FOR_DANGER or all(word in everyday for word in opinion.because):
        return screened
    found = HazardFound(opinion.code, normal.text.strip(), 0, len(normal.text), "told texts")
    carried = ", ".join(f"“{word}”" for word in opinion.because)
    note = f"{LEANT} {opinion.code} ({opinion.share:.0%}), for {carried}: it is raised."
    return replace(screened, raised=(*screened.raised, found), notes=(*screened.notes, note))


def _bare(phrase: str) -> str:
    return _SIGNS.sub(" ", phrase)
