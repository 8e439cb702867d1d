"""
Wounds and shocks that were none: one that only nearly was, blood that is the meat's, and a hand asleep: “nearly broke my toe”,
“hay sangre en el congelador por la carne”, “se me duerme la mano por la diabetes”.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.source_words import listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 14

_NEARLY = listed("nearly almost casi poco")
_HARMS = (
    "cut",
    "cort",
    "brok",
    "break",
    "quebr",
    "machuc",
    "smash",
    "pinch",
    "burn",
    "quem",
    "scald",
    "slic",
    "lastim",
)
"""How the words begin of what befalls at a stroke; who nearly fainted is ill."""
_HARMED = (
    "blood", "bleed", "sangr", "stitch", "puntada", "swol", "swell", "hinch", "hurt", "duele", "dolor", "bruis", "morad",
    "hospital", "ambulanc", "blister", "ampoll", "gash", "numb", "throb", "limp", "scar", "ouch", "doctor", "curit", "vend",
    "bandag", "roj", "purpl", "nail", "off",
)  # fmt: skip
"""How the words begin that tell it was more than nearly so."""


def only_nearly(hit: Hit, words: Sequence[Word]) -> bool:
    """“i nearly cut myself on that edge”; not “almost cut my finger off”, nor “casi me quemo, traigo ampolla”."""
    if hit.payload.code != "injury" or any(word.form.startswith(_HARMED) for word in words):
        return False
    if not any(word.form.startswith(_HARMS) for word in words[hit.start : hit.end]):
        return False
    near = range(max(0, hit.start - 2), hit.start + 1)
    return any(
        words[at].form in _NEARLY and not any(word.brk for word in words[at + 1 : hit.end]) for at in near
    ) and not _in_numbers(hit, words)


def _in_numbers(hit: Hit, words: Sequence[Word]) -> bool:
    """“almost every finger cut”: nearly all of them, not nearly so."""
    return any(word.form in _ALL_OF for word in words[max(0, hit.start - 2) : hit.end])


_ALL_OF = listed("every all todo todos toda todas")

_BLOOD = ("sangr", "blood", "bleed", "bled")
_MEATS = listed("""
    carne carnes res pollo bistec bisteces puerco cerdo pescado venado elk deer venison beef meat meats steak steaks chicken
    roast hamburger turkey pavo pork
""")
_OF_SOMEBODY = (
    "dedo", "mano", "pie", "brazo", "pierna", "cara", "nariz", "cabeza", "finger", "hand", "arm", "foot", "feet", "leg", "face",
    "thumb", "head", "nose", "knee", "cut", "cort", "slic", "reban", "hurt", "herid", "wound", "viv", "knife", "cuchill",
    "stitch", "puntad", "kid", "nino", "nina", "myself", "himself", "herself",
)  # fmt: skip
_SOMEBODY = listed("me i im my he she hes shes his her him se le hijo hija esposo esposa mi")


def is_blood_of_meat(hit: Hit, words: Sequence[Word]) -> bool:
    """“ya está soltando sangre la carne”; not where anybody or a knife stands in its sentence."""
    if hit.payload.code != "injury" or not any(word.form.startswith(_BLOOD) for word in words[hit.start : hit.end]):
        return False
    first, last = sentence_of(hit, words, _REACH)
    sentence = words[first:last]
    if not any(word.form in _MEATS for word in sentence):
        return False
    near = words[max(first, hit.start - 4) : hit.end + 2]
    if any(word.form in _SOMEBODY for word in near):
        return False
    return not any(word.form.startswith(_OF_SOMEBODY) for word in sentence)


_NUMBED = ("numb", "tingl", "durm", "duerm", "dorm", "entum", "hormig")
_NERVES = listed("""
    diabetes diabetic diabetica diabetico carpal carpiano neuropathy sciatica ciatica artritis arthritis
    fibromyalgia
    neuropatia nerve
""")
_TIRED = (
    ("de", "tanto"),
    ("from", "waiting"),
    ("from", "holding"),
    ("por", "esperar"),
    ("de", "apretar"),
    ("de", "cargar"),
)


def is_numb_of_itself(hit: Hit, words: Sequence[Word]) -> bool:
    """“the tingle in my hand is carpal tunnel”, “se me durmió la mano de tanto esperar”; not one told of a touch."""
    if hit.payload.code != "shock" or not any(w.form.startswith(_NUMBED) for w in words[hit.start : hit.end]):
        return False
    first, last = sentence_of(hit, words, _REACH)
    if any(word.form.startswith(_TOUCHED) for word in words[first:last]):
        return False
    behind = words[hit.end : hit.end + 5]
    return any(word.form in _NERVES for word in behind) or any(
        (a.form, b.form) in _TIRED and not a.brk for a, b in pairwise(behind)
    )


_TOUCHED = (
    "touch",
    "toc",
    "toq",
    "agarr",
    "grab",
    "not",
    "when",
    "cuando",
    "plug",
    "enchuf",
    "maybe",
    "think",
    "creo",
    "pens",
)
"""How the words begin that tell of a touch, or a doubt."""
