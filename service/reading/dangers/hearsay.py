"""
Dangers that are only spoken of: heard on the news, dreamed, asked for a class, told of the house down the street or of a
relative's machine, and what the line had asked about and is answered as none: “on the news a dryer caught fire”, “soñé que se
incendiaba”, “a mi tía le echó humo el suyo, el mío no”.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.in_general import so_does_ours
from service.reading.dangers.source_words import ALARM, MACHINES, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 14
_OURS = listed("my our mi nuestra nuestro nuestros mis me nos us mine ours i we")
_BEFELL = frozenset((
    "fire", "smoke", "sparks", "shock", "carbon_monoxide", "gas_smell", "injury", "flooding", "burning_smell",
    "refrigerant_leak",
))  # fmt: skip


def is_hearsay(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is only spoken of; told of ours besides, it stays."""
    if so_does_ours(words[hit.end :]):
        return False
    return (
        _in_the_news(hit, words)
        or _dreamed(hit, words)
        or _for_a_class(hit, words)
        or _down_the_street(hit, words)
        or _of_a_relative_s(hit, words)
        or _where_we_work(hit, words)
        or _asked_about(hit, words)
        or (hit.payload.code in _KINDS and _at_work(hit, words))
    )


_NEWS = listed("news noticias noticiero noticia movie pelicula novela telenovela podcast documentary documental")
_SHOWN_ON = listed("on in the las los una la un el en salio vi watched saw heard of from por")


def _in_the_news(hit: Hit, words: Sequence[Word]) -> bool:
    """“they said on the news a dryer caught fire across town”; not where an alarm is told, or ours stands between."""
    if hit.payload.code not in _BEFELL or any(word.form in ALARM for word in words[hit.start : hit.end]):
        return False
    first, last = sentence_of(hit, words, _REACH)
    at = next((n for n in range(first, last) if words[n].form in _NEWS and words[n - 1].form in _SHOWN_ON and n), None)
    if at is None:
        return False
    between = words[at + 1 : hit.start] if at < hit.start else words[hit.end : at]
    if any(word.form in _OURS for word in words[hit.start : hit.end]) and hit.payload.code == "injury":
        return False
    mine = at > hit.start and any(word.form in _OURS for word in words[max(first, hit.start - 4) : hit.start])
    return not (mine or any(word.form in _OURS for word in between))


_DREAMS = listed("dreamed dreamt dream dreams nightmare nightmares sone sonaba pesadilla pesadillas")
_AWAKE = listed("woke desperte wake awake came true real really")


def _dreamed(hit: Hit, words: Sequence[Word]) -> bool:
    """“dreamed the stove caught fire”, “soñé que salía humo”; not “sonaba”, which rings, unless it is that."""
    first, last = sentence_of(hit, words, _REACH)
    if any(word.form in _AWAKE for word in words[first:last]):
        return False
    for at in range(max(first, hit.start - 7), hit.start):
        form = words[at].form
        if form in _DREAMS and form not in ("sone", "sonaba"):
            return True
        if form in ("sone", "sonaba") and any(w.form in ("que", "q", "con") for w in words[at + 1 : at + 2]):
            return form == "sone" or not any(w.form in ALARM for w in words[first:at])
    return False


_LEARNING = listed("""
    class talk homework project report essay exam test quiz training course book story meeting presentation scouts scout
    curso platica tarea clase examen proyecto escuela capacitacion reporte novela cuento presentacion junta libro
""")
_FOR = listed("for para pa")
_ASKS = listed("how what if when que como si cuando cual cuales do does would can puede podria quien")


def _for_a_class(hit: Hit, words: Sequence[Word]) -> bool:
    """“how do i put out a grease fire, asking for my scout talk”, “¿qué se hace si agarra fuego? es para el curso”."""
    first, _ = sentence_of(hit, words, _REACH)
    if not any(word.form in _ASKS for word in words[first : hit.start + 1]):
        return False
    for at in range(hit.end, min(hit.end + _REACH, len(words))):
        if words[at].form in _FOR and any(w.form in _LEARNING and not w.brk for w in words[at + 1 : at + 6]):
            return True
    return False


