"""What the words as a whole say not to be so: functions told to work in ways that no phrase has."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from math import inf

from service.reading.faults.stated import Statements
from service.reading.machines.mentions import UNKNOWN
from service.reading.model import Asked, Found
from service.reading.opinion.leaning import TOLD_TEXTS, Heard, portions
from service.reading.opinion.second_opinion import NOTHING, Opinion, SecondOpinion
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import parts

DENIES = 0.1
"""
The margin from which the words deny a code. Chosen, as those below, on texts of writers from whom nothing had been learned.
"""

PLAINLY = 0.6
"""The margin that is needed in an answer, and where a phrase has heard what the same words deny: “sí prende la luz”."""

WORDS_FOR_ONE = 4
"""So few words deny one thing alone."""

TELLS_IT = 0.2
"""Where the same words tell the code itself by more than this, they do not deny it: “spins not at all”."""

TELLS_ANOTHER = 0.2
"""Where they tell any fault by more than this, and more plainly, they deny nothing: “todos los burners muertos”."""

BELIED = -0.7
"""Where all of the words, and their part, stand further off denying a code, a hint of it is dropped: “calienta demás”."""

WORDS_OF_A_HINT = 2
"""A denial told in so few words is a hint."""

WORDS_THAT_DROWN = 25
"""So many words stand far off denying anything, whatever one of their parts denies: “washes, spins, then …”."""

WORDS_TO_DENY = 2
"""Fewer words are not weighed."""


_BADLY = {
    "no_drain": ("slow_drain",), "no_fill": ("overfill",), "no_heat": ("overheat", "temp_off"), "no_spin": ("stops_midcycle",),
    "burner_dead": ("weak_flame", "overheat"), "not_cooling": ("temp_off", "too_cold"), "stops_midcycle": ("wont_stop",),
}  # fmt: skip
"""What works badly or too much is not told to work: “it drains, slowly”."""


_SMELT = frozenset(["gas_smell", "burning_smell", "smoke", "carbon_monoxide", "refrigerant_leak"])
_SMELLS = frozenset(["odor"])
"""Dangers that are smelt, and the complaint that a "no smell" told or asked of one of them does not deny."""


class Denier:
    """What the words say that works. *of_faults*: what they tell. *codes*: the symptoms each machine can have."""

    def __init__(self, opinion: SecondOpinion, of_faults: SecondOpinion, codes: Mapping[str, tuple[str, ...]]) -> None:
        self._opinion, self._of_faults, self._codes = opinion, of_faults, codes

    def denied(self, stated: Statements, heard: Heard, hits: Sequence[Hit]) -> Statements:
        """
        *stated* with what some part of the words plainly denies of each machine spoken of: few deny in more than a part.

        *hits*: the phrases heard, which tell a function that works (“calienta”) from a part that is praised (“oven fine”).
        """
        words_of = heard.normal.words
        functions = {(h.payload.code, words_of[h.start].start) for h in hits if h.payload.role == "function"}
        asked = heard.asked
        smelt = {*heard.cleared, asked.code if asked is not None else None}
        of_the_smell = _SMELLS if smelt & _SMELT else frozenset[str]()
        for machine, words in portions(stated, heard, WORDS_TO_DENY):
            if machine not in self._codes:
                continue
            stated = self._without_belied(stated, words, machine, functions)
            told = {f.code for f in stated.symptoms if f.appliance in (machine, UNKNOWN)} | of_the_smell
            known = told | {f.code for f in stated.denied if f.appliance in (machine, UNKNOWN)}
            for code, (opinion, said) in self._clearest(words, machine).items():
                if code in known or not told.isdisjoint(_BADLY.get(code, ())) or _of_burning(code, words):
                    continue
                if opinion.margins[code] > self._least(stated, said, asked):
                    stated = _with(stated, machine, code, opinion, said, heard)
        return stated

    def _least(self, stated: Statements, said: Sequence[Word], asked: Asked | None) -> float:
        """The margin that is enough: of an answer, and where a phrase denies something in the same words, it must be plain."""
        accounted = any(said[0].start <= f.start < said[-1].end for f in stated.denied if f.rule != TOLD_TEXTS)
        if accounted and len(said) <= WORDS_FOR_ONE:
            return inf
        return PLAINLY if accounted or asked is not None else DENIES

    def _without_belied(
        self, stated: Statements, words: Sequence[Word], machine: str, functions: Collection[tuple[str, int]]
    ) -> Statements:
        """*stated* without the denials in a word or two that the words around them, and all of them, speak against."""
        hints = [
            f
            for f in stated.denied
            if f.appliance == machine
            and words[0].start <= f.start < words[-1].end
            and len(f.words.split()) <= WORDS_OF_A_HINT
            and (f.code, f.start) in functions
            and not _said_no(f, words)
            and not _stands_alone(f, words)
            and not any(_joined(f, other, words) for other in stated.denied if other.appliance == machine)
        ]
        if not hints:
            return stated
        belied = [f for f in hints if self._speaks_against(f, words, machine)]
        notes = tuple(
            f"“{f.words}” denies no {f.code}: in such words customers tell of something else." for f in belied
        )
        kept = tuple(f for f in stated.denied if f not in belied)
        return replace(stated, denied=kept, notes=(*stated.notes, *notes)) if belied else stated

    def _speaks_against(self, hint: Found, words: Sequence[Word], machine: str) -> bool:
        """Whether all of *words*, and the part around *hint* if it is long enough to tell anything, stand off denying it."""
        around = [words[a:b] for a, b in parts(words) if words[a].start <= hint.start < words[b - 1].end]
        weighed = [self._opinion.of([w.form for w in said], self._codes[machine], machine) for said in (*around, words)]
        if hint.code != _DEAD and (_praised(hint, words) or (len(words) >= WORDS_THAT_DROWN and weighed[0] is None)):
            return False
        opinions = [opinion for opinion in weighed if opinion is not None]
        return bool(opinions) and all(opinion.margins.get(hint.code, 0.0) <= BELIED for opinion in opinions)

    def _clearest(self, words: Sequence[Word], machine: str) -> dict[str, tuple[Opinion, Sequence[Word]]]:
        """Each code that some part of *words* denies, with the part that does so most plainly."""
        found: dict[str, tuple[Opinion, Sequence[Word]]] = {}
        for first, end in parts(words):
            said = words[first:end]
            if len(said) < WORDS_TO_DENY or _goes_too_far(words, first, end):
                continue
            opinion = self._opinion.of([word.form for word in said], self._codes[machine], machine)
            if opinion is None or opinion.margins[opinion.code] <= DENIES:
                continue
            faults = self._of_faults.of([word.form for word in said], self._codes[machine], machine)
            for code, margin in _plainly(opinion, faults):
                if code not in found or margin > found[code][0].margins[code]:
                    found[code] = opinion, said
        return found


def _of_burning(code: str, words: Sequence[Word]) -> bool:
    """Whether a smell is denied beside smoke, sparks or a plug: then it is that of burning, “no smoke no smell”."""
    return code == _ODOR and any(word.form.startswith(_BURNS) for word in words)


_ODOR = "odor"
_BURNS = ("smok", "humo", "humea", "spark", "chisp", "plug", "clavija", "enchufe", "burn", "quem", "fire", "lumbre")


def _stands_alone(hint: Found, words: Sequence[Word]) -> bool:
    """“Calienta. Gira. Buttons work.”: *hint* is a whole statement, with nothing that could turn it."""
    first = next((n for n, word in enumerate(words) if word.start >= hint.start), 0)
    end = next((n for n, word in enumerate(words) if word.start >= hint.end), len(words))
    least = 1 if end - first == WORDS_OF_A_HINT else _STOPS
    return first > 0 and words[first].brk > 0 and (end == len(words) or words[end].brk >= least)


_STOPS = 2


_AS_FAR = 12
"""Letters that an "and" and a "no" take, with what stands around them."""


def _joined(hint: Found, other: Found, words: Sequence[Word]) -> bool:
    """“calienta y gira”, “está frío y no gotea”: nothing but an "and" stands between *hint* and what is denied besides."""
    first, last = (hint, other) if hint.start < other.start else (other, hint)
    if not 0 < last.start - first.end <= _AS_FAR:
        return False
    between = {word.form for word in words if first.end <= word.start < last.start}
    return hint is not other and bool(between & _AND) and between <= _AND | _NO


def _praised(hint: Found, words: Sequence[Word]) -> bool:
    """“fills fine”, “lamps are ok”: praise in *hint*, or right behind it, that is no part of the next statement."""
    behind = [word for word in words if word.start >= hint.end][:2]
    said = [word.form for word in words if hint.start <= word.start < hint.end]
    if behind and not behind[0].brk and behind[0].form in _ARE:
        del behind[0]
    return not _PRAISE.isdisjoint(said) or (bool(behind) and not behind[0].brk and behind[0].form in _PRAISE)


_ARE = frozenset(["is", "are", "still", "esta", "estan", "all", "muy"])


_PRAISE = frozenset((
    "fine", "ok", "okay", "good", "great", "well", "normal", "normally", "perfect", "perfectly", "alright", "properly",
    "correctly", "bien", "perfecto",
))  # fmt: skip
_DEAD = "dead"
"""What comes on is told of much besides the machine, praised or not: “the flame comes on fine”."""


def _said_no(hint: Found, words: Sequence[Word]) -> bool:
    """Whether a "no" stands before *hint*, or in it, or a "does": what is so denied is no hint."""
    at = next((n for n, word in enumerate(words) if word.start >= hint.start), 0)
    if hint.code != _DEAD and at and words[at - 1].form in _SURELY and not words[at].brk:
        return True
    return any(word.form in _NO for word in words[max(0, at - _BEFORE) : at + WORDS_OF_A_HINT])


_NO = frozenset((
    "no", "not", "isnt", "doesnt", "dont", "arent", "wasnt", "never", "without", "zero", "none", "ni", "sin", "nada", "nunca",
    "nothing", "nor", "neither", "aint", "didnt", "hasnt", "havent",
))  # fmt: skip
_SURELY = frozenset(["does", "do", "si"])
"""“it does cool”, “sí exprime”."""

_BEFORE = 4


def _goes_too_far(words: Sequence[Word], first: int, end: int) -> bool:
    """
    “fills and fills”, “spins until it gets hot”: so told it does not work; “as it fills” tells when something is, and “i want
    it dry” what is wished for.
    """
    if any(word.form in _UNTIL for word in words[first:end]):
        return True
    if words[first].form in _WHEN and end - first <= _ONLY_WHEN:
        return True
    return end + 1 < len(words) and words[end].form in _AND and words[end + 1].form == words[end - 1].form


_WHEN, _ONLY_WHEN = frozenset(["as", "when", "while", "during", "cuando", "mientras", "al"]), 4
_UNTIL = frozenset(["until", "till", "til", "hasta", "want", "wanted", "quiero", "quisiera", "ojala"])
_AND = frozenset(["and", "y", "n"])


def _plainly(opinion: Opinion, faults: Opinion | None) -> Iterator[tuple[str, float]]:
    """The codes denied, with their margins, that the words do not rather tell."""
    told = faults.margins if faults else {}
    worst = max((margin for code, margin in told.items() if code != NOTHING), default=-inf)
    for code, margin in opinion.margins.items():
        if code == NOTHING or margin <= DENIES or told.get(code, -inf) > TELLS_IT:
            continue
        if worst <= max(TELLS_ANOTHER, margin):
            yield code, margin


def _with(
    stated: Statements, machine: str, code: str, opinion: Opinion, said: Sequence[Word], heard: Heard
) -> Statements:
    start, end = said[0].start, said[-1].end
    margin = opinion.margins[code]
    found = Found(machine, code, 0.5, heard.normal.text[start:end], start, end, TOLD_TEXTS)
    carried = ", ".join(f"“{word}”" for word in opinion.because(code))
    note = f"Most like what denies {code} of {machine} (weighed {margin:+.2f}), for {carried}."
    return replace(stated, denied=(*stated.denied, found), notes=(*stated.notes, note))
