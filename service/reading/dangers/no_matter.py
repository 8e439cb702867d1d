"""
Danger words that tell of no danger here and now: a question in general, what befell an old machine or long ago, what has gone
with its cause, somebody else's patient.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.alarms_heard import alarm_only_named, alarm_silent, alarm_without_smoke
from service.reading.dangers.as_it_should import is_as_it_should
from service.reading.dangers.figures_of_speech import (
    ached_from,
    is_figure_of_speech,
    no_fire_of_the_firemen,
    only_looks_like,
)
from service.reading.dangers.gone_since import is_gone_since
from service.reading.dangers.hearsay import is_hearsay
from service.reading.dangers.house_smells import is_of_the_house
from service.reading.dangers.in_general import asked_in_general
from service.reading.dangers.mended_then import mended_outside
from service.reading.dangers.near_misses import is_blood_of_meat, is_numb_of_itself, only_nearly
from service.reading.dangers.other_sources import names_a_machine, of_the_kitchen
from service.reading.dangers.other_wounds import wounded_otherwise
from service.reading.dangers.outside import drizzles, spilled_elsewhere
from service.reading.dangers.pointing_back import points_back
from service.reading.dangers.settling import is_year_gone
from service.reading.dangers.source_words import listed
from service.reading.dangers.tempers import is_of_tempers
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_KINDS = frozenset(["smoke", "fire", "burning_smell", "gas_smell", "carbon_monoxide"])


def is_no_matter(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether *hit* tells of nothing that is so here and now."""
    if _long_past(hit, words) or _of_the_last_one(hit, words) or _thrown_out_with_it(hit, words, marks):
        return True
    if is_hearsay(hit, words) or is_gone_since(hit, words) or is_as_it_should(hit, words):
        return True
    if wounded_otherwise(hit, words) or is_of_the_house(hit, words):
        return True
    if hit.payload.code == "sparks":
        return _sparks_to_light(hit, words) or is_of_tempers(hit, words) or drizzles(hit, words)
    if hit.payload.code == "flooding":
        return spilled_elsewhere(hit, words)
    if hit.payload.code == "injury":
        return only_nearly(hit, words) or is_blood_of_meat(hit, words)
    if hit.payload.code == "shock":
        return is_numb_of_itself(hit, words)
    if hit.payload.code not in _KINDS:
        return False
    return (
        mended_outside(hit, words)
        or _tells_the_fuel(hit, words)
        or alarm_without_smoke(hit, words)
        or alarm_only_named(hit, words)
        or alarm_silent(hit, words)
        or asked_in_general(hit, words)
        or is_figure_of_speech(hit, words)
        or is_of_tempers(hit, words)
        or points_back(hit, words)
        or no_fire_of_the_firemen(hit, words)
        or ached_from(hit, words)
        or only_looks_like(hit, words)
        or _gone_with_its_cause(hit, words)
    )


_LAST = listed("""
    last old previous first former ex viejo vieja anterior antiguo antigua pasado pasada
""")


_LAST_BEHIND = listed("viejo vieja biejo bieja anterior antiguo antigua")


_THIS = listed("this new mine now este esta nuevo nueva")


def _of_the_last_one(hit: Hit, words: Sequence[Word]) -> bool:
    """“my last stove caught fire, this one just has a loose knob”."""
    breath = next((at for at in range(hit.end, len(words)) if words[at].brk), len(words))
    for at in range(max(0, hit.start - 6), min(breath, hit.end + 3)):
        if not names_a_machine(words[at : at + 1]):
            continue
        before, behind = words[at - 1].form if at else "", words[at + 1].form if at + 1 < len(words) else ""
        if before not in _LAST and behind not in _LAST_BEHIND:
            return False
        after = words[hit.end :]
        pairs = pairwise(after)
        return any(a.form in _THIS and (b.form in _ONE or names_a_machine([b])) for a, b in pairs)
    return False


_ONE = listed("one is just only nuevo nueva solo nomas no nada otro otra")


