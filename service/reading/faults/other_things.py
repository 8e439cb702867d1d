"""
What is said of things and people that are no machine of ours: “my car leaks oil”, “the smoke detectors are loud as heck”,
“mi jefe truena más que una lavadora”.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.machines.belonging import ARTICLES
from service.reading.words.clauses import Clause
from service.reading.words.normalising import Word

ELSEWHERE = "of no machine"
"""The mark of words that tell of no machine."""

_THINGS = frozenset((
    "detector", "detectors", "kettle", "candle", "candles", "incense", "roof", "suitcase", "lawnmower", "mower", "blender",
    "toaster", "tv", "television", "phone", "laptop", "computer", "car", "truck", "motorcycle", "toilet", "shower",
    "ac", "sprinkler", "sprinklers", "grill", "bbq", "doorbell", "radio", "vacuum", "generator", "guitar",
    "umbrella", "carro", "troca", "camioneta", "coche", "moto", "tele", "celular", "telefono", "licuadora", "tostadora",
    "cafetera", "calentador", "excusado", "inodoro", "regadera", "techo", "veladora", "velas", "incienso", "detectores",
    "timbre", "podadora", "clima", "minisplit", "maleta", "bocina", "aspiradora",
))  # fmt: skip
_ALARMS = frozenset(("alarm", "alarms", "alarma", "alarmas"))
_OF_THE_HOUSE = frozenset(
    ("smoke", "fire", "co", "carbon", "monoxide", "house", "car", "humo", "incendio", "monoxido", "casa", "carro")
)
"""What an alarm is called that is no machine's own; a freezer has one too."""

_LIVING = frozenset((
    "dog", "dogs", "cat", "cats", "puppy", "baby", "kid", "kids", "son", "daughter", "husband", "hubby", "wife", "boss", "mom",
    "dad", "boyfriend", "girlfriend", "roommate", "patience", "feet", "knee", "knees", "head", "ears", "brain", "perro",
    "perra",
    "gato", "bebe",
    "nino", "nina", "ninos", "hijo", "hija", "esposo", "marido", "esposa", "jefe", "jefa", "suegra", "suegro",
    "paciencia", "cabeza", "rodilla", "pies", "novio", "novia",
))  # fmt: skip
_LIVES = frozenset((
    "is", "are", "was", "were", "gone", "been", "esta", "estan", "anda", "andan", "estaba", "es", "son",
    "leaks", "leaked", "leaking", "shakes", "screams", "screaming", "hums", "buzzes", "stinks", "smells", "rattles", "squeaks",
    "truena", "apesta", "huele", "grita", "chilla", "tiembla", "brinca", "zumba", "gotea",
))  # fmt: skip
"""What tells of the living itself; what they hear, say or break is the machine's."""

_TURNING = frozenset((
    "of", "about", "at", "by", "from", "that", "it", "its", "because", "with", "to", "cause", "so", "says", "saying", "de",
    "que", "porque", "con", "por", "without", "sin", "how", "what", "why", "like",
))  # fmt: skip
"""Words behind which something else is told: “is tired of the noise”."""

_BEFORE = frozenset((
    "in", "on", "by", "from", "like", "near", "to", "at", "with", "than", "under", "behind", "for", "as", "into", "onto", "of",
    "over", "beside", "next", "and", "or", "en", "con", "por", "como", "que", "de", "del", "al", "para", "y", "sobre",
    "through", "our", "w", "my", "i", "the",
)) - ARTICLES  # fmt: skip
"""What makes of a thing a place, a likeness or a helper."""

_OURS = frozenset((
    "washer", "dryer", "machine", "motor", "drum", "door", "lid", "water", "agua", "outlet", "breaker", "puerta", "unit",
    "vent", "pump", "oven", "range", "microwave", "stove", "horno", "estufa", "secadora", "lavadora",
))  # fmt: skip
"""Words of our machines, which may be named by no name: where one stands in the same stretch, what is told is theirs."""

_THAN = frozenset(("than", "que", "like", "como", "as"))
_GOES_ON = frozenset(("and", "y", "or", "o", "but", "pero"))
_ANEW = frozenset((
    "it", "its", "the", "my", "our", "i", "we", "this", "that", "there", "theres", "she", "he", "they", "you", "now", "then",
    "el", "la", "los", "las", "mi", "lo", "se", "no", "ya", "eso", "esto", "hay", "yo", "ahora", "if", "when", "si", "cuando",
    "because", "porque", "so", "anyway", "also", "tambien", "nothing", "nada", "water", "agua", "im", "ive", "need", "just",
))  # fmt: skip
"""What opens a clause of its own; one that opens otherwise goes on about the same thing: “tested, loud as heck”."""

