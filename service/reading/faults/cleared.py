"""
Machines cleared of what was found near them: “the puddle was the dog bowl, nothing wrong with the dishwasher”, “el charco fue
mi nieto, no el refri”.

Told is what it was in truth, and that it was not the machine; either alone clears nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.machines.mentions import UNKNOWN, Mentions
from service.reading.model import Found
from service.reading.words.normalising import Normal

_WHAT = {
    "leak": r"(?:water|puddles?|leaks?|agua|charc(?:o|ito)|fuga|gotera|goteo)",
    "odor": r"(?:smell|stink|odor|stench|olor|peste|ol[ií]a(?: \w+)?(?: la \w+)?|apestaba(?: \w+)?)",
    "noise": r"(?:noise|sound|banging|racket|rattling|squeak(?:ing)?|ruid(?:o|ajo|ito)|sonido|golpeteo)",
}
_WAS = (
    r"(?:was|were|is|turned out(?: to be| it was)?|came from|comes from|(?:is|was) coming from|eran?|fue(?:ron)?|venia de|"
    r"viene de|resulto(?: ser)?|salia de|sale de)"
)
_SOURCE = (
    r"(?: (?:just|only|actually|really|from|nomas|pur[oa]|la de|lo de))*"
    r" (?:the|my|our|a|an|some|el|la|un[oa]?s?|mi|mis|del?|los|las|pur[oa]) "
    r"(?!lot\b|bit\b|little\b|problem|issue|hose\b|door\b|pump\b|drum\b|motor|manguera|puerta|bomba|maquina|machine|parte|last\b|"
    r"first\b|same\b|one\b|que\b|mism[oa])\w+"
)
_EXPLAINED = {
    code: re.compile(
        rf"\b{what}(?: (?!not\b|no\b|wont\b|isnt\b|wasnt\b)[\w']+){{0,6}}?,?(?: pero| but)? {_WAS}{_SOURCE}"
    )
    for code, what in _WHAT.items()
}
_NOT_IT = re.compile(
    r"\b(?:nothing wrong with|no problem with|not|never|wasn'?t|isn'?t|aint|no fue|no era|no es|ni|y no|, no|\. no)"
    r"(?: (?:the|my|our|el|la|mi|from|del|de la|a la|at all))* $"
)
_BLAMELESS = re.compile(
    r"(?: itself)?(?: (?:is|was|esta|anda))?(?: (?:totally|all|muy|todo|perfectly))? "
    r"(?:fine|ok|okay|dry|good|innocent|bien|sec[oa]|nada que ver|had nothing to do|no tiene (?:nada|la culpa|que ver)|"
    r"no (?:huele|gotea|tira|suena|se le sale|fue|era|es)|n'?t (?:leak|smell)\w*)\b"
)
_SCORE = 0.8
CLEARED = "cleared"
"""The rule of such a denial."""


def cleared(stated: Statements, mentions: Mentions, normal: Normal) -> Statements:
    """*stated* with what a machine is cleared of denied, where it is told what that was in truth."""
    for code, told in _explained(normal.folded):
        for machine in dict.fromkeys(_blameless(mentions, normal)):
            stated = _without(stated, machine, code, told, normal)
    return stated


def _explained(folded: str) -> Iterator[tuple[str, re.Match[str]]]:
    for code, pattern in _EXPLAINED.items():
        told = pattern.search(folded)
        if told:
            yield code, told


def _blameless(mentions: Mentions, normal: Normal) -> Iterator[str]:
    """The machines that are said to have nothing to do with it."""
    for mention in mentions.found:
        first, last = normal.words[mention.start].start, normal.words[mention.end - 1].end
        if _NOT_IT.search(normal.folded[:first]) or _BLAMELESS.match(normal.folded, last):
            yield mention.appliance


def _without(stated: Statements, machine: str, code: str, told: re.Match[str], normal: Normal) -> Statements:
    """*stated* with *code* of *machine* denied, unless it is told elsewhere too."""

    def of_it(found: Found) -> bool:
        return found.appliance in (machine, UNKNOWN) and found.start < told.end() and found.end > told.start()

    if any(f.code == code and f.appliance == machine and not of_it(f) for f in stated.symptoms):
        return stated
    kept = tuple(f for f in stated.symptoms if not of_it(f))
    denied = tuple(f for f in stated.denied if not (f.code == code and f.appliance in (machine, UNKNOWN)))
    first, last = told.span()
    gone = Found(machine, code, _SCORE, normal.text[first:last], first, last, rule=CLEARED)
    note = f"“{gone.words}” tells what it was in truth: no {code} of {machine}."
    return replace(stated, symptoms=kept, denied=(*denied, gone), notes=(*stated.notes, note))
