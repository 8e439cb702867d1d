"""
Dangers of things that are no machine of ours: “got zapped by the fence”, “the TV smoked”, “welding sparks”, “a wildfire, so it
smells like a campfire”, “my wife smokes”, “basement floods when it rains”.

What counts is that such a thing stands in the sentence of the danger, named for itself and not for likeness, and no machine of
the house stands with them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.reading.dangers.outside import in_the_street
from service.reading.dangers.source_words import ADDING, DOUBTED, FOR_CAUSE, GAS_THINGS, MACHINES, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 14
"""How far from the danger its thing may stand, in words."""

_WORK = listed("""
    weld welds welder welders welding welded solder soldering blacksmith soldar soldador soldadora soldando soldadura
    soldo solda suelda grinder grinding esmeril pulidora foundry
""")
_WILD = listed("wildfire wildfires incendios forestal forestales cerro cerros monte sierra bosque forest hills")
_HILLS = listed("cerro cerros monte sierra bosque forest hills")
_BURNING = listed("incendio incendios fire fires lumbre quemazon quemando burning")
_SMELLING = listed("""
    neighborhood neighbourhood vecindario barrio colonia refinery refineria downtown tar asphalt roofer roofers roofing
    reroofing paver pavers paving paved pavement chapopote brea asfalto pavimentando pavimentaron impermeabilizando
    impermeabilizaron impermeabilizante llantera ladrillera brickyard crematorium
""")
_FIELDS = listed("""
    branding brandings herrando herradero ditch acequia zacate zacatera zacatal weeds stubble maleza rastrojo basurero
""")
"""What is burnt on a ranch."""
_POLES = listed("pole poles poste postes transformer transformador balloon balloons")
"""What sparks along the street."""
_RAIN = listed("rain rains raining rained monsoon storm storms hurricane llueve llovio lluvia lluvias tormenta huracan")

_AROUND: Mapping[str, frozenset[str]] = {
    "sparks": _WORK | _POLES,
    "burning_smell": _WILD | _SMELLING | _WORK | _FIELDS,
    "refrigerant_leak": _POLES | listed("sprinkler sprinklers aspersor irrigation riego landscaper jardinero"),
    "smoke": _WILD | _FIELDS | listed("fuma fumo fumaba fuman fumando fumar fumador fumadores cigs cigarettes cigars"),
    "fire": listed("wildfire wildfires ditch weeds zacate zacatera"),
    "injury": listed("""
    shaving razor rasuradora rasurando lego legos skateboard scooter trampoline treadmill rodeo horse caballo
    machete garden jardin cactus nopal volleyball softball marathon surfing mower podadora stapler gymnastics
    skating patines curling straightener bbq barbecue asador chopping picando onions cebolla cebollas patineta
    karate boxing hockey ski skiing snowboard lacrosse cleats hike trail bull
    lata latas tuna atun opener limes limones avocado aguacate coffee cafe sidewalk banqueta
    """),
    "flooding": _RAIN,
    "water_near_power": _RAIN,
}
"""By danger, the words that tell what it is of wherever they stand in its sentence, where no machine does."""

_DEVICES = listed("""
    tv television tele televisor televisions laptop computer compu computadora charger cargador phone cellphone celular
    tablet lamp lampara chandelier ceiling techo xmas christmas navidad playstation xbox speaker vape transformer
    transformador hair car truck carro troca camioneta mower
