"""
Danger words that tell of no danger here and now: an alarm that wants a battery or was tested, a question in general, what
befell an old machine, a figure of speech, firefighters without a fire, a head that aches from noise.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.clauses import Marks
from service.reading.matching import Hit
from service.reading.normalising import Word
from service.reading.other_sources import is_alarm, names_a_machine, of_the_kitchen

_KINDS = frozenset(["smoke", "fire", "burning_smell", "gas_smell", "carbon_monoxide"])


def _set(listed: str) -> frozenset[str]:
    return frozenset(listed.split())


def is_no_matter(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether *hit* tells of nothing that is so here and now."""
    if hit.payload.code not in _KINDS:
        return False
    return (
        _alarm_without_smoke(hit, words)
        or _alarm_only_named(hit, words)
        or _asked_in_general(hit, words)
        or _of_the_last_one(hit, words)
        or _figure_of_speech(hit, words)
        or _no_fire_of_the_firemen(hit, words)
        or _ached_from(hit, words)
        or _looks_like(hit, words)
        or _gone_with_its_cause(hit, words)
        or _thrown_out_with_it(hit, words, marks)
        or _long_past(hit, words)
        or _at_work(hit, words)
    )


_SOUNDS = _set("""
    go goes going went gone off set sets setting tripped trips screaming scream screams blaring blares beeping beep beeps
    ring rings ringing rang sounding sounds sounded shrieking wailing crazy nuts loud stop quit triggered alert started sings
    sing singing howling screeching
    shut beeped chirped nonstop calla callo deja
    suena sono suenan sonando suene sonar pita pitando pito chilla chillando activo activa disparo dispara disparada grita
    gritando escandalo loca loco para parar prendio brinco salto
""")
_BATTERY = _set("""
    battery batteries chirp chirps chirping chirped test tested testing tests install installed expired replace replaced
    hush hushed sell mount hang hardwired yellowed ceiling ladder
    pila pilas bateria baterias probo probe probamos probando prueba pruebas instalar instalan venden caduco vencido cambiar
""")
_ALARM_REACH = 12


def _alarm_without_smoke(hit: Hit, words: Sequence[Word]) -> bool:
    """“the smoke alarm wants a battery”, “we tested it”, “it only sings when I burn the bread”; also where it only is named."""
    if hit.payload.code == "carbon_monoxide" or not is_alarm(hit, words):
        return False
    first, last = _sentence(hit, words, _ALARM_REACH)
    around = words[first:last]
    breath = next((at for at in range(hit.end, last) if words[at].brk), last)
    if _names_one(words, max(first, hit.start - 6), breath):
        return False
    forms = {word.form for word in around}
    if forms & _BATTERY:
        return True
    told = words[max(first, hit.start - 4) : last]
    if not any(word.form in _SOUNDS for word in told):
        return True
    nobody_cooks = any((a.form, b.form) in _NOT_COOKING for a, b in zip(around, around[1:], strict=False))
    return of_the_kitchen(around) and not forms & _NOT_THE_KITCHEN and not nobody_cooks


_READS = _set("says reads shows marks marca dice")
_FELT = _set("dizzy headache headaches sick sleepy head nausea nauseous mareo mareado mareados cabeza nauseas out")


def _alarm_only_named(hit: Hit, words: Sequence[Word]) -> bool:
    """“the carbon monoxide detector came with the house and I never heard it”: told of nothing it did."""
    if hit.payload.code != "carbon_monoxide" or len(words) < _WORDS_TO_NAME or not _near_alarm(hit, words):
        return False
    first, last = _sentence(hit, words, len(words))
    if names_a_machine(words[first:last]):
        return False
    return not any(
        word.form in _SOUNDS
        or word.form in _FELT
        or word.form in _set("not isnt wasnt")
        or word.form in _READS
        or word.form.isdigit()
        for word in words
    )


_WORDS_TO_NAME = 8


def _near_alarm(hit: Hit, words: Sequence[Word]) -> bool:
    return any(word.form in _ALARMS for word in words[max(0, hit.start - 2) : hit.end + 1])


_ALARMS = _set("alarm alarms detector detectors alarma alarmas detectores sensor")


def _names_one(words: Sequence[Word], first: int, last: int) -> bool:
    """Whether a machine is named, and not to say that it was another thing: “not the oven lol”."""
    return any(
        names_a_machine(words[at : at + 1]) and not any(w.form in _NOT_IT for w in words[max(first, at - 2) : at])
        for at in range(first, last)
    )


_NOT_IT = _set("not isnt wasnt no")
_NOT_COOKING = (
    ("not", "cooking"), ("not", "even"), ("no", "estamos"), ("no", "estaba"), ("no", "estoy"), ("no", "hay"),
)  # fmt: skip
_NOT_THE_KITCHEN = _set("nobody wasnt arent isnt werent nadie sin maybe think creo")

