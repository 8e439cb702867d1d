"""
A smell denied without saying of what: “no smell though”, “olor no hay”, “ni huele”. Of a machine that burns gas it is the gas
that does not smell; beside smoke, sparks or a dead machine, burning; of a cooler that does not hiss, its refrigerant.
Elsewhere it is only a machine that does not stink.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from service.reading.dangers.hazards import Screened
from service.reading.dangers.source_words import listed
from service.reading.model import Asked, HazardFound
from service.reading.words.normalising import Normal, Word

RULE = "a smell denied, and what it would have been told by the machine"


def with_bare_smells(screened: Screened, normal: Normal, asked: Asked | None) -> Screened:
    """*screened* with the smell that is denied bare, named by what stands around it; what answers a question is left to it."""
    words = normal.words
    if (asked is not None and asked.kind == "yes_no") or not any(word.form in _SMELLING for word in words):
        return screened
    if {*screened.codes, *screened.cleared} & _SPOKEN_OF:
        return screened
    for start, end in _bare(words):
        code = _meant(start, end, words, screened)
        if code is not None:
            first, last = words[start].start, words[end - 1].end
            found = HazardFound(code, normal.text[first:last], first, last, RULE)
            note = f"“{found.words}” denies {code}."
            return replace(
                screened,
                denied=(*screened.denied, found),
                own_words=(*screened.own_words, (start, end, code)),
                notes=(*screened.notes, note),
            )
    return screened


_SPOKEN_OF = frozenset(["gas_smell", "burning_smell", "refrigerant_leak", "carbon_monoxide"])
"""Beside one of these, told or denied, a bare smell adds nothing; carbon monoxide is “the stuff you can't smell”."""
_NOUNS = listed("smell smells odor odors olor olores")
_VERBS = listed("smell smells smelled smelling stink stinks huele huelo olemos hule guele olido")
_SMELLING = _NOUNS | _VERBS
_STINKS = listed("stink stinks")
_NO = listed("no not never without zero sin ni nor tampoco ningun dont doesnt didnt isnt nobody none nada nadie")
_NO_NOUN = listed("no without zero sin ni nor ningun")
_BETWEEN = listed("any even really me le se ha i hay tiene trae echa saca siento de da ni")
_ALL_OF_IT = listed("nada anything nothing none any thing a algo it ninguno ningun")
_NOUN_THEN_NO = listed("no nada ninguno none nothing tampoco")
_VERB_OF_NO = listed("hay tiene trae echa hecha sale saca le se huele da suelta hubo")
_GOES_ON = listed("""
    at though tho and or nor no not none either neither here whatsoever just only but ni y o pero sin nomas nada nothing
    anything tampoco alguno ninguno whatever thankfully thank gracias so all that tha or n
""")
"""What may stand behind a smell that is denied bare; “no smell of gas”, “no huele a quemado” say of what."""
_BEFORE_NOT = listed("ya casi only wonder do did can could would")
_MOST_BETWEEN = 2


