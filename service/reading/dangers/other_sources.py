"""
Smoke, fire and smells that are told to come from something else than a machine: a grill, candles, a neighbour, a wildfire,
dinner, the litter box.

What counts is the grammar that holds the source to the danger: “smoke from the campfire”, “the smell is the brownies”, “grandma
lights candles so it smells burnt”. A machine named between them, a doubt or a “not” unties them; and a danger told besides is
judged by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.outside import (
    burnt_for_its_smell,
    comes_in,
    leaks_gasoline,
    of_pan_or_grill,
    of_the_belly,
    on_the_road,
    roasted,
    worn,
)
from service.reading.dangers.source_words import (
    ADDING,
    BEFORE_BURNT,
    BETWEEN,
    COOKED,
    COOKING,
    DOUBTED,
    FOR_CAUSE,
    GAS_SOURCES,
    GAS_THINGS,
    LINKS,
    MACHINES,
    MEANT_FIRES,
    OF_A_MACHINE,
    OUTDOORS,
    PLACED,
    ROOMS,
    RUBBISH,
    SO,
    SOURCES,
    TELLING_WHAT,
    TIMES,
    UNTYING,
    VEHICLES,
)
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

SMELT = frozenset(["smoke", "fire", "burning_smell", "gas_smell"])

_BEHIND = 12
"""How many words behind the danger its source may stand, ..."""
_LINK = 6
"""... how far before the source the word that ties it to the danger, ..."""
_BEFORE = 8
"""... how many words before it a source may stand that is told to have made it, ..."""
_CAUSE = 9
"""... and how far behind “because” what somebody burns or cooks."""


def comes_from_elsewhere(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is told, as sure, to come from something that is no machine."""
    code = hit.payload.code
    if code not in SMELT:
        return False
    inside = {word.form for word in words[hit.start : hit.end]}
    if inside & MACHINES or _comes_from_a_machine(hit, words):
        return False
    if code == "gas_smell":
        return (
            _tied_behind(hit, words, GAS_SOURCES, TELLING_WHAT)
            or of_the_belly(hit, words)
            or _because(hit, words, GAS_THINGS)
            or leaks_gasoline(hit, words)
        )
    if code == "fire":
        return _tied_behind(hit, words, MEANT_FIRES, LINKS | PLACED)
    places = OUTDOORS if code == "smoke" else frozenset()
    return (
        _tied_behind(hit, words, SOURCES | COOKED | (VEHICLES if code == "smoke" else frozenset()), LINKS)
        or _tied_behind(hit, words, places, PLACED)
        or _because(hit, words, SOURCES | COOKED | COOKING)
        or on_the_road(hit, words)
        or comes_in(hit, words)
        or of_pan_or_grill(hit, words)
        or worn(hit, words)
        or roasted(hit, words)
        or burnt_for_its_smell(hit, words)
        or _made_before(hit, words)
    )


_COMING = frozenset(["coming", "comes", "came", "pouring", "leaking", "sale", "saliendo", "viene", "salia"])
_OUT_OF = frozenset(
    ["from", "off", "out", "of", "behind", "under", "through", "de", "del", "por", "detras", "inside", "straight"]
)
_WITHIN = 6


def _comes_from_a_machine(hit: Hit, words: Sequence[Word]) -> bool:
    """“I figured the smoke smell was me. nope, it is still coming off the back of the fridge”."""
    for at in range(hit.end, len(words) - 1):
        if words[at].form in _COMING and words[at + 1].form in _OUT_OF:
            for word in words[at + 1 : at + 1 + _WITHIN]:
                if word.brk == 2 or word.form in SOURCES:
                    break
                if word.form in MACHINES:
                    return True
    return False