_FOLKS = listed("""
    lady guy man woman family folks people house place home couple they kid old senora senor familia casa gente muchacha
    muchacho dona don tienda store restaurant church school bakery laundromat motel
""")
_AWAY = frozenset((
    "doors down", "houses down", "down the", "across the", "across from", "around the", "up the", "across town", "next door",
    "doors over", "streets over", "blocks over", "blocks away", "doors up",
    "de enfrente", "de la esquina", "de al", "a la vuelta", "de aqui", "de la cuadra", "otra calle", "otra cuadra", "dos casas",
    "tres casas",
))  # fmt: skip
_REACHES_US = listed("our my us ours mi nuestra nuestro aqui here into toward towards smell smells huele llega coming")


def _down_the_street(hit: Hit, words: Sequence[Word]) -> bool:
    """“the lady two doors down lost her laundry room to a lint fire”; not “smoke from across the street comes in our …”."""
    if hit.payload.code in ("flooding", "water_near_power", "injury"):
        return False
    first, last = sentence_of(hit, words, _REACH)
    for at in range(first, hit.start - 1):
        if f"{words[at].form} {words[at + 1].form}" in _AWAY and any(
            word.form in _FOLKS for word in words[max(first, at - 3) : at]
        ):
            break_at = next((n for n in range(hit.end, last) if words[n].brk), last)
            return not any(word.form in _REACHES_US for word in words[at + 1 : break_at])
    return False


_KIN = listed("""
    sister sisters brother brothers cousin cousins friend friends coworker aunt uncle niece nephew mom dad mother father
    grandma grandpa boss daughter son laws inlaws hermana hermano prima primo amiga amigo cunada cunado comadre compadre tia tio
    suegra suegro jefe jefa mama papa abuela abuelo hija hijo vecina vecino neighbor neighbors tata nana ahijada ahijado nuera
    yerno roommate
""")
_THEIRS = listed("su sus her his their hers theirs suya suyo suyas suyos")
_MINE = (
    ("el", "mio"), ("la", "mia"), ("lo", "mio"), ("los", "mios"), ("las", "mias"), ("el", "nuestro"), ("la", "nuestra"),
    ("lo", "nuestro"), ("aqui", "no"), ("here", "no"), ("yo", "no"), ("not", "mine"), ("not", "ours"),
)  # fmt: skip
_MINE_EN = listed("mine ours")
_TOO = listed("too also same tambien igual either tampoco again")
_OF_SMELL = frozenset(["smoke", "fire", "burning_smell", "gas_smell", "carbon_monoxide", "sparks", "shock", "flooding"])


def _of_a_relative_s(hit: Hit, words: Sequence[Word]) -> bool:
    """“a mi tía le echó humo su lavaplatos, el mío no echa nada”, “my sister in law's range leaks gas. ours needs a knob”."""
    if hit.payload.code not in _OF_SMELL:
        return False
    first, last = sentence_of(hit, words, _REACH)
    kin = next((at for at in range(max(first, hit.start - 7), hit.end) if words[at].form in _KIN), None)
    if kin is None:
        return False
    near = words[kin : min(last, hit.end + 5)]
    theirs = any(a.form in _THEIRS and (b.form in MACHINES or b.form == "casa") for a, b in pairwise(near))
    if not theirs and not (words[kin].form.endswith("s") and any(w.form in MACHINES for w in words[kin + 1 : kin + 3])):
        return False
    behind = [word.form for word in words[hit.end :]]
    if set(behind) & _TOO:
        return False
    return bool(set(behind) & _MINE_EN) or any(pair in _MINE for pair in pairwise(behind))


_WORKPLACES = listed("work job office trabajo chamba jale oficina school escuela church iglesia gym breakroom jobsite")
_AT_A_PLACE = listed("at in from de del en la el mi my the our his her their")
_AT_HOME = frozenset((
    ("my", "place"), ("my", "house"), ("my", "home"), ("at", "home"), ("mi", "casa"), ("la", "casa"), ("my", "kitchen"),
    ("our", "house"), ("our", "place"), ("nuestra", "casa"), ("ese", "no"), ("esa", "no"), ("not", "that"),
))  # fmt: skip


