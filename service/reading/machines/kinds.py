"""What kind of machine it is: the fuel where only its word stands, and which machines a fuel or a variant can be of."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from service.reading.machines.mentions import Mentions
from service.reading.model import Reading
from service.reading.times.how_old import TAKEN_BACK
from service.reading.words.normalising import Normal, Word, fold

_FUELS = {
    word: fuel
    for fuel, words in (
        ("gas", "gas propane propano butano lp"), ("electric", "electric elec electrica electrico electricity"),
        ("induction", "induction induccion"),
    )
    for word in words.split()
}  # fmt: skip
_BURNS = frozenset(("range", "wall_oven", "cooktop", "dryer"))
VARIANTS_OF = {
    "top_load": "washer", "front_load": "washer", "vented": "dryer", "condenser": "dryer", "heat_pump": "dryer",
    "chest": "freezer", "upright": "freezer", "over_the_range": "microwave", "countertop": "microwave", "built_in": "microwave",
}  # fmt: skip
"""The machine that each variant is of."""

_BURNING = re.compile(r"\b(?:dryer|drier|stove|range|oven|cooktop|burner|secadora|estufa|horno|parrilla|hornillas?)")
_HINTS = {
    word: fuel
    for fuel, words in (
        ("gas", "tank tanque pilot piloto flame llama lumbre"),
        ("electric", "220 240 corriente prong prongs luz outlet coils espiral"),
    )
    for word in words.split()
}
"""Words of an answer that tell the fuel without its name."""
_BESIDE_FUEL = frozenset((
    "i", "think", "believe", "guess", "maybe", "probably", "prob", "its", "it", "is", "a", "an", "the", "all",
    "natural", "kind",
    "one", "type", "model", "unit", "range", "stove", "dryer", "oven", "cooktop", "my", "mine", "im", "pretty", "sure", "by",
    "way", "fyi", "btw", "though", "not", "vented", "slide", "in", "drop", "wall", "glass", "top", "coil", "coils",
    "smooth", "ceramic",
    "mas", "creo", "que", "es", "de", "a", "la", "el", "una", "un", "natural", "estufa", "secadora", "horno",
    "parrilla", "yo", "y",
    "years", "yrs", "yr", "anos", "about", "like", "burners",
    "or", "inch", "commercial", "old", "older", "burner", "five", "four", "of", "runs", "on", "uses", "lp", "tank",
    "and", "con",
    "tanque", "espiral", "double", "single", "if", "matters", "eso", "si", "no", "antes", "era",
))  # fmt: skip
"""What may stand with a fuel in a piece of text that tells nothing else."""
_KIND = frozenset(("kind", "one", "type", "model", "unit", "version"))
_SAID_LAST = _KIND | {"bought", "went", "got"}
_NEVER_BEFORE = frozenset(
    (
        "not",
        "no",
        "isnt",
        "wasnt",
        "was",
        "like",
        "era",
        "nor",
        "ni",
        "than",
        "from",
        "to",
        "smell",
        "smells",
        "off",
        "cual",
        "what",
        "which",
    )
)
_LEAKS = re.compile(r"smell|odor|olor|huele|reek|stink|stench|leak|fuga|hiss|company|compania")
_NEAR = 25
_OTHERS_FUEL = frozenset(("house", "home", "casa", "heater", "furnace", "calenton", "boiler", "edificio", "building"))
"""Before a fuel in an answer: it is that of the house."""
_GOES_ON = frozenset(("and", "but", "no", "y", "pero", "so"))
_BETWEEN = 2
"""Words between a machine's name and its fuel: “range 6A electric”, “cook top the electric kind”."""


def of_these(name: str, value: str, mentions: Mentions, folded: str) -> bool:
    """Whether *value* of the fact *name* can be of a machine that is named, or of the one under discussion where none is."""
    named = {m.appliance for m in mentions.found if not m.implied}
    told = named or {m.appliance for m in mentions.found} or ({mentions.about} if mentions.about else set())
    fitting = _BURNS if name == "fuel" else {VARIANTS_OF.get(value, "")}
    if not told or not told.isdisjoint(fitting | {"unknown", "other"}) or mentions.about in fitting:
        return True
    return name == "fuel" and _BURNING.search(folded) is not None


def burns_nothing(read: Reading) -> bool:
    """Whether none of the machines that *read* is about burns a fuel: “my mom's gas stove is fine, its her fridge”."""
    return bool(read.appliances) and (_BURNS | {"unknown", "other"}).isdisjoint(read.appliances)


