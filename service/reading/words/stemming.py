"""
Which written forms are one word: light stemmers for English and Spanish, made for phrases of the trade, not for
prose.
"""

from __future__ import annotations

import re
from functools import lru_cache

_EN_FORMS = """
be am is are was were been being im youre theyre|do does did done doing|have has had having|go goes went gone going
get gets got gotten getting|make makes made making|run runs ran running|spin spins spun spinning
freeze freezes froze frozen freezing
break breaks broke broken breaking|burn burns burnt burned burning|stick sticks stuck sticking
take takes took taken taking taking
come comes came coming|leave leaves left leaving|shut shuts shutting|smell smells smelt smelled smelling
blow blows blew blown blowing
die dies died dying dieing|see sees saw seen seeing|say says said saying|feel feels felt feeling
hear hears heard hearing
shake shakes shook shaken shaking|rise rises rose risen rising|tear tears tore torn tearing|keep keeps kept keeping
catch catches caught catching|buy buys bought buying|put puts putting|know knows knew known knowing
give gives gave given giving
tell tells told telling|think thinks thought thinking|begin begins began begun beginning|hold holds held holding
light lights lit lighted lighting|fall falls fell fallen falling|find finds found finding|lose loses lost losing
blink blinks blinked blinking|try tries tried trying|set sets setting|hurt hurts hurting|bite bites bit biting
melt melts melted melting|bleed bleeds bled bleeding|rust rusts rusted rusting rusty
leak leaks leaked leaking leakage leaky
noise noises noisy|odor odors odour odours|repair repairs repaired repairing repaired|bring brings brought bringing
rattle rattles rattled rattling|drip drips dripped dripping|grind grinds ground grinding|wear wears wore worn wearing
swell swells swelled swollen swelling|sweep swept|wake woke woken|choose chose chosen|write wrote written
send sends sent sending
show shows showed shown showing|wash washes washed washing|dish dishes|knife knives|foot feet|child children
tooth teeth
evening evenings|something|anything|everything|nothing|ceiling ceilings|building buildings|during|this
gas gasses gases|yes|always|its|news
his|us|perhaps|thanks|wiring wires wired wire|tenant tenants|plastic|dryer dryers drier|dry dries dried drying
tie ties tied tying
cant=not|not|flood floods flooded flooding|heat heats heated heating|spark sparks sparked sparking
shock shocks shocked shocking|stink stinks stank stunk stinking stinky
works=work working worked work|week weeks wk wks|month months mo mos|year years yr yrs|hour hours hr hrs
minute minutes min mins
"""

_ES_FORMS = """
ser es son era eran fue sea soy somos|estar esta estan estaba estoy este=esta
hacer hace hacen hacia hizo haciendo hecho hago hacian
tener tiene tienen tenia tengo tuvo tenido|poder puede pueden puedo podia pudo podria pueda podemos
querer quiere quieren quiero queria quisiera quise quiso
ir va van iba fui vamos ido vaya voy|haber hay habia hubo haya he ha han
oler huele huelen huelo olemos olia olio oliendo huela olor olores
salir sale salen salia salian salio salieron saliendo salga salgan salido
venir viene vienen venia vino venga vengan venido venir
decir dice dijo diga digo dicen
dar da dan dio daba|ver ve ven vio veo viendo|saber se=se|servir sirve sirven servia sirvio
cerrar cierra cierran cerro cerraba
caer cae caen cayo cayendo caido|oir oye oyen oigo|poner pone ponen puso pongo|seguir sigue siguen seguia|hielo hielos
agua aguas|luz luces|gas|no|si|tres|mes meses|lunes|martes|jueves|viernes|miercoles|calor|vez veces|tos|ya|yo
ella|ellos|nada|cada|casa casas|caso
dias dia|gracias|atras|detras|ademas|antes|despues|menos|jamas
romper rompe rompio roto rota rotos rotas rompieron|abrir abre abren abrio abierto abierta
leer lee|morir murio muere muerto muerta|lavar lava lavan lavaba lavando lavado lavo lave
quemar quema queman quemo quemado quemada quemaba quemando
apagar apaga apagan apago apagado apagada apague|secar seca secan secaba secando seco seque|fuego fuegos
fuga fugas|hago|humo humos|chispa chispas chispeando chispazo chispazos
mojado mojada mojados mojadas|frio fria frios frias|caliente calientes
calentar calienta calientan calentaba calento calentando calentado
tirar tira tiran tiraba tirando tiro|botar bota botan botando|gotear gotea gotean goteaba goteando
girar gira giran giraba girando giro|andar anda andan andaba andaban andando andado ande anden
bueno buena buenos buenas|malo mala malos malas|bien|mal|todo toda todos todas|otro otra otros otras|lado
nuevo nueva nuevos nuevas|manana mananas|tarde tardes|noche noches
"""

