"""
Smells and sounds that come from what somebody used, cooks or keeps, and from no machine: the bleach on the floor, nail
polish that
was spilled, a cat that hisses, the chile in the pan, clothes from a camping trip, a fire in the hills.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.dangers.source_words import COOKED, COOKING, MACHINES, PARTS, RUBBISH, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 14


def is_of_the_house(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is what the house smells or sounds of."""
    code = hit.payload.code
    if code == "refrigerant_leak":
        return _of_a_product(hit, words) or _an_animal_hisses(hit, words) or _of_another_cooler(hit, words)
    if code == "gas_smell":
        return _an_animal_hisses(hit, words)
    if code not in ("smoke", "burning_smell"):
        return _no_part_in_it(hit, words) if code == "fire" else False
    return (
        _i_cook_it(hit, words) or _of_the_camp(hit, words) or _burns_outside(hit, words) or _no_part_in_it(hit, words)
    )


_USED = listed("""
    cleaned cleaning clean mopped sprayed painted painting fumigated fumigo fumigaron fumigation exterminator spilled spilt
    dropped wiped limpie limpio limpiamos limpiando trapee trapeo pinte pintaron pinto pintamos eche echo cayo derramo tiro
    scrubbed washed lave stained varnished pulido barnice bombed
""")
_PRODUCTS = listed("""
    cloro bleach paint pintura fabuloso pinol lysol polish acetone windex ammonia amonia varnish barniz stain thinner cleaner
    degreaser desengrasante exterminator fumigated fumigo fumigaron spray raid perfume hairspray vinegar vinagre insecticida
    disinfectant desinfectante
""")
_HISSES = ("hiss", "sss", "pss", "sise", "sisea", "silb", "chifl", "oily", "aceit")
_NOT_KNOWN = listed("but pero not no though still sigue todavia isnt nobody nadie nothing")


def _of_a_product(hit: Hit, words: Sequence[Word]) -> bool:
    """“I cleaned con cloro so that's the chemical smell”, “the exterminator fumigated, it's him”; nothing that hisses."""
    if any(word.form.startswith(_HISSES) for word in words):
        return False
    first, last = sentence_of(hit, words, _REACH)
    used = [at for at in range(first, last) if words[at].form in _USED]
    breath = next((at for at in range(hit.end, last) if words[at].brk), last)
    if not used or any(word.form in _NOT_KNOWN for word in words[first : min(breath, hit.end + 3)]):
        return False
    named = [at for at in range(first, last) if words[at].form in _PRODUCTS]
    return any(abs(at - one) <= 6 for at in named for one in used)


_ANIMALS = listed(
    "cat cats snake snakes goose geese possum opossum kitten gato gata gatos vibora viboras culebra serpiente iguana turtle"
)
_HISS = ("hiss", "sise", "sisea")


def _an_animal_hisses(hit: Hit, words: Sequence[Word]) -> bool:
    """“snake hissing by the dryer vent”: it is the animal that does."""
    at = next((at for at in range(hit.start, hit.end) if words[at].form.startswith(_HISS)), None)
    if at is None:
        return False
    beside = (*words[max(0, at - 1) : at], *words[at + 1 : at + 2])
    return any(word.form in _ANIMALS for word in beside) and "like" not in (
        word.form for word in words[max(0, at - 3) : at]
    )


_AIR = listed("ac hvac aire clima minisplit")
_LEAKED = listed("freon coolant refrigerant refrigerante gas")


def _of_another_cooler(hit: Hit, words: Sequence[Word]) -> bool:
    """“the AC guy says our house unit leaks freon”: named right before it."""
    before = words[max(0, hit.start - 6) : hit.start]
    if not any(word.form in _LEAKED for word in words[hit.start : hit.end]):
        return False
    cold = listed("fridge freezer refrigerator refri congelador cooler nevera")
    return any(word.form in _AIR for word in before) and not any(
        word.form in cold for word in words[max(0, hit.start - 6) : hit.end + 3]
    )


_I_DO = listed("im i were we am estoy estamos ando andamos she hes shes my mi esta")
_DOUBT = listed("but pero not no nobody nadie isnt aint still sigue todavia as though wasnt")


