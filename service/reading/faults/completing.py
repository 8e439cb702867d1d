"""What follows for the symptoms from the rest of a text: a code that is shown, a visit wanted, words that are no complaint."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import replace
from itertools import pairwise

from service.reading.faults.bare_water import without_water
from service.reading.faults.one_of_two import one_of_two
from service.reading.faults.stated import Statements
from service.reading.faults.symptoms import VAGUE
from service.reading.faults.upkeep import ails, without_the_sound
from service.reading.faults.whose import shows_it
from service.reading.machines.mentions import UNKNOWN, Mentions
from service.reading.model import Asked, Found
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal

_NO_COMPLAINT = frozenset(
    ["offer", "access", "payer", "name", "address", "postal_code", "phone", "photo", "brand", "age", "model", "serial"]
)
"""Questions whose answers use the words of a vague complaint ("none of those work")."""


_OF_THE_PLACE = frozenset(["door_fault", "noise", "broken_part", "vibration", "error_code"])
"""“The side door, the front one sticks, the dogs are loud, the code is 3390”: told of the house where that was asked."""

_WATER = frozenset(["flooding", "water_near_power"])
_BESIDE_WATER = frozenset(["overfill", "controls_fault"])
_BESIDE_A_FLOOD = _BESIDE_WATER | {"broken_part", "noise", "vibration"}
"""What may be told beside water that is a danger, and beside water that runs out, which is a leak all the same."""

_SPREADS = re.compile(
    r"floor|carpet|over the|towel|stairs|hall|bucket|everywhere|downstairs|piso|pasillo|desbord|derram|alfombra|toalla|regad"
)
"""Where water is that has run out of what it overfills."""

_HOLD_WATER = frozenset(["washer", "dishwasher", "refrigerator", "ice_maker", "disposal", "freezer"])

_ALARMS = frozenset(["noise", "odor", "wont_stop", "door_fault"])
"""What a danger's own words can sound like where no machine is named: an alarm that beeps, water that cannot be shut off."""

_SILENT = frozenset(["dead", "no_start"])
"""“No lights, no beep, nothing” says that the machine is dead, not that it makes no noise."""

_IMPLIED = {
    "not_cooling": frozenset(["warm_fridge", "warm_freezer"]),
    "vibration": frozenset(["no_agitate", "no_tumble", "no_spin", "jammed", "dead"]),
}
"""What a denial says nothing new beside: that the other half cools, that what stands does not shake."""

_TO_THE_END = ("cycle", "ciclo", "way through", "end")
_STARTS = ("start", "arranc", "empiez", "empez", "kick")
"""How words begin that tell that it starts; that it runs is told of everything that does not stand still."""

_A_DANGERS_OWN = {
    "burning_smell": frozenset(["odor", "overheat", "damages_load"]),
    "carbon_monoxide": frozenset(["noise", "wont_stop", "overheat", "error_code", "stops_midcycle"]),
    "fire": frozenset(["stops_midcycle"]),
    "flooding": frozenset(["wont_stop", "door_fault", "wet_load"]),
    "gas_smell": frozenset(["odor", "noise"]),
    "hot_wiring": frozenset(["overheat", "dead"]),
    "refrigerant_leak": frozenset(["odor", "noise"]),
    "shock": frozenset(["noise", "vibration"]),
    "smoke": frozenset(["odor", "overheat"]),
    "sparks": frozenset(["clicks_nonstop", "noise"]),
}
"""What a danger's own smell, sound, spark or heat would be as a symptom: no complaint where but a word or two say so."""