_WONDERING = _set(
    "wondering curious curiosity curiosidad hypothetically hypothetical general anxiety anxious buy buying shopping comprar"
)
_SOMEBODY = _set("somebody someone anybody anyone person people alguien gente persona")
_IF = _set(
    "if when can could do does would whether que si cuando puede pueden podria do cierto true normal usually were are"
)
_OURS_FINE = (
    ("mine", "is"), ("ours", "is"), ("mine", "works"), ("mine", "just"), ("ours", "just"), ("mine", "isnt"), ("mine", "only"),
    ("ours", "isnt"), ("ours", "only"), ("la", "mia"), ("el", "mio"), ("la", "nuestra"), ("el", "nuestro"), ("mine", "runs"),
    ("ours", "works"), ("just", "asking"), ("asking", "for"), ("just", "wonder"), ("pregunto", "nomas"),
    ("nomas", "pregunto"), ("solo", "pregunto"), ("nomas", "preguntaba"), ("nomas", "quiero"), ("not", "an"),
    ("un", "video"), ("a", "video"), ("an", "article"), ("peace", "of"), ("un", "dia"), ("solo", "preguntaba"),
)  # fmt: skip
"""Pairs of words that set what is ours apart from it, or say why it is asked."""
_ANY = _set("a an any some these those un una unos unas los las estas estos")
_GENERAL_REACH = 9


def _asked_in_general(hit: Hit, words: Sequence[Word]) -> bool:
    """“what if a dryer catches fire, asking for a friend”, “who do people call when they smell gas, just curious”."""
    first, _ = _sentence(hit, words, _GENERAL_REACH)
    near = words[first : hit.start + 1]
    forms = {word.form for word in near}
    if not (forms & _IF or words[hit.start].asks or forms & _SAYING_SO):
        return False
    if any(
        word.form in _set("rn ahorita") or (word.form == "now" and words[at - 1].form == "right")
        for at, word in enumerate(words)
    ):
        return False
    somebody = bool(forms & _SOMEBODY) and not forms & _set("i we my our yo nos mi")
    if not (somebody or _any_machine(first, hit, words) or hit.payload.code == "carbon_monoxide"):
        return _set_apart(words) and bool(forms & {"un", "dia"} == {"un", "dia"})
    return _set_apart(words) or (somebody and any(word.form in _IF for word in near))


_SAYING_SO = _set("heard read recalled recall escuche oi lei dicen dijeron revisar check test")


def _any_machine(first: int, hit: Hit, words: Sequence[Word]) -> bool:
    """“a dryer”, “these ovens”: no machine in particular."""
    for at in range(max(first, hit.start - 6), hit.end):
        if names_a_machine(words[at : at + 1]):
            before = [word.form for word in words[max(first, at - 4) : at]]
            if any(form in _THE for form in before):
                return False
            return any(form in _ANY for form in before) or words[at].form.endswith("s")
    return False


_THE = _set("my our the your this el la mi mis nuestro nuestra este esta")


def _set_apart(words: Sequence[Word]) -> bool:
    if any(word.form in _WONDERING for word in words):
        return True
    return any((a.form, b.form) in _OURS_FINE for a, b in zip(words, words[1:], strict=False))


_LAST = _set("last old previous first former ex viejo vieja anterior antiguo antigua pasado pasada")
_LAST_BEHIND = _set("viejo vieja anterior antiguo antigua")
_THIS = _set("this new mine now este esta nuevo nueva")


def _of_the_last_one(hit: Hit, words: Sequence[Word]) -> bool:
    """“my last stove caught fire, this one just has a loose knob”."""
    for at in range(max(0, hit.start - 6), hit.end):
        if not names_a_machine(words[at : at + 1]):
            continue
        before, behind = words[at - 1].form if at else "", words[at + 1].form if at + 1 < len(words) else ""
        if before not in _LAST and behind not in _LAST_BEHIND:
            return False
        after = words[hit.end :]
        pairs = zip(after, after[1:], strict=False)
        return any(a.form in _THIS and (b.form in _ONE or names_a_machine([b])) for a, b in pairs)
    return False


_ONE = _set("one is just only nuevo nueva solo nomas no nada")

