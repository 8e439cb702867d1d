"""
Dangers that somebody else told or took for one, set right behind them, or that are said not to be by a word that points back:
“mother says it's smoke. it's steam”, “I know what an arc looks like & there isn't one”, “if it floods he'll sue. it hasn't”.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.dangers.source_words import COOKED, DOUBTED, GAS_SOURCES, MACHINES, PARTS, ROOMS, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_NONE_TOLD = """
    there isnt one|there isnt any|there arent any|there aint any|there aint one|there wasnt any|there wasnt one|theres none
    there is none|there was none|there are none|none here|none in here|not a one|not one|i see none|dont have any
    dont see any|dont see one|dont smell any|havent seen any|havent seen one|havent had any|didnt see any|didnt have any
    ni una|ni uno|ni un|no hay|no la hay|no las hay|no lo hay|no hubo|de eso nada|no he visto|no he tenido
"""
_NONE_OF = tuple(
    tuple(phrase.split()) for line in _NONE_TOLD.split("\n") for phrase in line.split("|") if phrase.strip()
)
_FIRST_OF_NONE = frozenset(phrase[0] for phrase in _NONE_OF)
_GOES_ON = listed("in on at here anymore aqui en de y and but pero so thank gracias ever yet")
_NONE_WITHIN = 9


def none_of_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“I know what an arc looks like & there isnt one”, “chispas veo, en el micro ni una”; not “smoke, no hay luz”."""
    if _none_since(hit, words):
        return True
    stop = False
    for at in range(hit.end, min(hit.end + _NONE_WITHIN, len(words))):
        if words[at].brk == 2 and stop:
            return False
        stop = stop or words[at].brk == 2
        if words[at].form in _FIRST_OF_NONE and _ends_so(at, words):
            return True
        if words[at].form in _STILL:
            return False
    return False


_SINCE = (
    ("none", "since"),
    ("nothing", "since"),
    ("not", "since"),
    ("hasnt", "since"),
    ("any", "since"),
    ("desde", "entonces"),
)
_CLEARED_BY_OTHERS = frozenset(["gas_smell", "carbon_monoxide", "injury"])
_SINCE_WITHIN = 16


def _none_since(hit: Hit, words: Sequence[Word]) -> bool:
    """“it smelled burnt last month but you replaced the motor, none since”; not “none since this morning”."""
    if hit.payload.code in _CLEARED_BY_OTHERS:
        return False
    for at in range(hit.end, min(hit.end + _SINCE_WITHIN, len(words) - 1)):
        if words[at].brk == 2 or words[at].form in _STILL:
            return False
        if (words[at].form, words[at + 1].form) in _SINCE:
            nothing = words[at].form != "desde" or any(w.form in ("nada", "no") for w in words[hit.end : at])
            told = words[at].form != "any" or any(w.form in ("hasnt", "havent", "not") for w in words[hit.end : at])
            end = at + 2 if at + 2 >= len(words) or words[at + 2].form != "then" else at + 3
            return nothing and told and (end >= len(words) or words[end].brk > 0)
    return False


def _ends_so(at: int, words: Sequence[Word]) -> bool:
    for phrase in _NONE_OF:
        end = at + len(phrase)
        if tuple(word.form for word in words[at:end]) == phrase:
            return end >= len(words) or words[end].brk > 0 or words[end].form in _GOES_ON
    return False


_STILL = listed("still again keeps sigue todavia otra until till hasta")
_NOT_SO_FAR = """
    hasnt|havent|didnt|never|nunca|has not|no ha|never has|never did|not now|not right now|no huele|ahorita no|ahora no
    doesnt|no lo ha|wasnt|isnt
"""
_NOT_YET = tuple(
    tuple(phrase.split()) for line in _NOT_SO_FAR.split("\n") for phrase in line.split("|") if phrase.strip()
)
_SUBJECT = listed("it they that but pero which y and its thankfully gracias luckily")
_IF_WITHIN = 6


def supposed_and_not_so(hit: Hit, words: Sequence[Word]) -> bool:
    """“if the washer floods my neighbor will sue. it hasnt”."""
    if not any(word.form in ("if", "si") for word in words[max(0, hit.start - _IF_WITHIN) : hit.start]):
        return False
    for at in range(hit.end, min(hit.end + _NONE_WITHIN, len(words))):
        if not words[at].brk:
            continue
        one = at + 1 if words[at].form in _SUBJECT else at
        forms = tuple(word.form for word in words[one : one + 3])
        phrase = next((phrase for phrase in _NOT_YET if forms[: len(phrase)] == phrase), None)
        if phrase is not None:
            end = one + len(phrase)
            return end >= len(words) or words[end].brk > 0 or words[end].form in _GOES_ON or len(phrase) > 1
    return False


