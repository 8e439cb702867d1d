"""
What people want by their words as a whole, beside the wordings that rules name: asked to come, called off, asked what it costs.

A wording of a word or two that the words as a whole speak clearly against is not believed; a longer one is said outright, and
a text too short to weigh is left to the wordings.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from service.reading.aims.parts_and_deeds import states_a_part
from service.reading.aims.unworded import ABOUT_PAYING, asks_who_pays
from service.reading.model import Asked
from service.reading.opinion.belying import WORDS_OF_A_PHRASE
from service.reading.opinion.second_opinion import NOTHING, SecondOpinion
from service.reading.words.asking import questions
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

WANTED = "Most like what is said by those who want"
"""How the note begins that says why an intent was taken from the words as a whole."""

NOT_WANTED = "Not heard as"
"""How the note begins that says which wording was not believed."""

WANTS = -0.15
"""
The margin from which the words as a whole say an intent; chosen, as the one below, on texts held apart from the learning. A
text stands one margin off the boundary where it is learned from.
"""

SURER = {
    "not_fixed": 0.1, "ask_help": -0.05, "fixed": 0.2, "cancel": 0.2, "book": 0.0, "talk_to_person": 0.2, "ask_warranty": 0.0,
    "reschedule": 0.0, "ask_status": 0.0,
}  # fmt: skip
"""
Higher margins, for what the words of a complaint ("still", "nothing", "the breaker") may sound like, and for what ends the
matter: a ticket closed for words that only sound so is a customer lost.
"""

BELIED = -0.7
"""The margin below which a wording of one or two words is not believed; a longer one is said outright."""

WANTS_TO_END_NOW = 0.6
"""The same while a question stands open."""

WORDS_TO_WEIGH = 4
"""Fewer words are not weighed."""

WORDS_BESIDE = 6
"""Fewer words are not weighed while a question stands open."""

BESIDE_AN_ANSWER = frozenset(["ask_help", "ask_price", "ask_status", "ask_warranty", "talk_to_person", "wrong_number"])
"""
What is taken from the words while a question stands open. "Don't want it" answers an offer then and calls no visit off, "it
works now" tells how a check went: what changes something takes a wording.
"""

_OF_THEMSELVES = ("check_result", "offer")
"""Questions whose plain answers sound so: "no thanks, dont want it" refuses a window."""


_WAY = frozenset(("way", "camino"))
_EITHER = frozenset(["fixed", "not_fixed"])
_ENDS = frozenset(["fixed", "cancel"])
_FORBIDS = frozenset(["dont", "not", "never", "no", "me", "didnt"])


@dataclass(frozen=True, slots=True)
class Wanted:
    """
    What a text wants. worded: the intents that wordings of the rules say, each with its wording. besides: those that the
    words as a whole say. notes: why, and what was not believed.
    """

    worded: Mapping[str, Hit]
    besides: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def intents(self) -> tuple[str, ...]:
        """All intents."""
        return (*self.worded, *self.besides)

    def with_wording(self, code: str, hit: Hit) -> Wanted:
        """The same with an intent that *hit* says, if no wording says it yet."""
        if code in self.worded:
            return self
        besides = tuple(one for one in self.besides if one != code)
        return replace(self, worded={**self.worded, code: hit}, besides=besides)


class Wanting:
    """What the words as a whole say of *intents*, of which *opinion* was taught."""

    def __init__(self, opinion: SecondOpinion, intents: Sequence[str]) -> None:
        self._opinion, self._intents = opinion, tuple(intents)

    def weighed(self, worded: Mapping[str, Hit], words: Sequence[Word], asked: Asked | None) -> Wanted:
        """What is wanted by *worded*, as far as the *words* do not speak against it, and besides by them."""
        if asked is not None and asked.kind == "payer" and not questions(words).marked:
            worded = {code: hit for code, hit in worded.items() if code != ABOUT_PAYING}
        if len(words) < (WORDS_TO_WEIGH if asked is None else WORDS_BESIDE):
            return Wanted(worded)
        opinion = self._opinion.of([word.form for word in words], self._intents)
        if opinion is None:
            return Wanted(worded)
        margins = {code: margin for code, margin in opinion.margins.items() if code != NOTHING}
        besides = tuple(code for code in _told(margins, worded) if _may_stand_beside(code, margins[code], asked, words))
        if "reschedule" in worded or "reschedule" in besides or "ask_price" in worded or _of_the_way(worded, words):
            besides = tuple(code for code in besides if code != "book")
        believed = {
            code: hit
            for code, hit in worded.items()
            if asked is not None
            or hit.length >= WORDS_OF_A_PHRASE
            or margins.get(code, 0.0) >= BELIED
            or (code in _ASKS_BRIEFLY and _is_a_brief_question(words, hit))
        }
        notes = [
            f"{WANTED} {code} (weighed {margins[code]:+.2f}), for {_quoted(opinion.because(code))}." for code in besides
        ]
        notes += [f"{NOT_WANTED} {code}: so people say something else." for code in worded if code not in believed]
        return Wanted(believed, besides, tuple(notes))


def _of_the_way(worded: Mapping[str, Hit], words: Sequence[Word]) -> bool:
    """Whether it is asked to be told when somebody is on the way: “me avisan cuando vengan en camino”."""
    return "ask_status" in worded and any(word.form in _WAY for word in words)


def _may_stand_beside(code: str, margin: float, asked: Asked | None, words: Sequence[Word]) -> bool:
    """Whether what the words say is taken though a question stands open; “my brother fixed it” ends most of them."""
    if (code == "cancel" and _is_forbidden(words)) or (code == "fixed" and _is_not_mended(words)):
        return False
    if asked is None:
        return code != ABOUT_PAYING or asks_who_pays(words)
    if code == ABOUT_PAYING and asked.kind == "payer" and not questions(words).marked:
        return False
    ends = code in _ENDS and margin > WANTS_TO_END_NOW and asked.kind not in _OF_THEMSELVES
    return ends or code in BESIDE_AN_ANSWER


_ASKS_BRIEFLY = frozenset(["ask_price", "ask_warranty"])
_SENTENCE = 2
"""How a word is marked that opens a sentence."""
_BRIEF = 4
"""A question of so few words is about what it names: “Precio?”, “Que costo tiene?”."""


def _is_a_brief_question(words: Sequence[Word], hit: Hit) -> bool:
    """Whether the wording *hit* is most of a short sentence that ends with a question mark."""
    first, last = hit.start, hit.end - 1
    while first > 0 and words[first].brk < _SENTENCE:
        first -= 1
    while last + 1 < len(words) and words[last + 1].brk < _SENTENCE:
        last += 1
    return words[last].asks and last + 1 - first <= _BRIEF


def _is_forbidden(words: Sequence[Word]) -> bool:
    """Whether a visit is not to be called off, or is only supposed to be: “dont cancel on me”, “is there a fee if i cancel”."""
    forms = [word.form for word in words]
    if any(forms[at - 1] == "if" and forms[at + 1].startswith("cancel") for at in range(1, len(forms) - 1)):
        return True
    return any(
        after.form.startswith("cancel") and (before.form in _FORBIDS or before.en == "not")
        for before, after in pairwise(words)
    )


def _is_not_mended(words: Sequence[Word]) -> bool:
    """Whether it is told not to have worked, or only that a part is clean."""
    return _fails_to_work(words) or states_a_part(words)


def _fails_to_work(words: Sequence[Word]) -> bool:
    """Whether something is told not to have worked: “it hasnt worked since tuesday”."""
    return any(after.form.startswith("work") and before.en == "not" for before, after in pairwise(words))


def _told(margins: Mapping[str, float], worded: Mapping[str, Hit]) -> Iterator[str]:
    """What the words tell beside what is *worded*; of mended and not mended the one that is worded or likelier."""
    mended = _EITHER & worded.keys() or {max(_EITHER, key=lambda code: (margins.get(code, -9.0), code))}
    for code, margin in margins.items():
        if margin > SURER.get(code, WANTS) and code not in worded and (code not in _EITHER or code in mended):
            yield code


def _quoted(words: Sequence[str]) -> str:
    return ", ".join(f"“{word}”" for word in words)
