"""
What is made of a second opinion: a symptom or a danger that no phrase of the rules told.

Where an explicit phrase was heard, denied or excused, it has no say about that code; a hint of one or two words it may belie.
A danger that a phrase told it never touches.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice, pairwise

from service.reading.clauses import Clause
from service.reading.hazards import Screened
from service.reading.mentions import UNKNOWN, Mentions
from service.reading.model import Asked, Found, HazardFound
from service.reading.normalising import Normal, Word
from service.reading.second_opinion import NOTHING, Opinion, SecondOpinion
from service.reading.stated import Statements
from service.reading.symptoms import VAGUE

LEANT = "Most like what is told of"
"""How the note begins that says why something was taken from the words as a whole."""

NOT_TAKEN = "Not taken as"
"""How the note begins that says which hint was not believed."""

ENOUGH = 0.25
"""The share from which an opinion counts."""

ENOUGH_OVER_VAGUE = 0.5
"""The share from which it says more than a phrase that heard a vague complaint, or something that is not so."""

ENOUGH_BESIDE = 0.7
"""The share from which it is added to symptoms that were heard, where all of those are DOUBTED."""

ENOUGH_FOR_PART = 0.85
"""The share from which a part of a text in which no phrase is heard tells a further symptom."""

MOST_PARTS = 12
"""So many parts of one text are considered."""

WORDS_FOR_PART = 4
"""Fewer words are no part that could."""

DOUBTED = 0.05
"""A share below which the words as a whole do not tell what one of them was heard as."""

BELIED = 0.1
"""The share below which a hint is not believed."""

TIMES_NOTHING = 10.0
"""A hint so many times likelier than nothing is believed, however likely another fault is: two may be told in one breath."""

WORDS_OF_A_PHRASE = 3
"""A sign heard in fewer words is a hint and no explicit phrase: "goes off", "hot" say one thing here and another there."""

ENOUGH_FOR_DANGER = 0.25
"""The share from which a danger is raised."""

ENOUGH_EVERYDAY = 0.5
"""The share from which it is raised though only everyday words speak for it ("called him")."""

WORDS_FOR_SYMPTOM = 7
"""Fewer words tell none: what is that short, phrases hear or nobody."""

WORDS_FOR_DANGER = 5
"""Fewer words raise none: what is that short and dangerous, phrases hear."""

TOLD_TEXTS = "told texts"
"""The rule that is named for what was taken from the words as a whole."""

_OPEN = ("appliance", "symptom")
"""Questions that a telling of what is wrong answers."""

_NO_NEWS = frozenset(["fixed", "cancel", "reschedule"])
"""Intents beside which nothing is made of words that no rule hears."""

_JOINS = frozenset(["and", "but", "plus", "also", "y", "pero", "tambien", "ademas"])


@dataclass(frozen=True, slots=True)
class Heard:
    """What else is known of the text that is read. intents: those heard in it."""

    normal: Normal
    clauses: Sequence[Clause]
    mentions: Mentions
    screened: Screened
    asked: Asked | None
    intents: frozenset[str]


class Leaner:
    """What the words as a whole say beside the phrases. *codes*: the symptoms each machine can have."""

    def __init__(self, opinion: SecondOpinion, codes: Mapping[str, tuple[str, ...]]) -> None:
        self._opinion, self._codes = opinion, codes

    def leant(self, stated: Statements, heard: Heard) -> Statements:
        """
        *stated* without the hints that the words as a whole belie, and with what they, or a part of them in which no phrase
        was heard, mostly tell of the one machine that is spoken of.
        """
        if heard.asked is not None and heard.asked.kind not in _OPEN:
            return stated
        stated = self._of_the_whole(stated, heard)
        return self._of_the_parts(stated, heard)

    def _of_the_whole(self, stated: Statements, heard: Heard) -> Statements:
        named = _named(heard.mentions)
        told = {f.appliance for f in stated.symptoms} - named - {UNKNOWN}
        if told or len(named) > 1 or len(heard.normal.words) < WORDS_FOR_SYMPTOM:
            return stated
        machine = next(iter(named), heard.mentions.about or UNKNOWN)
        codes, words = self._codes.get(machine, ()), heard.normal.words.keys().forms
        sure = any(f.code != VAGUE and not _is_hint(f) for f in stated.symptoms)
        silent = bool(heard.screened.raised or sure or stated.theories or _NO_NEWS & heard.intents)
        if silent and not any(map(_is_hint, stated.symptoms)):
            return stated
        opinion = self._opinion.of(words, codes)
        stated = unbelied(opinion, stated, lambda hint: self._of_its_part(hint, heard.normal.words, codes))
        if silent:
            return stated
        not_so = {f.code for f in stated.denied} | stated.dismissed
        if not_so:
            opinion = self._opinion.of(words, codes, not_so)
        return leant_on(opinion, stated, machine, heard.normal.text)

    def _of_its_part(self, hint: Found, words: Sequence[Word], codes: tuple[str, ...]) -> Opinion | None:
        """What the part of the text in which *hint* was heard tells by itself."""
        for first, end in parts(words):
            if words[first].start <= hint.start < words[end - 1].end:
                return self._opinion.of([word.form for word in words[first:end]], codes)
        return None

    def _of_the_parts(self, stated: Statements, heard: Heard) -> Statements:
        machines = {f.appliance for f in stated.symptoms} | _named(heard.mentions)
        machine = next(iter(machines), heard.mentions.about) if len(machines) < 2 else None
        codes = self._codes.get(machine, ()) if machine else ()
        only_works = "fixed" in heard.intents and not stated.symptoms
        if not machine or not codes or only_works:
            return stated
        screened = heard.screened
        spans = [(f.start, f.end) for f in (*stated.symptoms, *stated.denied) if f.rule != TOLD_TEXTS]
        spans += [(h.start, h.end) for h in (*screened.raised, *screened.denied)]
        for words in islice(unheard_parts(heard.normal.words, heard.clauses, spans), MOST_PARTS):
            known = {f.code for f in (*stated.symptoms, *stated.denied)} | stated.dismissed
            stated = added(self._opinion.of(words, codes, known), stated, machine, heard.normal.text)
        return stated


def _named(mentions: Mentions) -> set[str]:
    return {m.appliance for m in mentions.found if not m.implied}


def unbelied(opinion: Opinion | None, stated: Statements, of_its_part: Callable[[Found], Opinion | None]) -> Statements:
    """
    *stated* without the hints that *opinion*, and what the part of the text around them tells by itself, all but rule out:
    "goes off" is heard as a stop, and told of an alarm. A part too short to tell anything rules nothing out.
    """
    if opinion is None:
        return stated
    hints = [f for f in stated.symptoms if _is_hint(f) and _rules_out(opinion, f)]
    belied = [f for f in hints if (part := of_its_part(f)) is not None and _rules_out(part, f)]
    if not belied:
        return stated
    notes = tuple(
        f"{NOT_TAKEN} {f.code} for “{f.words}”: in such words customers tell of something else." for f in belied
    )
    kept = tuple(f for f in stated.symptoms if f not in belied)
    return replace(stated, symptoms=kept, notes=(*stated.notes, *notes))


def _rules_out(opinion: Opinion, found: Found) -> bool:
    share = opinion.shares.get(found.code, 1.0)
    return share < BELIED and share < TIMES_NOTHING * opinion.shares.get(NOTHING, 1.0)


def _is_hint(found: Found) -> bool:
    return found.code != VAGUE and found.words.count(" ") < WORDS_OF_A_PHRASE - 1


def leant_on(opinion: Opinion | None, stated: Statements, appliance: str, text: str) -> Statements:
    """*stated* with the symptom of *opinion*, if it is sure enough; it takes the place of a vague complaint."""
    if opinion is None or opinion.share < max(_needed(opinion, stated), opinion.shares.get(NOTHING, 0.0)):
        return stated
    return _with(
        opinion, replace(stated, symptoms=tuple(f for f in stated.symptoms if f.code != VAGUE)), appliance, text
    )


def _with(opinion: Opinion, stated: Statements, appliance: str, text: str) -> Statements:
    words = text.strip()
    start = text.find(words)
    score = round(0.3 + 0.4 * opinion.share, 2)
    found = Found(appliance, opinion.code, score, words, start, start + len(words), TOLD_TEXTS)
    carried = ", ".join(f"“{word}”" for word in opinion.because)
    note = f"{LEANT} {opinion.code} of {appliance} ({opinion.share:.0%}), for {carried}."
    return replace(stated, symptoms=(*stated.symptoms, found), notes=(*stated.notes, note))


def _needed(opinion: Opinion, stated: Statements) -> float:
    """How sure an opinion must be to count beside what phrases told; never, where they told something likely."""
    told = [f.code for f in stated.symptoms if f.code != VAGUE]
    if not told:
        return ENOUGH_OVER_VAGUE if stated.symptoms or stated.denied or stated.dismissed else ENOUGH
    doubted = all(opinion.shares.get(code, 0.0) < DOUBTED for code in told)
    return ENOUGH_BESIDE if doubted else 2.0


def parts(words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Where each part of a text begins and ends: at a stop, a comma, an "and" or a "but"."""
    begins = [n for n, word in enumerate(words) if n == 0 or word.brk or word.form in _JOINS]
    return pairwise([*begins, len(words)])