""")
_HELD: Mapping[str, frozenset[str]] = {
    "sparks": _DEVICES
    | listed("""
    sparkler sparklers fireworks firecracker firecrackers cuetes cohetes bengala bengalas pirotecnia lightning jumper bonfire
    campfire fogata fireplace chimenea romance amor matrimonio marriage relationship sunshine genius creativity imagination joy
    life hope interest vida alegria esperanza
    """),
    "shock": _DEVICES
    | listed("""
    fence cerca cerco carpet alfombra doorknob door trampoline brincolin slide resbaladilla tobogan mannequin maniqui dummy
    eel collar paddles guitar guitarra
    """),
    "fire": listed("grill bbq barbecue asador smoker firepit car truck carro troca camioneta mower dumpster shed barn"),
    "gas_smell": listed("car truck carro troca camioneta boat lancha moto mower motorcycle"),
    "flooding": listed("inbox phone voicemail mailbox calendar tears yard patio lawn jardin yarda streets correo"),
    "smoke": _DEVICES,
    "burning_smell": _DEVICES,
}
"""By danger, the things that must be its subject, or what it comes from: “the TV smoked”, “a shock from the carpet”."""

_LIKENESS = (
    listed("""
    like como parece parecen sounds looks not no isnt wasnt never nor ni or o if si nadie nobody none dont doesnt aint neither
    """)
    | DOUBTED
)
"""Before a thing: it is compared, denied or guessed, and not named."""
_POINTING = listed("it this thing something algo esto eso ella")
"""Right before the danger: what is complained of, whatever else is named."""
_TURNING = listed("but pero still again sigue todavia")
_KNOWING = listed("know knows knew recognize familiar sabe conoce conozco reconozco says said dice dijo")
"""Who welds knows sparks: it is told why somebody is to be believed."""
_RAINS_INSIDE = listed("down from through in inside agua water")
_FANS = listed("fan fans light lights ventilador foco luz abanico lampara")

_SPILT = listed("""
    bowl dish bucket mop mopping mopped rain roof gutter sprinkler sprinklers pool bathtub shower aquarium fishtank cup
    glass vase pitcher juice soda beer milk dog dogs cat cats kids kid baby toddler balloon balloons snow boots cubeta
    balde trapeador trapear lluvia techo regadera tina pecera alberca vaso jarra florero plato bebe perro perra perros
    gato gatos nino ninos nina globos
""")
"""What water on a floor may turn out to be."""
_TOLD_AS = listed("its thats was were is era eran fue fueron es resulto") | FOR_CAUSE
_TO_THE_THING = (
    listed("""
    it that just only all the a an my his her our their some from of puro pura nomas solo solamente el la los las un una mi
    mis su sus del de que se le les me nos volteo tiro tiraron cayo derramo derramaron rego regaron acabo acabamos who
    spilled knocked tipped
""")
    | _SPILT
)
"""What may stand between “it was” and the thing."""


_TOLD_FOR = {
    "flooding": _SPILT,
    "water_near_power": _SPILT,
    "gas_smell": GAS_THINGS,
    "hot_wiring": listed("sun sol sunlight"),
}


def _is_told_behind(hit: Hit, words: Sequence[Word], sources: frozenset[str]) -> bool:
    """“water everywhere, I go look, it's the dog's bowl”, “que se inundó y era que se le volteó la cubeta”."""
    for at in range(hit.end, min(hit.end + _REACH, len(words))):
        if words[at].form in MACHINES or (words[at].form in _NOT_TOLD and not _bethinks(at, words)):
            return False
        if words[at].form in _TOLD_AS:
            for word in words[at + 1 : at + 8]:
                if word.form in sources:
                    return True
                if word.brk or word.form not in _TO_THE_THING:
                    break
    return False


_NOT_TOLD = listed("not isnt wasnt no maybe think thought creo pense quiza quizas como like if si")


def _bethinks(at: int, words: Sequence[Word]) -> bool:
    """“the knob is hot, no wait that's the sun”."""
    return words[at].form == "no" and any(w.form in ("wait", "espere", "espera") for w in words[at + 1 : at + 2])


