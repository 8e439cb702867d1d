"""
Dangers denied by what follows them, all but one, or not denied by what is excepted: “fuga de gas. no es fuga”, “the only smoke
is the bacon”, “no smoke unless you count what comes off the plug”, “we feel fine, just sleepy”.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.dangers.source_words import ALARM, MACHINES, PARTS, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_BUT_FOR = listed("unless except cept besides aside apart until till menos excepto salvo")
_NOTHING_ELSE = listed("""
    no not nothing nada never ni sin nor or nobody nobodys none nadie without
""")
_ILL = listed("""
    sleepy dizzy queasy woozy nauseous nauseated headache headaches heads lightheaded pounding throbbing drowsy mareados
    mareado mareada mareadas sueno cabeza nauseas
""")
_WITHIN = 8


def excepted(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether what denies *hit* is taken back in part: by a machine excepted, or by what is felt all the same."""
    behind = words[hit.end : hit.end + 3]
    for at, word in enumerate(behind):
        if word.brk == 2:
            break
        if word.form in _BUT_FOR:
            excepted_thing = words[hit.end + at + 1 : hit.end + at + 1 + _WITHIN]
            ends = next((n for n, w in enumerate(excepted_thing) if w.brk == 2), len(excepted_thing))
            return any(w.form in MACHINES for w in excepted_thing[:ends])
    if _from_a_machine_instead(hit, words):
        return True
    return hit.payload.code == "carbon_monoxide" and _ill_all_the_same(hit, words)


def _from_a_machine_instead(hit: Hit, words: Sequence[Word]) -> bool:
    """“el humo no es del vecino, es de mi secadora”."""
    for at in range(hit.end, min(hit.end + _WITHIN, len(words) - 2)):
        tied = words[at].form in ("es", "its", "is", "sino") and words[at + 1].form in ("de", "del", "from")
        if tied and words[at - 1].form not in ("no", "not", "nor", "ni"):
            return any(word.form in MACHINES for word in words[at + 2 : at + 5])
    return False


def _ill_all_the_same(hit: Hit, words: Sequence[Word]) -> bool:
    for word in words[hit.end : hit.end + _WITHIN - 2]:
        if word.brk == 2 or word.form in _NOTHING_ELSE:
            return False
        if word.form in _ILL:
            return True
    return False


_TIED = frozenset(["smoke", "fire", "burning_smell", "gas_smell", "carbon_monoxide"])
_ONLY = listed("only unico unica unicos unicas")
_IS = listed("is are was es era son from de del")


def is_the_only(hit: Hit, words: Sequence[Word]) -> bool:
    """“the only smoke is from the bacon”, “el único gas es mi abuelo”: no other, and none of a machine."""
    if hit.payload.code not in _TIED or not hit.start or words[hit.start - 1].form not in _ONLY:
        return False
    for at in range(hit.end, min(hit.end + _WITHIN, len(words) - 1)):
        if words[at].brk == 2 or words[at].form in MACHINES:
            return False
        if words[at].form in _IS:
            return not any(word.form in MACHINES for word in words[at + 1 : at + 7])
    return False


_LEAK_DENIED = frozenset((
    ("no", "es", "fuga"), ("no", "hay", "fuga"), ("no", "era", "fuga"), ("not", "a", "leak"), ("isnt", "a", "leak"),
    ("wasnt", "a", "leak"), ("no", "es", "gas"), ("no", "era", "gas"), ("its", "not", "gas"), ("it", "isnt", "gas"),
    ("no", "fue", "fuga"), ("is", "not", "gas"), ("was", "not", "gas"), ("it", "wasnt", "gas"), ("it", "aint", "gas"),
    ("not", "the", "gas"), ("aint", "no", "leak"), ("no", "habia", "fuga"),
))  # fmt: skip
_RETOLD = listed("still again but pero sigue todavia otra")
_OF_GAS = listed("""
    stove range oven cooktop burner burners dryer estufa horno parrilla secadora hornilla quemador boiler heater
""")


def denied_later(hit: Hit, words: Sequence[Word]) -> bool:
    """“le dijeron que era fuga. no es fuga”, “the washer stinks of rotten eggs, and no, it's not gas”; not by a gas stove."""
    if hit.payload.code != "gas_smell":
        return False
    if any(word.form in _OF_GAS for word in words[max(0, hit.start - 6) : hit.end + 3]):
        return False
    return says_no_gas(words[hit.end :])


def says_no_gas(words: Sequence[Word]) -> bool:
    """“it's not gas”, “no es fuga”, and nothing told anew behind it."""
    forms = [word.form for word in words]
    for at in range(len(forms) - 2):
        if (forms[at], forms[at + 1], forms[at + 2]) in _LEAK_DENIED:
            return not any(form in _RETOLD for form in forms[at + 3 :])
    return False


_EMITS = listed("echa hecha sale saca hay huele veo vi tira avienta suelta hubo salio salia saco echo habia vimos")


def no_and_its_verb(at: int, words: Sequence[Word]) -> bool:
    """“humo no echa”: the verb ends what is said; “sale humo no sale agua” goes on."""
    if at + 1 >= len(words) or words[at].form != "no" or words[at + 1].form not in _EMITS or words[at + 1].brk:
        return False
    return at + 2 >= len(words) or words[at + 2].brk > 0


_COMES = listed("viene sale salia coming comes came")
_NOBODY_DID = listed("nobody nadie didnt havent didn hicimos")


def held_to_a_part(hit: Hit, words: Sequence[Word]) -> bool:
    """“se quemó la tortilla pero el humo viene del motor de la campana”: whatever else would excuse it."""
    for at in range(hit.end, min(hit.end + 2, len(words))):
        if words[at].form in _COMES:
            return any(word.form in PARTS for word in words[at + 1 : at + 4])
    return False


_GOES_ON = listed("still keeps sigue siguen todavia again")


def is_so_now(hit: Hit, words: Sequence[Word]) -> bool:
    """“what do I do if I smell gas right now”: no question in general; “the CO alarm beeps, new battery and it still does”."""
    if hit.payload.code == "carbon_monoxide" and any(w.form in _GOES_ON for w in words[hit.end : hit.end + 5]):
        return any(w.form in ALARM for w in words[hit.start : hit.end])
    behind = [word.form for word in words[hit.end : hit.end + 2]]
    return hit.payload.code in ("gas_smell", "carbon_monoxide") and (behind == ["right", "now"] or behind[:1] == ["rn"])


def nobody_did(hit: Hit, words: Sequence[Word]) -> bool:
    """“smells like burnt popcorn but we didn't make any”."""
    behind = words[hit.end : hit.end + 5]
    return any(word.form in ("but", "pero", "and", "y") for word in behind) and any(
        w.form in _NOBODY_DID for w in behind
    )


_SAYS = listed("""
    says said say saying told tells thinks noticed dice dijo dicen dijeron cree noto
""")
_THEIRS = listed("her his their hers theirs su sus suya suyo")


def only_reported(hit: Hit, words: Sequence[Word]) -> bool:
    """“my brother says the washer is on fire”: somebody else only says it; “my sister says her dryer ...” is hers."""
    near = words[max(0, hit.start - 7) : hit.end]
    told = next((at for at, word in enumerate(near) if word.form in _SAYS), None)
    if told is None or any(word.brk == 2 for word in near[told + 1 :]):
        return False
    behind = [word.form for word in near[told + 1 :]] + [word.form for word in words[hit.end : hit.end + 4]]
    return any(form in MACHINES or form in ("kitchen", "cocina") for form in behind) and not any(
        f in _THEIRS for f in behind
    )
