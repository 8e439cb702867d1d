"""Whose a phrase or a code is where several machines are named: not one's that cannot have it, nor one's that comes later."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping

from service.reading.machines.mentions import Mention, Mentions
from service.reading.words.clauses import Clause
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal

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
    return not any(
        m.appliance == owner and clause.start <= m.start < clause.end and not _is_left_behind(m, last, hit, mentions)
        for m in mentions.found
    )


_NEAR = 4
"""How far from what is said of it a machine may be named behind it, in words: “no arranca la secadora”."""


def _is_left_behind(of: Mention, last: str, hit: Hit, mentions: Mentions) -> bool:
    """
    Whether the machine named at *of* is not the one a run-on text speaks of at *hit*: another, *last*, was named after it (“la
    secadora también, la lavadora no arranca”), not in one breath with it; or it is named only long after.
    """
    if of.start >= hit.start:
        return of.start - hit.end > _NEAR
    return any(
        not m.implied and m.appliance == last and m.start - of.end > _NEAR and m.end <= hit.start
        for m in mentions.found
    )


def _is_as_much_of(last: str, owner: str, hit: Hit, mentions: Mentions, own_of: Collection[tuple[str, int]]) -> bool:
    """“Washer: won't spin. Dryer: …”: the machine named *last* does so too, and *owner* is only named behind it."""
    if hit.payload.role != "function" or (last, hit.start) not in own_of:
        return False
    return not any(m.appliance == owner and m.start < hit.start for m in mentions.found)


def shows_it(code: str, about: str, mentions: Mentions, normal: Normal) -> str:
    """Which machine shows *code*: the one named last before it, where several are (“la lavadora …, y la secadora dice dE”)."""
    places = [told.start() for told in re.finditer(rf"\b{re.escape(code.lower())}\b", normal.folded)]
    at = next((n for n, word in enumerate(normal.words) if word.end > places[-1]), 0) if places else 0
    return mentions.last_before(at) or about