def _bare(words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Where a smell is denied, and nothing says of what."""
    for at, word in enumerate(words):
        if word.form not in _SMELLING or word.asks:
            continue
        start = _denied_from(at, words)
        if start is not None and not (start and words[start - 1].form in _BEFORE_NOT and not words[start].brk):
            end = _runs_to(at, words)
            if end is not None:
                yield start, end
        elif word.form in _NOUNS and _no_behind(at, words):
            yield at, at + 2


def _denied_from(at: int, words: Sequence[Word]) -> int | None:
    """Where the “no” stands that denies the smell at *at*; none if another word comes between."""
    noun = words[at].form in _NOUNS
    for back in range(1, _MOST_BETWEEN + 2):
        if at - back < 0 or words[at - back + 1].brk:
            return None
        form = words[at - back].form
        if form in _NO_NOUN or (form in _NO and words[at].form in _VERBS):
            return at - back
        if form == "nada" and noun and back == 2 and words[at - 1].form == "de":
            return at - back
        if form not in _BETWEEN:
            return None
    return None


def _runs_to(at: int, words: Sequence[Word]) -> int | None:
    """Where the denial ends: with the smell, or with the “nada” or “anything” behind it; none where it says of what."""
    end = at + 1
    while end < len(words) and not words[end].brk and words[end].form in _ALL_OF_IT | {"a"} and end < at + 4:
        end += 1
    if words[end - 1].form == "a" and end > at + 1:
        return None
    if end == len(words) or words[end].brk or words[end].form in _GOES_ON:
        return end
    return None


def _no_behind(at: int, words: Sequence[Word]) -> bool:
    """“olor no hay”, “smell none”: the no behind the smell ends what is said."""
    if at + 1 >= len(words) or (words[at].brk == 0 and at and words[at - 1].form in ("el", "the", "un", "mal")):
        return False
    if words[at + 1].form not in _NOUN_THEN_NO or words[at + 1].brk:
        return False
    rest = at + 2
    if rest < len(words) and not words[rest].brk and words[rest].form in _VERB_OF_NO:
        rest += 1
    return rest == len(words) or words[rest].brk > 0 or words[rest].form in _GOES_ON


_FUEL = listed("gas propane propano lp butane butano gasera fuga pilot pilots piloto pilotos gassy")
_FLAMES = listed("""
    flame flames flama flamas lumbre match matches cerillo cerillos lighter igniter ignitor encendedor chispero burner
    burners quemador quemadores hornilla hornillas
""")
_STOVES = listed("range ranges stove stoves oven ovens cooktop cooktops estufa estufas horno parrilla dryer secadora")
_NO_GAS = listed("""
    electric electrica electrico electricas induction induccion glass vidrio ceramic microwave micro microondas
    element elements coil coils resistencia
""")
_OTHERS = listed("""
    fridge refrigerator refri freezer congelador washer lavadora dishwasher lavaplatos lavatrastes lavavajillas disposal
    triturador compactor compactador microwave micro microondas hood campana cooler cava cavita icemaker hielera
""")
_HISSES = listed("""
    hiss hisses hissing oil oily silba sisea silbido chifla chiflido aceite freon refrigerant refrigerante
""")
_COOLERS = listed("""
    fridge refrigerator refri refrigerador nevera freezer congelador cooler cava cavita ice icemaker hielera enfriador
""")
_HOT = listed("""
    burn burns burning burned burnt scorched smoke smoking humo humea quemado chamuscado chamuscada plug outlet cord breaker
    clavija enchufe contacto zap spark sparks chispas toques shock hot caliente caliento fuse pastilla
""")
_DEAD = listed("dead muerto muerta prende enciende fried buzzes zumba")
_HEATERS = listed("""
    dryer secadora microwave microondas micro induction induccion oven horno range cooktop stove estufa parrilla
""")
_HOODS = listed("hood campana extractor")
_BESIDE = frozenset(["smoke", "sparks", "shock", "fire", "hot_wiring"])
_OF_DIRT = listed("""
    leak leaks leaking tira gotea jam jams stink dirty sucio apesta mold moho basura trash food comida ice hielo
""")


def _meant(start: int, end: int, words: Sequence[Word], screened: Screened) -> str | None:
    """Which danger's smell it is that is not there; none where it is only no stink."""
    forms = {word.form for word in words}
    if forms & _HOODS:
        forms -= {"range", "stove", "estufa"}
    if _burns_gas(forms):
        return "gas_smell"
    if forms & _HISSES and forms & _COOLERS:
        return "refrigerant_leak"
    if any(word.form in _STINKS for word in words[start:end]):
        return None
    if _BESIDE & set(screened.cleared):
        return "burning_smell"
    if forms & _OF_DIRT and not forms & _HOT:
        return None
    if forms & _HEATERS or forms & _HOT or forms & _DEAD:
        return "burning_smell"
    return None


def _burns_gas(forms: set[str]) -> bool:
    if forms & _NO_GAS:
        return False
    if forms & _FUEL:
        return bool(forms & _STOVES) or not forms & _OTHERS
    return bool(forms & _STOVES and forms & _FLAMES)
