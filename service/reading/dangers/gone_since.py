"""
Dangers over and done with: what a visit put right, what has ended since, what went with the machine: “that burning smell you
came
for last spring never came back”, “se acabaron los chispazos, gracias”, “it lost its coolant in may, hauled off”.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.source_words import listed
from service.reading.dangers.years_ago import was_years_ago
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 16
_NEVER_OVER = frozenset(["injury", "gas_smell", "carbon_monoxide"])
"""Whom it hurt it has hurt; and gas is called gone by those who may."""


def is_gone_since(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is told to be over, and nothing of it to be there again."""
    if _went_with_it(hit, words):
        return True
    if hit.payload.code in _NEVER_OVER:
        return False
    return _has_ended(hit, words) or _you_came_for_it(hit, words) or was_years_ago(hit, words)


_BACK = listed("""
    again still keeps worse same sigue siguen todavia otra volvio vuelve volvieron mismo doing does aun yet until till hasta
    pero but empezo started just
""")


def _returns(words: Sequence[Word]) -> bool:
    """Whether *words* tell it anew; “never came back” does not."""
    for at, word in enumerate(words):
        if word.form in _BACK and not (word.form == "again" and words[at - 1].form.startswith(("thank", "gracias"))):
            return True
        if word.form == "back" and not any(w.form in _NEVER for w in words[max(0, at - 4) : at]):
            return True
    return False


_NEVER = listed("never hasnt havent not nunca no didnt")
_ENDED = listed("acabaron acabo quitaron quito adios bye")
_MENDED = listed("""
    quedo quedaron gracias arreglaron arreglo arreglada arreglado compusieron cambiaron cambio thanks thank fixed worked
    repaired
""")


def _has_ended(hit: Hit, words: Sequence[Word]) -> bool:
    """“ya quedó, se acabaron los chispazos del contacto”: ended, by what was done."""
    ended = any(word.form in _ENDED for word in words[max(0, hit.start - 4) : hit.start])
    if not ended or any(word.form in _NEVER for word in words[max(0, hit.start - 5) : hit.start]):
        return False
    return any(word.form in _MENDED for word in words) and not _returns(words[hit.end :])


_WHO = listed("""
    you guy guys yall tech technician fella ustedes usted tecnico tecnicos muchacho muchachos electrician electricista
    electrico he
    they repairman plumber
""")
_CAME = listed("""
    came come fixed replaced put swapped changed did cleaned sent vino vinieron arreglaron arreglo cambiaron cambio puso
    pusieron compuso compusieron
""")
_YOU_CAME = listed("vinieron arreglaron cambiaron mandaron compusieron")
_MONTHS = listed("""
    january february march april may june july august september october november december enero febrero marzo abril mayo junio
    julio agosto septiembre octubre noviembre diciembre spring summer fall winter christmas xmas thanksgiving navidad verano
    invierno primavera otono year month ano mes
""")
_AT_THEN = listed("in last back pasado pasada en de este this el the since desde ago hace")
_FINE_SINCE = frozenset((
    ("never", "came"), ("hasnt", "come"), ("has", "not"), ("gone", "since"), ("been", "great"), ("been", "fine"), ("been",
    "good"),
    ("went", "away"), ("ya", "no"), ("no", "volvio"), ("nunca", "volvio"), ("no", "ha"), ("say", "thanks"), ("was", "great"),
    ("so", "kind"), ("was", "so"), ("is", "gone"), ("new", "belt"), ("smells", "like"), ("all", "good"), ("quedo", "bien"),
    ("works", "great"), ("its", "been"), ("muy", "amable"), ("dar", "gracias"), ("las", "gracias"),
))  # fmt: skip


def _you_came_for_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“you guys fixed the smoking belt in march and that part has been great”: who, what, when, and that it stayed so."""
    first, last = sentence_of(hit, words, _REACH)
    sentence = words[first:last]
    came = any(word.form in _CAME for word in sentence) and any(word.form in _WHO for word in sentence)
    if not came and not any(word.form in _YOU_CAME for word in sentence):
        return False
    then = any(
        word.form in _MONTHS
        and any(w.form in _AT_THEN for w in (*sentence[max(0, at - 3) : at], *sentence[at + 1 : at + 2]))
        for at, word in enumerate(sentence)
    )
    if not then or _returns([w for at, w in enumerate(words) if at >= hit.end and not _of_another(at, words)]):
        return False
    return any((a.form, b.form) in _FINE_SINCE for a, b in pairwise(words[first:]))


def _of_another(at: int, words: Sequence[Word]) -> bool:
    """“now it just won't drain”, “just thumps when empty”: what is wrong besides, not that it is back."""
    if words[at].form == "volvio":
        return any(word.form in _NEVER for word in words[max(0, at - 2) : at])
    return words[at].form in ("just", "but", "pero", "does")


_OLD = listed("old viejo vieja biejo bieja anterior antes last otra otro previous former ex ese esa that first")
_THROWN = (
    "hauled off", "hauled away", "haul away", "long gone", "de baja", "fierro viejo", "la chatarra", "ni existe", "lo tiramos",
    "la tiramos", "lo tire", "la tire", "to dump", "the dump", "the curb", "threw out", "thrown out", "got rid", "la basura",
    "al yonke", "al junk", "scrapped it", "junked it", "lo vendimos", "la vendimos", "lo regalamos", "la regalamos",
)  # fmt: skip
_THROWN_PAIRS = frozenset(tuple(pair.split()) for pair in _THROWN)
_STILL_THERE = listed("still again sigue siguen todavia also too tambien igual same mismo")


def _went_with_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“la otra lavadora sí daba toques, esa ya se fue al fierro viejo”: an old one, and where it went."""
    if hit.payload.code == "injury":
        return False
    first, last = sentence_of(hit, words, _REACH)
    if not any(word.form in _OLD for word in words[first:last]):
        return False
    thrown = next(
        (
            n
            for n in range(first, len(words) - 1)
            if n < last + 6 and (words[n].form, words[n + 1].form) in _THROWN_PAIRS
        ),
        None,
    )
    return thrown is not None and not any(word.form in _STILL_THERE for word in words[hit.end :])
