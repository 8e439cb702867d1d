"""
What tells that a danger asked about is none: what its smoke or smell is made by, and the safe state of the thing asked about.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.reading.dangers.source_words import COOKED, COOKING, MACHINES, PARTS, listed
from service.reading.words.normalising import Word

MOST_WORDS = 18
"""A longer text tells more than the answer."""

_UNSURE = listed("""
    maybe think probably might could unsure guess hard creo quiza quizas igual tal if unless except until till excepto
    menos not isnt wasnt arent doesnt dont didnt cant still again keeps sigue todavia otra almost mostly kinda casi
    sometimes aveces
""")
"""Words beside which no state and no cause is told as sure."""
_BUT = listed("but pero although aunque though besides also tambien plus")
_ONLY = listed("just only nomas solo puro pura normal usual regular same solamente siempre always")


def told_safe(code: str, words: Sequence[Word]) -> bool:
    """Whether *words* tell as sure that what *code* asks after has a harmless cause, or is as it should be."""
    if any(word.form in _UNSURE for word in words):
        return False
    return _of_a_harmless_cause(code, words) or _as_it_should_be(code, words)


_SMELT = frozenset(["smoke", "burning_smell", "gas_smell"])
_TIES = listed("off from its is was thats just es de del era al a like por im were")
_OF_GAS = listed("frying cooking roasting boiling sauteing friendo asando cocinando hirviendo guisando")
_ROASTED = (COOKED | COOKING | listed("chile chiles")) - listed("eggs egg huevo huevos")
_STEAM = listed("steam steamy vapor vaho vaporcito")
_POTS = listed("kettle pot pots shower coffee tea rice olla ollas tetera cafe bano regadera sopa soup frijoles beans")
_TIE_WITHIN = 4
_TELLING_MORE = listed("""
    black gray grey electric electrical plastic rubber wire wires wiring metal negro gris plastico hule cable cables
    electrico rotten sulfur podrido azufre hiss hissing dizzy mareado mareada
""")


def _of_a_harmless_cause(code: str, words: Sequence[Word]) -> bool:
    """“theres smoke but its from the chile im roasting”, “puro vapor de la olla”; nothing added behind the cause."""
    if code not in _SMELT or any(word.form in PARTS or word.form in _TELLING_MORE for word in words):
        return False
    if code == "gas_smell" and not any(word.form in _OF_GAS for word in words):
        return False
    if any(word.form in _DENYING and not _turns_to_the_cause(at, words) for at, word in enumerate(words)):
        return False
    for at, word in enumerate(words):
        cause = word.form in _ROASTED or (code == "smoke" and word.form in _POTS and _steams(words[:at]))
        if not cause or not any(w.form in _TIES for w in words[max(0, at - _TIE_WITHIN) : at]):
            continue
        before = words[max(0, at - _TIE_WITHIN) : at]
        if any(w.form in MACHINES for w in before):
            return False
        return not any(w.form in _BUT or w.brk == 2 for w in words[at + 1 :])
    return False


def _turns_to_the_cause(at: int, words: Sequence[Word]) -> bool:
    """“humo sí, pero de los chiles, de la estufa nada”: yes, but; and nothing of the machine."""
    if words[at].form in ("si", "yes", "yeah", "yep"):
        return any(word.form in _BUT for word in words[at + 1 : at + 2])
    return words[at].form in ("nada", "nothing", "no") and any(w.form in MACHINES for w in words[max(0, at - 1) : at])


def _steams(words: Sequence[Word]) -> bool:
    return any(word.form in _STEAM for word in words)


@dataclass(frozen=True, slots=True)
class State:
    """Words that tell a thing to be safe, those of which one must stand beside them, and those that spoil it."""

    safe: frozenset[str]
    beside: frozenset[str]
    spoils: frozenset[str]


_ALL_OF_US = listed(
    "everyone everybody everyones everybodys we were all todos todas estamos family nosotros both kids ninos"
)
_WET = listed("""
    wet water damp soaked soaking puddle puddles dripping drips leak leaking flooded mojado mojada mojo humedo humeda
    agua charco gotea near close right under below next cerca junto debajo
