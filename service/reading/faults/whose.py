"""Whose a phrase is where several machines are named: not one's that cannot have it, nor one's that comes only later."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from service.reading.machines.mentions import Mentions
from service.reading.words.clauses import Clause
from service.reading.words.matching import Hit

Codes = Mapping[str, Collection[str]]


def able_owner(owner: str | None, hit: Hit, mentions: Mentions, codes: Codes) -> str | None:
    """
    *owner*, or the one machine named before *hit* that can have what it cannot: “the dishwasher leaves a puddle under the
    stove”.
    """
    code = hit.payload.code
    if (
        hit.payload.kind != "symptom"
        or hit.payload.role != "sign"
        or owner is None
        or code in codes.get(owner, (code,))
    ):
        return owner
    allowed = hit.payload.appliances
    named = {m.appliance for m in mentions.found if not m.implied and m.start < hit.start}
    can = [a for a in named if code in codes.get(a, ()) and (not allowed or a in allowed)]
    return can[0] if len(can) == 1 else owner


def is_said_of_another(
    owner: str, hit: Hit, clause: Clause, mentions: Mentions, codes: Codes, own_of: Collection[tuple[str, int]]
) -> bool:
    """
    Whether a phrase that only *owner* has is said after another machine was named that can have the same fault, or does as
    much by its own rules (*own_of*: machines, with the words where they hear something): then it is that one's.
    """
    only_its = hit.payload.own or len(hit.payload.appliances) == 1
    last = mentions.last_before(hit.start) if only_its else None
    if last is None or last == owner:
        return False
    if not hit.payload.own or hit.payload.code not in codes.get(last, ()):
        return _is_as_much_of(last, owner, hit, mentions, own_of)
    return not any(m.appliance == owner and clause.start <= m.start < clause.end for m in mentions.found)


def _is_as_much_of(last: str, owner: str, hit: Hit, mentions: Mentions, own_of: Collection[tuple[str, int]]) -> bool:
    """“Washer: won't spin. Dryer: …”: the machine named *last* does so too, and *owner* is only named behind it."""
    if hit.payload.role != "function" or (last, hit.start) not in own_of:
        return False
    return not any(m.appliance == owner and m.start < hit.start for m in mentions.found)
