"""
What is told of a part that is only named: “both lights ok”, “the fan and the light work”, “luz sí”, “nothing wrong with the
door”.

A part is a noun (the rules' ``things``); it says nothing until something is said of it in the same breath.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Literal

from service.reading.faults.blue_flames import is_blue
from service.reading.faults.said_last import CLITICS, SURE, is_bare, is_so, spoiled, surely_does
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word

Told = Literal["fine", "failing"]

MOST_PASSED = 9
"""Words that may stand between a part and what is said of it: “the fan and both of the lights on it still work”."""

_PASSED = frozenset((
    "is", "are", "was", "both", "all", "also", "too", "still", "just", "itself", "themselves", "seem", "seems", "look",
    "looks", "and", "n", "the", "my", "other", "two", "three", "four", "in", "on", "of", "it", "inside", "part", "side",
    "half", "section", "up", "top", "front", "back", "rear", "left", "right", "totally", "pretty", "perfectly", "very",
    "real", "really", "plenty", "always", "does", "do", "did", "s", "come", "comes", "turn", "turns", "go", "goes",
    "cook", "cooks", "heat", "heats", "light", "lights", "spin", "spins", "run", "runs", "stay", "stays", "feels",
    "from", "at", "out", "por", "one", "ones", "each", "every", "speed", "speeds", "even", "though", "least", "over", "hood",
    "oven", "thru", "through", "them", "five", "six",
    "stove", "es", "esta", "estan", "y", "e", "tambien", "todavia", "aun", "sigue", "siguen", "todo", "toda", "todos",
    "todas", "los", "las", "el", "la", "dos", "tres", "cuatro", "otra", "otras", "otro", "otros", "de", "del", "arriba",
    "abajo", "adentro", "dentro", "parece", "se", "ve", "ven", "muy", "lado", "parte", "si", "anda", "andan", "van", "va",
    "salen", "sale", "ya", "cae", "caen", "horno", "estufa", "campana", "que", "tiene", "mi", "eso", "nada", "mas", "hasta",
))  # fmt: skip
"""Words that keep to the part: how many, where it is, and verbs that only lead to the praise ("cook fine", "se ven bien")."""

WORKS = frozenset((
    "work", "works", "working", "function", "functions", "functioning", "jala", "jalan", "jalando", "sirve", "sirven",
    "sirviendo", "funciona", "funcionan", "funcionando", "trabaja", "trabajan", "trabajando", "prende", "prenden",
    "enciende", "encienden", "respond", "responds", "responde", "responden", "contestan",
))  # fmt: skip
"""Verbs that say of any part that it does its work."""

TURNS = frozenset(["turns", "spins", "runs", "gira", "giran"])
_YES = frozenset(["yes", "si", "does", "do", "is", "are", "yep", "yeah"])
_NO = frozenset(["no", "nope", "nah", "doesnt", "dont", "isnt", "arent", "not", "tampoco"])
_LAST = frozenset(["tho", "though", "thank", "thanks", "eso", "gracias", "now", "y", "and"])
"""What may follow a bare "yes" or "no" of a part in the same statement."""


def _is_no_subject(start: int, words: Sequence[Word]) -> bool:
    """Whether what stands before word *start* makes of it a verb, any such thing, or a place: “they light fine”, “from the
    door”."""
    at = start
    while at > 0 and words[at - 1].form in _ARTICLES and words[at - 1].form != "with" and not words[at].brk:
        at -= 1
    before = words[at - 1].form if at and not words[at].brk else ""
    if before == "de" and words[at - 1].brk:
        return False  # "de temperatura anda bien"
    return before in _NO_THING or before in _PLACING


_PLACING = frozenset((
    "from", "at", "of", "in", "on", "by", "de", "del", "en", "por", "under", "behind", "inside", "over", "al", "a", "after",
    "when", "until", "before", "once", "cuando", "while", "if", "just",
))  # fmt: skip
_NO_THING = frozenset((
    "they", "it", "to", "will", "would", "can", "ones", "others", "wont", "a", "an", "un", "una", "with", "con", "like",
    "pilot",
    "como", "some", "any", "burners", "burner", "which", "that", "new", "nuevo", "nueva",
))  # fmt: skip
"""Words behind which no part of the machine is named: “they light fine”, “con un plato normal”."""

_BEFORE = frozenset(["good", "decent", "buen", "buena", "buenos", "buenas"])
_BLAMELESS = (
    ("nothing", "wrong", "with"), ("no", "problem", "with"), ("no", "problems", "with"), ("no", "issue", "with"),
    ("no", "issues", "with"), ("no", "trouble", "with"), ("no", "complaints", "about"), ("no", "complaint", "about"),
    ("nothing", "bad", "about"), ("nada", "malo", "con"), ("no", "problema", "con"), ("sin", "problemas", "con"),
    ("sin", "problema", "con"), ("no", "hay", "problema", "con"),
)  # fmt: skip
_BLAMELESS_ENDS = frozenset(said[-1] for said in _BLAMELESS)
_ARTICLES = frozenset(["the", "my", "its", "su", "sus", "that", "both", "el", "la", "los", "las", "mi", "with", "and"])
_LIGHTS_UP = frozenset(["prende", "prenden", "enciende", "encienden"])
_NO_MORE = frozenset(["no", "nada"])

_NOT_ALONE = frozenset(
    ["cuando", "que", "para", "pa", "no", "ni", "se", "casi", "apenas", "uno", "me", "nomas", "solo"]
)
"""Words behind which “prende la luz” does not say that it lights."""

_HEARD = frozenset(["hear", "hearing", "oye", "oigo", "escucha", "escucho"])
"""“I can hear the fan”: then it runs."""

_BEFORE_SURE = frozenset(["si", "bien", "todavia", "tambien"])


def told_of_part(hit: Hit, words: Sequence[Word], marks: Marks, passed: Collection[int]) -> Told | None:
    """What is said of the part that *hit* names; *passed*: the words of others, which may share it (“fan and light work”)."""
    if blameless(hit.start, words):
        return "fine"
    if _is_no_subject(hit.start, words):
        return None
    if hit.end < len(words) and words[hit.end].form in _NO_MORE and not words[hit.end].brk and _ends(hit.end, words):
        return "failing"  # "la luz prende el ventilador no", "hielo nada"
    if is_bare(hit, words):
        return "fine" if is_so(hit.end, words) else None
    if _works_before(hit, words, marks) or (hit.payload.code == "weak_flame" and is_blue(hit, words)):
        return "fine"
    return _told_behind(hit, words, marks, passed)


def blameless(start: int, words: Sequence[Word]) -> bool:
    """“nothing wrong with the” stands before word *start*."""
    at = start
    while at > 0 and words[at - 1].form in ("the", "my", "its", "el", "la", "los", "las", "mi") and not words[at].brk:
        at -= 1
    if not at or words[at - 1].form not in _BLAMELESS_ENDS:
        return False
    return any(
        at >= len(said) and tuple(word.form for word in words[at - len(said) : at]) == said for said in _BLAMELESS
    )


def _works_before(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """“good suction”, “sí prende la luz”, “jala bien el abanico”."""
    at = hit.start - 1
    if at >= 0 and words[at].form in _BEFORE and not words[hit.start].brk:
        return not _negated(marks, max(0, at - 3), at)
    while at > 0 and words[at].form in _ARTICLES and not words[at + 1].brk:
        at -= 1
    if at > 0 and words[at - 1].form == "so" and words[at].form in ("is", "are", "does", "do"):
        return _praised_before(at - 1, words, marks)  # "the lights are good and so is the fan"
    if at < 1 or words[at + 1].brk:
        return False
    if words[at].form in _HEARD and hit.payload.code == "fan_dead":
        return _ends(hit.end - 1, words) and not _negated(marks, max(0, at - 2), at)
    praised = words[at].form == "bien"
    verb = at - 1 if praised else at
    sure = praised or words[verb - 1].form in _BEFORE_SURE
    if words[verb].form in _LIGHTS_UP and words[verb - 1].form not in _NOT_ALONE:
        sure = True
    before = verb - 1 if words[verb - 1].form in CLITICS else verb
    return words[verb].form in WORKS and sure and not _negated(marks, max(0, before - 1), at + 1)


def _told_behind(hit: Hit, words: Sequence[Word], marks: Marks, passed: Collection[int]) -> Told | None:
    fine = marks.starts("fine")
    negators = {at for start, end in marks.at("negators") for at in range(start, end)}
    listing = False
    for at in range(hit.end, min(len(words), hit.end + MOST_PASSED)):
        word = words[at]
        if word.brk == 2 or word.form in CONTRASTS:
            return None
        if word.brk == 1:
            if not _goes_on(at, words, fine, passed):
                return None
            listing = at not in fine
        listing = listing and word.form not in _AND
        if at == hit.end and word.form in _NO and _ends(at, words):
            return "failing"
        if at in negators or word.en == "not":
            return None
        if (at in fine and not _all_the_way(at, words)) or word.form in WORKS:
            return None if listing or spoiled(at, words) or _more_of(at, words) else "fine"
        if _as_it_should(at, hit, words):
            return "fine"
        if not listing and _ends(at, words) and _says_alone(at, hit.start, words, marks):
            return "fine"
        if word.form == "si" and not listing and surely_does(at + 1, words):
            return None if spoiled(at + 1, words) else "fine"
        if word.form not in _PASSED and at not in passed and not word.form.isdigit():
            return None
    return None


def _as_it_should(at: int, hit: Hit, words: Sequence[Word]) -> bool:
    """“freezer rock hard”, “light's on”: the word at *at* says so of this part alone."""
    if hit.payload.code == "warm_freezer":
        return words[at].form in _FROZEN
    return words[at].form in _RUNNING and hit.payload.code in _RUN and _says_on(at, hit, words)