_GONE = (
    ("aired", "out"), ("thats", "gone"), ("its", "gone"), ("all", "gone"), ("thats", "over"), ("thrown", "out"),
    ("that", "was"), ("ya", "paso"), ("ya", "fue"), ("se", "fue"), ("threw", "it"), ("cleared", "out"), ("se", "ventilo"),
    ("is", "gone"), ("se", "quito"), ("se", "le"), ("ventilamos", "todo"), ("went", "away"), ("goes", "away"),
    ("gone", "now"),
)  # fmt: skip


_HARMLESS = listed("""
    self clean cleaning dust polvo autolimpieza toaster tostador manual heater calenton crayon crayons
    crayola marker coating gum lipstick wax chapstick candy chicle pintalabios plumon cera
""")


_STAYS = listed("still again keeps back sigue todavia otra volvio vuelve pero")


def _gone_with_its_cause(hit: Hit, words: Sequence[Word]) -> bool:
    """“burnt popcorn stunk up the place, aired out since”: what it was is told, and that it has gone."""
    if hit.payload.code not in ("smoke", "burning_smell"):
        return False
    around = words[max(0, hit.start - 16) : hit.end + 12]
    if not (of_the_kitchen(around) or any(word.form in _HARMLESS for word in around)):
        return False
    for at in range(hit.end, min(hit.end + 14, len(words) - 1)):
        if (words[at].was or words[at].form, words[at + 1].form) in _GONE:
            return not any(word.form in _STAYS for word in words[hit.end : at + 5])
    return False