def completed(
    stated: Statements,
    mentions: Mentions,
    facts: Mapping[str, object],
    heard: Mapping[str, Hit],
    asked: Asked | None,
    normal: Normal,
    *,
    dangers: Collection[str],
    cleared: Collection[str],
) -> Statements:
    """
    What follows from the rest of the text: a code that is shown is the symptom error_code; a visit wanted for a named
    machine, with nothing said of what is wrong, is a vague complaint; water that runs out of a machine of which nothing
    else is told is its leak. *dangers*: the hazards raised; *cleared*: those denied.
    """
    danger = bool(dangers)
    stated = without_water(of_its_half(stated), mentions, normal) if asked is None else of_its_half(stated)
    stated = _without_what_is_over(stated, mentions, facts, heard, normal)
    no_machine = not mentions.found and mentions.about is None and ("reschedule" in heard or "wish" in facts)
    if danger or no_machine or (asked is not None and asked.kind in _NO_COMPLAINT):
        stated = replace(stated, symptoms=tuple(f for f in stated.symptoms if f.code != VAGUE))
    if asked is not None and asked.kind in ("access", "address") and not mentions.found:
        stated = replace(stated, symptoms=tuple(f for f in stated.symptoms if f.code not in _OF_THE_PLACE))
    if danger and not mentions.found and mentions.about is None:
        stated = replace(stated, symptoms=tuple(f for f in stated.symptoms if f.code not in _ALARMS))
    own = frozenset[str]().union(*(_A_DANGERS_OWN.get(code, ()) for code in dangers))
    if own:
        kept = tuple(f for f in stated.symptoms if f.code not in own or f.words.count(" ") > 1)
        stated = replace(stated, symptoms=kept)
    asked_after = [asked.code] if asked is not None and asked.code else []
    if asked_after:
        stated = replace(stated, symptoms=tuple(f for f in stated.symptoms if not _echoes(f, asked_after[0])))
    own_of_all = own.union(*(_A_DANGERS_OWN.get(code, ()) for code in (*cleared, *asked_after)))
    told = {(f.appliance, f.code) for f in stated.symptoms}
    if stated.denied:
        denied = [f for f in stated.denied if f.code not in own_of_all]
        implied = frozenset(f.code for f in denied if f.code in _IMPLIED and _goes_without_saying(f, told))
        kept = tuple(f for f in denied if not _goes_without_saying(f, told))
        stated = replace(stated, denied=kept, dismissed=stated.dismissed | implied)
    silent = {f.appliance for f in stated.symptoms if f.code in _SILENT}
    if silent and stated.denied:
        stated = replace(
            stated,
            denied=tuple(
                f for f in stated.denied if not (f.code == "noise" and f.appliance in silent and _is_any_sound(f))
            ),
        )
    of_both = _of_both(stated.symptoms, mentions, normal)
    if of_both:
        stated = replace(stated, symptoms=(*stated.symptoms, *of_both))
    about = mentions.found[0].appliance if mentions.found else mentions.about or UNKNOWN
    codes = {found.code for found in stated.symptoms}
    code = facts.get("code")
    over = any(f.code == "error_code" for f in stated.denied)
    if code is not None and not over and "error_code" not in codes:
        sure = tuple(f for f in stated.symptoms if f.code != VAGUE)
        found = _whole("error_code", shows_it(str(code), about, mentions, normal), 0.85, str(code), normal)
        return replace(stated, symptoms=(*sure, found))
    if _WATER & set(dangers) and mentions.found and not codes - _beside_water(about, dangers, normal) and asked is None:
        return replace(stated, symptoms=(*stated.symptoms, _whole("leak", about, 0.7, normal.text, normal)))
    wanted = "book" in heard and not danger and not {"cancel", "reschedule", "fixed", "ask_status"} & set(heard)
    if wanted and not codes and asked is None and any(not m.implied for m in mentions.found) and ails(normal.words):
        return replace(stated, symptoms=(_whole(VAGUE, about, 0.5, normal.text, normal),))
    return stated


def _beside_water(machine: str, dangers: Collection[str], normal: Normal) -> frozenset[str]:
    """What may be told of *machine* beside water that runs out of it or stands at its plug; too much of it is yet inside."""
    if machine not in _HOLD_WATER:
        return frozenset((VAGUE,))
    beside = (_BESIDE_A_FLOOD if "flooding" in dangers else _BESIDE_WATER) | {VAGUE}
    return beside if _SPREADS.search(normal.text.lower()) else beside - {"overfill"}


def _echoes(found: Found, asked_after: str) -> bool:
    """Whether *found* is but a word of an answer about a danger: “just smells of soap”, “the outlet is fine”."""
    if asked_after not in _A_DANGERS_OWN:
        return False
    only_a_part = found.rule == "theory" and _names_a_part(found)
    return only_a_part or (found.code in _A_DANGERS_OWN[asked_after] and found.words.lower() in _SMELLS)


_SMELLS = frozenset(("smell", "smells", "smelled", "smelling", "huele", "olía", "olia", "olor", "stink"))
"""Of what, the rest of the answer says: of soap, of supper."""


def comes_up_in(stated: Statements, normal: Normal, intents: Collection[str]) -> Statements:
    """
    *stated* without vague complaints of sound machines, and with what backs up told of the machine it comes up in: “the
    disposal backs up into the dishwasher”.
    """
    stated = without_the_sound(one_of_two(stated, normal), normal, intents)
    if not any(f.code == _BACKS_UP and f.appliance == "disposal" for f in stated.symptoms):
        return stated
    forms = [word.form for word in normal.words]
    into = any(
        form in _DISHWASHERS and {*forms[max(0, at - 2) : at]} & _INTO and forms[at - 1] in _INTO | _ARTICLES
        for at, form in enumerate(forms)
    )
    if not into:
        return stated
    others = tuple(f for f in stated.symptoms if f.code != _BACKS_UP)
    found = next(f for f in stated.symptoms if f.code == _BACKS_UP)
    return replace(stated, symptoms=(*others, replace(found, appliance="dishwasher")))


_BACKS_UP = "backflow"
_DISHWASHERS = frozenset(("dishwasher", "lavaplatos", "lavavajillas", "lavatrastes", "dishwashers"))
_INTO = frozenset(("in", "into", "inside", "al", "en", "through"))


