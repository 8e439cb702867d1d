"""
Hints that the words as a whole speak against: signs of a word or a few, which say one thing here and another there.

What an explicit phrase of more words told is never touched.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.faults.symptoms import VAGUE
from service.reading.model import Found
from service.reading.opinion.second_opinion import Opinion

NOT_TAKEN = "Not taken as"
"""How the note begins that says which hint was not believed."""

BELIED = -1.2
"""
What the margins of the text and of the part of it around a hint come to, below which the hint is not believed; chosen on
texts held apart from the learning, as is the one below.
"""

BELIED_THOUGH_LONGER = -1.5
"""The same for a sign of three words, which is surer by itself."""

WORDS_OF_A_PHRASE = 3
"""A sign heard in fewer words is a hint and no explicit phrase: "goes off", "hot" say one thing here and another there."""

OUTWEIGHED = -0.3
"""
The margin below which a hint is not believed beside what is told of the same machine and stands ...; chosen, as that below, on
texts of writers from whom nothing had been learned.
"""

CLEARER = 0.3
"""... so much clearer: “dead, not even a click” tells no noise."""

BY_FORM = "reader."
"""How the rules of what is known by its form begin: “E24”."""

WORDS_OUTWEIGHED = 3
"""A sign of so many words gives way to what is clearer; one of more stands, whatever else is told."""


_VERBS = {
    "no_agitate": ("agit",),
    "no_fill": ("fill", "llen"),
    "no_spin": ("spin", "exprim", "centrif"),
    "no_tumble": ("tumbl",),
    "not_cooling": ("enfri",),
}
"""How the verb begins that a fault is the failure of and that means nothing else: “its not filling”."""


def _is_its_own_verb(found: Found) -> bool:
    return found.words.lower().startswith(_VERBS.get(found.code, ("\0",)))


def is_hint(found: Found, fewer_than: int = WORDS_OF_A_PHRASE) -> bool:
    """Whether *found* was heard in so few words that it may be belied; “E24” is sure by its form, “7C” may be a door."""
    if (found.rule.startswith(BY_FORM) and found.words[:1].isalpha()) or _is_its_own_verb(found):
        return False
    return found.code != VAGUE and found.words.count(" ") < fewer_than - 1


def _nothing_added(_: Found) -> bool:
    return False


def unbelied(
    opinion: Opinion,
    stated: Statements,
    span: tuple[int, int],
    around: Callable[[Found], Opinion | None],
    added: Callable[[Found], bool] = _nothing_added,
) -> Statements:
    """
    *stated* without the hints in *span* that *opinion* belies, and what the part of the text *around* them tells by itself:
    "goes off" is heard as a stop, and told of an alarm. Around a part too short to tell anything the whole text speaks alone,
    unless the hint is *added* to the rest as something more.
    """
    first, end = span
    hints = [f for f in stated.symptoms if first <= f.start < end and is_hint(f, WORDS_OUTWEIGHED + 1)]
    short = [f for f in hints if not added(f)]
    doubted = [f for f in short if _against(opinion, f) < 0]
    return _without(
        stated, [f for f in doubted if _against(opinion, f) + _against(around(f) or opinion, f) < _enough_against(f)]
    )


def _against(opinion: Opinion, found: Found) -> float:
    return opinion.margins.get(found.code, 0.0)


def _enough_against(found: Found) -> float:
    return BELIED if is_hint(found) else BELIED_THOUGH_LONGER


def unoutweighed(
    opinion: Opinion,
    stated: Statements,
    span: tuple[int, int],
    machine: str,
    around: Callable[[Found], Opinion | None],
    added: Callable[[Found], bool] = _nothing_added,
) -> Statements:
    """
    *stated* without the hints of *machine* in *span* beside which something else of it stands much clearer, and that the part
    of the text *around* them does not tell by itself; what is *added* to the rest stays.
    """
    first, end = span
    own = [f for f in stated.symptoms if f.appliance == machine and f.code != VAGUE]

    def gives_way(found: Found) -> bool:
        margin = opinion.margins.get(found.code, 0.0)
        clearer = (g for g in own if g.code != found.code and opinion.margins.get(g.code, 0.0) > margin + CLEARER)
        if margin >= OUTWEIGHED or not any(clearer) or added(found):
            return False
        part = around(found)
        return part is None or part.margins.get(found.code, 0.0) < 0

    return _without(
        stated, [f for f in own if first <= f.start < end and is_hint(f, WORDS_OUTWEIGHED + 1) and gives_way(f)]
    )


def _without(stated: Statements, belied: Iterable[Found]) -> Statements:
    belied = list(belied)
    if not belied:
        return stated
    notes = tuple(
        f"{NOT_TAKEN} {f.code} for “{f.words}”: in such words customers tell of something else." for f in belied
    )
    kept = tuple(f for f in stated.symptoms if f not in belied)
    return replace(stated, symptoms=kept, notes=(*stated.notes, *notes))