_NOT_BURNING = _set("""
    feet foot mouth tongue throat eyes face ears back knees legs head chat inbox phone line team schedule wallet business
    group boss wife husband kids kid everybody everyone music party band song bill bills
    trauma traumas er shift season market traffic feed sales team
    pies pie boca lengua garganta ojos cara orejas espalda rodillas piernas cabeza telefono equipo negocio jefe esposa marido
""")
_FIRE_NAMES = _set("""
    rated code door exit extinguisher insurance station lane sale pit drill stick tv hydrant escape marshal truck inspection
    blanket hazard wood roasted chief academy
""")
_BURNS = _set("fire flames lumbre arde arden ardiendo fuego llamas")
_UP = _set("up out in on inside under from behind at again right now off") | {""}
_GIVES_OFF = _set("echa echando echar")
_PERSONS = _set("""
    mama papa jefe jefa esposa esposo marido suegra suegro abuela abuelo vieja viejo hermana hermano vecina dragon casero estoy
    ando andaba anda
""")
_FEELING = _set("mad angry pissed hot fast")
_NO_SMOKE = _set("break breaks show signal signals mirrors ring rings shop shack screen bomb bombs lmao lol weed")


def _figure_of_speech(hit: Hit, words: Sequence[Word]) -> bool:
    """“my feet are on fire”, “the line catches fire every friday”, “smoking mad”, “smoke break”, “model SMK is no smoke”."""
    code, behind = hit.payload.code, words[hit.end].form if hit.end < len(words) else ""
    if code == "smoke":
        if behind in _NO_SMOKE and not words[hit.end].brk:
            return True
        return words[hit.end - 1].en == "smoke" and behind in _FEELING
    if code == "fire" and hit.length == 1 and words[hit.start].form == "flaming":
        return behind not in _UP and not names_a_machine(words[hit.end : hit.end + 2])
    if code == "fire" and words[hit.end - 1].form == "fire" and behind in _FIRE_NAMES and not words[hit.end].brk:
        return True
    if any(word.form in _GIVES_OFF for word in words[max(0, hit.start - 3) : hit.end]):
        return any(word.form in _PERSONS for word in words[max(0, hit.start - 7) : hit.start]) and not names_a_machine(
            words[hit.end : hit.end + 4]
        )
    if code != "fire" or not any(word.form in _BURNS for word in words[hit.start : hit.end]):
        return False
    for at in range(hit.start + 1, max(-1, hit.start - 4), -1):
        if at < hit.end and at < len(words) and words[at].form in _NOT_BURNING:
            return not names_a_machine(words[max(0, at - 2) : hit.end])
        if at < len(words) and at <= hit.start and words[at].brk == 2:
            return False
    return False


_FIREMEN = _set("firemen fireman firefighter firefighters dept department bombero bomberos firehouse")
_FIREMAN_THINGS = _set("""
    calendar hat costume toy truck badge uniform pole dance raffle fundraiser picnic auction helmet boots pension union
    calendario disfraz casco rifa uniforme camion
""")
_FALSE_ALARM = (
    ("all", "good"), ("all", "clear"), ("false", "alarm"), ("no", "fire"), ("no", "paso"), ("falsa", "alarma"), ("no", "hubo"),
    ("everythings", "fine"), ("nothing", "wrong"), ("se", "rieron"), ("no", "era"),
)  # fmt: skip
_IS_ONE = _set("is a im am es soy was era named")


def _no_fire_of_the_firemen(hit: Hit, words: Sequence[Word]) -> bool:
    """“the firemen calendar fell”, “the fire dept came for a burnt pizza”, “my husband is a fireman”."""
    if hit.payload.code != "fire" or not any(word.form in _FIREMEN for word in words[hit.start : hit.end]):
        return False
    behind = words[hit.end : hit.end + 8]
    if behind and behind[0].form in _FIREMAN_THINGS:
        return True
    if hit.length == 1 and hit.start and words[hit.start - 1].form in _IS_ONE:
        return True
    if of_the_kitchen(behind) and not names_a_machine(words[hit.end : hit.end + 4]):
        return any(word.form in _set("for por over because porque cause bc x from") for word in behind)
    pairs = [(a.form, b.form) for a, b in zip(words[hit.end :], words[hit.end + 1 :], strict=False)]
    return any(pair in _FALSE_ALARM for pair in pairs)


_ACHES_FROM = _set("""
    noise noises racket sound stress stressed hangover bill bills kids paperwork allergies allergy sinus sinuses flu cold work
    ruido ruidos ruidazo cruda estres cuenta cuentas gripa alergia alergias desvelada trabajo sinusitis migrana resaca
""")
_FROM = _set("from of with de por con over because porque tanto all")


def _ached_from(hit: Hit, words: Sequence[Word]) -> bool:
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


_ACHE = _set("head headache headaches cabeza pounding migraine dolor duele jaqueca")

_LIKE = _set("like como parece parecido parecia")
_COLD = _set("cold fog fogs foggy frost frosty frio helado neblina escarcha vapor steam steamy mist vaho")