def is_told_to_be(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether it is told what *hit* was: “the gas smell was the trash” says that there was no gas."""
    if turned_out(hit, words):
        return True
    return hit.payload.code == "gas_smell" and _tied_behind(hit, words, GAS_SOURCES, TELLING_WHAT)


def names_a_machine(words: Sequence[Word]) -> bool:
    """Whether a machine or a part of one is named among *words*."""
    return any(word.form in MACHINES for word in words)


def of_the_kitchen(words: Sequence[Word]) -> bool:
    """Whether *words* tell of what is cooked, burnt for its smell, or smoked."""
    return any(word.form in SOURCES or word.form in COOKED or word.form in COOKING for word in words)


def _tied_behind(hit: Hit, words: Sequence[Word], sources: frozenset[str], links: frozenset[str]) -> bool:
    if _doubted(hit, words):
        return False
    tied = -_LINK - 1
    for at in range(hit.start + 1, min(hit.end + _BEHIND, len(words))):
        word = words[at]
        if word.brk == 2 and word.form not in TELLING_WHAT and word.form not in BETWEEN:
            return False
        if (
            word.form in sources
            and (at >= hit.end or sources is not GAS_SOURCES)
            and at - tied <= _LINK
            and words[at - 1].form not in OF_A_MACHINE
        ):
            return not _machine_follows(at, words)
        if at >= hit.end and (
            word.form in MACHINES | TIMES or (word.form in UNTYING and not _turns_to_what(at, words))
        ):
            return False
        if word.form in links:
            tied = at
    return False


def _doubted(hit: Hit, words: Sequence[Word]) -> bool:
    return any(word.form in DOUBTED for word in words[max(0, hit.start - 5) : hit.start])


def _turns_to_what(at: int, words: Sequence[Word]) -> bool:
    """“huele a quemado but its her copal”, “humo sí pero de los chiles”, “que se inundó y era la cubeta”."""
    behind = words[at + 1].form if at + 1 < len(words) else ""
    if words[at].form == "si" or words[at].form in _YES:
        return behind in ("but", "pero")
    if words[at].form in BETWEEN:
        return behind in _WAS or behind == "it"
    return words[at].form in ("but", "pero") and (behind in TELLING_WHAT or behind in ("de", "del", "from"))


_LAUGHS = frozenset(["lol", "jaja", "jajaja", "haha", "hahaha", "lmao", "joy", "laughing"])
_YES = frozenset(["yes", "yeah"])


def _machine_follows(at: int, words: Sequence[Word]) -> bool:
    """“from the grill and the dryer”, “in the street by the dryer vent”; not “the grill and the washer won't drain”."""
    added = False
    for nth in range(at + 1, min(at + 5, len(words))):
        word = words[nth]
        if word.brk == 2 or word.form in _LAUGHS or word.emoji or (word.brk and word.form not in ADDING):
            return False
        added = added or word.form in ADDING
        if word.form in MACHINES:
            return (
                not added
                or nth + 1 >= len(words)
                or words[nth + 1].brk > 0
                or words[nth + 1].form in ("too", "tambien")
            )
    return False


def _because(hit: Hit, words: Sequence[Word], sources: frozenset[str]) -> bool:
    """“house reeks of smoke because my brother was frying fish”, “garage smells like gas because of the mower”."""
    for at in range(hit.start + 1, min(hit.end + 7, len(words))):
        form = words[at].form
        if words[at].brk == 2 or (at >= hit.end and (form in MACHINES or form in UNTYING)):
            return False
        if form in FOR_CAUSE:
            for nth, word in enumerate(words[at + 1 : at + 1 + _CAUSE], at + 1):
                if word.brk == 2 or word.form in MACHINES or word.form in UNTYING - BETWEEN:
                    return False
                if word.form in sources:
                    return not _machine_follows(nth, words)
            return False
    return False


def _made_before(hit: Hit, words: Sequence[Word]) -> bool:
    """“incense smoke”, “grandma lights candles so it smells burnt”, “burned the toast and the kitchen is full of smoke”."""
    if _origin_follows(hit, words):
        return False
    so = any(word.form in SO and word.form != "set" for word in words[hit.start : hit.end])
    filled = any(
        word.form in ROOMS or word.form == "everywhere"
        for word in words[hit.start - 3 if hit.start > 3 else 0 : hit.end + 3]
    )
    for at in range(hit.start - 1, max(-1, hit.start - _BEFORE - 1), -1):
        form = words[at].form
        if form in SOURCES or form in COOKING or form in COOKED or form in RUBBISH:
            if names_a_machine(words[max(0, at - 3) : at]):
                return False
            return (
                (so and form not in RUBBISH)
                or (filled and form in COOKED | MEANT_FIRES)
                or _burnt_or_beside(at, hit, words)
            ) and not any(word.form in UNTYING for word in words[max(0, at - 5) : at])
        if words[at + 1].brk == 2 or form in MACHINES or (form in UNTYING and form not in BETWEEN and form != "like"):
            return False
        if form in TIMES:
            return False
        so = so or form in SO or form in ("con", "with")
    return False


def _burnt_or_beside(at: int, hit: Hit, words: Sequence[Word]) -> bool:
    if words[at].form in SOURCES and at == hit.start - 1 and not words[hit.start].brk:
        return True
    return words[at].form in COOKED | RUBBISH and any(word.form in BEFORE_BURNT for word in words[max(0, at - 4) : at])


_FOUND_OUT = (
    ("turns", "out"),
    ("turned", "out"),
    ("resulta", "que"),
    ("resulto", "que"),
    ("ended", "up"),
    ("found", "out"),
)
_TURNED = (
    ("turned", "out"),
    ("turns", "out"),
    ("ended", "up"),
    ("resulto", "ser"),
    ("resulto", "que"),
    ("resulta", "que"),
)
_US = frozenset(
    [("is", "us"), ("its", "us"), ("is", "me"), ("thats", "us"), ("thats", "me"), ("its", "me"), ("somos", "nosotros")]
)
_WAS = frozenset(["was", "is", "were", "era", "eran", "es", "fue"])


def turned_out(hit: Hit, words: Sequence[Word]) -> bool:
    """“turns out the burning smell was my roommate's curling iron”, “ya se apago el asador, that's what the smoke was”."""
    if hit.payload.code not in SMELT:
        return False
    before = [word.form for word in words[max(0, hit.start - 4) : hit.start]]
    if any((a.form, b.form) in _US and b.form in ("us", "me") for a, b in pairwise(words[hit.end : hit.end + 6])):
        return not any(word.form in MACHINES for word in words[hit.start : hit.end + 6])
    if tuple(word.form for word in words[hit.end : hit.end + 2]) in _US:
        return True
    if before[-3:] == ["thats", "what", "the"] or before[-2:] in (["eso", "era"], ["thats", "what"]):
        return True
    for at in range(hit.end, min(hit.end + 8, len(words) - 2)):
        if (words[at].form, words[at + 1].form) in _TURNED:
            return not any(w.form in MACHINES | UNTYING for w in words[at + 2 : at + 8])
    if not any(pair in _FOUND_OUT for pair in pairwise(before)) or hit.end >= len(words):
        return False
    told = words[hit.end + 1 : hit.end + 5]
    return words[hit.end].form in _WAS and bool(told) and not any(w.form in MACHINES | UNTYING for w in told)


def _origin_follows(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether a machine is named right behind *hit*, in one breath: “... smoke out the back of the stove”."""
    for at in range(hit.end, min(hit.end + 8, len(words))):
        word = words[at]
        if word.brk or word.form in ADDING or (word.form in FOR_CAUSE and _the_hood_fails(at, words)):
            return False
        if word.form in MACHINES or word.form in ("back", "behind", "atras", "under", "abajo"):
            return True
    return False


_HOODS = frozenset(["hood", "campana", "extractor", "vent", "fan"])


def _the_hood_fails(at: int, words: Sequence[Word]) -> bool:
    """“... got all smoky because the vent hood doesn't pull”: the hood is why it stays, not where it comes from."""
    return any(word.form in _HOODS for word in words[at + 1 : at + 5])