def _without_what_is_over(
    stated: Statements, mentions: Mentions, facts: Mapping[str, object], heard: Mapping[str, Hit], normal: Normal
) -> Statements:
    """
    *stated* without the vague complaint in the very words of a repair ("my cousin fixed the dryer"), in what was tried
    ("unplugged it"), and in a lone part's name where no machine is spoken of ("a short fuse"); with the visit called off
    too, without whatever those words told ("ya no tira agua").
    """
    repair = heard.get("fixed") if "book" not in heard else None
    first = normal.words[repair.start].start if repair else 0
    last = normal.words[repair.end - 1].end if repair else 0
    nowhere = not mentions.found and mentions.about is None

    def over(found: Found) -> bool:
        of_repair = found.start < last and first < found.end
        if found.code != VAGUE:
            return of_repair and "cancel" in heard
        only_named = found.rule == "theory" and found.appliance == UNKNOWN
        return of_repair or (only_named and ("tried" in facts or (nowhere and _names_a_part(found)) or bool(repair)))

    gone = {f.words for f in stated.symptoms if over(f)}
    if not gone:
        return stated
    return replace(
        stated,
        symptoms=tuple(f for f in stated.symptoms if not over(f)),
        theories=tuple(t for t in stated.theories if t.words not in gone),
    )


def _names_a_part(found: Found) -> bool:
    """“fuse”, “the board”, “la resistencia”: a part and nothing said of it."""
    return len([word for word in found.words.lower().split() if word not in _ARTICLES]) <= 1


_ARTICLES = frozenset(("the", "a", "an", "my", "our", "el", "la", "los", "las", "un", "una", "mi"))


def _of_both(symptoms: Collection[Found], mentions: Mentions, normal: Normal) -> list[Found]:
    """A vague complaint of one machine, for the one that is named with it too: “the washer and the dryer broke”."""
    own = {found.appliance for found in symptoms}
    vague = {found.appliance: found for found in symptoms if found.code == VAGUE}
    if not vague:
        return []
    added: dict[str, Found] = {}
    for one, next_one in pairwise(m for m in mentions.found if not m.implied):
        between = [word.form for word in normal.words[one.end : next_one.start]]
        if not _JOINS & {*between} or not _JOINING.issuperset(between):
            continue
        for a, b in ((one.appliance, next_one.appliance), (next_one.appliance, one.appliance)):
            if a in vague and b not in own:
                added[b] = replace(vague[a], appliance=b)
    return [*added.values()]


_JOINS = frozenset(("and", "n", "y", "e", "nor", "ni"))
_JOINING = _JOINS | frozenset(
    ("the", "my", "our", "also", "la", "el", "mi", "nuestra", "nuestro", "tambien", "a", "new", "old")
)
"""What may stand between two machines of which the same is said."""


def _is_any_sound(denied: Found) -> bool:
    """Whether it is any sound that is *denied*, and not one that it made before (“used to squeal, not anymore”)."""
    return any(
        sound in denied.words.lower()
        for sound in (
            "nois",
            "sound",
            "beep",
            "hum",
            "click",
            "ruid",
            "sonid",
            "pita",
            "callad",
            "buzz",
            "zumb",
            "silen",
        )
    )


_HALVES = {"warm_freezer": "warm_fridge", "warm_fridge": "warm_freezer"}


def of_its_half(stated: Statements) -> Statements:
    """
    *stated*, where one half of a refrigerator is warm: what is cold is the other half (“ice cream is soup but the milk is
    cold”).
    """
    told = {found.code for found in stated.symptoms if found.appliance == "refrigerator"}
    warm = next((code for code in _HALVES if code in told), None)
    if warm is None or not any(found.code == "not_cooling" for found in stated.denied):
        return stated
    known = any(found.code == _HALVES[warm] for found in stated.denied)
    own = [found for found in stated.denied if found.appliance != "refrigerator" or found.code != "not_cooling"]
    cold = [replace(found, code=_HALVES[warm]) for found in stated.denied if found not in own]
    return replace(stated, denied=tuple(own if known else [*own, *cold[:1]]))


def _goes_without_saying(denied: Found, told: Collection[tuple[str, str]]) -> bool:
    """Whether *denied* follows from what is *told*, or is no more than that it runs, or that it ends."""
    if any((denied.appliance, code) in told for code in _IMPLIED.get(denied.code, ())):
        return True
    words = denied.words.lower()
    if denied.code == "no_start":
        return not words.startswith(_STARTS)
    return denied.code == "stops_midcycle" and not words.endswith(_TO_THE_END)


def _whole(code: str, appliance: str, score: float, words: str, normal: Normal) -> Found:
    at = max(normal.text.upper().find(words.upper()), 0)
    return Found(appliance, code, score, normal.text[at : at + len(words)], at, at + len(words), f"reader.{code}")
