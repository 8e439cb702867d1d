"""Two codes told of one machine that are one complaint: dead or not starting, a motor that hums for the drum it cannot turn."""

from __future__ import annotations

import re
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.words.normalising import Normal

_DEAD, _WAITS, _NOISE = "dead", "no_start", "noise"
_DARK = re.compile(
    r"\b(dead|muert[oa])\b|\b(no|ni|sin|zero|nor|nothing|any|ningun\w*)\s+(una?\s+|the\s+|de\s+)?(light|lights|luz|luces|lucecita|lucecitas|power|display)\b"
)
_LIT = re.compile(
    r"\b(lights?|luz|luces|lucecitas?|display|panel)\b.{0,25}\b"
    r"(s[ií] (se )?pre?i?nden?|(do|does|still) come|comes? on|(is|are) (on|lit))"
)

_STANDS = {"dryer": "no_tumble"}
"""What stands still while its motor hums."""
_HUMS = re.compile(r"hum|zumb")


def one_of_two(stated: Statements, normal: Normal) -> Statements:
    """*stated* with one code where two tell the same of a machine."""
    told = {(f.appliance, f.code) for f in stated.symptoms}
    gone: set[tuple[str, str]] = set()
    for machine in {appliance for appliance, _ in told}:
        if {(machine, _DEAD), (machine, _WAITS)} <= told:
            text = normal.text.lower()
            gone.add((machine, _WAITS if _DARK.search(text) and not _LIT.search(text) else _DEAD))
    kept = tuple(
        f
        for f in stated.symptoms
        if (f.appliance, f.code) not in gone
        and not (
            f.code == _NOISE
            and (f.appliance, _STANDS.get(f.appliance, "")) in told
            and _HUMS.search(f.words.lower()) is not None
        )
    )
    return replace(stated, symptoms=kept) if len(kept) < len(stated.symptoms) else stated