def fuel_told(normal: Normal, mentions: Mentions, *, asked: bool, brand: str = "") -> str | None:
    """The fuel where its word stands apart, or right behind the machine's name; of an answer the first that is not denied."""
    machines = {m.appliance for m in mentions.found} | ({mentions.about} if mentions.about else set())
    if not (asked or machines & _BURNS):
        return None
    ends = {m.end for m in mentions.found if m.appliance in _BURNS and not m.implied}
    words = normal.words
    maker = frozenset(fold(brand).split())
    ends |= {at + 1 for at, word in enumerate(words) if maker and (word.form in maker or word.was in maker)}
    ends |= {end + 1 for end in ends if end < len(words) and not words[end].brk and words[end].form in maker}
    found: list[tuple[int, str]] = []
    for at, word in enumerate(words):
        fuel = _FUELS.get(word.form)
        if fuel is None or (at and word.brk == 0 and words[at - 1].form in _NEVER_BEFORE):
            continue
        if asked and _OTHERS_FUEL & {w.form for w in words[max(0, at - 3) : at]}:
            continue
        if asked or (
            (_apart(normal, at, maker) or _behind(words, at, ends)) and not (fuel == "gas" and _smelled(normal, at))
        ):
            found.append((word.start, fuel))
    hints = [_HINTS[word.form] for word in words if asked and word.form in _HINTS]
    return meant(normal.folded, found) or (hints[0] if len(set(hints)) == 1 else None)


_INSTEAD = re.compile(
    r"\bno(?: wait)?[ ,]+(?:wait[ ,]+|sorry[ ,]+)?(?:it is|it's|its)(?: an?| all)? "
    r"(?P<en>gas|electrica?|induction|propane)\b(?! (?:smell|leak))"
    r"|\bno(?:, (?:espere |espera |perdon )?| espere | espera | perdon )es (?:de )?"
    r"(?P<es>gas|electric[ao]?|induccion|propano)\b"
)


def fuel_instead(folded: str) -> str | None:
    """The fuel that is set right: “no wait, it's electric”, “y no, es eléctrica”; not that of “no es eléctrica”."""
    told = _INSTEAD.search(folded)
    return _FUELS.get(told["en"] or told["es"]) if told else None


def meant(folded: str, found: Sequence[tuple[int, str]]) -> str | None:
    """The first of *found*, each with its place, or the one said after it was taken back."""
    if not found:
        return None
    for start, value in found[1:]:
        if TAKEN_BACK.search(folded, found[0][0], start):
            return value
    return found[0][1]


def _apart(normal: Normal, at: int, maker: Collection[str]) -> bool:
    """Whether the piece of text about the word at *at* tells the fuel alone: “…, gas i think, …”."""
    words = normal.words
    first = at
    while first > 0 and words[first].brk == 0:
        first -= 1
    last = at + 1
    while last < len(words) and words[last].brk == 0:
        last += 1
    return all(
        w.form in _BESIDE_FUEL or w.form in _FUELS or w.form[0].isdigit() or w.form in maker or w.was in maker
        for w in words[first:last]
    )


def _smelled(normal: Normal, at: int) -> bool:
    """Whether the sentence so far, or what follows at once, speaks of smelling it: “i smell it by the stove, gas”."""
    start, end = normal.words[at].start, normal.words[at].end
    before = re.split(r"[.;!?\n]", normal.folded[:start].rstrip(" .;!?\n"))[-1]
    return (
        _LEAKS.search(before) is not None or _LEAKS.search(normal.folded[end : end + _NEAR].split(".")[0]) is not None
    )


def _behind(words: Sequence[Word], at: int, ends: set[int]) -> bool:
    """Whether the fuel at *at* stands behind a machine's name and nothing it would tell of follows."""
    stops = at + 1 == len(words) or words[at + 1].brk > 0
    kind = not stops and words[at + 1].form in _KIND
    for end in range(at, max(-1, at - _BETWEEN - 1), -1):
        between = words[end:at]
        if end in ends and all(w.form in _BESIDE_FUEL or any(map(str.isdigit, w.form)) for w in between):
            return (stops or kind or words[at + 1].form in _GOES_ON or words[at + 1].form.isdigit()) and words[
                at
            ].brk <= 1
    before = words[at - 1].form if at and words[at].brk == 0 else ""
    return (kind and before in ("the", "a", "an", "its")) or (stops and before in _SAID_LAST)
