"""
Sparks, smoke and flames of people: anger, wit, what is drawn and what a feast is: “mi suegra echa chispas porque no llegan”,
“sparks flew when my in-laws met”, “mi hijo pintó llamas en el refri”, “anda on fire con sus tamales”.

What counts is who is told to do it; what a machine does, named in the same breath and with no “because” before it, stays.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.dangers.source_words import MACHINES, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_KINDS = frozenset(["sparks", "smoke", "fire"])

_PEOPLE = listed("""
    jefe jefa jefes suegra suegro suegros esposa esposo marido mujer mama papa apa ama vecina vecino vecinas vecinos cliente
    clientes patron patrona comadre compadre hermana hermano hija hijo hijos nina nino tia tio abuela abuelo novia novio casera
    casero senora senor cunada cunado nuera yerno nieta nieto inquilina inquilino muchacho muchacha joven tecnico mesero mesera
    cocinero cocinera boss landlord wife husband mom dad sister brother inlaws laws mother father couple kids
""")
_DOES = listed("echa echan echando echar echo echaba echaban hecha hechan hechando hechar hechaba")
_STANDS = listed("esta estan anda andan andaba andaban estaba estaban")
_MAY_STAND = _STANDS | listed("va van a ya bien on hasta toda todo me nos")
_WHOSE = listed("mi mis el la los las su sus tu my our the his her")
_WHY = listed("por porque porq xq pq porke x cuando when because si de del")
_IN_BREATH = 4


def is_of_tempers(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is what somebody is, feels or draws, and nothing that burns."""
    code = hit.payload.code
    if code not in _KINDS:
        return False
    if code == "fire" and (_is_on_fire_for(hit, words) or _is_sham(hit, words)):
        return True
    if code != "sparks" and _is_drawn(hit, words):
        return True
    return (
        _seethes(hit, words)
        or _of_anger(hit, words)
        or (code == "sparks" and (_has_wit(hit, words) or _between_people(hit, words)))
    )


def _of_a_machine(words: Sequence[Word]) -> bool:
    """Whether a machine is named among *words* before a reason or the end of the breath."""
    for word in words:
        if word.brk or (word.form in _WHY and word.form not in ("de", "del")):
            return False
        if word.form in MACHINES:
            return True
    return False


def _seethes(hit: Hit, words: Sequence[Word]) -> bool:
    """“mi jefe va a echar humo”, “echan chispas los vecinos por el ruido”; not “mi esposo dice que echa chispas”."""
    does = next((at for at in range(max(0, hit.start - 1), hit.end) if words[at].form in _DOES), None)
    if does is None or _of_a_machine(words[hit.end : hit.end + _IN_BREATH]):
        return False
    at = does - 1
    while at >= 0 and (words[at].form in _MAY_STAND or (words[at].form == "que" and words[at - 1].form in _STANDS)):
        at -= 1
    if at > 0 and words[at].form in ("vieja", "viejo"):
        return words[at - 1].form == "mi" and any(word.form in _WHY for word in words[hit.end : hit.end + 1])
    if at > 0 and words[at].form in _PEOPLE and not any(word.brk for word in words[at + 1 : does + 1]):
        return words[at - 1].form in _WHOSE and not (at > 1 and words[at - 2].form in ("a", "de", "con"))
    return (does == 0 or words[does].brk > 0) and _people_follow(hit.end, words)


_ANGER = listed("""
    coraje corajina corajes enojo enojada enojado enojados muina rabia furia furiosa furioso encabronada encabronado mad angry
    anger furious pissed fuming
""")
_OF_ANGER = listed("de del por con lo tan puro trae una un que from so with im hecho hecha")


