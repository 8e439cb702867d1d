"""Which machine a danger is told of, where a text names several: “washer leaks a bit and there is smoke from the dryer”."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.reading.machines.mentions import Mention, Mentions
from service.reading.model import HazardFound
from service.reading.words.normalising import Word
from service.reading.words.sentences import parts


def placed(raised: Sequence[HazardFound], mentions: Mentions, words: Sequence[Word]) -> tuple[HazardFound, ...]:
    """
    *raised*, each with its machine where *words* name more than one: that named nearest in the same part of the text, else
    the last one before. What the words raise as a whole is told of none.
    """
    named = [mention for mention in mentions.found if not mention.implied]
    if not raised or len({mention.appliance for mention in named}) < 2:
        return tuple(raised)
    return tuple(replace(hazard, appliance=_of(hazard, named, words)) for hazard in raised)


def _of(hazard: HazardFound, named: Sequence[Mention], words: Sequence[Word]) -> str | None:
    told = [at for at, word in enumerate(words) if hazard.start <= word.start < hazard.end]
    if not told or len(told) == len(words):
        return None
    first, last = told[0], told[-1]
    for begin, end in parts(words):
        here = [mention for mention in named if begin <= mention.start < end]
        if begin <= first < end and here:
            return min(here, key=lambda m: max(first - m.end + 1, m.start - last, 0)).appliance
    before = [mention for mention in named if mention.start <= first]
    return (before[-1] if before else named[0]).appliance
