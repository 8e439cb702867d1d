"""
Danger words in figures of speech and names: “smoking mad”, “the firemen calendar”, a head that aches from noise, cold air like
smoke.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.dangers.other_sources import names_a_machine, of_the_kitchen
from service.reading.dangers.source_words import listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_NOT_BURNING = listed("""
    feet foot mouth tongue throat eyes face ears back knees legs head chat inbox phone line team schedule wallet
    business money savings budget plans weekend career marriage life group boss wife husband kids kid everybody
    everyone music party band song bill bills trauma traumas er shift season market traffic feed sales homework
    finals jokes tarea tareas examenes chistes playlist pies pie boca lengua garganta ojos cara orejas espalda
    rodillas piernas cabeza telefono equipo negocio jefe esposa marido
""")


_FIRE_NAMES = listed("""
    rated code door exit extinguisher insurance station lane sale pit drill stick tv hydrant escape marshal truck
    inspection blanket hazard wood roasted chief academy
""")


def _names_a_thing(at: int, words: Sequence[Word]) -> bool:
    """“fire blankets”, “fire code”."""
    return at < len(words) and not words[at].brk and not {words[at].form, words[at].en}.isdisjoint(_FIRE_NAMES)


_BURNS = listed("fire flames lumbre arde arden ardiendo fuego llamas")


_UP = listed("up out in on inside under from behind at again right now off") | {""}


_PERSONS = listed("jefe jefa patron patrona esposa esposo marido suegra suegro senora mama mujer")
_STANDS = listed("esta estoy ando anda estaba")


def _seethes(hit: Hit, words: Sequence[Word]) -> bool:
    """“mi mamá está que echa chispas y humo”."""
    for at in range(max(2, hit.start - 3), hit.end):
        if words[at].form == "echa" and words[at - 1].form == "que" and words[at - 2].form in _STANDS:
            return not names_a_machine(words[max(0, at - 7) : hit.end + 4])
        if words[at].form in ("echa", "saca", "echando") and words[at - 1].form in _PERSONS:
            return not names_a_machine(words[at : hit.end + 4])
    return False


_BREATHING = listed("breathing breathe breathes breathed")
_FEELING = listed("mad angry pissed deal bargain gun price")


_NO_SMOKE = listed("""
    break breaks show signal signals mirrors ring rings shop shack screen bomb bombs lmao lol weed
""")


def is_figure_of_speech(hit: Hit, words: Sequence[Word]) -> bool:
    """“my feet are on fire”, “the line catches fire every friday”, “smoking mad”, “smoke break”, “model SMK is no smoke”."""
    code, behind = hit.payload.code, words[hit.end].form if hit.end < len(words) else ""
    if code not in ("smoke", "fire"):
        return False
    if _seethes(hit, words) or (code == "fire" and hit.end > 1 and words[hit.end - 2].form in _BREATHING):
        return True
    if code == "smoke":
        if behind in _NO_SMOKE and not words[hit.end].brk:
            return True
        return words[hit.end - 1].form == "smoking" and behind in _FEELING and not words[hit.end].brk
    if code == "fire" and hit.start and words[hit.end - 1].form in ("infierno", "inferno"):
        return any(word.form in ("like", "como", "un", "an") for word in words[max(0, hit.end - 3) : hit.end - 1])
    if code == "fire" and hit.length == 1 and words[hit.start].form == "flaming":
        return behind not in _UP and not names_a_machine(words[hit.end : hit.end + 2])
    if code == "fire" and words[hit.end - 1].form == "fire" and _names_a_thing(hit.end, words):
        return True
    if code != "fire" or not any(word.form in _BURNS for word in words[hit.start : hit.end]):
        return False
    for at in range(hit.start + 1, max(-1, hit.start - 4), -1):
        if at < hit.end and at < len(words) and words[at].form in _NOT_BURNING:
            return not names_a_machine(words[max(0, at - 2) : hit.end])
        if at < len(words) and at <= hit.start and words[at].brk == 2:
            break
    return _with_what(hit, words)


_WITH = listed("with con at en for")


def _with_what(hit: Hit, words: Sequence[Word]) -> bool:
    """“on fire con la tarea”, “on fire with the jokes”."""
    behind = words[hit.end : hit.end + 4]
    if not behind or behind[0].form not in _WITH:
        return False
    return any(word.form in _NOT_BURNING or word.form == "work" for word in behind[1:]) and not names_a_machine(
        words[: hit.start]
    )


_FIREMEN = listed("""
    firemen fireman firefighter firefighters dept department bombero bomberos firehouse
""")


_FIREMAN_THINGS = listed("""
    calendar hat costume toy truck badge uniform pole dance raffle fundraiser picnic auction helmet boots pension union
    calendario disfraz casco rifa uniforme camion