def _looks_like(hit: Hit, words: Sequence[Word]) -> bool:
    """“cold air spills out and makes like smoke”, “sale vapor que parece humo”."""
    if hit.payload.code != "smoke" or not hit.start or words[hit.start - 1].form not in _LIKE:
        return False
    near = words[max(0, hit.start - 5) : hit.start]
    after = words[hit.end : hit.end + 9]
    if any(word.form in _DARK for word in (*near, *words[hit.start : hit.end], *after)):
        return False
    if any(word.form in _COLD for word in after) and any(word.form in _JUST for word in after):
        return True
    return not any(word.form in ("y", "and") for word in near) and any(word.form in _COLD for word in near)


_JUST = _set("just only solo nomas puro its es thats")
_DARK = _set("burnt burning burn burned black gray grey quemado negro negra gris smell smells huele")

_GONE = (
    ("aired", "out"), ("thats", "gone"), ("its", "gone"), ("all", "gone"), ("thats", "over"), ("thrown", "out"),
    ("that", "was"), ("ya", "paso"), ("ya", "fue"), ("se", "fue"), ("threw", "it"), ("cleared", "out"), ("se", "ventilo"),
    ("is", "gone"), ("se", "quito"), ("se", "le"), ("ventilamos", "todo"), ("went", "away"), ("goes", "away"),
)  # fmt: skip
_HARMLESS = _set("self clean cleaning dust polvo autolimpieza toaster tostador manual heater calenton")
_STAYS = _set("still again keeps back sigue todavia otra volvio vuelve pero")


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


_MONTHS = _set("""
    january february march april june july august september october november december
    enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre
""")
_YEARS = _set("years yrs year months ago anos ano meses")
_AGO = _set("ago hace last pasado back")
_OTHER_HOME = _set("house place apartment casa")
_PAST = _set("""
    had was were leaked smoked caught burned burnt smelled smelt got did went filled tuvo hubo habia fue era olia olio salio
    echo quemo incendio prendio tuvimos saco tenia
""")
_RECENT = _set("""
    yesterday today tonight morning now still again keeps since hoy ayer anoche ahora ahorita sigue todavia otra volvio week
    bought purchased installed compre compramos minutes mins min minute seconds second hour hours minutos minuto hora horas
    segundos recien
""")
_PAST_REACH = 12


def _long_past(hit: Hit, words: Sequence[Word]) -> bool:
    """“you fixed my mom's stove years ago when it had that gas leak”, “the kitchen fire was in march”, “our old house had ...”."""
    first, last = _sentence(hit, words, _PAST_REACH)
    around = words[first:last]
    if not any(word.form in _PAST for word in words[max(first, hit.start - 4) : min(last, hit.end + 3)]):
        return False
    if not any(_is_long_ago(at, around) for at in range(len(around))):
        return False
    if any(_is_recent(at, words) for at in range(first, len(words))):
        return False
    return not any(
        word.form in _set("is are sale huele smells") for word in words[max(first, hit.start - 2) : hit.start + 1]
    )


def _is_recent(at: int, words: Sequence[Word]) -> bool:
    """“again”, “still”; not “before I bought it”, “not since”, “this one just ...”."""
    if words[at].form not in _RECENT:
        return False
    before = {word.form for word in words[max(0, at - 2) : at]}
    return not before & _set("before not never nunca antes no")


def _is_long_ago(at: int, around: Sequence[Word]) -> bool:
    form, beside = around[at].form, {word.form for word in around[max(0, at - 2) : at + 3]}
    if form in _YEARS:
        return bool(beside & _AGO) and "old" not in beside
    if form in _MONTHS:
        return bool({w.form for w in around[max(0, at - 2) : at]} & _set("in en last back that since por"))
    before = {word.form for word in around[max(0, at - 2) : at]}
    return form in _OTHER_HOME and bool(before & _set("old last previous other otra vieja anterior antigua"))


_PATIENTS = _set("patient patients paciente pacientes pt victim student dispatch caller")


def _at_work(hit: Hit, words: Sequence[Word]) -> bool:
    """“we had a patient with CO poisoning tonight, not me”."""
    return any(word.form in _PATIENTS and word.brk < 2 for word in words[max(0, hit.start - 5) : hit.start])


def _sentence(hit: Hit, words: Sequence[Word], reach: int) -> tuple[int, int]:
    """Where the sentence of *hit* begins and ends, no more than *reach* words away."""
    first = hit.start
    while first > max(0, hit.start - reach) and words[first].brk != 2:
        first -= 1
    last = hit.end
    while last < min(len(words), hit.end + reach) and words[last].brk != 2:
        last += 1
    return first, last
