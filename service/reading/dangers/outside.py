"""Smoke and smells of the road, the window, clothes, the roast and the belly; water of the rain and the bucket."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.source_words import (
    BELLY,
    COOKED,
    EATING,
    FED,
    LINKS,
    MACHINES,
    PARTS,
    ROOMS,
    SOURCES,
    VEHICLES,
    listed,
)
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of


def on_the_road(hit: Hit, words: Sequence[Word]) -> bool:
    """“brakes smoking coming down the pass”."""
    near = range(max(0, hit.start - 2), hit.start + 1)
    return any(words[at].form in VEHICLES and all(w.brk < 2 for w in words[at + 1 : hit.start + 1]) for at in near)


_LEAKS = frozenset(["leak", "leaked", "leaking", "leaks", "drips", "dripping", "tira", "tiraba", "tirando", "tiro"])
_REACH = 7


def leaks_gasoline(hit: Hit, words: Sequence[Word]) -> bool:
    """“my truck leaked gas in the driveway”: no machine of the house near."""
    near = words[max(0, hit.start - 2) : hit.end]
    at = next((at for at, word in enumerate(near) if word.form in VEHICLES), None)
    if at is None or any(word.brk for word in near[at + 1 :]) or not any(word.form in _LEAKS for word in near[at:]):
        return False
    for word in words[hit.end : hit.end + _REACH]:
        if word.brk:
            break
        if word.form in MACHINES or word.form in ROOMS:
            return False
    return True


_ENTERS = frozenset(
    ["mete", "metia", "metio", "entra", "entro", "drifts", "drifting", "blows", "blowing", "seeps", "seeping"]
)
_OPENINGS = frozenset(["ventana", "ventanas", "campana", "puerta", "window", "windows", "calle", "afuera", "outside"])


def comes_in(hit: Hit, words: Sequence[Word]) -> bool:
    """“se mete el humo por la campana”: from outside."""
    near = words[max(0, hit.start - 3) : hit.end + 3]
    return any(word.form in _ENTERS for word in near) and any(
        word.form in _OPENINGS for word in words[hit.end : hit.end + 6]
    )


_CLOTHES = frozenset(["clothes", "uniform", "jacket", "hair", "scrubs", "coat", "ropa", "uniforme", "chamarra", "pelo"])
_DRIED = frozenset(["dryer", "secadora", "come", "comes", "came", "coming", "sale", "salen", "salio"])


def worn(hit: Hit, words: Sequence[Word]) -> bool:
    """“my clothes reek of smoke, the washer used to get it out”; not of what comes out of the dryer."""
    near = words[max(0, hit.start - 5) : hit.start + 1]
    return any(word.form in _CLOTHES for word in near) and not any(word.form in _DRIED for word in words)


def roasted(hit: Hit, words: Sequence[Word]) -> bool:
    """“esta tatemando chiles”, “los bizcochitos se me achicharran”; not what smells so, nor with a part of a machine."""
    scorched = words[hit.start].form
    if scorched.startswith("tatem") and any(word.form in COOKED for word in words[hit.start + 1 : hit.start + 5]):
        return True
    if hit.length > 1 or not scorched.startswith(("achicharr", "chamusc", "tatem")):
        return False
    first, last = sentence_of(hit, words, _REACH)
    sentence = words[first:last]
    if any(word.form in PARTS or word.form.startswith(("huele", "olor", "oli", "apest")) for word in sentence):
        return False
    return any(word.form in COOKED or word.form in _BAKED for word in sentence)


_BAKED = listed("""
    bizcochito bizcochitos bizcocho bizcochos empanada empanadas panecillos bolillos conchas pan panes galleta muffins biscuits
    rolls cupcakes sopaipilla quesadillas nuggets tater tots potatoes camote verduras
""")


def burnt_for_its_smell(hit: Hit, words: Sequence[Word]) -> bool:
    """“burning sage, that's the smell”."""
    pairs = pairwise(words[hit.start : hit.end + 1])
    return any(a.form in ("burning", "quemando", "prendiendo") and b.form in SOURCES and not b.brk for a, b in pairs)


def of_the_belly(hit: Hit, words: Sequence[Word]) -> bool:
    """“huele a gas cada que come frijoles”, “everybody in here eats beans so the gas smell aint the fridge”."""
    around = words[max(0, hit.start - 9) : hit.end + 9]
    fed = any(word.form in FED for word in around) and any(word.form in EATING for word in around)
    return (fed or any(word.form in BELLY for word in around)) and not any(
        word.form in MACHINES for word in words[max(0, hit.start - 4) : hit.end + 2]
    )


_WATER = listed("""
    bowl bucket pail mop rain storm monsoon river creek arroyo hydrant sprinkler sprinklers shower bathtub tub bath aquarium
    tank fishtank pool spilled spill rained pitcher cubeta balde trapear trapeador lluvia llovio tormenta aguacero rio acequia
    regadera tina alberca pecera tinaco jarra aspersor
""")
_IN_THE_OPEN = listed("patio yard street calle driveway backyard road banqueta jardin parking estacionamiento")
_SO_FAR = 10
_TIED_WITHIN = 6


