"""What parts of machines stand for where something was done to them: a dryer's hose is a vent, a drain's plug no plug."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from service.reading.faults.undertaken import CORD, HAVING, LINT, STATE, next_forms, stretch_before
from service.reading.words.normalising import Word

OF_THING = {
    "filter": "cleaned_filter", "hose": "checked_hose", "vent": "cleaned_vent", "breaker": "reset_breaker",
    "plug": "checked_plug", "disposal": "other", "remedies": "other", "things": "other",
}  # fmt: skip
"""What was done to a thing, in general."""

OF_MACHINES = frozenset(("filter", "hose", "vent", "breaker", "plug"))
_KEPT_SO = (["got", "it"], ["have", "it"], ["keep", "it"], ["had", "it"], ["la", "tengo"], ["lo", "tengo"])
"""“ive got it taped shut”: so it is kept, and was not done against the fault."""
_COLD = frozenset({"refrigerator", "freezer", "beverage_cooler", "ice_maker"})
WATERED = frozenset(("washer", "dishwasher", "refrigerator", "ice_maker"))
_BURNT = frozenset(("propane", "propano"))
"""A tank of these is changed when it is empty."""


def of_dryer(code: str, named: Collection[str]) -> str:
    """
    A dryer's hose or tube leads air: *code* of it, where no machine with a water hose is *named*; the vents of a cold machine
    are no duct.
    """
    if code == "cleaned_vent" and named and _COLD.issuperset(named):
        return "other"
    dry = code == "checked_hose" and "dryer" in named and not WATERED & set(named)
    return "cleaned_vent" if dry else code


NEW_THINGS = {"vent": "cleaned_vent", "plug": "checked_plug"}
"""What a thing put in another's place is: a new filter was not cleaned."""


def put_in_place(words: Sequence[Word], at: int, thing: str) -> str | None:
    """What it was to put another *thing* in its place."""
    if any(word.form in STATE for word in stretch_before(words, at)[-1:]):
        return None
    if not _BURNT.isdisjoint(next_forms(words, at)):
        return None
    return "other" if thing == "plug" and CORD.intersection(next_forms(words, at)) else NEW_THINGS.get(thing, "other")


_TESTERS = frozenset(("lamp", "charger", "toaster", "radio", "vacuum", "drill", "lampara", "cargador", "radio"))


def tests_the_outlet(behind: Sequence[Word]) -> bool:
    """Whether what was tried is something else in the outlet: “tried a lamp in it”."""
    return not _TESTERS.isdisjoint(word.form for word in behind[:3])


def lint_of(word: Word, after: Word | None) -> bool:
    """Whether *word* is the lint that came out of something, that *after* it leads to: “the lint out of the vent”."""
    return word.form in LINT and after is not None and after.form in ("out", "from", "of", "off", "inside", "in", "de")


def lint_trap(word: Word, after: Word | None) -> bool:
    """Whether *word* and the one *after* it are a dryer's filter."""
    return word.form in LINT and after is not None and after.form == "trap"


_TAKEN_OUT = frozenset(("saque", "sacamos", "quite", "quitamos", "pulled", "took"))


def filter_taken_out(words: Sequence[Word], at: int) -> bool:
    """Whether a filter was taken out or put through the wash at *at*, and not the lint in it."""
    if _through_the_wash(words, at):
        return True
    return words[at].form in _TAKEN_OUT and LINT.isdisjoint(word.form for word in words[at + 1 : at + 6])


_TRAPPED = frozenset(("washer", "dishwasher", "dryer"))


def cleans_the_trap(words: Sequence[Word], at: int, named: Collection[str]) -> bool:
    """Whether the trap cleaned at *at* is a machine's filter: no sink's trap."""
    forms = next_forms(words, at)
    return "trap" in forms and not _TRAPPED.isdisjoint(named) and not {"sink", "p", "disposal"} & {*forms}


_WASHERS = frozenset(("dishwasher", "wash", "lavaplatos", "lavatrastes", "lavavajillas"))
_THROUGH = frozenset(("thru", "through"))
_NOT_WASHED = frozenset(("new", "nuevo", "nuevos", "back", "another", "otro", "otros"))


def _through_the_wash(words: Sequence[Word], at: int) -> bool:
    """“ran the filters thru the dishwasher”, “metí los filtros al lavaplatos”: cleaned, and not put into it."""
    forms = [word.form for word in words[at + 1 : at + 8]]
    there = next((place for place, form in enumerate(forms) if form in _WASHERS), 0)
    before = {*forms[max(0, there - 2) : there]}
    leads = bool(_THROUGH & before) or ("filtros" in forms[:there] and bool({"al", "en"} & before))
    return leads and _NOT_WASHED.isdisjoint(forms)


def kept_so(words: Sequence[Word], at: int) -> bool:
    """Whether the verb at *at* only tells how it is kept, or what was so too: “ive got it taped”, “and so did the eggs”."""
    if words[at].form == "did" and at and words[at - 1].form in ("so", "nor", "neither"):
        return True
    return [word.form for word in words[max(0, at - 2) : at]] in _KEPT_SO


_RUNS = frozenset(("did", "ran", "tried", "do", "run", "done", "used", "hit", "started", "set", "put", "forced"))


def only_named(words: Sequence[Word], at: int) -> bool:
    """Whether the word at *at* names what is to be done, or what a machine does: “it's just the defrost”."""
    if HAVING & {word.form for word in stretch_before(words, at)[-4:]}:
        return True
    named = at > 0 and words[at].form in ("defrost", "drain", "rinse") and words[at - 1].form in ("the", "its", "auto")
    return named and _RUNS.isdisjoint(word.form for word in words[max(0, at - 4) : at])