_THEREFORE = frozenset((("por", "eso"), ("thats", "why"), ("that", "is")))
_BEGINS = _ANEW | _OURS
_SO_FAR = 9
_KNOWN = _THINGS | _ALARMS | _LIVING


def said_of_others(words: Sequence[Word], clauses: Sequence[Clause], named: frozenset[int]) -> list[tuple[int, int]]:
    """The words that tell of things and people, and not of a machine; *named*: where names of machines begin."""
    if _KNOWN.isdisjoint([word.form for word in words]):
        return []
    told: set[int] = set()
    for number, clause in enumerate(clauses):
        for at in range(clause.start, clause.end):
            if words[at].form not in _KNOWN or at in told:
                continue
            if words[at].form in _THINGS and (first := _broke_down(at, clause, words)) < at:
                told.update(range(first, at + 1))
                continue
            if not _is_subject(at, clause, words):
                continue
            if words[at].form in _LIVING:
                told.update(_of_the_living(at, clause, words, named))
            elif (words[at].form in _THINGS or _is_alarm(at, clause, words)) and not _is_ours(at, clause, words, named):
                told.update(range(at, clause.end))
                for after in clauses[number + 1 :]:
                    end = _goes_on(after, words, named)
                    told.update(range(after.start, end))
                    if end < after.end:
                        break
    return [(at, at + 1) for at in sorted(told)]


def _broke_down(at: int, clause: Clause, words: Sequence[Word]) -> int:
    """“se me descompuso la troca”: where what is told of a thing named behind its verb begins; *at* if nothing is."""
    before = _before(at, clause, words)
    if before < clause.start or words[before].form not in _BREAKS:
        return at
    while before > clause.start and words[before - 1].form in _CLITICS:
        before -= 1
    return before


_BREAKS = frozenset(("descompuso", "poncho", "murio", "quemo", "rompio", "fundio", "dano", "frego", "trono", "broke"))
_CLITICS = frozenset(("se", "me", "nos", "le", "les", "ya"))


def _is_ours(at: int, clause: Clause, words: Sequence[Word], named: frozenset[int]) -> bool:
    return any(n in named or words[n].form in _OURS for n in range(clause.start, clause.end) if n != at)


def _goes_on(clause: Clause, words: Sequence[Word], named: frozenset[int]) -> int:
    """Up to where *clause* goes on about what the one before told: to its end, or to what begins anew."""
    first = clause.start + (words[clause.start].form in _GOES_ON)
    if words[clause.start].brk == 2 or first >= clause.end:
        return clause.start
    at = first
    if first + 1 < clause.end and (words[first].form, words[first + 1].form) in _THEREFORE:
        at = first + 2
    while at < clause.end and at not in named and words[at].form not in _BEGINS:
        at += 1
    return at if at > first else clause.start


def _is_subject(at: int, clause: Clause, words: Sequence[Word]) -> bool:
    before = _before(at, clause, words)
    if before < clause.start or words[before + 1].brk > 0:
        return True
    return words[before].form not in _BEFORE and (before == clause.start or words[before - 1].form not in _THAN)


def _before(at: int, clause: Clause, words: Sequence[Word]) -> int:
    before = at - 1
    while before >= clause.start and (words[before].form in ARTICLES or words[before].form in _OF_THE_HOUSE):
        before -= 1
    return before


def _is_alarm(at: int, clause: Clause, words: Sequence[Word]) -> bool:
    """“The smoke alarm beeps”, not “se prende la alarma”, which tells what the machine does."""
    if words[at].form not in _ALARMS or _before(at, clause, words) >= clause.start:
        return False
    return any(word.form in _OF_THE_HOUSE for word in words[max(0, at - 2) : at + 3])


def _of_the_living(at: int, clause: Clause, words: Sequence[Word], named: frozenset[int]) -> range:
    """Behind the living what stands next to it, up to what turns to something else."""
    behind = at + 1
    if behind >= clause.end or words[behind].form not in _LIVES:
        return range(0)
    end = behind + 1
    while end < min(clause.end, behind + _SO_FAR) and words[end].form not in _TURNING:
        if end in named and not any(word.form in _THAN for word in words[end - 2 : end]):
            break
        end += 1
    return range(at, end)