def _says_alone(at: int, start: int, words: Sequence[Word], marks: Marks) -> bool:
    """Whether the last word says it of the part that begins at *start*: “runs”, “yes”, “too”, or “is” after a denial."""
    form = words[at].form
    if form in _TOO:
        return _praised_before(start, words, marks)
    if form in _DOES:
        return words[at - 1].form != "just"  # "knobs just turn"
    return form in SURE or (form in _YES and _was_denied(start, marks))


_FROZEN = frozenset(["hard", "solid", "rock", "duro", "dura", "piedra", "brick", "ladrillo"])
_RUN = frozenset(["light_out", "fan_dead"])
_RUNNING = frozenset(["on", "lit", "prendida", "prendido", "encendida", "encendido"])
_ON_WHAT = frozenset(["the", "my", "it", "top", "fire", "high", "low", "a", "its", "all", "medium"])


def _says_on(at: int, hit: Hit, words: Sequence[Word]) -> bool:
    """“light's on”, “the light is on”, “luz prendida”: not “the light on the panel”."""
    if any(word.form in _SWITCHED for word in words[max(0, hit.start - 4) : hit.start]):
        return False
    return at + 1 == len(words) or bool(words[at + 1].brk) or words[at + 1].form not in _ON_WHAT


_SWITCHED = frozenset(["turn", "turned", "put", "leave", "left", "switch", "with", "set", "turning"])


