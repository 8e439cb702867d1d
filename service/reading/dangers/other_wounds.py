"""
Wounds and shocks that no machine dealt: a thumb sliced on an onion, a finger slammed in the truck, a boy who cut his hair, a
cramp in the leg, blood in the wash, somebody in shock for a death: “me corté con un bote de duraznos”, “me dio un toque de
nostalgia”.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.source_words import COOKED, MACHINES, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 14


def wounded_otherwise(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether the wound or shock of *hit* is told to come from no machine of the house, or to be no wound."""
    if hit.payload.code == "injury":
        return (
            _by_another_thing(hit, words)
            or _cuts_hair(hit, words)
            or _of_burnt_food(hit, words)
            or _is_a_stain(hit, words)
            or _is_grief(hit, words)
        )
    if hit.payload.code != "shock":
        return False
    return (
        _by_another_thing(hit, words)
        or _is_a_touch_of(hit, words)
        or _is_a_cramp(hit, words)
        or _is_static_of_the_wash(hit, words)
        or _is_grief(hit, words)
    )


_THINGS = listed("""
    onion tomato tomate avocado peach peaches duraznos potato papa truck troca car carro camioneta trailer traila
    fence barda ladder escalera hammer martillo taladro drill torno lathe serrucho saw chainsaw motosierra axe hacha machete
    firewood lena cactus tree arbol rosal rosebush bicycle bici bike scooter horse caballo bull toro soccer football
    basketball baseball softball volleyball balon pelota futbol gym weights pesas fishing hook anzuelo grinder esmeril
    feria fair carnival taser prod fencer battery bateria bote gate porton
    wheelbarrow carretilla shovel pala rake tractor mower treadmill skillet comal
    curler straightener rizador guitar guitarra amp amplificador karaoke speaker bocina projector therapy terapia
""")
"""What hurts people and is no machine of the house, ..."""
_HELD_BY = listed("""
    on in with by from off con en por fue era was were playing jugando opening abriendo chopping picando cutting cortando
    changing cambiando under bajo riding fixing
""")
"""... and what ties it to the wound, so many words before it."""
_HELD_WITHIN = 4
_OF_HAIR = listed("pelo cabello hair")
_IRONS = listed("plancha iron dryer secadora tenazas straightener")
_CANS = (("a", "can"), ("can", "of"), ("the", "can"), ("tin", "can"), ("can", "lid"), ("soda", "can"), ("tuna", "can"))
_THERAPIES = listed("""
    therapist therapy tens chiropractor dentist acupuncture acupuncturist terapeuta terapia quiropractico dentista masajista
    rehab physio
""")
_PLAYS = listed("ball game futbol soccer football basketball baseball softball volleyball hockey tenis tennis")
_GUESSED = listed("like como think maybe not no isnt wasnt creo quiza parecia parece ni nor")


def _by_another_thing(hit: Hit, words: Sequence[Word]) -> bool:
    """“sliced my thumb on an onion”, “me dio un toque el taladro”; no machine with it in one breath."""
    first, last = sentence_of(hit, words, _REACH)
    at = next((at for at in range(first, last) if _is_such(at, first, words)), None)
    if at is None or any(w.form in _GUESSED for w in words[max(first, at - 4) : at]):
        return False
    breath = next((n for n in range(max(at, hit.end - 1) + 1, last) if words[n].brk or words[n].form in _SO), last)
    named = [n for n in range(first, breath) if words[n].form in MACHINES and not _of_the_hair(n, words)]
    return not named and not any(word.form in _BESIDES for word in words[breath:])


_SO = listed("so thats por because and y entonces anyway anyways lol jaja jajaja haha pero but")
_BESIDES = listed("too also tambien igual same again otra")


def _is_such(at: int, first: int, words: Sequence[Word]) -> bool:
    form = words[at].form
    if form in _THERAPIES:
        return True
    tied = any(word.form in _HELD_BY for word in words[max(first, at - _HELD_WITHIN) : at])
    if form == "can" or (words[at - 1 : at] and words[at - 1].form == "can"):
        pair = (words[at - 1].form if at else "", form)
        return tied and pair in _CANS
    if _of_the_hair(at, words):
        return True
    return tied and (form in _THINGS or (form in _PLAYS and words[at - 1].form == "playing"))


def _of_the_hair(at: int, words: Sequence[Word]) -> bool:
    """“la plancha del pelo”, “hair iron”, “hair dryer”."""
    if words[at].form not in _IRONS:
        return False
    near = (*words[max(0, at - 1) : at], *words[at + 1 : at + 3])
    return any(word.form in _OF_HAIR or word.form == "curling" for word in near)


def _cuts_hair(hit: Hit, words: Sequence[Word]) -> bool:
    """“mi hija se cortó el pelo”: and nothing else."""
    if not words[hit.end - 1].form.startswith(("cort", "cut")):
        return False
    return any(
        word.form in _OF_HAIR or word.form in ("fleco", "unas", "bangs") for word in words[hit.end : hit.end + 3]
    )


_BURNT = ("quem", "tatem", "achicharr", "burn", "scorch", "chamusc")
_BODY = (
    "mano",
    "dedo",
    "brazo",
    "cara",
    "pie",
    "pierna",
    "hand",
    "finger",
    "arm",
    "face",
    "leg",
    "thumb",
    "ampoll",
    "blister",
)


