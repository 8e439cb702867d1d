"""
Dangers of people and not of machines: who smokes, whose clothes smell of the gas pump, what crackles for static, what a bill
did to somebody, what the stove's own spark does.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.source_words import COOKED, COOKING, DOUBTED, MACHINES, PARTS, ROOMS, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 14
"""How far from the danger what explains it may stand, in words."""


def is_of_people(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is told of what people do, wear or pay, or of a spark that lights the gas."""
    code = hit.payload.code
    if code == "smoke":
        return _smoked_by_people(hit, words) or _under_the_hood(hit, words)
    if code in ("fire", "burning_smell"):
        return _smells_of_a_fire(hit, words)
    if code == "gas_smell":
        return _smells_of_work(hit, words)
    if code == "shock":
        return _is_static(hit, words) or _is_what_it_costs(hit, words)
    return code == "sparks" and (_is_static(hit, words) or _is_the_igniter(hit, words))


_HOODS = listed("hood campana extractor extractora")
_SEARING = COOKING | COOKED | listed("cook sear fry frio freir asar cocinar grill broil scallops poblanos")


def _under_the_hood(hit: Hit, words: Sequence[Word]) -> bool:
    """“when I fry fish the house fills with smoke, the hood doesn't pull”: of cooking, and of no machine right beside it."""
    if not any(word.form in _HOODS for word in words) or not _somebody_cooks(words):
        return False
    beside = words[max(0, hit.start - 4) : hit.end + 5]
    return not any(word.form in MACHINES or word.form in ("even", "hasta", "not") for word in beside) and not any(
        word.form in PARTS for word in words
    )


def _somebody_cooks(words: Sequence[Word]) -> bool:
    """Not “sin estar guisando”, “when nobody is cooking”, “and I'm not even frying”."""
    return any(
        word.form in _SEARING and not any(w.form in _NOBODY for w in words[max(0, at - 3) : at])
        for at, word in enumerate(words)
    )


_NOBODY = listed("sin without not nobody nadie arent isnt wasnt")

_SPARK = listed("spark sparky sparker sparkie chispa chispita chispero")
_COOKS_WITH_GAS = listed("stove cooktop burner burners range estufa parrilla quemador quemadores hornilla hornillas")
_LIGHTS = listed("""
    click clicks clicking tick ticks ticking lights lit light ignites ignite prende enciende clic truena calla callarse normal
""")
_SPARKING = listed("chispea chispear chispeando")
_CLICKS = listed("clic click tic tictic calla callarse")
_NO_IGNITER = listed("""
    outlet plug cord wire wires panel inside flew fly flying shoots shot shooting flash big huge microwave behind back shower
    enchufe cable contacto clavija atras adentro popped pop bang loud blew zap shocked smoke smell burnt electrica electrico
    humo quemado electric
""")


def _is_the_igniter(hit: Hit, words: Sequence[Word]) -> bool:
    """“the spark on the stove clicks and it lights fine”, “the sparky thing goes tick tick”."""
    if words[hit.start].form in _SPARK and any(word.form == "normal" for word in words[hit.end : hit.end + 1]):
        return any(word.form in _COOKS_WITH_GAS for word in words[: hit.start])
    sparking = words[hit.start].form in _SPARKING
    if hit.length > 1 or not (sparking or words[hit.start].form in _SPARK):
        return False
    first, last = sentence_of(hit, words, _REACH)
    forms = {word.form for word in words[first:last]}
    return bool(forms & _COOKS_WITH_GAS and forms & (_CLICKS if sparking else _LIGHTS)) and not forms & _NO_IGNITER


_CLOTHS = listed("""
    blanket blankets cobija cobijas fleece sweater sweaters sueter sueteres sheets sheet clothes socks laundry ropa
    sabana sabanas calcetines carpet alfombra rug doorknob towel towels toalla toallas pajamas pijama hair pelo cat gato
    winter dry shirt shirts chamarra hoodie robe
""")
_STATIC = listed("static staticky estatica")
_MORE_THAN_STATIC = listed("""
    not isnt wasnt no more than thought think maybe guess creo pense numb numbed strong fuerte hurts plug outlet cord barefoot
    descalza descalzo wet mojado mojada burn burned blew breaker
""")


def _is_static(hit: Hit, words: Sequence[Word]) -> bool:
    """“static zap off the laundry, fleece blankets”, “los suéteres me dan chispitas de estática”."""
    first, last = sentence_of(hit, words, _REACH)
    if any(word.form in MACHINES for word in words[max(first, hit.start - 3) : hit.end]):
        return False
    forms = {word.form for word in words[first:last]}
    if hit.payload.code == "shock" and hit.length == 2 and "crackle" in forms and forms & _CLOTHS:
        return not forms & _MORE_THAN_STATIC
    if hit.payload.code == "shock" and _of_a_blanket(hit, words):
        return not forms & (_MORE_THAN_STATIC - {"not", "no"})
    return bool(forms & _STATIC) and bool(forms & _CLOTHS) and not forms & _MORE_THAN_STATIC


_BLANKETS = listed(
    "blanket blankets cobija cobijas fleece sweater sueter sueteres alfombra carpet pijama sabana sabanas"
)
_BESIDE = listed("la las el los mi mis the my our de a que cada me nos lana borrega")


