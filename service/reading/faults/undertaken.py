"""Small words about a verb that tell whether what it says was done, and done to set a machine right."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.words.normalising import NEGATIONS, Word

EVENT = frozenset((
    "since", "after", "when", "whenever", "until", "till", "before", "every", "each", "while", "once", "because", "desde",
    "cuando", "hasta", "despues", "antes", "cada", "mientras", "si", "if", "how", "where", "should", "or",
    "apenas", "siempre", "tras", "como", "unless", "without",
))  # fmt: skip
"""Before the verb: it only dates the fault, or is supposed, asked or done every day."""

STILL = frozenset(("still", "again", "same", "nothing", "nada", "sigue", "igual", "todavia", "mismo", "aun"))
PLANNED = frozenset((
    "need", "needs", "want", "wants", "must", "gonna", "will", "can", "could", "would", "please", "be", "being", "get",
    "gets", "getting", "id", "ill", "to", "lets", "favor", "quiero", "quisiera", "necesito", "ocupo", "puede", "pueden",
    "voy", "vamos", "va", "debo", "hay", "para", "pa", "alguien", "me", "nos", "never", "supposed", "looks", "feels", "got",
))  # fmt: skip
SELF = frozenset(("i", "we", "ive", "weve", "ya", "already", "myself", "yo", "hemos", "he"))
ALARM = frozenset(("alarm", "alarms", "detector", "detectors", "alarma", "alarmas", "detectores"))
CORD = frozenset(("cord", "cable", "cordon"))
DETERMINERS = frozenset(("the", "my", "this", "temp", "meat", "temperature", "that", "self"))
"""Before a form that is a verb elsewhere: it is a thing, as in “the probe jack”."""
_STUCK_SO = frozenset(("on", "at", "in", "inside", "en", "and", "to", "together", "there", "open", "shut", "closed"))
THEIR_OWN = frozenset(("hers", "theirs", "suya", "suyo"))
SPILLED = frozenset((
    "spilled", "spilt", "spill", "spills", "overflowed", "puked", "boiled", "derramo", "derrame", "tiro", "cayo", "vomito",
    "tumba", "tumbo", "rain", "vomited", "charco", "charquito",
))  # fmt: skip
"""What was wiped after these was mopped up."""
BETTER = frozenset(("anymore", "better", "stopped", "fixed", "works", "mejor"))
LINT = frozenset(("lint", "pelusa", "pelusas"))
NOW = frozenset(("now", "ahora", "since", "desde"))
HELPERS = frozenset((
    "neighbor", "neighbors", "brother", "sister", "mom", "dad", "mother", "father", "friend", "buddy", "son", "daughter",
    "cousin", "uncle", "aunt", "roommate", "husband", "wife", "law", "boyfriend", "girlfriend", "grandson", "nephew",
    "vecino", "vecina", "hermano", "cunado", "primo", "compadre", "yerno", "hijo", "esposo", "esposa", "marido", "nieto",
    "suegro", "sobrino", "novio", "tio", "husbands",
))  # fmt: skip
"""Who lends a hand at home: what they did was tried as well."""

WHO = frozenset(("i", "we", "ive", "weve", "ya", "yo"))
OF_HER = frozenset(
    ("limpio", "cambio", "checo", "reviso", "destapo", "desenchufo", "desconecto", "echo", "echa", "movio")
)
"""Forms that tell as well what somebody does ("cambio"), or how a thing is ("limpio")."""

IT = frozenset(("it", "that", "them", "em", "those", "both", "these", "everything", "all"))
CLITICS = frozenset(("lo", "la", "los", "las", "le", "les", "se"))
NEWER = frozenset((
    "new", "different", "another", "other", "others", "brand", "nuevo", "nueva", "nuevos", "nuevas", "otro", "otra", "otros",
    "otras", "brands",
))  # fmt: skip
AND = frozenset(("and", "n", "y", "e", "o", "&", "plus", "or"))
OFF = frozenset(("off", "safety", "safe", "case", "seguridad", "acaso", "miedo", "para", "until", "so", "ahora", "now"))
ON_AGAIN = frozenset((
    "on", "back", "again", "twice", "times", "minute", "minutes", "min", "mins", "hour", "hours", "overnight", "night", "day",
    "conectar", "conecte", "minutos", "minuto", "hora", "horas", "noche", "rato", "prender", "prendi", "veces", "replugged",
    "enchufar", "nothing", "nada", "still", "same", "sigue", "igual", "prendo", "nope",
))  # fmt: skip
SETTINGS = frozenset((
    "up", "down", "way", "all", "to", "colder", "coldest", "warmer", "lower", "higher", "max", "mitad",
    "maximo", "cold", "medium",
))  # fmt: skip
STATE = frozenset(("was", "is", "its", "were", "been", "left", "be", "wasnt", "found", "came", "esta", "estaba"))
PULLED = frozenset(("unplugged", "pulled", "desconecte", "desenchufe", "desconectamos", "desenchufamos"))
HAVING = frozenset(
    (
        "have",
        "has",
        "had",
        "need",
        "needs",
        "must",
        "can",
        "come",
        "please",
        "will",
        "often",
        "how",
        "should",
        "que",
        "hay",
    )
)
"""Before a verb's base form: it has to be done, or shall be."""

