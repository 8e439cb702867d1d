"""
Which machine a text tells of that names none: “fills up, then no swish, no slosh, my clothes sit in there like tea” is of a
washer, as any tradesperson would know. Told by all of its words, as customers mostly told of that machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.reading.model import Reading
from service.reading.opinion.second_opinion import NOTHING, SecondOpinion
from service.reading.words.normalising import Word

TELLS = 0.0
"""
The margin from which the words tell a machine; chosen, as the one below, on texts from which nothing had been learned: of 149
that name none, nine of ten were right.
"""

AHEAD = 0.2
"""So much more than any other machine, or than none, they must tell it."""

FEWEST = 8
"""Fewer words tell no machine: what is that short is named, or nobody knows, “el bote de basura huele mal”."""


_COMPLAINS = frozenset(["report_problem", "not_fixed", "book"])


class Inferring:
    """Infers the machine by *opinion*. *names*: the words machines are called by, of which nothing is learned."""

    def __init__(self, opinion: SecondOpinion, machines: tuple[str, ...], names: frozenset[str]) -> None:
        self._opinion, self._machines, self._names = opinion, machines, names

    def of(self, read: Reading, words: Sequence[Word]) -> str | None:
        """The machine that *words*, *read* as a complaint of none, tell of; None where they do not plainly tell one."""
        if read.appliances or read.hazards or read.doubted_hazards or not _COMPLAINS.issuperset(read.intents):
            return None
        forms = [word.form for word in words if word.form not in self._names]
        opinion = self._opinion.of(forms, self._machines) if len(forms) >= FEWEST else None
        if opinion is None:
            return None
        best = opinion.margins[opinion.code]
        others = max(margin for code, margin in opinion.margins.items() if code != opinion.code)
        return opinion.code if opinion.code != NOTHING and best > TELLS and best - others > AHEAD else None


def told_of(machine: str, read: Reading) -> Reading:
    """*read*, in the light of a *machine* that was inferred, with that machine named among its own."""
    note = f"Most like what is told of the {machine.replace('_', ' ')}, though none is named."
    machines = tuple(dict.fromkeys((machine, *read.appliances)))
    return replace(read, appliances=machines, notes=(*read.notes, note))