def _of_burnt_food(hit: Hit, words: Sequence[Word]) -> bool:
    """“los frijoles se me quemaron”, “las quemaduras del sartén”: no part of a body near."""
    if not any(word.form.startswith(_BURNT) for word in words[hit.start : hit.end]):
        return False
    near = words[max(0, hit.start - 4) : hit.end + 3]
    if any(word.form.startswith(_BODY) for word in near):
        return False
    before, behind = words[max(0, hit.start - 3) : hit.start], words[hit.end : hit.end + 3]
    if words[hit.end - 1].form in ("quemaron", "quemo", "queman", "quemaba"):
        return any(word.form in COOKED for word in before) or (
            any(word.form in COOKED for word in behind[:2]) and not behind[0].brk
        )
    return words[hit.end - 1].form.startswith("quemadura") and any(word.form in COOKED for word in behind)


_LINEN = listed("""
    sheet sheets pillowcase pillowcases uniform uniforms scrubs shirt shirts jeans pants pajamas towel towels clothes laundry
    sabana sabanas funda fundas uniforme uniformes camisa camisas pantalon ropa toalla toallas pijama colcha cobija
""")
_TO_WASH = listed("""
    stain stains stained cycle wash soak out mancha manchas mancho ciclo lavar remojar salga sale quita quito sacar quitar talla
    agua water cold fria peroxide
""")
_WOUNDED = (
    "dedo",
    "mano",
    "brazo",
    "pie",
    "pierna",
    "finger",
    "hand",
    "arm",
    "foot",
    "leg",
    "cut",
    "cort",
    "still",
    "sigue",
)


def _is_a_stain(hit: Hit, words: Sequence[Word]) -> bool:
    """“hay sangre en las sábanas por la nariz, ¿qué ciclo le pongo?”: blood in the wash."""
    if not any(word.form.startswith(("sangr", "blood")) for word in words[hit.start : hit.end]):
        return False
    first, last = sentence_of(hit, words, _REACH)
    forms = {word.form for word in words[first:last]}
    return bool(forms & _LINEN and forms & _TO_WASH) and not any(form.startswith(_WOUNDED) for form in forms)


_DEATHS = listed("passed died dead funeral death loss fallecio murio velorio luto lost divorce")


def _is_grief(hit: Hit, words: Sequence[Word]) -> bool:
    """“in shock, mom passed sunday”."""
    if words[hit.start].form != "shock" or not hit.start or words[hit.start - 1].form not in ("in", "en", "still"):
        return False
    return any(word.form in _DEATHS for word in words[hit.start : hit.end + 6])


_TOUCHES = listed("toque toques toquecito toquecitos shock jolt zap")
_OF_WHAT = listed("""
    alegria nostalgia credito suerte felicidad emocion carino amor color sabor sal limon picante chile canela magia elegancia
    gracia genialidad locura tristeza reality culture sticker price caffeine coffee sugar
""")


def _is_a_touch_of(hit: Hit, words: Sequence[Word]) -> bool:
    """“me dio un toque de alegría”, “un toque pero de crédito”, “sticker shock”."""
    at = hit.end
    if words[at - 1].form not in _TOUCHES:
        return False
    if at - 2 >= 0 and words[at - 2].form in _OF_WHAT:
        return True
    if at < len(words) and words[at].form in ("pero", "but"):
        at += 1
    behind = [word.form for word in words[at : at + 3]]
    return len(behind) > 1 and behind[0] in ("de", "of", "d") and bool(_OF_WHAT & set(behind[1:]))


_CRAMPS = ("calambr", "cramp")
_LIMBS = listed(
    "pierna piernas pantorrilla pie pies espalda cuello muslo chamorro estomago panza leg legs calf foot feet back neck"
)
_TOUCHED = ("toc", "toq", "agarr", "touch", "grab", "cada", "when", "cuando", "si", "if", "siempre", "moj", "descalz")


def _is_a_cramp(hit: Hit, words: Sequence[Word]) -> bool:
    """“me dio un calambre en la pierna moviendo la lavadora”; not one told of a touch."""
    if not any(word.form.startswith(_CRAMPS) for word in words[hit.start : hit.end]):
        return False
    first, last = sentence_of(hit, words, _REACH)
    if any(word.form.startswith(_TOUCHED) for word in words[first:last]):
        return False
    return any(word.form in _LIMBS for word in words[hit.end - 1 : hit.end + 3])


_STATIC = listed("static staticky estatica")
_WASHED = listed(
    "clothes socks sheets blankets towels sweaters laundry fleece ropa calcetines sabanas cobijas toallas sueteres"
)
_NO_STATIC = listed("""
    touch touched touching toco toque toques not isnt wasnt no plug cord frame metal puerta door handle think thought creo pense
    wet too also tambien again maybe
""")


def _is_static_of_the_wash(hit: Hit, words: Sequence[Word]) -> bool:
    """“static from the clothes out of the dryer zaps us all winter”."""
    first, last = sentence_of(hit, words, _REACH)
    forms = [word.form for word in words[first:last]]
    if not (_STATIC & set(forms) and _WASHED & set(forms)) or _NO_STATIC & set(forms):
        return False
    return any(
        a in ("from", "on", "off", "in", "de", "en", "la", "las", "los", "the", "my") and b in _WASHED
        for a, b in pairwise(forms)
    )
