"""
What sounds like the denial of a danger and is none. A burner that does not light denies neither sparks nor flames: the spark
that fails is its igniter's own (“the front burner has no spark”, “ni chispa da el encendedor”), the flame is the burner's. Heat
that an oven lacks, or clothes that are not scorched, deny no hot wiring; a shock denied is no wound besides; and whoever has no
sense of smell denies none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.reading.dangers.hazards import Screened
from service.reading.dangers.sensed import is_wired
from service.reading.dangers.source_words import listed
from service.reading.model import Asked, HazardFound
from service.reading.words.normalising import Normal, Word

_REACH = 12
_IGNITERS = listed("""
    igniter igniters ignitor ignitors ignition encendedor encendedores chispero chisperos clicker clickers pilot piloto
    electrode electrodo lighter match matches cerillo cerillos
""")
_BURNERS = listed("burner burners quemador quemadores hornilla hornillas ornilla ornillas eye")
_LIT = listed("""
    light lights lighting lite lit ignite ignites click clicks clicking catch catches prende prenden prendo enciende encienden
    tick ticks gas
""")
_ITS_SPARK = listed("spark sparking sparked chispa chispea")
_ITS_FLAME = listed("lumbre flama flame fuego")
_CATCHES = listed("agarra agarran prende prenden llega sube hace hay da dan echa catch catches light lights")
_ELSEWHERE = listed("""
    microwave micro microondas outlet plug cord contacto enchufe clavija cable inside adentro washer lavadora fridge refri
    disposal motor panel smoke humo smell olor
""")
_SHOCKED = listed("shocked zapped")
_SMELT = frozenset(["gas_smell", "burning_smell"])
_KINDS = frozenset(["sparks", "fire", "hot_wiring", "injury"]) | _SMELT
_NO_NOSE = listed("""
    covid sinus sinuses congested stuffy stuffed plugged gripa gripe resfriado resfriada constipado constipada catarro olfato
""")
_CANT = listed("cant cannot couldnt lost puedo perdi")


def without_no_denials(screened: Screened, normal: Normal, asked: Asked | None) -> Screened:
    """*screened* without denials that tell of a burner, of the heat of something else, or of a danger told already."""
    if not any(found.code in _KINDS for found in screened.denied):
        return screened
    kept = tuple(
        found
        for found in screened.denied
        if not (
            _unlit(found, normal.words)
            or _of_no_wiring(found, normal.words, asked)
            or _told_already(found, normal)
            or _cannot_smell(found, normal.words)
        )
    )
    dropped = {found.code for found in screened.denied} - {found.code for found in kept}
    return replace(screened, denied=kept, explained=screened.explained | dropped) if dropped else screened


def _unlit(found: HazardFound, words: Sequence[Word]) -> bool:
    if found.code not in ("sparks", "fire"):
        return False
    first = next(at for at, word in enumerate(words) if word.end > found.start)
    last = next((at for at, word in enumerate(words) if word.start >= found.end), len(words))
    inside = {word.form for word in words[first:last]}
    near = {word.form for word in _sentence(first, last, words)}
    if near & _ELSEWHERE:
        return False
    if found.code == "sparks":
        return bool(inside & _ITS_SPARK) and bool(near & _IGNITERS or (near & _BURNERS and near & (_LIT | _ITS_SPARK)))
    return bool(inside & _ITS_FLAME and near & _BURNERS and near & _CATCHES)


def _of_no_wiring(found: HazardFound, words: Sequence[Word], asked: Asked | None) -> bool:
    """“the oven gives nothing, ni tibio”, “clothes are hot, nothing scorched”: no plug, cord or knob is spoken of."""
    if found.code != "hot_wiring" or asked is not None:
        return False
    return not any(is_wired(word) for word in words)


def _told_already(found: HazardFound, normal: Normal) -> bool:
    """“no I did not get shocked, my wife already asked”."""
    return found.code == "injury" and any(
        word.form in _SHOCKED for word in normal.words if found.start <= word.start < found.end
    )


def _cannot_smell(found: HazardFound, words: Sequence[Word]) -> bool:
    """“I can't smell nothing since covid”, “yo no huelo nada, ando con gripa”: that denies no smell."""
    if found.code not in _SMELT:
        return False
    first = next(at for at, word in enumerate(words) if word.end > found.start)
    last = next((at for at, word in enumerate(words) if word.start >= found.end), len(words))
    near = {word.form for word in _sentence(max(0, first - 2), last, words)}
    return not near.isdisjoint(_NO_NOSE) or ("sense" in near and not near.isdisjoint(_CANT))


def _sentence(first: int, last: int, words: Sequence[Word]) -> Sequence[Word]:
    """The words around, no farther than a full stop or a few words."""
    begin, end = first, last
    while begin > max(0, first - _REACH) and words[begin].brk != 2:
        begin -= 1
    while end < min(len(words), last + _REACH) and words[end].brk != 2:
        end += 1
    return words[begin:end]