def _all_the_way(at: int, words: Sequence[Word]) -> bool:
    return words[at].form == "all" and at + 1 < len(words) and words[at + 1].form == "the"


_DOES = frozenset((
    "run", "runs", "spin", "spins", "turn", "turns", "light", "lights", "heat", "heats", "cook", "cooks", "gira", "giran",
    "calienta", "calientan", "corre", "sopla", "jala", "running", "spinning", "turning",
))  # fmt: skip
"""What a part does, where nothing more is said of it: “the fan still runs”, “all four burners heat”."""

_TOO = frozenset(["too", "also", "tambien", "igual"])


def _praised_before(start: int, words: Sequence[Word], marks: Marks) -> bool:
    """“the burners work fine and the oven too”: something was praised just before, and nothing denied since."""
    since = range(max(0, start - _TAKEN_UP), start)
    if any(words[at].form == "si" and words[at + 1].brk for at in since):
        return True  # "las otras tres si, el horno tambien"
    if any(start - 2 * _TAKEN_UP <= at < start for at, _ in marks.at("negators")):
        return False
    return any(at in since for at, _ in marks.at("fine")) or any(words[at].form in WORKS for at in since)


_AND = frozenset(["and", "n", "y", "e"])


def _was_denied(start: int, marks: Marks) -> bool:
    """“fridge isn't cold. freezer is”: a bare verb takes up what was just denied."""
    return any(start - _TAKEN_UP <= at < start for at, _ in marks.at("negators"))


_TAKEN_UP = 6


def _more_of(at: int, words: Sequence[Word]) -> bool:
    """“sale bien bajita”: "bien" before a word that says how badly."""
    if words[at].form not in ("bien", "good", "pretty") or at + 1 >= len(words) or words[at + 1].brk:
        return False
    return words[at + 1].form not in _BEHIND_WELL


_BEHIND_WELL = frozenset((
    "y", "e", "pero", "aunque", "nomas", "nada", "lo", "el", "la", "los", "las", "en", "de", "del", "todo", "toda", "todos",
    "todas", "solo", "eso", "gracias", "ya", "con", "por", "para", "pa", "cuando", "tambien", "and", "but", "on", "in", "too",
    "enough", "to", "though", "tho", "so", "just", "no", "its", "it", "i", "the", "blue", "now", "still", "at", "as", "parejo",
))  # fmt: skip
"""What may stand behind a "bien" or "good" that is praise."""


def _goes_on(at: int, words: Sequence[Word], fine: Collection[int], passed: Collection[int]) -> bool:
    """Whether a list goes on behind the comma before word *at*: “fan, light and timer work”, “the fan, fine”."""
    return at in fine or at in passed or (at + 1 in passed and words[at].form in _ARTICLES)


def _ends(at: int, words: Sequence[Word]) -> bool:
    """Whether the statement ends with word *at*."""
    if at + 1 >= len(words):
        return True
    after = words[at + 1]
    return after.brk > 0 or after.form in CONTRASTS or after.form in _LAST


def _negated(marks: Marks, first: int, last: int) -> bool:
    return any(first <= start < last for start, _ in marks.at("negators"))
