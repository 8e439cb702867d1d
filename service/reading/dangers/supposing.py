"""
Which dangers are told and not at hand: somebody's name, feared for a day to come, asked of machines in general, or hurt that
somebody took elsewhere or long ago.

Only dangers of current, water and wounds; gas, smoke and fire told so are left to a person.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.asked_shock import asked_whether_it_shocks
from service.reading.dangers.in_general import asked_in_general
from service.reading.dangers.mended_then import mended_by_an_electrician, mended_then
from service.reading.dangers.named_so import is_a_name
from service.reading.dangers.other_sources import names_a_machine
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word
from service.reading.words.sentences import sentence_of

_OF_THESE = frozenset(
    ["sparks", "shock", "hot_wiring", "flooding", "water_near_power", "injury", "refrigerant_leak"],
)
_REACH = 7
"""How far before a danger its fear may stand, and how far around it the place where it befell somebody."""


def not_at_hand(hit: Hit, normal: Normal, marks: Marks) -> bool:
    """Whether *hit* tells of no danger at hand."""
    if hit.payload.code == "burning_smell":
        return not any(word.en in _SMELLS for word in normal.words[hit.start : hit.end]) and _asked_will(
            hit, normal.words
        )
    if is_a_name(hit, normal):
        return True
    if hit.payload.code not in _OF_THESE:
        return False
    words = normal.words
    return (
        feared(hit, words)
        or asked_in_general(hit, words)
        or _asked_what_if(hit, words)
        or _befell_elsewhere(hit, words)
        or _healed(hit, words)
        or _may_hurt(hit, words)
        or _of_theirs(hit, words)
        or _told_of_then(hit, words, marks)
        or mended_then(hit, words, marks)
        or mended_by_an_electrician(hit, words)
        or _asked_will(hit, words)
        or asked_whether_it_shocks(hit, words)
    )


_FEAR = frozenset((
    "scared", "afraid", "worried", "worry", "worries", "nervous", "fear", "terrified", "paranoid", "scares", "dread",
    "miedo", "temo", "temor", "preocupa", "preocupada", "preocupado", "nervios",
))  # fmt: skip
_TO_COME = frozenset((
    "itll", "theyll", "hell", "shell", "ill", "will", "might", "could", "would", "may", "gonna", "id", "getting", "being",
    "vaya", "vayan", "pueda", "puedan", "saque", "eche", "salga", "inunde", "queme", "agarre", "pegue", "moje", "corte",
    "lastime", "truene", "llegue", "haga", "itd", "theyd",
))  # fmt: skip
_WAS_SO = frozenset((
    "again", "already", "still", "keeps", "like", "did", "too", "twice", "once", "otra", "sigue", "vuelva", "volver", "como",
    "tambien", "ya",
))  # fmt: skip


def feared(hit: Hit, words: Sequence[Word]) -> bool:
    """“scared itll shock me”, “miedo de que me pegue un toque”: feared for a day to come, and not that it comes again."""
    first = hit.start - _REACH
    for at in range(hit.start - 1, max(-1, first), -1):
        if words[at].form in _FEAR:
            told = [word.form for word in words[at + 1 : hit.end]]
            if not any(form in _TO_COME for form in told) and not _may_give(told):
                return False
            return not any(word.form in _WAS_SO for word in words[at : hit.end + 5])
        if words[at + 1].brk == 2:
            return False
    return False


def _may_give(told: Sequence[str]) -> bool:
    """“que me dé”: without its accent a little word, told by what stands before it."""
    return any(a in ("me", "nos", "le") and b in ("de", "den") for a, b in pairwise(told))


def said_not_to_have(hit: Hit, words: Sequence[Word]) -> bool:
    """“scared itll shock me. it hasnt”: the very next words say that it never was so."""
    after = [word.form for word in words[hit.end : hit.end + 3]]
    if not after or not words[hit.end].brk:
        return False
    at = 1 if after[0] in ("it", "but", "they", "pero", "which") else 0
    return after[at : at + 1] in (["hasnt"], ["havent"], ["didnt"], ["never"], ["nunca"]) or after[at : at + 2] in (
        ["has", "not"],
        ["no", "ha"],
        ["it", "hasnt"],
    )


_BEGINS = frozenset((
    "starts", "start", "started", "begins", "ever", "goes", "gets", "happens", "someday", "empieza", "empezara", "llega",
    "llegara", "comienza", "pasara", "day",
))  # fmt: skip


def _asked_what_if(hit: Hit, words: Sequence[Word]) -> bool:
    """“what if it starts sparking”, “qué pasa si empieza a echar chispas”: of a day to come."""
    for at in range(hit.start - 1, max(0, hit.start - 2 * _REACH), -1):
        if words[at].form in ("if", "si") and words[at - 1].form in ("what", "pasa", "hago", "haria", "do", "happens"):
            return any(word.form in _BEGINS for word in words[at : hit.start])
        if words[at].brk == 2:
            return False
    return False


_SMELLS = frozenset(["smell", "stink", "odor", "reek", "huel", "olor", "huele"])
_WILL = frozenset(["will", "would", "can", "could", "does", "wont"])
_ITS_SUBJECT = frozenset(["it", "this", "that", "they", "he", "she", "eso", "esto"])
_WILL_ES = frozenset(["va", "van", "puede", "pueden", "podria"])
_GOING_ON = frozenset((
    "keep", "run", "use", "leave", "running", "using", "i", "we", "uso", "usamos", "sigo", "dejo", "usando", "la", "lo",
    "prendo",
))  # fmt: skip


def _asked_will(hit: Hit, words: Sequence[Word]) -> bool:
    """“will it burn up the wires if i keep running it”, “¿se van a quemar los cables si la sigo usando?”."""
    near = words[max(0, hit.start - 4) : hit.end]
    asked = any(
        (a.form in _WILL and b.form in _ITS_SUBJECT) or (a.form in _WILL_ES and b.form in ("a", "quemar", "quemarse"))
        for a, b in pairwise(near)
    )
    if not asked:
        return False
    if any(a.form in ("or", "o") and b.form in _WILL for a, b in pairwise(near)):
        return True
    behind = words[hit.end : hit.end + _REACH]
    return any(a.form in ("if", "si") and b.form in _GOING_ON and a.brk < 2 for a, b in pairwise(behind))


_BEFALLS = frozenset(["injury", "shock"])
_PLACES = frozenset((
    "sun", "beach", "lake", "grill", "campfire", "gym", "soccer", "football", "baseball", "basketball", "skateboard", "bike",
    "hike", "hiking", "skiing", "camping", "paddles", "patient", "patients", "sol", "playa", "lago", "alberca", "gimnasio",
    "cancha", "futbol", "bicicleta", "bici", "comal",
))  # fmt: skip
_WORKED = frozenset(["work", "shift", "job", "jale", "chamba", "trabajo", "office", "oficina"])
_AT_HOME = frozenset(["home", "house", "casa", "but", "pero", "anyway", "anyways", "sano", "healed", "mine"])


def _befell_elsewhere(hit: Hit, words: Sequence[Word]) -> bool:
    """“me quemé pero fue con el sol”, “got shocked with the paddles”; at work only where home is set against it."""
    if hit.payload.code not in _BEFALLS:
        return False
    if words[hit.start].form in ("quema", "queman"):  # so hot it is; “me quema” begins a word earlier
        return True
    near = {word.form for word in _around(hit, words)}
    if (near & _PLACES and not _of_ours(hit, words)) or _nothing_to_do(hit, words) or _at_work(hit, words):
        return True
    if near & _WORKED and any(word.form in _NOT_OF_OURS for word in words[max(0, hit.start - 2) : hit.end]):
        return True
    return bool(near & _WORKED) and any(word.form in _AT_HOME for word in words[hit.end :])


def _of_ours(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether a machine is named right behind *hit*, in one breath: “burned her hand on the oven after soccer practice”."""
    for word in words[hit.end : hit.end + 4]:
        if word.brk:
            return False
        if names_a_machine([word]):
            return True
    return False


