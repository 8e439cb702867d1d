"""
What is made of a second opinion: symptoms or a danger that no phrase of the rules told.

What an explicit phrase told, denied or excused stays so; a hint of one or two words it may belie. A danger that a phrase told
it never touches.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf

from service.reading.faults.stated import Statements
from service.reading.faults.symptoms import VAGUE
from service.reading.machines.mentions import UNKNOWN, Mention, Mentions
from service.reading.model import Asked, Found, HazardFound
from service.reading.opinion.adding import stands_by_itself
from service.reading.opinion.belying import is_hint, unbelied, unoutweighed
from service.reading.opinion.doubling import beside_a_danger, told_again
from service.reading.opinion.second_opinion import NOTHING, Opinion, SecondOpinion
from service.reading.words.clauses import Clause
from service.reading.words.normalising import Normal, Word
from service.reading.words.sentences import pairs_of_sentences, parts, sentences

LEANT = "Most like what is told of"
"""How the note begins that says why something was taken from the words as a whole."""

TELLS = -0.2
"""
The margin from which the words tell a code, whatever phrases told; chosen, as those below, on texts held apart from the
learning. A text stands one margin off the boundary where it is learned from.
"""

SURE = 0.3
"""The margin from which a code that is not the likeliest is taken beside one that phrases told."""

BESIDES = -0.1
"""The same for the likeliest; what stood lower was wrong seven times of eight in texts from which nothing was learned."""

SECOND = -0.15
"""The same for what only such words tell beside the likeliest."""

TELLS_ALONE = -0.55
"""The margin from which the likeliest code is taken where nothing else was heard, and nothing set aside as no fault ..."""

OVER_NOTHING = 0.4
"""... if it is so much likelier than nothing."""

THOUGH_VAGUE = -0.05
"""The margin from which a code takes the place of a vague complaint that a phrase told: “está mala”."""

THOUGH_DENIED = 0.5
"""
The margin from which a code is taken though a phrase of it was heard as denied: “no problem, it's the light that burnt out”. Of
writers from whom nothing was learned it was right each of six times; below it the denial was.
"""

THOUGH_EXCUSED = 0.2
"""The same though something was heard that only sounds like it: “lost power last night”, “the usual sounds”."""

IN_AN_ANSWER, OF_THE_MACHINE, OF_A_DANGER = 0.15, 0.1, 0.6
"""
The margins from which something is taken from an answer to what does not ask for it: “yes and now it leaks”; beside what the
machine is: “Tolvane, and the door sticks too”; and in an answer about a danger, which names what it was instead: “just dinner”.
"""

_BY_THEIR_NAMES = frozenset(["fan_dead", "light_out"])
"""What the mere name of a part weighs for: “lights gave out. fan fine” says that it is, however it is named."""

_OF_THE_MACHINE = frozenset(["age", "brand", "check_result", "code", "fuel", "model", "serial", "variant"])
_OF_THE_PLACE = frozenset(["access", "address", "name", "offer", "payer", "phone", "photo", "postal_code"])
"""Questions whose answers tell of dogs, gates and days: nothing is taken from those words as a whole."""

WORDS_OF_A_PART = 6
"""Fewer words of a longer text are not weighed by themselves."""

ONLY_A_PART = 0.35
"""So much clearer than the whole a part of the text must tell a code to be listened to."""

WORDS_TO_WEIGH, WORDS_TO_OUTWEIGH = 5, 7
"""Fewer words are not weighed, or only where phrases tell nothing: what is that short, phrases hear or nobody."""

WORDS_TO_BELIE = 8
"""Fewer words belie no hint."""

TOLD_TEXTS = "told texts"
"""The rule that is named for what was taken from the words as a whole."""

_BY_ITS_FORM = "error_code"
_OPEN = "symptom"
"""The question that a telling of what is wrong answers."""

_WHICH, OF_WHICH = "appliance", 0.6
"""The question which machine it is, and the margin from which its answer tells a fault: “the wine thing, little glass door”."""

_NO_NEWS = frozenset(["fixed", "cancel", "reschedule", "wrong_number"])
"""Intents beside which nothing is made of words that no rule hears."""


@dataclass(frozen=True, slots=True)
class Heard:
    """
    What else is known of the text that is read. intents: those heard in it. beside: where it is told what was
    tried, or of no machine. dangers: those raised; cleared: those denied.
    """

    normal: Normal
    clauses: Sequence[Clause]
    mentions: Mentions
    asked: Asked | None
    intents: Collection[str]
    beside: Sequence[tuple[int, int]] = ()
    dangers: Sequence[HazardFound] = ()
    cleared: Collection[str] = ()


class Leaner:
    """
    What the words as a whole say beside the phrases. *codes*: the symptoms each machine can have. *over*: by machine and code
    the more general codes that it replaces.
    """

    def __init__(
        self,
        opinion: SecondOpinion,
        codes: Mapping[str, tuple[str, ...]],
        over: Mapping[tuple[str, str], frozenset[str]],
    ) -> None:
        self._opinion, self._codes, self._over = opinion, codes, over
        self._any = tuple(sorted({code for own in codes.values() for code in own}))

    def leant(self, stated: Statements, heard: Heard) -> Statements:
        """*stated* without the hints that the words belie, and with what they mostly tell of each machine spoken of."""
        asked = heard.asked

        def added(hint: Found) -> bool:
            return stands_by_itself(hint, heard.normal.words)

        for machine, words in portions(stated, heard, WORDS_TO_WEIGH):
            if len(words) < WORDS_TO_OUTWEIGH and ("not_fixed" in heard.intents or _tells(stated, machine)):
                continue  # "its doing it again, same thing" tells no other fault
            codes = self._codes.get(machine, self._any)
            opinion = self._opinion.of([word.form for word in words], codes, machine)
            if opinion is None:
                continue
            span, around = (words[0].start, words[-1].end), self._around(heard, codes, machine)
            if len(words) >= WORDS_TO_BELIE:
                stated = unbelied(opinion, stated, span, around, added)
            opinion = self._clearest(opinion, words, codes, machine)
            if asked is not None and asked.kind != _OPEN:
                opinion = _of_an_answer(opinion, asked, of_a_danger=bool(asked.code) and asked.code not in self._any)
            if machine != UNKNOWN and not _is_over(heard.intents):
                plain = (
                    beside_a_danger(opinion, TELLS_ALONE, [h.code for h in heard.dangers]) if heard.dangers else opinion
                )
                stated = told_besides(plain, stated, machine, heard.normal.text, self._over)
            stated = unoutweighed(opinion, stated, span, machine, around, added)
        return stated

    def _clearest(self, whole: Opinion, words: Sequence[Word], codes: tuple[str, ...], machine: str) -> Opinion:
        """
        *whole*, the opinion of all *words*, and where a sentence, two of them or a part tells a code much more plainly by
        itself, that: the dog, the gate and the day of a long text say nothing of its one complaint.
        """
        margins = dict(whole.margins)
        said: dict[str, Opinion] = {}
        for first, end in dict.fromkeys((*sentences(words), *parts(words), *pairs_of_sentences(words))):
            if not WORDS_OF_A_PART <= end - first < len(words):
                continue
            part = self._opinion.of([word.form for word in words[first:end]], codes, machine)
            if part is None:
                continue
            for code, margin in part.margins.items():
                if code != NOTHING and margin - ONLY_A_PART > margins[code]:
                    margins[code], said[code] = margin - ONLY_A_PART, part
        if not said:
            return whole
        return replace(whole, margins=margins, says=lambda code: said.get(code, whole).says(code))

    def _around(self, heard: Heard, codes: tuple[str, ...], machine: str) -> Callable[[Found], Opinion | None]:
        def opinion_around(hint: Found) -> Opinion | None:
            words = heard.normal.words
            for first, end in parts(words):
                if words[first].start <= hint.start < words[end - 1].end:
                    return self._opinion.of([word.form for word in words[first:end]], codes, machine)
            return None

        return opinion_around


def _tells(stated: Statements, machine: str) -> bool:
    """Whether phrases told something of *machine*, or denied it."""
    heard = (*stated.symptoms, *stated.denied)
    return any(f.code != VAGUE and f.appliance in (machine, UNKNOWN) for f in heard)


def _is_over(intents: Collection[str]) -> bool:
    """Whether nothing is left to tell; with somebody wanted besides, “it goes again” was no happy end."""
    over = _NO_NEWS.intersection(intents)
    return bool(over) and not (over == {"fixed"} and "book" in intents)


def _of_an_answer(opinion: Opinion, asked: Asked, *, of_a_danger: bool) -> Opinion:
    """*opinion* with only what it tells plainly of what was not asked."""
    least = OF_THE_MACHINE if asked.kind in _OF_THE_MACHINE else OF_A_DANGER if of_a_danger else IN_AN_ANSWER
    least = inf if asked.kind in _OF_THE_PLACE else OF_WHICH if asked.kind == _WHICH else least
    known = {asked.code} if asked.kind == "code" else {asked.code, _BY_ITS_FORM}
    margins = {c: -inf if c != NOTHING and (m < least or c in known) else m for c, m in opinion.margins.items()}
    return replace(opinion, margins=margins)


def portions(stated: Statements, heard: Heard, least: int) -> Iterator[tuple[str, Sequence[Word]]]:
    """
    Each machine spoken of, with the words about it, if there are *least*; what is supposed, over, asked or somebody else's is
    left out.
    """
    named = [m for m in heard.mentions.found if not m.implied]
    machines = {m.appliance for m in named} | {f.appliance for f in stated.symptoms if f.appliance != UNKNOWN}
    excused = {at for c in heard.clauses if c.if_ or c.past or c.others or c.asked for at in range(c.start, c.end)}
    excused.update(at for first, end in heard.beside for at in range(first, end))
    words = heard.normal.words
    the_one = _the_one(machines, heard.mentions.about)
    owners = _owners(named, words) if len(machines) > 1 and named else [the_one] * len(words)
    for machine in dict.fromkeys(owners):
        own = [word for at, word in enumerate(words) if owners[at] == machine and at not in excused]
        if len(own) >= least:
            yield machine, own


def _the_one(machines: Collection[str], about: str | None) -> str:
    """The machine that all words are about: the only one told, else the one under discussion; unknown if there is neither."""
    if len(machines) == 1:
        return next(iter(machines))
    return about if about is not None and (not machines or about in machines) else UNKNOWN


def _owners(named: Sequence[Mention], words: Sequence[Word]) -> list[str]:
    """The machine each word is about: the one named in its part of the text, else the last one named before, else the first."""
    owners: list[str] = []
    last = named[0].appliance
    for first, end in parts(words):
        here = [m.appliance for m in named if first <= m.start < end]
        last = here[0] if here else last
        owners += [last] * (end - first)
        last = here[-1] if here else last
    return owners


def told_besides(
    opinion: Opinion, stated: Statements, machine: str, text: str, over: Mapping[tuple[str, str], frozenset[str]]
) -> Statements:
    """
    *stated* and what *opinion* tells of *machine*; it takes the place of a vague complaint and of hints of what is more general
    (*over*). What phrases denied stays so, unless the words tell it plainly.
    """
    known = {f.code for f in stated.symptoms if f.appliance in (machine, UNKNOWN)}
    phrased = any(f.appliance == machine and f.code != VAGUE for f in stated.symptoms)
    known.update(
        f.code
        for f in stated.denied
        if (phrased and f.code in _BY_THEIR_NAMES) or opinion.margins.get(f.code, -inf) < THOUGH_DENIED
    )
    known.update(code for code in stated.excused if opinion.margins.get(code, -inf) < THOUGH_EXCUSED)
    known |= stated.dismissed
    known |= told_again(opinion.margins, stated, machine, text)
    told = [
        code for code, margin in opinion.margins.items() if margin > TELLS and code not in known and code != NOTHING
    ]
    if stated.symptoms and any(f.code != VAGUE and f.appliance == machine for f in stated.symptoms):
        told = [code for code in told if opinion.margins[code] >= (BESIDES if code == opinion.code else SURE)]
    elif any(f.code == VAGUE and f.appliance == machine for f in stated.symptoms):
        told = [code for code in told if opinion.margins[code] >= THOUGH_VAGUE]
    elif len(told) > 1:
        first = max(told, key=opinion.margins.__getitem__)
        told = [code for code in told if code == first or opinion.margins[code] >= SECOND]
    if not told and not stated.symptoms:
        likely = [code for code in opinion.margins if code not in known and code != NOTHING]
        best = max(likely, key=opinion.margins.__getitem__, default=NOTHING)
        alone = TELLS if stated.excused or stated.dismissed else TELLS_ALONE
        least = max(alone, opinion.margins.get(NOTHING, TELLS_ALONE) + OVER_NOTHING)
        told = [best] if best != NOTHING and opinion.margins[best] > least else []
    for code in told:
        general = over.get((machine, code), frozenset())
        kept = tuple(f for f in stated.symptoms if f.appliance != machine or f.code not in general or not is_hint(f))
        denied = tuple(f for f in stated.denied if f.code != code or f.appliance not in (machine, UNKNOWN))
        stated = _with(opinion, code, replace(stated, symptoms=kept, denied=denied), machine, text)
    return stated


def _with(opinion: Opinion, code: str, stated: Statements, machine: str, text: str) -> Statements:
    words = text.strip()
    start = text.find(words)
    margin = opinion.margins[code]
    score = round(min(0.7, max(0.3, 0.5 + margin / 4)), 2)
    found = Found(machine, code, score, words, start, start + len(words), TOLD_TEXTS)
    carried = ", ".join(f"“{word}”" for word in opinion.because(code))
    note = f"{LEANT} {code} of {machine} (weighed {margin:+.2f}), for {carried}."
    clear = tuple(f for f in stated.symptoms if f.code != VAGUE or f.appliance not in (machine, UNKNOWN))
    return replace(stated, symptoms=(*clear, found), notes=(*stated.notes, note))
