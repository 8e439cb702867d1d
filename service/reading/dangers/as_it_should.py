"""
Danger words of what a machine does as it should: even flames of a burner, its spark that lights, water that runs at the
dispenser,
a tub that fills until the valve is shut, the fog of a freezer, the first burn of a new oven.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.source_words import listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 14


def is_as_it_should(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is told of what the machine does by its nature."""
    code = hit.payload.code
    if code == "fire":
        return _flames_of_a_burner(hit, words) or _fires_at_work(hit, words)
    if code == "sparks":
        return _lights_with_it(hit, words) or _is_a_crack(hit, words) or _is_of_the_storm(hit, words)
    if code == "flooding":
        return _runs_well(hit, words) or _until_shut(hit, words) or _rains(hit, words) or _pours_no_water(hit, words)
    if code == "carbon_monoxide":
        return _all_electric(hit, words)
    if code == "smoke":
        return _is_cold_air(hit, words)
    return code == "burning_smell" and _first_burn(hit, words)


_FLAMES = listed("flame flames flamas llamas llamitas flamitas lumbre lumbres")
_OF_A_BURNER = listed("""
    burner burners cooktop stove range pilot knobs knob simmer propane quemador quemadores hornilla hornillas parrilla estufa
    gas piloto perilla perillas tank tanque
""")
_EVEN = listed("""
    even blue low tiny small smaller weak little bitty uneven short roaring nice good great fine strong steady normal tall
    pareja parejas azul azules bajita bajitas baja bajas chiquita chiquitas chica chicas debil debiles bien bonita fuerte
    parejo parejita
""")
_BURNING = listed("""
    out of from behind under inside back oven fire shot shooting shoot shoots up ceiling hood everywhere leaping jumped jump
    licking grease smoke smoking caught catch big huge high put extinguisher wall yellow orange feet foot
    atras adentro debajo detras afuera incendio grasa humo techo brinca brinco brincan grande grandes alta altas sale salen
    salio
    salieron apague apagamos apagar pared naranja amarilla horno secadora dryer microwave micro lint pelusa scared miedo
""")


def _flames_of_a_burner(hit: Hit, words: Sequence[Word]) -> bool:
    """“flames all even”, “flames used to be roaring now they're little bitty”, “las llamas salen bajitas”: only the word."""
    if hit.length > 1 or words[hit.start].form not in _FLAMES:
        return False
    near = {word.form for word in words[max(0, hit.start - 3) : hit.end + 8]}
    if near & (_BURNING - {"salen", "sale"}) or not any(word.form in _OF_A_BURNER for word in words):
        return False
    return bool(near & _EVEN)


_PUTS_OUT = listed("putting fighting apagando")
_FIRES = listed("fires lumbres fuegos incendios")
_AT_WORK = listed("work office job trabajo oficina chamba jale day week dia semana meetings juntas clients boss jefe")


def _fires_at_work(hit: Hit, words: Sequence[Word]) -> bool:
    """“putting out fires all day at work”, “andaba apagando lumbres en el trabajo”: many of them."""
    inside = [word.form for word in words[max(0, hit.start - 2) : hit.end + 1]]
    if not (_PUTS_OUT & set(inside) and _FIRES & set(inside)):
        return False
    return any(word.form in _AT_WORK for word in words[hit.end : hit.end + 6])


_IGNITERS = listed("igniter ignitor lighter prendedor encendedor chispero encendido ignicion ignition")
_TICKS = listed("tick ticks ticking click clicks clicking clic tic normal igniter ignitor")
_LIGHTS = listed("lights light lit prende prenden prender enciende encienden encender")
_NO_IGNITER = listed("""
    outlet plug cord wire wires panel inside flew fly flying shoots shot shooting flash big huge microwave behind back zap
    shocked smoke smell burnt electrical enchufe cable contacto clavija adentro pop popped bang loud sola solo itself
    apagada off humo quemado electrica
""")
_SO_BUILT = listed("normal fabrica siempre usual same como regular")