def _at_work(hit: Hit, words: Sequence[Word]) -> bool:
    """“me corté con un vidrio en el trabajo. la lavadora no exprime”: no machine but in a sentence of its own."""
    first, last = sentence_of(hit, words, 2 * _REACH)
    if hit.payload.code != "injury" or names_a_machine(words[first:last]) or not names_a_machine(words):
        return False
    told = [word.form for word in words[hit.start : last]]
    return any(a in ("at", "el", "la") and b in _WORKED - {"job", "shift"} for a, b in pairwise(told))


def _nothing_to_do(hit: Hit, words: Sequence[Word]) -> bool:
    """“cut myself, nothing to do with this”."""
    after = [word.form for word in words[hit.end : hit.end + _REACH + 3]]
    return any(
        a in ("nothing", "nothin", "nada", "unrelated") and (a == "unrelated" or b in ("to", "que"))
        for a, b in pairwise([*after, ""])
    )


_UNITS = frozenset(["month", "months", "year", "years", "mes", "meses", "ano", "anos", "xmas", "christmas", "navidad"])
_GONE_BY = frozenset(["ago", "back", "last", "hace", "pasado", "pasada"])
_OVER = frozenset((
    "healed", "healing", "fine", "better", "ok", "okay", "old", "sano", "sane", "sana", "curado", "curada", "cicatriz", "scar",
    "since", "so",
))  # fmt: skip