def _i_cook_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“smells like dinner, im frying fish”, “estamos tatemando chiles y toda la cocina apesta a quemado”."""
    first, last = sentence_of(hit, words, _REACH)
    if any(word.form in PARTS for word in words[first:last]):
        return False
    for at in range(max(first, hit.start - 8), min(last, hit.end + 5)):
        if words[at].form in COOKING and words[at].form.endswith(("ing", "ando", "endo", "iendo")):
            doer = any(word.form in _I_DO for word in words[max(first, at - 2) : at])
            food = any(word.form in COOKED for word in (*words[max(first, at - 4) : at], *words[at + 1 : at + 4]))
            if doer and food:
                low, high = min(at, hit.start), max(at, hit.end) + 2
                return not any(w.form in _DOUBT or w.form in _ORIGINS for w in words[max(first, low - 1) : high])
    return False


_ORIGINS = MACHINES | listed("behind back atras under abajo plastic plastico electric electrico rubber hule")

_CAMPED = listed(
    "camping camped campout campamento acampar acampamos matanza barbacoa parrillada discada fogata bonfire campfire asada"
)
_SMOKED_THINGS = listed(
    "clothes jackets jacket hoodie blankets ropa chamarra chamarras cobijas patio yarda yard hair pelo everything"
)
_HEATS = listed("dryer secadora oven horno stove estufa motor outlet plug contacto enchufe dishwasher lavaplatos")


def _of_the_camp(hit: Hit, words: Sequence[Word]) -> bool:
    """“after the camping trip everything still smells like the campfire”, “en la carne asada quedó ahumada la ropa”."""
    first, last = sentence_of(hit, words, 2 * _REACH)
    forms = {word.form for word in words[first:last]}
    if forms & _HEATS or not forms & _SMOKED_THINGS:
        return False
    return any(word.form in _CAMPED for word in words[first : hit.start]) or any(
        word.form in _CAMPED and words[at - 1].form in ("the", "la", "a", "una")
        for at, word in enumerate(words[first:last], first)
    )


_OUTSIDE = listed(
    "outside afuera yard patio field canyon hill rancho ranch canon baldio lote street calle ditch acequia road alley"
)
_BURNS = ("burn", "quem", "ard")
_BURNT_OUT = (RUBBISH | listed("basura trash hojas leaves zacate hierba brush branches ramas weeds")) - listed(
    "plastico plastic rubber"
)


def _burns_outside(hit: Hit, words: Sequence[Word]) -> bool:
    """“the smoke you see is the basura quemándose afuera”, “somebody down the canyon is burning trash, smells awful”."""
    first, last = sentence_of(hit, words, _REACH)
    near = words[max(first, hit.start - 8) : min(last, hit.end + 10)]
    forms = [word.form for word in near]
    if any(word.form in MACHINES or word.form in ("kitchen", "cocina", "not", "no") for word in near):
        return False
    burnt = any(
        form in _BURNT_OUT and any(f.startswith(_BURNS) for f in (*forms[max(0, at - 2) : at], *forms[at + 1 : at + 3]))
        for at, form in enumerate(forms)
    )
    return burnt and any(form in _OUTSIDE for form in forms)


_NO_PART = (
    ("nada", "que", "ver"),
    ("nothing", "to", "do"),
    ("nothin", "to", "do"),
    ("no", "tiene", "culpa"),
    ("no", "tiene", "la"),
)
_WITH_WHAT = MACHINES | listed("you yall your ustedes usted this it esto eso ella mine mia mio")


def _no_part_in_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“cerro lleno de humo por la quema, la secadora no tiene nada que ver”, “… nothing to do with the stove”."""
    for at in range(hit.end, min(hit.end + _REACH, len(words) - 2)):
        if tuple(word.form for word in words[at : at + 3]) not in _NO_PART:
            continue
        if words[at].form == "no":
            return any(w.form == "culpa" for w in words[at : at + 4]) and _just_before(at, words)
        if words[at].form == "nada" and words[at - 1].form == "tiene" and _just_before(at - 2, words):
            return True
        if any(word.form in MACHINES for word in words[max(0, hit.start - 3) : at]):
            return False
        return any(word.form in _WITH_WHAT for word in words[at + 4 : at + 7])
    return False


def _just_before(at: int, words: Sequence[Word]) -> bool:
    """Whether a machine stands right before word *at*, and begins its breath."""
    return any(
        words[n].form in MACHINES and any(w.brk for w in words[max(0, n - 3) : n + 1])
        for n in range(max(0, at - 3), at)
    )