def is_of_another_thing(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is told of a thing that is no machine, or of what people do."""
    code = hit.payload.code
    sources = _TOLD_FOR.get(code)
    if sources is not None and _is_told_behind(hit, words, sources):
        return True
    if code in ("gas_smell", "fire") and in_the_street(hit, words):
        return True
    if hit.start and words[hit.start - 1].form in _POINTING:
        return False
    return _stands_around(hit, words) or _is_held_to(hit, words)


def _stands_around(hit: Hit, words: Sequence[Word]) -> bool:
    """“a wildfire up the road and it smells like a campfire”, “mi tío fuma, la casa huele a humo”."""
    things = _AROUND.get(hit.payload.code)
    if things is None or not any(word.form in things for word in words):
        return False
    first, last = sentence_of(hit, words, _REACH)
    if hit.payload.code == "sparks" and _comes_out_of_it(hit.end, words):
        return False
    if any(word.form in _KNOWING for word in words[first:last]):
        return False
    within = range(hit.start, hit.end) if hit.payload.code == "burning_smell" else ()
    named = [
        at for at in range(first, last) if words[at].form in things and at not in within and _is_named(at, first, words)
    ]
    if not named:
        return False
    at = min(named, key=lambda at: abs(at - hit.start))
    if words[at].form in _HILLS and not any(word.form in _BURNING for word in words[first:last]):
        return False
    if words[at].form in _RAIN and any(word.form in _RAINS_INSIDE for word in words[at + 1 : at + 2]):
        return False
    return not _is_of_a_machine(max(at + 1, hit.end), words, first, last)


_WITHIN_IT = listed("behind inside adentro atras detras")


def _comes_out_of_it(end: int, words: Sequence[Word]) -> bool:
    """“the pole blew and sparks flew out the back”: of a machine that is not named."""
    return any(
        words[at].form in _WITHIN_IT or (words[at].form == "back" and words[at - 1].form == "the")
        for at in range(end, min(end + 5, len(words)))
    )


_BEFORE, _BEHIND = 6, 6
_HELD_BY = listed("from off of by with de del con la el las los mi su un una")
_BESIDE = listed(
    "on by near behind in at from with under to and en con por junto atras de y a when while cuando mientras"
)


def _is_held_to(hit: Hit, words: Sequence[Word]) -> bool:
    """“the ceiling fan sparks”, “got zapped by the electric fence”, “me dio toques la cerca”."""
    things = _HELD.get(hit.payload.code)
    if things is None or not any(word.form in things for word in words):
        return False
    first, last = sentence_of(hit, words, _REACH)
    for at in range(max(first, hit.start - _BEFORE), min(last, hit.end + _BEHIND)):
        if words[at].form not in things or not _is_named(at, first, words) or not _is_whole(at, words):
            continue
        if at < hit.start:
            between = words[at + 1 : hit.start + 1]
            held = not any(w.brk or w.form in ADDING for w in between) and not any(
                w.form in _BESIDE for w in words[max(first, at - 3) : at]
            )
        elif at < hit.end:
            held = True
        else:
            held = words[hit.end].form in _HELD_BY and not any(w.brk for w in words[hit.end : at + 1])
        if held:
            return not _is_of_a_machine(max(at + 1, hit.end), words, first, last)
    return False


def _is_whole(at: int, words: Sequence[Word]) -> bool:
    """A ceiling or a door alone is none: “the ceiling fan”, “the door knob”."""
    form = words[at].form
    if form == "hair":
        return any(word.form in ("dryer", "iron", "straightener") for word in words[at + 1 : at + 2])
    if form in ("ceiling", "door"):
        return any(word.form in _FANS or word.form == "knob" for word in words[at + 1 : at + 2])
    return form != "techo" or any(word.form in _FANS for word in words[max(0, at - 2) : at])


def _is_named(at: int, first: int, words: Sequence[Word]) -> bool:
    return not any(word.form in _LIKENESS for word in words[max(first, at - 3) : at])


def _is_of_a_machine(end: int, words: Sequence[Word], first: int, last: int) -> bool:
    """Whether a machine stands before or between a danger and its thing, behind them in one breath, or is turned to."""
    if any(_names_one(at, words) for at in range(first, end)):
        return True
    added = False
    for at in range(end, last):
        word = words[at]
        if word.brk and word.form not in ADDING:
            return any(w.form in _TURNING for w in words[at:last])
        added = added or word.form in FOR_CAUSE or word.form == "so"
        if _names_one(at, words) and not added:
            return True
        if word.form in _TURNING:
            return True
    return False


_OTHER_ONES = (("door", "knob"), ("hair", "dryer"), ("power", "strip"))


def _names_one(at: int, words: Sequence[Word]) -> bool:
    """Whether word *at* names a machine or a part of one; no door knob, no hair dryer and none that it is said not to be."""
    if words[at].form not in MACHINES or (at and (words[at - 1].form, words[at].form) in _OTHER_ONES):
        return False
    return not any(
        words[no].form in _NOT_ON and all(w.form in _ON for w in words[no + 1 : at]) for no in range(max(0, at - 3), at)
    )


_NOT_ON = listed("not no nor ni")
_ON = listed("on by from in with the my your con la el las los mi su de del en una un")