def unheard_parts(
    words: Sequence[Word], clauses: Sequence[Clause], spans: Sequence[tuple[int, int]]
) -> Iterator[list[str]]:
    """The words of each part of a text that is long enough, where no phrase was heard and that nothing excuses."""
    excused = [c for c in clauses if c.if_ or c.past or c.others or c.asked]
    for first, end in parts(words):
        part = words[first:end]
        if len(part) < WORDS_FOR_PART or any(a < part[-1].end and part[0].start < b for a, b in spans):
            continue
        if not any(c.start < end and first < c.end for c in excused):
            yield [word.form for word in part]


def added(opinion: Opinion | None, stated: Statements, appliance: str, text: str) -> Statements:
    """*stated* and the symptom that *opinion* tells of a part of the text, if it is sure enough."""
    if opinion is None or opinion.share < ENOUGH_FOR_PART:
        return stated
    return _with(opinion, stated, appliance, text)


def danger_told(
    taught: SecondOpinion, words: Sequence[str], codes: tuple[str, ...], heard: Collection[str]
) -> Opinion | None:
    """
    Which of the hazards *codes* such *words* mostly tell; None if it is none for sure, or one of which a phrase was *heard*:
    what is excused or denied leaves no other danger in the same words.
    """
    if len(words) < WORDS_FOR_DANGER:
        return None
    opinion = taught.of(words, codes)
    return None if opinion is None or opinion.code in heard else opinion


def alarmed(screened: Screened, opinion: Opinion | None, normal: Normal, everyday: Collection[str]) -> Screened:
    """*screened* with the danger of *opinion*, if it is sure enough; by *everyday* words alone it must be surer."""
    if opinion is None or opinion.share < ENOUGH_FOR_DANGER:
        return screened
    if opinion.share < ENOUGH_EVERYDAY and all(word in everyday for word in opinion.because):
        return screened
    found = HazardFound(opinion.code, normal.text.strip(), 0, len(normal.text), TOLD_TEXTS)
    carried = ", ".join(f"“{word}”" for word in opinion.because)
    note = f"{LEANT} {opinion.code} ({opinion.share:.0%}), for {carried}: it is raised."
    return replace(screened, raised=(*screened.raised, found), notes=(*screened.notes, note))