def _healed(hit: Hit, words: Sequence[Word]) -> bool:
    """“i cut my hand last month on a can so i cant move the fridge”, “hace un mes, ya sano”."""
    if hit.payload.code != "injury":
        return False
    near = _around(hit, words)
    for one, word in enumerate(near):
        if word.form in _UNITS and any(w.form in _GONE_BY for w in near[max(0, one - 3) : one + 2]):
            return any(w.form in _OVER for w in words[max(0, hit.start - 2) : hit.end + 2 * _REACH])
    return False


_MAY = frozenset(["can", "could", "might", "may", "would", "will", "to", "gonna"])
_WHOM = frozenset(["me", "se", "le", "lo", "la", "nos", "les"])


def _may_hurt(hit: Hit, words: Sequence[Word]) -> bool:
    """“the fumes can hurt them”, “la ropa sale que quema los dedos”: what it may do to whoever comes near."""
    if hit.payload.code != "injury" or not hit.start:
        return False
    before = words[hit.start - 1]
    if words[hit.start].form in ("quema", "queman"):
        return before.form not in _WHOM and not words[hit.start].accented
    return words[hit.start].form == "hurt" and (
        before.form in _MAY or words[max(0, hit.start - 2)].form in _MAY - {"to"}
    )


def _around(hit: Hit, words: Sequence[Word]) -> Sequence[Word]:
    """The words around *hit*, up to the ends of its sentence."""
    first, last = hit.start, hit.end
    while first > max(0, hit.start - _REACH) and words[first].brk != 2:
        first -= 1
    while last < min(len(words), hit.end + _REACH) and words[last].brk != 2:
        last += 1
    return words[first:last]


_NOT_OF_OURS = frozenset((
    "sister", "sisters", "brother", "brothers", "cousin", "cousins", "neighbor", "neighbors", "friend", "friends", "coworker",
    "aunt", "uncle", "boss", "buddy", "niece", "nephew", "hermana", "hermano", "prima", "primo", "vecina", "vecino", "amiga",
    "amigo", "cunada", "cunado", "comadre", "compadre", "tia", "tio", "suegra", "suegro", "jefe", "jefa",
))  # fmt: skip
_THEIRS = frozenset(["hers", "his", "theirs"])
_MINE = frozenset(["mine", "ours", "mia", "mio", "mias", "mios", "nuestra", "nuestro"])
_BY = frozenset(["by", "from", "with", "off", "at", "in"])
_PLACE = frozenset(["place", "house", "apartment", "home", "casa"])
_TOO = frozenset(["too", "also", "same", "tambien", "igual", "either", "tampoco"])


def _of_theirs(hit: Hit, words: Sequence[Word]) -> bool:
    """“my cousin in Yuma got shocked by his”, “hers sparked but mine is just quiet”."""
    if hit.payload.code == "injury":
        return False
    before = [word.form for word in words[max(0, hit.start - _REACH) : hit.start + 1]]
    after = [word.form for word in words[hit.end : hit.end + 3]]
    kin = any(form in _NOT_OF_OURS for form in before)
    if kin and after and after[0] in _BY and len(after) > 1:
        if after[1] in _THEIRS and not (len(after) > 2 and after[2] in ("hand", "finger", "foot", "arm")):
            return True
        if after[1] in ("their", "her", "his") and after[-1] in _PLACE:
            return True
    if not (kin or _THEIRS & set(before[-3:])):
        return False
    then = [word.form for word in words[hit.end : hit.end + 2 * _REACH]]
    return any(form in _MINE for form in then) and not any(form in _TOO for form in then)


def _told_of_then(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """“sparked once when i was in college, this one just quit”: told of another day, and set against what is at hand."""
    for start, end in marks.at("past"):
        if hit.start <= start <= hit.end + 4 and words[start].form in ("when", "back", "cuando"):
            return any(word.form in ("this", "mine", "ours", "esta", "este", "mia", "mio") for word in words[end:])
    return False