def _where_we_work(hit: Hit, words: Sequence[Word]) -> bool:
    """“the microwave at work caught fire. what's one at my place”, “el de mi job echa chispas pero ese no, el de mi casa …”."""
    if hit.payload.code == "injury":
        return False
    first, last = sentence_of(hit, words, _REACH)
    at_work = any(
        words[at].form in _WORKPLACES
        and words[at - 1].form in _AT_A_PLACE
        and any(w.form in MACHINES for w in words[max(first, at - 5) : at])
        for at in range(first + 1, min(last, hit.end + 5))
    )
    behind = words[hit.end :]
    if not at_work or any(word.form in _TOO for word in behind):
        return False
    home = any((a.form, b.form) in _AT_HOME for a, b in pairwise(behind))
    return (
        home or any(w.form in _MINE_EN for w in behind) or any((a.form, b.form) in _MINE for a, b in pairwise(behind))
    )


_OURS_IS = frozenset((*(pair for pair in _MINE if pair[1] != "no"), ("this", "one")))
_DOES_NOT = listed("no doesnt didnt never hasnt isnt dont nunca")
_DOES = listed("da dan echa hace saca huele tira avienta do done ha any that")
_OURS_WITHIN = 10


def mine_does_not(hit: Hit, words: Sequence[Word]) -> bool:
    """“su lavadora le da toques, la mía no da”, “our old stove leaked gas, this one doesn't”: theirs told, ours denied."""
    if hit.payload.code == "injury":
        return False
    for at in range(hit.end, min(hit.end + _OURS_WITHIN, len(words) - 1)):
        one, two = words[at].form, words[at + 1].form
        no = at + 1 if one in _MINE_EN else at + 2 if (one, two) in _OURS_IS else 0
        if not no or no >= len(words) or words[no].form not in _DOES_NOT or words[no].brk:
            continue
        end = no + 1
        while end < len(words) and not words[end].brk and words[end].form in _DOES and end < no + 3:
            end += 1
        return end == len(words) or words[end].brk > 0
    return False


_ASKED_OF = (
    ("asked", "about"), ("ask", "about"), ("asking", "about"), ("said", "watch"), ("watch", "for"), ("look", "for"),
    ("looking", "for"), ("preguntaron", "por"), ("preguntan", "por"), ("pregunto", "por"), ("preguntaba", "por"),
    ("preguntaron", "de"), ("preguntan", "de"), ("checked", "for"), ("check", "for"), ("fije", "en"),
)  # fmt: skip
_ASKED_WITHIN = 5
_NONE = listed("nothing none no nope nah zero nada ninguno ninguna cero normal not never nunca")
_UNSURE = listed("sure se seguro segura idea only solo nomas just more")
_SOME = listed("yes yeah yep si sip saw vi hay there theres one once twice una uno when cuando still sigue some")


def _asked_about(hit: Hit, words: Sequence[Word]) -> bool:
    """“you asked about sparks. nothing”, “u said watch for sparks so i stood there. nothing”: the next words say none."""
    if hit.payload.code == "injury":
        return False
    before = words[max(0, hit.start - _ASKED_WITHIN) : hit.start]
    if not any((a.form, b.form) in _ASKED_OF for a, b in pairwise(before)):
        return False
    for at in range(hit.end, min(hit.end + _REACH, len(words))):
        form = words[at].form
        if form in _NONE:
            unsure = any(word.form in _UNSURE and not word.brk for word in words[at + 1 : at + 2])
            return not (unsure or words[at - 1].form in ("why", "si", "if"))
        if form in _SOME or form in MACHINES:
            return False
    return False


_KINDS = frozenset(["smoke", "fire", "burning_smell", "gas_smell", "carbon_monoxide"])
_PATIENTS = listed("patient patients paciente pacientes pt victim student dispatch caller")


def _at_work(hit: Hit, words: Sequence[Word]) -> bool:
    """“we had a patient with CO poisoning tonight, not me”."""
    near = range(max(0, hit.start - 5), hit.start)
    return any(words[at].form in _PATIENTS and all(w.brk < 2 for w in words[at + 1 : hit.start + 1]) for at in near)