def _lights_with_it(hit: Hit, words: Sequence[Word]) -> bool:
    """“the normal tick tick blue spark when it lights”, “las chispas son del prendedor, así es de fábrica”."""
    if hit.length > 1:
        return False
    first, last = sentence_of(hit, words, _REACH)
    forms = {word.form for word in words[first:last]}
    if forms & _NO_IGNITER:
        return False
    if "normal" in forms and forms & _LIGHTS and forms & _TICKS:
        return True
    tied = any(
        a.form in ("del", "de", "from", "by", "the", "el") and b.form in _IGNITERS
        for a, b in pairwise(words[hit.end : last])
    )
    return tied and bool(forms & _SO_BUILT)


_CRACKS = listed(
    "crack cracks cracked cracking scratch scratched line lines shape shaped pattern grieta rajada raya rayon estrellada"
)


def _is_a_crack(hit: Hit, words: Sequence[Word]) -> bool:
    """“the glass has a crack like lightning across the corner”."""
    inside = [word.form for word in words[hit.start : hit.end]]
    if not ("like" in inside or "looks" in inside or "como" in inside) or any(f.startswith("flash") for f in inside):
        return False
    return any(
        word.form in _CRACKS for word in (*words[max(0, hit.start - 4) : hit.start], *words[hit.end : hit.end + 2])
    )


_STORMS = listed("storm storms tormenta truenos cielo rayos lluvia thunder thunderstorm monsoon relampagos")
_WENT_OUT = (("se", "fue"), ("power", "out"), ("lights", "out"), ("went", "out"), ("power", "went"), ("se", "iba"))
_IN_HOUSE = listed("""
    outlet plug cord contacto enchufe clavija cable inside adentro behind atras panel smoke humo smell olor
    breaker wall pared like como
""")


def _is_of_the_storm(hit: Hit, words: Sequence[Word]) -> bool:
    """“tronaron los truenos anoche y se fue la luz”, “power out from the storm, big lightning”."""
    first, last = sentence_of(hit, words, _REACH)
    sentence = words[first:last]
    if any(word.form in _IN_HOUSE or word.form.startswith(("spark", "chisp")) for word in sentence):
        return False
    weather = any(word.form in _STORMS or word.form.startswith("lightning") for word in sentence)
    return weather and any((a.form, b.form) in _WENT_OUT for a, b in pairwise(sentence))


_WELL = listed("fine good great perfect perfectly ok okay well bien")
_BLOOD = listed("rojo rojito sangre red blood")


def _runs_well(hit: Hit, words: Sequence[Word]) -> bool:
    """“water at the door pours fine”: right behind it; or “no deja de salir rojo”, which is no water."""
    return hit.end < len(words) and words[hit.end].form in _WELL | _BLOOD and not words[hit.end].brk


_UNTIL = listed("until til till hasta asta unless before")
_SHUTS = (
    "shut", "clos", "turn", "cierr", "cerr", "cierro", "apag", "stop", "desconect", "unplug", "crack", "open", "abr",
)  # fmt: skip
_FILLS = ("fill", "llen", "fil", "entra", "agarra")
_ON_THE_FLOOR = (
    "floor", "piso", "suelo", "everywhere", "overflow", "spill", "tira", "sale", "saliendo", "salir", "out", "leak", "flood",
    "inund", "derram", "kitchen", "cocina", "cuarto", "soak", "ceiling", "techo",
)  # fmt: skip
_SHUT_WITHIN = 12


def _until_shut(hit: Hit, words: Sequence[Word]) -> bool:
    """“se llena de agua y no para hasta que le cierro la llave”: it stays in the tub, and can be shut."""
    near = words[max(0, hit.start - 8) : hit.end + _SHUT_WITHIN]
    if not any(word.form.startswith(_FILLS) for word in near) or any(w.form.startswith(_ON_THE_FLOOR) for w in near):
        return False
    for at in range(hit.start, min(hit.end + _SHUT_WITHIN, len(words))):
        if words[at].form in _UNTIL or (words[at].form in ("must", "have", "tengo") and at >= hit.end):
            return any(word.form.startswith(_SHUTS) for word in words[at + 1 : at + 7])
    return False


_RAIN = listed("rain raining lluvia lloviendo llueve storm monsoon")


def _rains(hit: Hit, words: Sequence[Word]) -> bool:
    """“it's pouring out here, rain”."""
    if not any(word.form in ("pouring", "pours", "diluviando") for word in words[hit.start : hit.end]):
        return False
    if any(word.form == "water" or word.form == "agua" for word in words[max(0, hit.start - 4) : hit.end + 2]):
        return False
    return any(word.form in _RAIN for word in words[max(0, hit.start - 3) : hit.end + 4]) or (
        [word.form for word in words[hit.end - 1 : hit.end + 1]] == ["out", "here"]
    )


