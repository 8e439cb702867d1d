"""A flame of the wrong colour, however its fault is told: what burns so must not be run, so that it is never passed over."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.machines.mentions import UNKNOWN, Mentions
from service.reading.model import Found, Seen
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word

FAULT, NO_FLAME, WRONG = "weak_flame", "burner_dead", "yellow"
_LOOKS, _OTHER_LOOKS = {"dryer": "flame_seen"}, "flame_look"
"""By which name the rules of the machines that burn gas ask for the look of the flame."""
_USUAL = "range"
"""Whose flame it mostly is, where the machine spoken of has none (common practice, no source)."""
_OTHER = "other"
"""A thing that is none of the shop's, such as a water heater."""
_COLOURS = ("yellow", "orang", "redd", "soot", "amarill", "anaranj", "naranj", "rojiz", "hollin", "tizn")
"""How the words begin by which a flame is of the wrong colour."""
_BLUE = frozenset(("blue", "azul", "azules", "but", "pero", "sino"))
_NO = frozenset(("no", "not", "isnt", "arent", "aint", "ni", "never", "nunca", "sin", "without"))
_LAMP = frozenset(("light", "lights", "lamp", "led", "luz", "foco", "display", "knob", "perilla"))
_FLAMES = frozenset(("flame", "flames", "flama", "flamas", "flamita", "llama", "llamas", "lumbre"))
_SURE = 0.8
_BURNS = ("burn", "quem", "ard")


def with_wrong_colour(
    stated: Statements, hits: Sequence[Hit], normal: Normal, mentions: Mentions, able: Collection[str]
) -> Statements:
    """
    *stated* with the colour seen where a flame's fault is told in words that name one: of a machine that has a flame
    (*able*), and so of another than that spoken about where it has none.
    """
    words, spoken_of = normal.words, {mentions.about, *(m.appliance for m in mentions.found)} - {None}
    flameless = bool(spoken_of) and not spoken_of & {*able, _OTHER}
    if flameless:
        stated = replace(stated, symptoms=(*stated.symptoms, *_passed_over(stated, hits, normal)))
    read = [(found, _fault(found, words, able, flameless=flameless)) for found in stated.symptoms]
    told = [(found, fault) for found, fault in read if fault is not None]
    taken_back = [found for found in stated.denied if found.code == FAULT and _has_wrong_colour(found, words)]
    if not told and not taken_back:
        return stated
    faults = [*(fault for _, fault in told), *(_of_able(found, able, flameless=flameless) for found in taken_back)]
    others = [found for found in stated.symptoms if found not in [old for old, _ in told]]
    known = {(found.appliance, found.code): found for found in (*others, *faults)}
    looks = {(fault.appliance, _look(fault)): fault.words for fault in faults}
    kept = [seen for seen in stated.observations if not _is_of_the_flame(seen, faults)]
    return replace(
        stated,
        symptoms=tuple(sorted(known.values(), key=lambda found: found.start)),
        denied=tuple(found for found in stated.denied if found not in taken_back),
        observations=(*kept, *(Seen(machine, id, WRONG, said) for (machine, id), said in looks.items())),
    )


def _passed_over(stated: Statements, hits: Sequence[Hit], normal: Normal) -> list[Found]:
    """The flame's fault that was not heard since the machine spoken about has no flame: “also the flame is orange”."""
    if any(found.code == FAULT for found in (*stated.symptoms, *stated.denied)):
        return []
    faults = [hit for hit in hits if (hit.payload.code, hit.payload.role) == (FAULT, "sign")]
    told = [hit for hit in faults if _FLAMES & {word.form for word in normal.words[hit.start : hit.end]}]
    found = []
    for hit in told[:1]:
        start, end = normal.words[hit.start].start, normal.words[hit.end - 1].end
        found.append(Found(UNKNOWN, FAULT, _SURE, normal.text[start:end], start, end, hit.payload.rule))
    return [one for one in found if _has_wrong_colour(one, normal.words)]


def _fault(found: Found, words: Sequence[Word], able: Collection[str], *, flameless: bool) -> Found | None:
    """The flame's fault that *found* tells with its wrong colour; None when it tells none."""
    if found.code == FAULT and _has_wrong_colour(found, words):
        return _of_able(found, able, flameless=flameless)
    behind = next((word for word in words if word.start >= found.end), None)
    last = next((word for word in reversed(words) if word.end <= found.end), None)
    if found.code != NO_FLAME or behind is None or last is None or behind.brk or found.appliance not in able:
        return None
    burns = last.form.startswith(_BURNS) and behind.form.startswith(_COLOURS)  # “las hornillas queman amarillo”
    return replace(found, code=FAULT) if burns else None


def _of_able(found: Found, able: Collection[str], *, flameless: bool) -> Found:
    elsewhere = found.appliance == UNKNOWN and flameless and _USUAL in able
    return replace(found, appliance=_USUAL) if elsewhere else found


def _look(found: Found) -> str:
    return _LOOKS.get(found.appliance, _OTHER_LOOKS)


def _is_of_the_flame(seen: Seen, faults: Sequence[Found]) -> bool:
    """Whether what is *seen* is the look of one of the flames, or of one of no machine."""
    return any(
        seen.id in (_look(fault), _OTHER_LOOKS) and seen.appliance in (fault.appliance, UNKNOWN) for fault in faults
    )


def _has_wrong_colour(found: Found, words: Sequence[Word]) -> bool:
    """Whether a colour stands among the words of *found*, neither denied nor a lamp's."""
    told = [word for word in words if found.start <= word.start < found.end]
    for at, word in enumerate(told):
        if word.form.startswith(_COLOURS) and not {other.form for other in told[max(0, at - 1) : at + 2]} & _LAMP:
            back = at
            while back > 0 and not told[back].brk and told[back - 1].form not in _BLUE:
                back -= 1
            if not _NO & {other.form for other in told[back:at]}:
                return True
    return False
