"""
What answers a question about a danger without a plain yes or no: told of minutes or hours ago it stands (“not now, 20 min ago
yeah”), a harmless cause or the safe state of the very thing asked about denies it (“it's from the chile I'm roasting”,
“felt it, room temperature”).
"""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import replace

from service.reading.dangers.safe_states import MOST_WORDS, told_safe, told_unsafe
from service.reading.dangers.source_words import listed
from service.reading.model import Answer, Asked, HazardFound, Reading
from service.reading.words.normalising import Word


def answered_of_a_danger(asked: Asked, words: Sequence[Word], text: Reading) -> Answer | None:
    """The yes or no that *words* tell of the danger *asked* about; None where a plain yes or no has to tell."""
    if asked.kind != "yes_no" or not asked.code or len(words) > MOST_WORDS or any(word.asks for word in words):
        return None
    if told_of_before(words):
        return Answer("yes")
    if told_unsafe(asked.code, words):
        return Answer("yes")
    if asked.code in _SMELLED and not text.hazards and smells_nothing(words):
        return Answer("no")
    if text.hazards or not told_safe(asked.code, words):
        return None
    return Answer("no")


def still_stands(reading: Reading, asked: Asked | None, words: Sequence[Word], dangers: Container[str]) -> Reading:
    """*reading* with the danger *asked* about raised where it is told of before, whatever is denied of now."""
    if asked is None or asked.code not in dangers or asked.kind != "yes_no" or len(words) > MOST_WORDS:
        return reading
    code = asked.code
    if code is None or any(h.code == code for h in reading.hazards) or not told_of_before(words):
        return reading
    found = HazardFound(code, reading.text, 0, len(reading.text), "answer")
    denied = tuple(h for h in reading.denied_hazards if h.code != code)
    return replace(reading, hazards=(*reading.hazards, found), denied_hazards=denied)


_SMELLED = frozenset(("gas_smell", "burning_smell"))
_SMELLS = listed("smell smells smelling odor odors stink stinks whiff olor olores huele oler huelo")
_NONE = listed("no not nt zero any sin ningun nada never without ni dont doesnt didnt")


def smells_nothing(words: Sequence[Word]) -> bool:
    """“yes the burners light fine, no smell”: all that is said of a smell is that there is none."""
    smells = [at for at, word in enumerate(words) if word.form in _SMELLS]
    return bool(smells) and all(any(word.form in _NONE for word in words[max(0, at - 2) : at]) for at in smells)


_NOT_ME = (("a", "mi", "no"), ("yo", "no"), ("not", "me"), ("no", "a", "mi", "no"))
_OTHERS = listed("si yes pero but esposa esposo wife husband hijo hija son daughter ella el she he")


def says_not_me(words: Sequence[Word]) -> bool:
    """“a mí no, y eso que la agarro descalza”: nobody else is told to have."""
    opening = tuple(word.form for word in words[:4])
    if not any(opening[: len(plain)] == plain for plain in _NOT_ME) or len(words) > MOST_WORDS // 2 + 2:
        return False
    return not any(word.form in _OTHERS for word in words)


_UNITS = listed(
    "min mins minute minutes hr hrs hour hours second seconds minuto minutos hora horas ratito rato ratillo while bit"
)
_DAYS = listed("earlier yesterday ayer anoche antes endenantes tantito")
_PARTS = listed("morning afternoon evening night manana tarde noche")
_OF_PARTS = listed("this last in esta en la")
_ARRIVED = listed("""
    came walked got arrived opened entered first started turned plugged woke llegue llegamos entre entramos abri
    abrimos prendi desperte
""")
_WHEN = listed("when cuando")
_AFFIRMING = listed("""
    puff wisp humito olorcito
    yeah yes yep yea yup strong stronger bad worse tail faint whiff once smelled smelt saw smoked sparked zapped
    shocked stunk stank tingled buzzed little twice hot warm wet caliente tibio tibia mojado mojada couple olia olio
    echaba echo salia salio habia hubo vi vimos senti sentimos dio fuerte poquito poco tantito bastante
""")
_NEGATING = listed(
    "no not nope never nunca nothing nada nobody nadie none ninguna ninguno didnt dont doesnt isnt wasnt tampoco sin ni"
)
_NOW = listed(
    "since entonces now anymore second minute moment currently today longer more present ahorita ahora ya hoy ahoritita orita"
)
_BUT = listed("but pero although aunque")
_MENDED = listed("""
    fixed repaired replaced checked cleared fine ok okay good normal bien arreglo arreglaron cambio cambiaron reviso
    revisaron
""")
_NOW_WITHIN = 4
_AGO_WITHIN = 3


def told_of_before(words: Sequence[Word]) -> bool:
    """Whether it is told to have been so minutes or hours ago, and nothing is denied but that it is so now."""
    if not any(_tells_when(at, words) for at in range(len(words))):
        return False
    if not any(_affirms(at, words) for at in range(len(words))):
        return False
    if any(word.form in _MENDED for word in words):
        return False
    return all(_of_now(at, words) for at, word in enumerate(words) if word.form in _NEGATING)


def _affirms(at: int, words: Sequence[Word]) -> bool:
    """“yeah”, “strong”; “it did”, not “we did turn it off”; “hace rato sí”, not the “if” that opens a breath."""
    form, last = words[at].form, at + 1 == len(words)
    if form == "did":
        return last or words[at + 1].brk > 0 or words[at + 1].form in _BEHIND_DID
    if form == "si":
        return words[at].accented or last or (at > 0 and not words[at].brk)
    return form in _AFFIRMING


_BEHIND_DID = _DAYS | listed("yeah yes a an about for when before last this like though too")


def _tells_when(at: int, words: Sequence[Word]) -> bool:
    form = words[at].form
    if form in _DAYS:
        return True
    near = {word.form for word in words[max(0, at - _AGO_WITHIN) : at]}
    if form in _UNITS:
        return "hace" in near or any(word.form in ("ago", "back") for word in words[at + 1 : at + 2])
    if form in _PARTS:
        return bool(near & _OF_PARTS) and at > 0
    return form in _WHEN and any(word.form in _ARRIVED for word in words[at + 1 : at + 4])


def _of_now(at: int, words: Sequence[Word]) -> bool:
    """“not right now”, “ahorita no”, “ya no”, “no, but ...”."""
    if at and words[at - 1].form in _NOW and not words[at].brk:
        return True
    for behind in words[at + 1 : at + 1 + _NOW_WITHIN]:
        if behind.form in _NOW or behind.form in _BUT:
            return True
        if behind.brk == 2:
            break
    return False


def told_when_asked(reading: Reading, code: str) -> Reading:
    """*reading* with what its yes or no says of the danger *code* that was asked about; “not sure” is a yes."""
    answer = reading.answer
    if answer is None or answer.kind not in ("yes", "no", "dont_know"):
        return reading
    if code in {h.code for h in (*reading.hazards, *reading.denied_hazards)}:
        return reading
    told = HazardFound(code, reading.text, 0, len(reading.text), "answer")
    if answer.kind == "no":
        return replace(reading, denied_hazards=(*reading.denied_hazards, told))
    return replace(reading, hazards=(*reading.hazards, told))