NOT_TRYING = frozenset((
    "call", "calling", "text", "texting", "reach", "reaching", "contact", "book", "booking", "schedule", "email", "start",
    "open", "opening", "run", "running", "wash", "use", "using", "cook", "bake", "dry", "make", "get", "explain", "tell",
    "light", "close", "lift", "fill", "you", "your", "yall", "u", "and", "but", "it", "again", "this", "my", "find",
    "see", "with", "nothing",
    "so", "for", "nap", "sleep",
))  # fmt: skip
TRYING = frozenset(("tried", "tryed", "intente", "intentamos", "trate", "tratamos"))
LOST_POWER = frozenset(("trips", "tripping", "tripped", "trip", "breaker", "breakers", "bota", "brinca", "pastilla"))


def stretch_before(words: Sequence[Word], at: int) -> Sequence[Word]:
    """The words before *at* in its own stretch, six at most."""
    first = at
    while first > 0 and at - first < 6 and not words[first].brk:
        first -= 1
    return words[first:at]


def said_before(words: Sequence[Word], at: int, besides: int = 0) -> Sequence[Word]:
    """The words before *at* from who did it on (“i”, “ya”), and so many *besides* before that."""
    before = stretch_before(words, at)
    for place in range(len(before) - 1, -1, -1):
        if before[place].form in WHO:
            return before[max(0, place - besides) :]
    return before


_PERIODS = frozenset((
    "night", "day", "morning", "evening", "week", "month", "hour", "rato", "noche", "dia", "semana", "mes", "hora",
))  # fmt: skip


def of_comparing(words: Sequence[Word], at: int) -> set[str]:
    """
    The small words before *at* that date nothing: “huele como a huevo, lavé el filtro”, “it leaks every night i tightened it”.
    """
    found = set()
    for place in range(max(0, at - 8), at):
        form, behind = words[place].form, words[place + 1].form
        if form in ("every", "each", "cada") and behind in _PERIODS:
            found.add(form)
        if form == "como" and at - place > 2:
            found.add(form)
    return found


_LIGHT = CLITICS | frozenset((
    "me", "nos", "te", "he", "hemos", "ha", "han", "haya", "siquiera", "tampoco", "aun", "todavia", "nunca", "ever", "even",
    "really", "actually", "yet", "been", "be", "being", "was", "were", "have", "has", "had", "having", "get", "got", "it",
    "that", "them", "the", "just", "properly", "fully", "also", "one", "body", "i", "we", "he", "she", "any",
    "anything", "necessarily",
))  # fmt: skip
"""Between a denial and the verb it denies: “havent even really cleaned it”, “no lo he limpiado”."""


def denied_before(before: Sequence[Word]) -> bool:
    """Whether what is done behind *before* is denied: “never got it cleaned”, not “no gira le lavé las ruedas”."""
    for place in range(len(before) - 1, max(-1, len(before) - 4), -1):
        word = before[place]
        if word.en == "not" or word.form in NEGATIONS or word.form in ("nothing", "nada"):
            return not (word.form == "nada" and place > 0 and before[place - 1].form in ("ni", "y", "pero"))
        if word.form not in _LIGHT:
            return False
    return False


def words_behind(words: Sequence[Word], at: int, reach: int) -> Sequence[Word]:
    """The words after *at* in its own sentence, *reach* at most."""
    last = at + 1
    while last < len(words) and last - at <= reach and words[last].brk < 2:
        last += 1
    return words[at + 1 : last]