_TAKEN_FOR = listed("""
    says say said saying thinks think thought swears swore insists claims told figured sure dice dicen dijo cree creia
    creyo penso pense pensaba pensamos jura juraba asegura
""")
_FOR_WITHIN = 5
_SET = listed("its it that thats es era fue but pero nope no y and was is were puro nomas solo")
_TIES = listed("its was is thats es era fue were turned")
_ONLY = listed(
    "the a an my his her our their just only some el la un una su mi puro pura nomas solo unos unas tu your from"
)
_ITSELF = listed("""
    steam fog vapor vaho mist frost dust powder flour water breath skunk polvo harina niebla neblina pintura paint
    perfume humidity condensation humedad cold frio
""")
_NOT_SO = (
    MACHINES
    | PARTS
    | ROOMS
    | listed("""
    side house home apartment place unit end lado casa departamento depa apartamento
    pilot line hose regulator connector meter tank pilots fuse transformer piloto tubo tuberia manguera regulador tanque
    medidor real leak gas fuga fire fuego lumbre smoke humo burning burnt quemado hot caliente wiring electrical
    electric electricity corriente spark chispa bad strong fuerte worse maybe might could still coming inside back behind under
    basement wall floor attic
""")
)
_TOLD_OF = frozenset(["smoke", "fire", "burning_smell", "gas_smell", "flooding", "sparks"])


def set_right(hit: Hit, words: Sequence[Word]) -> bool:
    """“roommate says it smelled like gas but it was his burrito”; not “… but it was the stove”."""
    if hit.payload.code not in _TOLD_OF:
        return False
    if _is_a_saying(hit, words) or _was_steam(hit, words):
        return True
    if not any(word.form in _TAKEN_FOR for word in words[max(0, hit.start - _FOR_WITHIN) : hit.start]):
        return False
    if _was_of_the_house(hit, words):
        return True
    for at in range(hit.end, min(hit.end + _FOR_WITHIN, len(words) - 1)):
        if words[at].form in _TIES and words[at - 1].form not in ("not", "no", "isnt", "wasnt", "if", "si"):
            return _was_harmless(at + 1, words)
        if words[at].form not in _SET and words[at].form not in _LOOKED and not words[at].brk:
            return False
    return False


_BE = listed("was its is era fue es thats eran")
_MERELY = listed("just only all nomas puro pura puritito solo mostly really")
_TURNS = listed("but pero bueno oh no nope wait")
_STEAM = listed("steam vapor vaho vaporcito vaporsito fog condensation")
_STEAM_WITHIN = 12
_DARKER = PARTS | listed("black gray grey negro gris burnt burning plastic quemado quema smells huele motor cable")


def _was_steam(hit: Hit, words: Sequence[Word]) -> bool:
    """“salió humo del horno, pero fue vapor de los tamales”; not “no fue vapor”, nor asked."""
    if hit.payload.code != "smoke" or words[hit.start].asks or any(w.form in _STILL for w in words[hit.end :]):
        return False
    for at in range(hit.end + 1, min(hit.end + _STEAM_WITHIN, len(words))):
        if words[at].brk == 2:
            return False
        if words[at].form in _STEAM:
            merely = words[at - 1].form in _MERELY
            be = at - 2 if merely else at - 1
            if words[be].form not in _BE or be < hit.end:
                return False
            before = {word.form for word in words[max(hit.end, be - 2) : be]}
            told = merely or bool(before & _TURNS - {"no"})
            return told and "no" not in before and not any(word.form in _DARKER for word in words[hit.end : at + 5])
    return False


_SAYINGS = listed("slang figuratively metaphor kidding joking jk broma mentira exaggerating exagerando")
_SAID_SO = listed("thats its is was just es era am im only de puro pura a nomas")
_EARNEST = listed("not no isnt aint wasnt never ni sin if this cant says said dice dijo") | DOUBTED


def _is_a_saying(hit: Hit, words: Sequence[Word]) -> bool:
    """“texted that the kitchen is on fire, that's slang”; not “that's no joke”, “is this a joke”."""
    for at in range(hit.end + 1, min(hit.end + _NONE_WITHIN, len(words))):
        if (words[at].was or words[at].form) in _SAYINGS:
            before = [word.form for word in words[max(hit.end, at - 3) : at]]
            return bool(before) and before[-1] in _SAID_SO and not _EARNEST & set(before)
    return False


def _was_of_the_house(hit: Hit, words: Sequence[Word]) -> bool:
    """“says que huele a gas pero she said that last time and it was la basura”: named for what smells like that."""
    if hit.payload.code not in ("gas_smell", "burning_smell", "smoke"):
        return False
    sources = GAS_SOURCES if hit.payload.code == "gas_smell" else COOKED
    for at in range(hit.end, min(hit.end + 3 * _FOR_WITHIN, len(words) - 1)):
        if words[at].form in MACHINES or words[at].form in ("not", "isnt", "wasnt", "still", "sigue"):
            return False
        if words[at].form in ("was", "era", "fue") and words[at - 1].form not in ("not", "no", "if", "si"):
            told = words[at + 1 : at + 5]
            told = told[: next((n for n, word in enumerate(told) if n and word.brk), len(told))]
            return any(w.form in sources for w in told[:2]) and not any(w.form in MACHINES for w in told)
    return False


_LOOKED = listed("i go look went looked checked turns out fui vi resulto que ser and y voy veo a ver")


def _was_harmless(at: int, words: Sequence[Word]) -> bool:
    """Whether from word *at* on it is told what it was, and no machine, nor the danger again."""
    told = words[at : at + 4]
    end = next((n for n, word in enumerate(told) if n and (word.brk or word.emoji)), len(told))
    told = told[:end]
    if not told or any(word.form in _NOT_SO for word in told):
        return False
    if told[0].form in _ITSELF:
        return True
    if told[0].form not in _ONLY or len(told) < 2:
        return False
    return not any(word.form in _STILL for word in words[at:])