""")


_FALSE_ALARM = (
    ("all", "good"), ("all", "clear"), ("false", "alarm"), ("no", "fire"), ("no", "paso"), ("falsa", "alarma"), ("no", "hubo"),
    ("everythings", "fine"), ("nothing", "wrong"), ("se", "rieron"), ("no", "era"),
)  # fmt: skip


_NO_EMERGENCY = listed(
    "drill simulacro inspection cat kitten gato gatito training class parade festival open fundraiser"
)
_IS_ONE = listed("is a im am es soy was era named")


def no_fire_of_the_firemen(hit: Hit, words: Sequence[Word]) -> bool:
    """“the firemen calendar fell”, “the fire dept came for a burnt pizza”, “my husband is a fireman”."""
    if hit.payload.code != "fire" or not any(word.form in _FIREMEN for word in words[hit.start : hit.end]):
        return False
    behind = words[hit.end : hit.end + 8]
    if behind and behind[0].form in _FIREMAN_THINGS:
        return True
    if hit.start and words[hit.start].form in _FIREMEN and words[hit.start - 1].form in _IS_ONE:
        return True
    if any(word.form in _NO_EMERGENCY for word in behind) and not names_a_machine(words):
        return True
    if of_the_kitchen(behind) and not names_a_machine(words[hit.end : hit.end + 4]):
        return any(word.form in listed("for por over because porque cause bc x from") for word in behind)
    pairs = [(a.form, b.form) for a, b in zip(words[hit.end :], words[hit.end + 1 :], strict=False)]
    return any(pair in _FALSE_ALARM for pair in pairs)


_ACHES_FROM = listed("""
    noise noises racket sound stress stressed hangover bill bills kids paperwork allergies allergy sinus sinuses flu
    cold work ruido ruidos ruidazo cruda estres cuenta cuentas gripa alergia alergias desvelada trabajo sinusitis
    migrana resaca
    waiting school escuela embarazo embarazada pregnant pregnancy tired cansancio lucesitas lucecitas luces calls people
    llamadas
    vueltas tarea homework heat calor sol sun teething baby bebe covid hunger hambre ayuno dieta
""")


_FROM = listed("from of with de por con over because porque tanto all")


def ached_from(hit: Hit, words: Sequence[Word]) -> bool:
    """“a headache from all this noise”."""
    if hit.payload.code != "carbon_monoxide" or not any(w.form in _ACHE for w in words[hit.start : hit.end]):
        return False
    tied = False
    for word in words[hit.start + 1 : hit.end + 5]:
        if word.form in _ACHES_FROM and tied:
            return True
        if word.brk == 2 or word.form in ("maybe", "think", "creo", "pensamos", "thought", "not", "no", "y", "and"):
            return False
        tied = tied or word.form in _FROM
    return False


_ACHE = listed("head headache headaches cabeza pounding migraine dolor duele jaqueca")


_LIKE = listed("like como parece parecido parecia")


_COLD = listed("""
    cold fog fogs foggy frost frosty frio helado neblina escarcha vapor steam steamy mist vaho
""")


def only_looks_like(hit: Hit, words: Sequence[Word]) -> bool:
    """“cold air spills out and makes like smoke”, “sale vapor que parece humo”."""
    if hit.payload.code != "smoke":
        return False
    if _is_steam(hit, words):
        return True
    if not hit.start or words[hit.start - 1].form not in _LIKE:
        return False
    near = words[max(0, hit.start - 5) : hit.start]
    after = words[hit.end : hit.end + 9]
    if any(word.form in _DARK for word in (*near, *words[hit.start : hit.end], *after)):
        return False
    if any(word.form in _COLD for word in after) and any(word.form in _JUST for word in after):
        return True
    return not any(word.form in ("y", "and") for word in near) and any(word.form in _COLD for word in near)


_MIST = listed("steam vapor vaho vaporcito mist fog frost flour harina dust polvo frio breath talc powder")
_IS = listed("its thats is just only was es era puro pura nomas solo sino")
_IS_NOT = listed("not isnt no or o think thought maybe creo pense como like either ni")


def _is_steam(hit: Hit, words: Sequence[Word]) -> bool:
    """“mother says it's smoke. it's steam, it fogs my glasses”, “humo no, es puro vapor”; nothing that smells besides."""
    for at in range(hit.end, min(hit.end + 6, len(words))):
        if words[at].form in _MIST and words[at - 1].form in _IS:
            if any(word.form in _IS_NOT for word in words[hit.end + 1 : at]):
                return False
            turned = any(word.form in ("but", "pero") for word in words[at + 1 : at + 6])
            return not (turned or any(word.form in _DARK for word in words))
    return False


_JUST = listed("just only solo nomas puro its es thats")


_DARK = listed("""
    burnt burning burn burned black gray grey quemado negro negra gris smell smells huele
""")