_MISTS = listed("mist smoke fog haze hazy dust steam cloud puff air humo neblina polvo vapor ice ants")
_WET = listed("water agua wet soaked mojado flood leak leaking floor piso")


def _pours_no_water(hit: Hit, words: Sequence[Word]) -> bool:
    """“cold mist pours out of the freezer”, “so hazy, it's pouring out the back”: what pours is smoke or mist."""
    if not words[hit.start].form.startswith("pour") or any(word.form in _WET for word in words):
        return False
    return any(word.form in _MISTS for word in words[max(0, hit.start - 9) : hit.start])


_ALL_ELECTRIC = (
    ("all", "electric"), ("todo", "electrico"), ("todo", "electric"), ("pura", "electrica"), ("puro", "electrico"),
    ("everything", "electric"), ("everythings", "electric"), ("toda", "electrica"), ("no", "gas"), ("all", "electrical"),
)  # fmt: skip
_ILL = listed("""
    headache headaches head dizzy sick nauseous nausea sleepy tired cabeza mareo mareos mareado mareada mareados nauseas sueno
    jaqueca
""")
_BURNS_FUEL = listed("""
    gas heater furnace boiler calenton calentador propane propano fireplace chimenea charcoal carbon generator generador wood
    lena alarm detector alarma
""")


def _all_electric(hit: Hit, words: Sequence[Word]) -> bool:
    """“todos con dolor de cabeza pero es la gripa, usamos pura eléctrica”: ill, and no flame in the house."""
    if not any(word.form in _ILL for word in words[hit.start : hit.end]):
        return False
    at = next((n for n, (a, b) in enumerate(pairwise(words)) if (a.form, b.form) in _ALL_ELECTRIC), None)
    if at is None:
        return False
    return not any(word.form in _BURNS_FUEL for n, word in enumerate(words) if n not in (at, at + 1))


_COLD = listed("cold fog foggy frost frosty frio fria helado helada neblina mist niebla ice hielo")
_COLD_MACHINES = listed("freezer fridge refrigerator refri congelador frizer nevera hielera")
_OPENED = listed("open opened opening opens abro abres abre abrir lift lid tapa abierta abierto outside afuera hot")
_DARK = listed("""
    burnt burning burn burned black gray grey quemado negro negra gris smell smells huele olor motor plug cord behind atras
    compressor compresor back outlet contacto dark
""")


def _is_cold_air(hit: Hit, words: Sequence[Word]) -> bool:
    """“frost smoke pours out the freezer when it's open”, “es el frío, como cuando abres el congelador”."""
    first, last = sentence_of(hit, words, _REACH)
    forms = {word.form for word in words[first:last]}
    if forms & _DARK or not forms & _COLD_MACHINES:
        return False
    near = {word.form for word in words[max(first, hit.start - 3) : min(last, hit.end + 5)]}
    return bool(near & _COLD) and bool(forms & _OPENED)


_FIRST_BURNS = (
    ("burn", "off"), ("burning", "off"), ("burns", "off"), ("first", "burn"), ("break", "in"), ("burned", "off"), ("burn",
    "in"),
    ("new", "oven"), ("primera", "vez"), ("primer", "uso"), ("first", "time"), ("first", "use"), ("oils", "burning"),
)  # fmt: skip
_AS_TOLD = listed("""
    book booklet manual says said instructions supposed normal expected gone aired instructivo librito manual dice dijo decia
    tecnico ya normal
""")
_ELECTRIC = listed("""
    plastic plastico rubber electrical electric wire wires cable cables outlet plug contacto enchufe still keeps sigue
    todavia smoke humo again otra weeks week semanas days dias
""")


def _first_burn(hit: Hit, words: Sequence[Word]) -> bool:
    """“new oven smell, doing the first burn off like the book says”; not of plastic, nor after a week."""
    first, last = sentence_of(hit, words, _REACH)
    forms = [word.form for word in words[first:last]]
    if set(forms) & _ELECTRIC or not set(forms) & _AS_TOLD:
        return False
    return any(pair in _FIRST_BURNS for pair in pairwise(forms))
