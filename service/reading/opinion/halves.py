"""A refrigerator's two halves: which of them is warm, or both; one complaint, however many words tell of it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from service.reading.faults.stated import Statements
from service.reading.model import Found, Reading
from service.reading.opinion.leaning import TOLD_TEXTS
from service.reading.words.normalising import CONTRASTS, Word

COOLS = "refrigerator"
BOTH, FRIDGE, FREEZER = "not_cooling", "warm_fridge", "warm_freezer"
WARM = frozenset([BOTH, FRIDGE, FREEZER])
"""What is told of a refrigerator's cold: all of it, or one half."""
_EXPLICIT = 2
"""A phrase of more words than this and one says which half it is, or both, whatever else was heard."""
_LESS = WARM | {"temp_off"}


_OF_HALVES = (
    "free",
    "froz",
    "conge",
    "hiel",
    "helad",
    "ice",
    "side",
    "part",
    "half",
    "lado",
    "arriba",
    "abajo",
    "up",
    "below",
)
"""How words begin that tell one half from the other; “the fridge is fine” by itself denies nothing of them."""


def by_halves(stated: Statements, words: Sequence[Word]) -> Statements:
    """
    *stated*, told in *words*, with one code for a refrigerator that does not cool: the half that is not said to work, where
    one is; both where both are warm.
    """
    warm = {f.code for f in stated.symptoms if f.appliance == COOLS} & WARM
    if not warm:
        if any(f.code == FRIDGE for f in stated.denied) and not any(w.form.startswith(_OF_HALVES) for w in words):
            return replace(stated, denied=tuple(f for f in stated.denied if f.code != FRIDGE))
        return stated
    works = {f.code for f in stated.denied if f.appliance == COOLS} & WARM
    explicit = {
        f.code
        for f in stated.symptoms
        if f.appliance == COOLS and f.words.count(" ") > _EXPLICIT and f.rule != TOLD_TEXTS
    }
    code = the_one(warm & explicit or warm, works)
    first = next(f for f in stated.symptoms if f.appliance == COOLS and f.code in (warm & {code} or warm))
    symptoms = []
    for found in stated.symptoms:
        if found is first:
            symptoms.append(replace(found, code=code))
        elif found.appliance != COOLS or found.code not in _LESS:
            symptoms.append(found)
    denied = (f for f in stated.denied if f.appliance != COOLS or f.code not in (code, BOTH))
    return replace(stated, symptoms=tuple(symptoms), denied=tuple(denied))


def the_one(warm: Collection[str], works: Collection[str]) -> str:
    """The one code for halves that are told *warm*, at least one, where those of *works* are told to work."""
    sound = {*works} - {BOTH}
    if sound == {FREEZER}:
        return FRIDGE
    if sound == {FRIDGE}:
        return FREEZER
    if FREEZER in warm and len(warm) > 1:
        return BOTH
    return FRIDGE if FRIDGE in warm else next(iter(warm))


def with_sound_freezer(draft: Reading, place: int) -> Reading:
    """
    *draft*, in which the freezer part is told to work at sign *place*: what was told to be warm before is the other half
    (“fridge warm and freezer warm, no wait freezer is ok”).
    """
    warm = [f for f in draft.symptoms if f.appliance == COOLS and f.code in WARM]
    if not warm or any(f.code == FREEZER and f.start >= place for f in warm):
        return draft
    half = replace(warm[0], code=FRIDGE)
    symptoms = dict.fromkeys(half if f in warm else f for f in draft.symptoms)
    known = any(f.appliance == COOLS and f.code == FREEZER for f in draft.denied)
    denied = draft.denied if known else (*draft.denied, replace(half, code=FREEZER, words=draft.text[place:].strip()))
    return replace(draft, symptoms=tuple(symptoms), denied=denied)


_FRIDGE_FOOD = frozenset((
    "milk", "leche", "eggs", "huevos", "huevo", "yogurt", "lettuce", "lechuga", "soda", "sodas", "drinks", "bebidas", "juice",
    "jugo", "veggies", "vegetables", "verdura", "verduras", "produce", "cheese", "queso", "beer", "cerveza",
))  # fmt: skip
"""What stands in a refrigerator's larger half."""


_REST = frozenset(("abajo", "below", "bottom", "rest", "resto", "else", "demas"))
"""The other half by its place, where the freezer is told to be frozen."""
_FROZEN = (
    "froz",
    "hard",
    "solid",
    "rock",
    "icy",
    "dur",
    "congelad",
    "piedra",
    "hielo",
    "helad",
    "bien",
    "fine",
    "cold",
)
_WARMS = ("warm", "tibi", "calient", "hot", "spoil", "sour", "bad", "agri", "perder", "perdio", "ambiente", "melt")
_WARM_WITHIN = 5
_NOT_COLD = ("cold", "cool", "fri", "enfri", "hel")
_TOLD = 0.8


def of_the_fridge(draft: Reading, place: int, words: Sequence[Word]) -> Reading:
    """
    *draft*, in which only a freezer is named (before word *place*), with a warm fridge for “food in the freezer is frozen but
    milk is warm”: what is set against the freezer is the other half.
    """
    if draft.appliances != ("freezer",) or [f.code for f in draft.symptoms] not in ([], [BOTH]):
        return draft
    contrast = next((at for at, word in enumerate(words) if word.form in CONTRASTS), len(words))
    frozen = any(word.form.startswith(_FROZEN) for word in words[:contrast])
    spoken_of = _FRIDGE_FOOD | _REST if frozen else _FRIDGE_FOOD
    food = next((at for at, word in enumerate(words) if word.form in spoken_of), None)
    if food is None or not any(w.form in CONTRASTS for w in words[min(food, place) : max(food, place)]):
        return draft
    told = draft.symptoms[0] if draft.symptoms else _warm_food(draft, food, words) if frozen else None
    if told is None:
        return draft
    warm = replace(told, appliance=COOLS, code=FRIDGE)
    cold = replace(warm, code=FREEZER)
    return replace(draft, appliances=(COOLS,), symptoms=(warm,), denied=(cold,), observations=())


def _warm_food(draft: Reading, food: int, words: Sequence[Word]) -> Found | None:
    """“la leche está tibia”, “the milk wont stay cold”: what stands at word *food* is told to be warm."""
    said = words[food : food + _WARM_WITHIN + 1]
    said = said[: next((at for at, word in enumerate(said) if at and word.brk), len(said))]
    no = any(word.en == "not" or word.form in ("no", "ni") for word in said)
    if not any(word.form.startswith(_NOT_COLD if no else _WARMS) for word in said):
        return None
    start, end = said[0].start, said[-1].end
    return Found(COOLS, FRIDGE, _TOLD, draft.text[start:end], start, end, rule=f"halves.{FRIDGE}")