def _thrown_out_with_it(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether the machine that did it is told to be thrown out behind *hit*."""
    return hit.payload.code != "fire" and any(
        hit.end <= start <= hit.end + 8 and not any(w.form in _STAYS for w in words[end:])
        for start, end in marks.at("machine_gone")
    )


_MONTHS = listed("""
    january february march april june july august september october november december enero febrero marzo abril mayo
    junio julio agosto septiembre octubre noviembre diciembre
""")


_YEARS = listed("years yrs year months ago anos ano meses")


_AGO = listed("ago hace last pasado back")


_OTHER_HOME = listed("house place apartment landlord landlords trailer condo home rental casa depa departamento")


_PAST = listed("""
    had was were leaked smoked caught burned burnt smelled smelt got did went filled tuvo hubo habia fue era olia olio
    salio echo quemo incendio prendio tuvimos saco tenia shocked zapped sparked flooded cut hurt inundo dio daba cortaba
    corto echaba sacaba quebro lastimo metia
""")


_RECENT = listed("""
    yesterday today tonight morning now still again keeps since hoy ayer anoche ahora ahorita sigue todavia otra volvio
    week bought purchased installed compre compramos minutes mins min minute seconds second hour hours minutos minuto
    hora horas segundos recien
""")


_PAST_REACH = 12


def _long_past(hit: Hit, words: Sequence[Word]) -> bool:
    """“mom's stove years ago when it had that gas leak”, “the kitchen fire was in march”, “our old house had”."""
    first, last = sentence_of(hit, words, _PAST_REACH)
    around = words[first:last]
    if not any(word.form in _PAST for word in words[max(first, hit.start - 4) : min(last, hit.end + 3)]):
        return False
    behind = range(hit.end, min(hit.end + 4, last))
    if not any(_is_long_ago(at, around) for at in range(len(around))) and not any(
        is_year_gone(words, at) for at in behind
    ):
        return False
    if any(_is_recent(at, words) and not _tells_of_today(at, last, words) for at in range(first, len(words))):
        return False
    return not any(
        word.form in listed("is are sale huele smells") for word in words[max(first, hit.start - 2) : hit.start + 1]
    )


_TODAY = listed("today now hoy ahora ahorita")
_DANGEROUS = (
    "smok",
    "smell",
    "spark",
    "shock",
    "zap",
    "burn",
    "fire",
    "flam",
    "leak",
    "flood",
    "humo",
    "huele",
    "chisp",
    "toq",
    "lumbr",
)
_THE_SAME = listed("too same also again tambien igual mismo did does worse peor")


def _tells_of_today(at: int, last: int, words: Sequence[Word]) -> bool:
    """“it smoked in 2019. today it only hums”: what is so today is told in a breath of its own, and is something else."""
    if words[at].form not in _TODAY or not words[at].brk or (at < last and words[at].form == "today"):
        return False
    return not any(word.form in _THE_SAME or word.form.startswith(_DANGEROUS) for word in words[at:])


_SPEAKING = listed("telling saying talking asking reminding bringing")


def _is_recent(at: int, words: Sequence[Word]) -> bool:
    """“again”, “still”; not “before I bought it”, “not since”, “this one just ...”."""
    if words[at].form not in _RECENT:
        return False
    if words[at].form == "keeps" and at + 1 < len(words) and words[at + 1].form in _SPEAKING:
        return False
    before = {word.form for word in words[max(0, at - 2) : at]}
    return not before & listed("before not never nunca antes no gone")


def _is_long_ago(at: int, around: Sequence[Word]) -> bool:
    form, beside = around[at].form, {word.form for word in around[max(0, at - 2) : at + 3]}
    if form == "recall":
        return any(word.form in ("before", "antes") for word in around[max(0, at - 3) : at])
    if form in _YEARS:
        return bool(beside & _AGO) and "old" not in beside
    if form in _MONTHS:
        return bool({w.form for w in around[max(0, at - 2) : at]} & listed("in en last back that since por"))
    before = {word.form for word in around[max(0, at - 2) : at]}
    if form in _OTHER_HOME:
        return bool(before & listed("old last previous other otra otro vieja viejo anterior antigua antes"))
    two = tuple(word.form for word in around[max(0, at - 2) : at])
    return form in _YOUTH and (two in _AS_A or two[-1:] in (("era",), ("de",)) or (form in _SCHOOLS and "in" in two))


_AS_A = (("as", "a"), ("was", "a"), ("was", "in"), ("in", "the"), ("back", "in"))
_SCHOOLS = listed("college school")
_YOUTH = _SCHOOLS | listed("kid child teenager chiquito chiquita chico chica nino nina joven morro morra navy army")


def _tells_the_fuel(hit: Hit, words: Sequence[Word]) -> bool:
    """“el aire sale frío, es de gas”."""
    if hit.payload.code != "gas_smell":
        return False
    return [word.form for word in words[max(0, hit.end - 3) : hit.end]] in (["es", "de", "gas"], ["son", "de", "gas"])


_IGNITERS = listed("""
    igniter ignitor igniters clicks click clicking clicker tick ticks ticking knob knobs burner burners stove cooktop range
    chispero encendedor perilla perillas hornilla hornillas quemador quemadores estufa parrilla clic sparker flame
""")
_LIGHTS = listed("lights lit ignites prende prenden enciende encienden agarra agarran")
_BEFORE_LIGHTS = listed("it and then they always just still burner burners y luego si bien ellas todas tick click")
_NOT_OF_A_BURNER = listed("""
    outlet plug cord wire wires wiring back behind inside smell smells burnt panel wall box flicker dim breaker microwave
    contacto enchufe cable cables clavija atras adentro huele quemado pared microondas
""")


def _sparks_to_light(hit: Hit, words: Sequence[Word]) -> bool:
    """“the spark on the stove clicks and it lights fine”: a burner's spark that does what it should."""
    first, last = sentence_of(hit, words, _PAST_REACH)
    around = words[first:last]
    if not any(word.form in _IGNITERS for word in around) or any(word.form in _NOT_OF_A_BURNER for word in around):
        return False
    behind = range(hit.end, min(len(words), hit.end + _PAST_REACH + 4))
    if any(words[at].form in _NOT_OF_A_BURNER for at in behind):
        return False
    return any(
        words[at].form in _LIGHTS
        and (
            (words[at - 1].form in _BEFORE_LIGHTS and words[at].brk != 2)
            or any(word.form in _AT_ONCE for word in words[at + 1 : at + 3])
        )
        for at in behind
    )


_AT_ONCE = listed("right fine good bien luego rapido first")
