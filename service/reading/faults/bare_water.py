"""“Dishwasher. Lights on. No water”: a part of a text that says no more than that there is none, of a machine that takes it."""

from __future__ import annotations

from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.machines.mentions import Mentions
from service.reading.model import Found
from service.reading.words.normalising import Normal

_FAILS = {"dishwasher": "no_fill", "washer": "no_fill", "ice_maker": "no_fill", "refrigerator": "no_water"}
_SCORE = 0.7
_NO, _WATER = frozenset(["no", "sin"]), frozenset(["water", "agua"])
_COMES = frozenset(["in", "coming", "at", "all", "entering", "into", "it", "getting", "adentro"])
"""What may follow: “no water in”, “no water at all”."""


def without_water(stated: Statements, mentions: Mentions, normal: Normal) -> Statements:
    """*stated*, and that no water comes where nothing else is told and a part of the text says just that there is none."""
    named = {m.appliance for m in mentions.found if not m.implied} or {mentions.about or ""}
    machine = next(iter(named)) if len(named) == 1 else ""
    code = _FAILS.get(machine)
    if stated.symptoms or code is None or any(f.code in ("leak", code) for f in stated.denied):
        return stated
    words = normal.words
    for at in range(len(words) - 1):
        opens = words[at].brk > 0 and words[at].form in _NO and words[at + 1].form in _WATER and not words[at + 1].brk
        end = at + 2
        while opens and end < len(words) and not words[end].brk and words[end].form in _COMES:
            end += 1
        if opens and (end == len(words) or words[end].brk) and not words[at].asks:
            start, stop = words[at].start, words[end - 1].end
            found = Found(machine, code, _SCORE, normal.text[start:stop], start, stop, f"reader.{code}")
            return replace(stated, symptoms=(found,))
    return stated