def spilled_elsewhere(hit: Hit, words: Sequence[Word]) -> bool:
    """“water everywhere, it's the dog's bowl”, “se inundó y era que se le volteó la cubeta”, “se inundó el patio”."""
    if any(word.form in MACHINES for word in words[hit.start : hit.end]):
        return False
    if any(word.form in _IN_THE_OPEN and not word.brk for word in words[hit.start + 1 : hit.end + 2]):
        return True
    if _spilled_before(hit, words):
        return True
    tied = -_TIED_WITHIN - 1
    for at in range(hit.end - 1, min(hit.end + _SO_FAR, len(words))):
        form = words[at].form
        if form in MACHINES or form in _DOUBTED:
            return False
        if form in _WATER:
            behind = words[at + 1 : at + 4]
            return at - tied <= _TIED_WITHIN and not any(w.form in MACHINES and not w.brk for w in behind)
        if form in LINKS or form in ("con", "with", "when", "cuando"):
            tied = at
    return False


_SPILLS = listed("spilled spilt dumped knocked tipped tiro tiraron derramo volteo rego")
_SPILT = _WATER | listed("water bowl dish glass cup vaso plato agua florero vase dogs dog perro")


def _spilled_before(hit: Hit, words: Sequence[Word]) -> bool:
    """“toddler dumped the dog bowl, water everywhere”; no machine in its sentence, nor thought of behind it."""
    first, last = sentence_of(hit, words, _SO_FAR)
    spilt = next((at for at in range(first, hit.start) if words[at].form in _SPILLS), None)
    if spilt is None or not any(word.form in _SPILT for word in words[spilt + 1 : hit.start]):
        return False
    return not any(word.form in MACHINES or word.form in _DOUBTED for word in words[first:last])


_DOUBTED = listed("not isnt wasnt maybe if thought no si quiza like as como")


_LEAKING = listed("leak leaks leaking fuga fugas")
_PUBLIC = listed("""
    school schools escuela kinder daycare guarderia church iglesia mall street calle road avenue avenida block cuadra
    corner esquina highway intersection st rd ave
""")
_YET = listed("still sigue todavia aun")
_PLACED_AT = listed("at in on en por down outside afuera scare alert two three four five six a")
_FAR_OFF = listed("blocks cuadras streets miles millas houses")


def in_the_street(hit: Hit, words: Sequence[Word]) -> bool:
    """“gas leak scare at my kids school”, “a fire two blocks over”, “fuga en la calle”; not what is smelled."""
    if hit.payload.code == "fire":
        if words[hit.end - 1].form not in ("fire", "incendio"):
            return False
    elif not any(w.form in _LEAKING for w in words[hit.start : hit.end]):
        return False
    if any(w.form in _YET and not _asks_of_the_visit(at, words) for at, w in enumerate(words) if at >= hit.end):
        return False
    if _has_it(hit, words):
        return True
    behind = words[hit.end : hit.end + 6]
    if not behind or behind[0].form not in _PLACED_AT:
        return False
    for word in behind:
        if word.brk or word.form in MACHINES:
            return False
        if word.form in _PUBLIC or word.form in _FAR_OFF:
            return True
    return False


def _asks_of_the_visit(at: int, words: Sequence[Word]) -> bool:
    """“still at 2?”, “still coming?”."""
    return any(
        word.form in ("at", "on", "ok", "good", "coming", "for", "make", "come") for word in words[at + 1 : at + 2]
    )


def _has_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“the school had a gas leak”."""
    before = words[max(0, hit.start - 3) : hit.start]
    return any(w.form in _PUBLIC for w in before) and any(w.form in ("had", "has", "tuvo", "tiene") for w in before)


_WEATHER = listed("""
    afuera lluvia llueve lloviendo paraguas sombrilla chamarra impermeable nublado cielo gotitas camino carretera outside
    umbrella
""")


def drizzles(hit: Hit, words: Sequence[Word]) -> bool:
    """“está chispeando afuera, traiga paraguas”: it rains a little; no machine in its sentence."""
    if not words[hit.start].form.startswith(("chispea", "chispia")):
        return False
    first, last = sentence_of(hit, words, _SO_FAR)
    sentence = words[first:last]
    return any(word.form in _WEATHER for word in sentence) and not any(word.form in MACHINES for word in sentence)


_SMOKING_FOOD = COOKED - listed("skillet pan wok olla food dinner candy roast lunch supper breakfast")
_OF_A_GRILL = listed("grill bbq barbecue smoker asador parrillada firepit campfire fogata")
_OUT = (("out", "there"), ("out", "back"), ("out", "here"), ("alla", "afuera"))
_YARDS = listed("outside afuera yard backyard patio jardin traspatio")
_GRILL_WITHIN = 10


def of_pan_or_grill(hit: Hit, words: Sequence[Word]) -> bool:
    """“bacon smoke goes to the ceiling”, “finished it on the grill, lots of smoke out there”; no part told beside it."""
    first, last = sentence_of(hit, words, _GRILL_WITHIN)
    if hit.payload.code != "smoke" or any(word.form in PARTS for word in words[first:last]):
        return False
    before = words[hit.start - 1] if hit.start else None
    if before is not None and before.form in _SMOKING_FOOD and not words[hit.start].brk:
        return True
    grill = next((at for at in range(first, hit.start) if words[at].form in _OF_A_GRILL), None)
    between = words[grill : hit.end + 6] if grill is not None else ()
    if not between or any(word.form in MACHINES or word.form in ("but", "pero") for word in between):
        return False
    behind = [word.form for word in words[hit.end : min(last, hit.end + 3)]]
    return bool(_YARDS & set(behind)) or tuple(behind[:2]) in _OUT