def for_safety(words: Sequence[Word], at: int, *, danger: bool) -> bool:
    """Whether a plug was only pulled to be safe: nothing is said of plugging it in again, or of how long it was out."""
    if for_the_storm(words):
        return True
    rest = {word.form for word in words[at + 1 : at + 12]}
    if rest & ON_AGAIN or any(word.form in TRYING for word in words[max(0, at - 2) : at]):
        return False
    return danger or bool({word.form for word in words_behind(words, at, 4)} & OFF)


def found_so(words: Sequence[Word], at: int) -> bool:
    """“the toaster is unplugged”, “it was unplugged”: so it is or was found, and nobody tells to have done it."""
    return any(word.form in STATE for word in stretch_before(words, at)[-2:])


_STORMS = frozenset((
    "storm", "storms", "lightning", "thunder", "monsoon", "tormenta", "tormentas", "rayos", "truenos", "trip", "vacation",
    "viaje", "vacaciones", "move", "mudanza",
))  # fmt: skip
"""What a plug is pulled for besides a fault."""
_SENTENCE = 12


def for_the_storm(words: Sequence[Word]) -> bool:
    """Whether a plug was pulled for what has nothing to do with a fault: “i unplugged it because of the storm”."""
    places = [at for at, word in enumerate(words) if word.form in PULLED]
    return any(not _STORMS.isdisjoint(word.form for word in words_behind(words, at, 6)) for at in places)


def of_an_alarm(words: Sequence[Word], at: int) -> bool:
    """Whether an alarm is spoken of before in the sentence, or right behind: “the alarm was beeping so i changed it”."""
    if any(word.form in ALARM for word in words[at : at + 8]):
        return True
    first = at
    while first > 0 and at - first < _SENTENCE and words[first].brk < 2:
        first -= 1
        if words[first].form in ALARM:
            return True
    return False


def of_theirs(words: Sequence[Word], at: int) -> bool:
    """Whether what was done was done to another one's machine: “my sister reset the breaker on hers”."""
    forms = [word.form for word in words_behind(words, at, 6)]
    return not THEIR_OWN.isdisjoint(forms) or ("on", "his") in pairwise(forms)


def next_forms(words: Sequence[Word], at: int) -> list[str]:
    """The four words after *at* in its sentence."""
    return [word.form for word in words_behind(words, at, 4)]


def set_to(words: Sequence[Word], at: int) -> bool:
    """Whether a knob was set otherwise (“turned the dial down”), not just turned off or on."""
    forms = next_forms(words, at) + [word.form for word in words_behind(words, at, 8)]
    return words[at].form.startswith(("mov", "reset", "sub", "baj", "gir")) or any(
        form in SETTINGS or form.isdigit() for form in forms
    )


_BUTTONS = frozenset(("button", "buttons", "boton", "botones", "control", "controles", "key", "keys", "tecla"))


def set_right(words: Sequence[Word], at: int, thing: str) -> bool:
    """Whether a remedy was set otherwise at *at*, or a button held down or moved; pressed it only starts the machine."""
    if thing == "remedies":
        return set_to(words, at)
    held = thing == "things" and words[at].form.startswith(("held", "mov"))
    return held and not _BUTTONS.isdisjoint(next_forms(words, at))


def switched_off(words: Sequence[Word], at: int) -> bool:
    """“turned the breaker off”, “bajé la pastilla”: shut off and left so."""
    behind = [word.form for word in words_behind(words, at, 7)]
    if words[at].form not in ("turned", "baje", "bajamos", "bote", "apague", "apagamos") and not {
        "off", "kill", "shut", "cut",
    }.intersection(behind):  # fmt: skip
        return False
    behind += [word.form for word in stretch_before(words, at)]
    return not {
        "on",
        "back",
        "twice",
        "times",
        "again",
        "subi",
        "subir",
        "volvi",
        "volvio",
        "rato",
        "ratito",
        "veces",
        "prendi",
        "prender",
        "otra",
        "igual",
        "nope",
    }.intersection(behind)


def is_thing(words: Sequence[Word], at: int) -> bool:
    """Whether the form at *at* stands as a thing, or as a state: “the probe jack”, “its stuck on rinse”."""
    if words[at].form == "stuck" and {*next_forms(words, at)[:1]} & _STUCK_SO:
        return True
    return at > 0 and not words[at].brk and words[at - 1].form in DETERMINERS


def surely_told(codes: Sequence[str], verb: str, *, danger: bool) -> list[str]:
    """What one verb tells: of a switch thrown or a button pressed one thing; beside a danger only what was cleaned."""
    specific = [code for code in codes if code != "other"]
    return specific if danger or (specific and verb in ("switching", "using")) else [*codes]
