"""Alarms that want a battery or have had their day: what they show and chirp, and whether they go on after all."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.other_sources import names_a_machine
from service.reading.dangers.source_words import listed
from service.reading.words.normalising import Word

READS = listed("says reads read shows showing marks marca dice")
FELT = listed("""
    dizzy headache headaches sick sleepy head nausea nauseous mareo mareado mareados cabeza nauseas out
""")
ALARMS = listed("alarm alarms detector detectors alarma alarmas detectores sensor")
RINGS = (
    "suena", "sona", "pita", "chill", "beep", "tone", "ring", "scream", "sound", "alarm", "blar", "going", "shriek", "whin",
)  # fmt: skip
"""How the words begin of what an alarm does."""

_CELLS = listed("bat bats batt batts lowbat battery batteries pila pilas bateria baterias 9v")
_RUN_DOWN = listed("""
    low dead dying weak needs need wants want asking replace change changing out pide pidiendo quiere necesita baja bajas
    lo old vieja viejas compre comprar comprarle bought
    gastada gastadas acabo muerta cambiar cambiarle falta due
""")
_PUT_IN = listed("new nueva nuevas put puse pusimos cambie cambiamos changed replaced swapped fresh")
_IS_QUIET = listed("stopped quit quiet solved silent hushed calmo callo quito")
_QUIET = (("ya", "no"), ("all", "good"), ("its", "fine"), ("ya", "quedo"), ("that", "fixed"))
STILL = listed("still keeps again sigue todavia otra maybe think guess probably creo four 4 but pero though")


def wants_a_battery(words: Sequence[Word]) -> bool:
    """“the CO detector says LOW BATT”, “le puse pila nueva y ya no chilla”; not “a new battery and it still beeps”."""
    forms = {word.form for word in words}
    if _has_had_its_day(words) and not forms & FELT:
        return True
    if not forms & _CELLS or forms & FELT or any(goes_on(at, words) for at in range(len(words))):
        return False
    for at, word in enumerate(words):
        if word.form in _CELLS:
            near = {w.form for w in words[max(0, at - 3) : at + 4]}
            if near & _RUN_DOWN:
                return True
            after = words[at:]
            if near & _PUT_IN and (
                any(w.form in _IS_QUIET for w in after) or any((a.form, b.form) in _QUIET for a, b in pairwise(after))
            ):
                return True
    return False


_OVER = listed("end eol err lb expired replace fin zero cero 0 00 000")


def _has_had_its_day(words: Sequence[Word]) -> bool:
    """“the carbon monoxide thing says END, which means replace unit”, “marca cero”; nothing that sounds besides."""
    if any(word.form.startswith(RINGS) for word in words):
        return False
    return any(word.form in READS and w.form in _OVER for at, word in enumerate(words) for w in words[at + 1 : at + 3])


def goes_on(at: int, words: Sequence[Word]) -> bool:
    """“still”, “but”; not “still need the knob”."""
    if words[at].form not in STILL:
        return False
    if words[at].form in ("but", "pero"):
        return not _turns_to_the_cell(at, words)
    if words[at].form not in ("still", "sigue", "todavia", "though"):
        return True
    if _of_a_machine(at, words):
        return False
    return not any(w.form in ("need", "needs", "want", "waiting") for w in words[at + 1 : at + 2])


def _of_a_machine(at: int, words: Sequence[Word]) -> bool:
    """“so that's solved, the dishwasher is still sitting with water in it though”: a breath that begins with a machine."""
    first = at
    while first > 0 and not words[first].brk:
        first -= 1
    around = words[first : at + 4]
    return names_a_machine(words[first : first + 4]) and not any(
        word.form.startswith(RINGS) or word.form in ALARMS for word in around
    )


def _turns_to_the_cell(at: int, words: Sequence[Word]) -> bool:
    """“pita cada ratito pero ahí dice lo bat”; not “changed the battery but it beeps”."""
    if any(word.form in _CELLS or word.form in _PUT_IN for word in words[:at]):
        return False
    return any(word.form in _CELLS for word in words[at + 1 : at + 7])