def _of_anger(hit: Hit, words: Sequence[Word]) -> bool:
    """“estoy hecho humo de coraje”, “trae una corajina que saca chispas”: in one breath, and no machine in it."""
    first, last = max(0, hit.start - _IN_BREATH), min(len(words), hit.end + _IN_BREATH)
    first = next((at for at in range(hit.start, first, -1) if words[at].brk), first)
    last = next((at for at in range(hit.end, last) if words[at].brk), last)
    breath = words[first:last]
    if any(word.form in MACHINES for word in breath):
        return False
    return any(
        word.form in _ANGER
        and any(w.form in _OF_ANGER for w in (*breath[max(0, at - 2) : at], *breath[at + 1 : at + 2]))
        for at, word in enumerate(breath)
    )


def _people_follow(at: int, words: Sequence[Word]) -> bool:
    """“mis jefes porque no ha venido”: people right there, and why."""
    told = words[at : at + 3]
    if len(told) < 3 or told[0].form not in _WHOSE or told[1].form not in _PEOPLE:
        return False
    return not any(word.brk for word in told) and told[2].form in _WHY


_HAS = listed("tiene tienen trae traen")


def _has_wit(hit: Hit, words: Sequence[Word]) -> bool:
    """“tiene chispa el muchacho que mandaron”, “chispa tiene mi niño”."""
    behind = words[hit.end : hit.end + _IN_BREATH]
    has = hit.start and words[hit.start - 1].form in _HAS
    if not has and not (behind and behind[0].form in _HAS):
        return False
    return any(word.form in _PEOPLE for word in behind) and not any(word.form in MACHINES for word in behind)


_BETWEEN = listed("entre between when")


def _between_people(hit: Hit, words: Sequence[Word]) -> bool:
    """“chispas entre la cocinera y el mesero”, “sparks flew when my inlaws met”."""
    behind = words[hit.end : hit.end + 2 * _IN_BREATH]
    tied = next((at for at, word in enumerate(behind[:3]) if word.form in _BETWEEN and not word.brk), None)
    if tied is None or any(word.form in MACHINES for word in behind[tied:]):
        return False
    flew = [word.form for word in behind[:tied]] in (["flew"], ["fly"], ["were", "flying"])
    return (flew or behind[tied].form != "when") and any(word.form in _PEOPLE for word in behind[tied + 1 : tied + 4])


_DRAWN = listed(
    "painted drew draws drawing paints sticker stickers decal decals dibujo dibuja dibujando pinto pinta pintado"
)


def _is_drawn(hit: Hit, words: Sequence[Word]) -> bool:
    """“my son painted flames on the fridge”, “el niño pintó nubes negras”; not “painted it and it smokes”."""
    for at in range(hit.start - 1, max(-1, hit.start - 6), -1):
        if words[at + 1].brk or words[at].form in ("and", "y", "but", "pero", "then", "it", "se"):
            return False
        if words[at].form in _DRAWN:
            return True
    return False


_SHAM = listed("fake pretend painted led")


def _is_sham(hit: Hit, words: Sequence[Word]) -> bool:
    return bool(hit.start) and words[hit.start - 1].form in _SHAM and not words[hit.start].brk


_GOES = listed("anda ando andas estas")
_FOR = listed("with w con por for de")
_DOINGS = listed("laundry homework orders renta rent tamales pedidos tarea deals chores errands cooking work")
_A_THING = listed("it its this that thing everything all esto eso se todo something algo")


def _is_on_fire_for(hit: Hit, words: Sequence[Word]) -> bool:
    """“house is on fire w laundry”, “my tía anda on fire”; not “it's on fire with the laundry in it”."""
    near = words[max(0, hit.start - _IN_BREATH) : hit.end]
    behind = words[hit.end : hit.end + _IN_BREATH]
    if words[hit.end - 1].form != "fire" or any(w.form in _A_THING or w.form in MACHINES for w in (*near, *behind)):
        return False
    if hit.start and words[hit.start - 1].form in _GOES:
        return True
    return bool(behind) and behind[0].form in _FOR and any(word.form in _DOINGS for word in behind[1:])