_VOWEL = re.compile("[aeiouy]")
_DOUBLED = re.compile(r"([bdfgmnprt])\1$")
_ES_CLITICS = re.compile(r"(?<=[aei]r|do)(?:me|te|se|nos|le|les)?(?:lo|la|los|las|le|les|me|se)$")
_ES_ENDINGS = (
    "iendo", "yendo", "ieron", "ando", "aron", "aban", "aba", "adas", "ados", "idas", "idos", "ada", "ado", "ida", "ido",
    "amos", "emos", "imos", "ian", "ia", "io", "ar", "er", "ir", "an", "en", "as", "es", "os", "a", "e", "o",
)  # fmt: skip


def _table(lines: str) -> dict[str, str]:
    forms: dict[str, str] = {}
    for group in lines.replace("\n", "|").split("|"):
        words = group.split()
        for word in words:
            forms.setdefault(word.partition("=")[0], words[0].partition("=")[2] or words[0])
    return forms


_EN = _table(_EN_FORMS)
_ES = _table(_ES_FORMS)

NEGATIVE_AUXILIARIES = frozenset((
    "not", "wont", "cant", "cannot", "doesnt", "dont", "didnt", "isnt", "arent", "aint", "wasnt", "werent",
    "couldnt", "wouldnt", "hasnt", "havent", "hadnt", "shouldnt", "doesn", "don", "isn", "won", "didn", "couldn",
    "wouldn", "aren", "wasn", "hasn", "haven", "dosent", "dosnt", "doesnot", "wouldent", "dosen", "doesent",
    "isint", "wnt", "cnt", "dnt",
))  # fmt: skip
"""Written without the apostrophe, as tokens carry them: in English they are all one negation to a phrase."""


_PARTICIPLES = frozenset(["adas", "ados", "idas", "idos", "ada", "ado", "ida", "ido", "aba", "aban"])
"""Endings that nouns have too (comida, tapado): they come off longer words only."""


@lru_cache(maxsize=20_000)
def stem_en(word: str) -> str:
    """The key under which every English form of *word* (lower case, no accents or apostrophes) is found."""
    if word in NEGATIVE_AUXILIARIES:
        return "not"
    known = _EN.get(word)
    if known is not None:
        return known
    if len(word) <= 3 or word.isdigit():
        return word
    word = _without_plural(word)
    if word.endswith("ing") and len(word) >= 6 and _VOWEL.search(word[:-3]):
        word = _DOUBLED.sub(r"\1", word[:-3])
    elif word.endswith("ied") and len(word) > 4:
        word = word[:-3] + "y"
    elif word.endswith("ed") and len(word) >= 5 and not word.endswith("eed") and _VOWEL.search(word[:-2]):
        word = _DOUBLED.sub(r"\1", word[:-2])
    word = _EN.get(word, word)
    return word[:-1] if word.endswith("e") and len(word) >= 4 and word not in _EN.values() else word


def _without_plural(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("xes", "ches", "shes", "sses", "zes")):
        return word[:-2]
    if word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


@lru_cache(maxsize=20_000)
def stem_es(word: str) -> str:
    """The key under which the forms of a Spanish *word* are found; stem vowels (calienta, calentar) fall together."""
    known = _ES.get(word)
    if known is not None:
        return known
    if len(word) <= 3 or word.isdigit():
        return word
    word = _ES_CLITICS.sub("", word) if len(word) > 6 else word
    known = _ES.get(word)
    if known is not None:
        return known
    for ending in _ES_ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= (4 if ending in _PARTICIPLES else 3):
            word = word[: -len(ending)]
            break
    word = word.replace("ie", "e").replace("ue", "o") if len(word) > 3 else word
    if word.endswith("qu"):
        word = word[:-2] + "c"
    elif word.endswith("gu"):
        word = word[:-1]
    elif word.endswith("z"):
        word = word[:-1] + "c"
    return word[:-1] if word.endswith("i") and len(word) > 3 else word