def _of_a_blanket(hit: Hit, words: Sequence[Word]) -> bool:
    """“me da toques la cobija, no la lavadora”: in one breath with nothing else between."""
    for at in range(hit.end, min(hit.end + 3, len(words))):
        if words[at].form in _BLANKETS:
            return not words[at].brk
        if words[at].form not in _BESIDE or words[at].brk:
            break
    for at in range(hit.start - 1, max(-1, hit.start - 5), -1):
        if words[at].form in _BLANKETS:
            return not words[at + 1].brk
        if words[at].form not in _BESIDE or words[at + 1].brk:
            break
    return False


_COSTS = listed("""
    price prices bill bills cost costs quote estimate invoice total fee fees rent precio precios recibo cuenta factura
    cotizacion presupuesto renta news noticia noticias
""")
_NOT_IT = listed("like como not no isnt wasnt nor ni") | DOUBTED
_TOUCHED = listed("touch touched touching toco tocar toque door handle hand arm puerta mano brazo")
_AT = listed("by at with over con por de al el la tu su")


def _is_what_it_costs(hit: Hit, words: Sequence[Word]) -> bool:
    """“the repair bill from the last guy shocked me”, “shocked at your prices”."""
    if hit.payload.code != "shock":
        return False
    commas = 1 if words[hit.start - 1].form == "it" and not any(w.form in _TOUCHED for w in words) else 0
    for at in range(hit.start - 1, max(-1, hit.start - _REACH), -1):
        if words[at].form in MACHINES or words[at + 1].brk > commas:
            break
        if words[at].form in _COSTS:
            return not any(w.form in _NOT_IT or w.form in MACHINES for w in words[max(0, at - 3) : at])
    behind = words[hit.end : hit.end + 4]
    if not behind or behind[0].brk:
        return False
    return behind[0].form in _AT and any(w.form in _COSTS and not w.brk for w in behind[1:])


_AT_A_PUMP = (("gas", "station"), ("filling", "station"), ("gas", "pump"))
_PUMPS = listed("gasolinera gasolineria mechanic mecanico boatyard refinery refineria")
_MYSELF = listed("i im yo me clothes shirts boots hands hair ropa manos husband esposo")


def _smells_of_work(hit: Hit, words: Sequence[Word]) -> bool:
    """“estoy en la gasolinera, i smell like gas”: who says so smells of it; “i smell gas” smells it."""
    inside = [word.form for word in words[hit.start : hit.end]]
    if not ("like" in inside or "huelo" in inside or "of" in inside):
        return False
    first, last = sentence_of(hit, words, _REACH)
    if any(word.form in MACHINES or word.form in ROOMS for word in words[first:last]):
        return False
    myself = any(word.form in _MYSELF for word in words[max(0, hit.start - 3) : hit.start + 1])
    if not myself and words[hit.start].was != "huelo" and "huelo" not in inside:
        return False
    return any(word.form in _PUMPS for word in words[first:last]) or any(
        (a.form, b.form) in _AT_A_PUMP for a, b in pairwise(words[first:last])
    )


_CAMPFIRES = listed("campfire bonfire fogata barbecue bbq grill ashtray asador")
_I_SMELL = (("i", "smell"), ("i", "stink"), ("i", "reek"), ("we", "smell"), ("we", "stink"), ("we", "reek"))


def _smells_of_a_fire(hit: Hit, words: Sequence[Word]) -> bool:
    """“I smell like a campfire because I was at one”: who says so was there; “smells like a campfire” was not."""
    inside = words[max(0, hit.start - 3) : hit.end + 1]
    if not any(word.form in _CAMPFIRES for word in inside) or not any(word.form == "like" for word in inside):
        return False
    first, last = sentence_of(hit, words, _REACH)
    if any(word.form in MACHINES or word.form in ROOMS for word in words[first:last]):
        return False
    return any((a.form, b.form) in _I_SMELL for a, b in pairwise(inside))


_PEOPLE = listed("""
    i he she we wife husband hubby grandpa grandma dad mom father mother brother sister son uncle aunt neighbor
    tenant roommate tenants suegra suegro mama papa abuela abuelo tio tia esposo esposa hermano hermana vecino
    vecina senora people everybody everyone boyfriend girlfriend boss guests who
""")
_NEAR = listed("by near beside outside cerca junto afuera")
_OTHER_SMOKE = listed("liquid secondhand")
_SMOKES = listed("smoke smokes smoked smoking")


def _smoked_by_people(hit: Hit, words: Sequence[Word]) -> bool:
    """“my wife smokes in the laundry room”, “smoked a brisket in the oven”; not “she smoked the motor”."""
    if words[hit.end - 1].form not in _SMOKES:
        return False
    if hit.start and words[hit.start - 1].form in _OTHER_SMOKE:
        return True
    behind = words[hit.end : hit.end + 4]
    food = any(word.form in COOKED and not word.brk for word in behind)
    if food and words[hit.end - 1].form in ("smoked", "smoking"):
        return not any(word.form in MACHINES for word in words[max(0, hit.start - 3) : hit.start])
    if hit.length > 1 or (words[hit.end - 1].form == "smoke" and words[hit.start - 1].form not in ("i", "we")):
        return False
    before = words[hit.start - 1] if hit.start else None
    if before is None or before.form not in _PEOPLE or words[hit.start].brk:
        return False
    if behind and behind[0].form in _NEAR and before.form not in ("i", "we"):
        return True
    return not any(word.form in MACHINES or word.form in ("it", "up") for word in behind[:3])
