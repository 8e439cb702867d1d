"""
Dangers named first and denied behind it, and people told to be well where something befell: “humo no hay”, “toques no da”,
“lumbre no se ve”, “the oven door fell on a teddy bear, kid is fine”.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from service.reading.dangers.hazards import Screened
from service.reading.dangers.source_words import listed
from service.reading.model import HazardFound
from service.reading.words.normalising import Normal, Word

RULE = "a danger named first, and denied behind it"

_NAMED = {
    "humo": "smoke", "chispa": "sparks", "chispas": "sparks", "toque": "shock", "toques": "shock", "calambres": "shock",
    "lumbre": "fire", "llamas": "fire", "flamas": "fire",
}  # fmt: skip
_NO = listed("no nada ninguno ninguna tampoco")
_EMITS = listed(
    "hay da dan sale salen echa echan hecha tira avienta saca suelta ve ven veo vi trae tiene hace hubo he visto"
)
_PASSING = listed("se me le nos he ha visto sacado dado echado salido")
_BEFORE = listed("y pero dice q que de ni o and but aunque porque pues")
_CLICKERS = listed("quemador quemadores hornilla hornillas encendedor chispero piloto burner burners cerillo")
"""Beside these a spark or a flame that is not there is the burner's own."""


def with_named_first(screened: Screened, normal: Normal) -> Screened:
    """*screened* with what is denied behind its own name, and nobody hurt by what befell."""
    known = {*screened.codes, *screened.cleared, *(found.code for found in screened.doubted)}
    words = normal.words
    found = [
        HazardFound(
            code, normal.text[words[first].start : words[last - 1].end], words[first].start, words[last - 1].end, RULE
        )
        for code, first, last in (*_denied_behind(words), *_unhurt(words))
        if code not in known
    ]
    if not found:
        return screened
    denied = tuple({each.code: each for each in found}.values())
    notes = tuple(f"“{each.words}” denies {each.code}." for each in denied)
    return replace(screened, denied=(*screened.denied, *denied), notes=(*screened.notes, *notes))


def _denied_behind(words: Sequence[Word]) -> Iterator[tuple[str, int, int]]:
    for at, word in enumerate(words[:-1]):
        code = _NAMED.get(word.form)
        if code is None or words[at + 1].form not in _NO or words[at + 1].brk:
            continue
        if at and not word.brk and words[at - 1].form not in _BEFORE:
            continue
        if code in ("sparks", "fire") and any(w.form in _CLICKERS for w in words):
            continue
        end = at + 2
        while end < len(words) and not words[end].brk and words[end].form in _PASSING | _EMITS and end < at + 5:
            end += 1
        if end > at + 2 and (end == len(words) or words[end].brk or words[end].form in _BEFORE):
            yield code, at, end


_PEOPLE = listed("""
    kid kids child baby son daughter toddler wife husband mom grandma grandpa dad he hes she shes everybody everyone they were
    nino nina ninos bebe hijo hija chamaco chamaca ella el esposa esposo abuela abuelo mama papa todos nieto nieta perro
""")
_BE = listed("is are were was esta estan estamos hes shes")
_WELL = listed("fine ok okay unhurt alright bien salvo")
_HOW = listed("all just totally perfectly muy todos")
_BEFELL = listed("""
    fell falls fallen exploded explode explodes exploto shattered cayo caia avento tumbo reventada reventaron estrello
    boom blew slammed dropped sparked burst collapsed desplomo trono
""")
_GOES_ON = listed("with w about by to for at con de para a waiting esperando")
_HURT = listed("""
    cut cuts burn burned burnt bleeding bruise bruised hurt hurts except but pero aunque corto corte quemo quemada cortada
    sangre hospital scratch scratched limping swollen bump moreton chichon blister ampolla now ahorita
""")


def _unhurt(words: Sequence[Word]) -> Iterator[tuple[str, int, int]]:
    """“it fell on the bear, kid is fine”, “se le cayó encima, ella está bien”: nobody told to have any wound."""
    if not any(word.form in _BEFELL for word in words) or any(word.form in _HURT for word in words):
        return
    for at, word in enumerate(words[:-1]):
        if word.form not in _PEOPLE:
            continue
        end = at + 1
        be = word.form in ("hes", "shes")
        while end < len(words) and not words[end].brk and words[end].form in _BE | _HOW:
            be, end = be or words[end].form in _BE, end + 1
        if not be or end >= len(words) or words[end].brk or words[end].form not in _WELL:
            continue
        if end + 1 == len(words) or words[end + 1].brk or words[end + 1].form not in _GOES_ON:
            yield "injury", at, end + 1