""")
_BURNT = listed("""
    hot warm burn burns burnt burned burning melt melted melting brown browned black blackened soft wavy bubbly
    bubbled scorched discolored loose smell smells smelled toasty buzz buzzing crackle spark sparks tibio tibia
    caliente quemado quemada negro negra cafe derretido derretida derritio flojo floja huele chispa chispas fridge
    freezer refri
""")
_ILL = listed("""
    hurt cut cuts burn burned burnt blood bleeding hospital doctor injured dizzy headache headaches sick nauseous
    sleepy tired weak shaken cortada cortado quemado quemada sangre mareado mareada mareados dolor cabeza sueno
    nauseas
""")
_NEARBY = listed("""
    plug outlet cord cable behind back motor wire wires panel inside flash zap zapped pop popped boom smoke shower
    clavija contacto enchufe atras adentro motor humo tronido
""")
_STATES: Mapping[str, Sequence[State]] = {
    "water_near_power": (
        State(listed("dry seco seca secos secas"), frozenset(), _WET),
        State(
            listed("high away far alto alta lejos arriba"),
            listed("outlet outlets plug plugs cord contacto contactos enchufe enchufes clavija"),
            _WET,
        ),
    ),
    "flooding": (State(listed("dry seco seca secos secas"), frozenset(), _WET - {"near", "right", "next"}),),
    "hot_wiring": (
        State(listed("cool cold fria frio temperature new nueva nuevo nuevecita nuevecito"), frozenset(), _BURNT),
        State(
            listed("fine normal clean bien ok okay good limpia limpio"),
            listed(
                "looks look feels feel felt plug plugs outlet outlets cord ve siente clavija contacto enchufe cable"
            ),
            _BURNT,
        ),
    ),
    "sparks": (
        State(
            listed("tick ticks ticking click clicks clicking clic tic igniter ignitor ignition encendedor chispero"),
            _ONLY,
            _NEARBY,
        ),
    ),
    "fire": (
        State(listed("element pilot candle candles fireplace chimenea vela velas piloto elemento"), _ONLY, _NEARBY),
    ),
    "injury": (State(listed("ok okay fine good safe alright unhurt bien salvo sanos"), _ALL_OF_US, _ILL),),
    "carbon_monoxide": (
        State(listed("ok okay fine good alright bien"), _ALL_OF_US, _ILL),
        State(
            listed("battery batteries pila pilas bateria baterias volt 9v"),
            _ONLY | listed("chirp chirps chirping chirped"),
            _ILL | listed("new nueva nuevas replaced"),
        ),
    ),
}


def _as_it_should_be(code: str, words: Sequence[Word]) -> bool:
    """“outlets up high and the floors dry”, “room temperature, looks new”, “just the normal tick”, “everyone's good”."""
    forms = {word.form for word in words}
    if forms & _BUT or forms & _DENYING:
        return False
    return any(
        forms & state.safe and (not state.beside or forms & state.beside) and not forms & state.spoils
        for state in _STATES.get(code, ())
    )


_DENYING = listed("no not never nunca nobody nadie ni sin nothing nada yes yeah yep si wont aint")
"""Beside a plain yes or no, that tells."""

_NOT = listed("not isnt arent aint wasnt")
_SPANISH_BE = listed("esta estan estamos se anda")


def told_unsafe(code: str, words: Sequence[Word]) -> bool:
    """“not dry at all”, “no está seco”: the safe state itself denied says that it is not safe."""
    safe = frozenset().union(*(state.safe for state in _STATES.get(code, ()) if code not in ("sparks", "fire")))
    for at, word in enumerate(words):
        if word.form not in safe or word.brk:
            continue
        one, two = words[at - 1].form if at else "", words[at - 2].form if at > 1 else ""
        if one in _NOT or (two in _NOT and not words[at - 1].brk and one in _DEGREES):
            return True
        if two == "no" and one in _SPANISH_BE and not words[at - 1].brk:
            return True
    return False


_DEGREES = listed("really very all that even feeling looking so quite entirely muy")
