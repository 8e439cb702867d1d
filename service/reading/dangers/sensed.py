"""What somebody must have smelled, seen or felt to tell of a danger, where only the words as a whole speak of one."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word

_SIGNS_OF = {
    "gas_smell": """
        smell smelt stink stank stunk reek stench odor whiff sniff nose egg rott sulf skunk hiss leak fume dizzy
        headache puff huel hule olor olia olio oli apest peste fuga huevo podrid silb chifl sisea tufo marea escape
        fart eyes ojos taste
    """,
    "carbon_monoxide": """
        alarm detector detecter monox carbon dizz heada pound throb split hurt sick naus puk vomit throw sleep drows
        faint tired wooz swimm lighthead confus pass beep hangover marea cabeza asco suen desmay pit mal flu
    """,
    "fire": """
        fire flam burn lit blaz smok glow torch scorch char orange flare tongue lumbr fueg quem llam incend prend ard
        chisp hot spark smother black anaranjad flicker
    """,
    "smoke": """
        smok puff cloud haz gray grey steam vapor fog alarm detector hum gris nube wisp fume burn cough black ahum
        negr bluish bbq thread roll rise ris white blanc
    """,
    "burning_smell": """
        smell smelt stink stank stunk reek odor whiff burn hot scorch melt rubber plastic electric toast singe smok
        fume solder huel olor olia quem chamus tatem tost ard achich caliente chicharr warm fri
    """,
    "hot_wiring": """
        hot warm heat melt burn brown black scorch char singe soft goo bubbl warp wav toast tan yellow discolor smell
        caliente calientit derret quem tost negr cafe chamus tatem ard amarill achich prieto aplast huele blandit
    """,
    "flooding": """
        water agua flood inund wet soak squish mojad pool charc puddl lake lago pond river rio creek rain llov lluev mop
        trap towel toall bail dam ankl tobillo gush spray chorr pour drip gote leak fuga stream ceiling techo
        faucet drown hose manguer rush seep gallon tide submerg overflow slosh splash shower waterfall fill llen
    """,
    "shock": """
        shock zap jolt tingl buzz sting stung bit tickl volt fence electr current corrient toque piquet hormig cosquill
        calambr patad sacud spic prick pok hum knock pop kick jump gets get got live static numb dorm brrr bzz sent threw
    """,
    "sparks": """
        spark flash zap light lit glow arc chisp luz luce lucecit firefl luciern fire snap crackl fizz spit bug july
        blink streak star estrell bright pop tron truen relamp rayo lightn welder weld sold grind
    """,
    "refrigerant_leak": """
        hiss pss sss siss sisea silb chifl chem quim smell odor whiff olor huele sweet dulce oil aceit snake tire acetone
        polish thinner burn arde sting nose nariz eyes ojos refriger freon coolant punctur hole hoyo pinch leak fuga
        aire air
    """,
    "injury": """
        hurt cut cort slic gash burn quem scald blood bleed bled sangr bandaid bandag stitch punt hospital doctor nurse
        ambul swell swol hinch purpl morad red roj blister ampoll finger thumb palm hand foot feet toe head forehead
        nail skin face arm leg eye knee wrist dedo mano pie cara brazo ojo cabeza rodill espald piel wound scrap
        bruis broke fractur lastim herid pain dolor duel throb limp
        shin chin lip hip neck shoulder chest belly ear rib thigh calf heel ankle elbow pinky split trip slip fell fall
        espinill tobill codo labi oreja cuello hombro pecho costill cader muneca talon pulgar cay caid resbal tropez faint
        desmay breath respir unconsc chok swallow trag poison stuck atorad machuc aplast
    """,
    "water_near_power": """
        water agua wet soak mojad damp humed drip drop gote drib trickl puddl charc leak fuga spill spilt derram tir pour
        rain llov lluv flood inund hosed splash splat spray chorr bead sitting swim pool mop wip sec punch juice jugo
        coffee cafe soup sopa caldo milk leche pitcher jarra overflow runs running
    """,
}
"""How the words begin that tell what is sensed of each danger."""

_POWERED = """
    plug outlet cord chord wire wiring slot socket strip protector surge box extens clock button knob control panel electr
    power volt hole lead adapter switch light enchuf contact tomacorr cable clavij alambr corrient boton perill tabler
    regleta multicontact luz
"""
_POWER = tuple(_POWERED.split())
"""How the words begin of what current runs in: water near it is told by one of each."""

_WIRED = (
    *_POWER,
    "wall",
    "pared",
    "fuse",
    "fusible",
    "prong",
    "pata",
    "breaker",
    "pin",
    "back",
    "atras",
    "behind",
    "detras",
)
"""Where wiring gets hot."""

_BURNERS = frozenset(["burner", "burners"])
"""What begins like a burn and is none."""


def is_wired(word: Word) -> bool:
    """Whether *word* names what current runs in: a plug, a cord, a knob, a wall."""
    return word.form.startswith(_WIRED)


_BEGINNINGS = {code: tuple(listed.split()) for code, listed in _SIGNS_OF.items()}
_NONE = frozenset([
    "no", "not", "without", "never", "sin", "ni", "zero", "cero", "nor", "isnt", "wasnt", "nothing", "nada",
])  # fmt: skip
_DRY = frozenset(["dry", "seco", "seca", "secos", "secas", "high", "away", "alto", "alta", "lejos", "arriba"])
_DRY_WITHIN = 6


def senses(code: str, words: Sequence[Word]) -> bool:
    """Whether *words* hold one that tells of the danger *code* as sensed: “no smell” does not."""
    beginnings = _BEGINNINGS.get(code)
    if beginnings is None:
        return True
    if code == "carbon_monoxide" and any(
        word.form == "co" and not (at and words[at - 1].form == "gas") for at, word in enumerate(words)
    ):
        return True
    if code == "water_near_power" and not _powered(words):
        return False
    if code == "hot_wiring" and not any(is_wired(word) for word in words):
        return False
    return any(
        _is_there(at, words)
        for at, word in enumerate(words)
        if word.form.startswith(beginnings) and not (word.form in _BURNERS or _is_for_smoke(code, at, words))
    )


_ALARMS = ("alarm", "detector", "beep")
_SMOKES = frozenset(["smoke", "humo"])


def _is_for_smoke(code: str, at: int, words: Sequence[Word]) -> bool:
    """“the smoke alarm yells at bacon”: of carbon monoxide it tells nothing."""
    if code != "carbon_monoxide" or not words[at].form.startswith(_ALARMS):
        return False
    around = (*words[max(0, at - 2) : at], *words[at + 1 : at + 3])
    return any(word.form in _SMOKES for word in around) and not any(word.form == "co" for word in around)


def _is_there(at: int, words: Sequence[Word]) -> bool:
    """Not “no smell”, nor “nothing got wet”."""
    return not any(word.form in _NONE for word in words[max(0, at - 1) : at]) and not (
        at > 1
        and words[at - 2].form in ("nothing", "nada")
        and words[at - 1].form in ("got", "is", "was", "se", "esta")
    )


def _powered(words: Sequence[Word]) -> bool:
    """Whether something is named that current runs in, and not told to be dry or out of reach."""
    powered = [at for at, word in enumerate(words) if word.form.startswith(_POWER)]
    dry = any(word.form in _DRY for at in powered for word in words[at + 1 : at + 1 + _DRY_WITHIN])
    return bool(powered) and not dry
