"""What a text tells beside its symptoms: urgency, what is implied, what is volunteered, and the reasons in words."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from service.reading.aims.consent import Consent
from service.reading.aims.earnest import in_earnest
from service.reading.dangers.hazards import Screened
from service.reading.details.facts import Facts
from service.reading.faults.other_things import ELSEWHERE
from service.reading.faults.polarity import Polarity
from service.reading.faults.stated import Statements
from service.reading.machines.mentions import UNKNOWN, USUAL
from service.reading.model import Answer, Asked, Found, HazardFound, Reading
from service.reading.words.lexicon import Meaning
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word

_SENSED = frozenset({"odor", "noise", "vague", "burner_dead", "temp_off", "leak", "overheat"})
"""Symptoms whose words are a hazard's own when the hazard was heard in them; water stays a leak beside a flooding."""

_ALSO_SYMPTOM = {"arcing": "sparks"}
"""Symptom codes that are stated together with a hazard by the same words (vocabulary)."""


def implied_names(hits: Sequence[Hit]) -> list[tuple[int, int, str]]:
    """
    Words that imply an appliance without naming it: first word, the one after the last, the appliance. What a usual machine
    is said to do as well implies no other.
    """
    implied = []
    for hit in hits:
        meaning = hit.payload
        if meaning.kind == "talk" and meaning.role == "sign" and meaning.code.startswith("implies="):
            implied.append((hit.start, hit.end, meaning.code.partition("=")[2]))
        elif (
            meaning.kind == "symptom"
            and meaning.names
            and len(meaning.appliances) == 1
            and (meaning.appliances & USUAL or not _usual_too(hit, hits))
        ):
            implied.append((hit.start, hit.end, str(next(iter(meaning.appliances)))))
    return implied


def _usual_too(hit: Hit, hits: Sequence[Hit]) -> bool:
    """Whether words of *hit* are also what a usual machine is said to do."""
    return any(
        other.start < hit.end and hit.start < other.end and other.payload.appliances & USUAL
        for other in hits
        if other.payload.own and other.payload.kind == "symptom"
    )


def event_places(hits: Iterable[Hit]) -> list[tuple[int, int]]:
    """Where it is told what happened before; a machine named there is none complained of, but one that was moved may be."""
    return [
        (h.start, h.end)
        for h in hits
        if h.payload.code.startswith("after=") and h.payload.role == "sign" and h.payload.code != "after=moved"
    ]


def told_beside(talk: Iterable[Hit], marks: Marks) -> list[tuple[int, int]]:
    """Where it is told what was tried, or of no machine; the breaker reset there is none that trips."""
    return [(h.start, h.end) for h in talk if h.payload.code.startswith("tried=")] + marks.at(ELSEWHERE)


def is_hazards_own(hit: Hit, screened: Screened) -> bool:
    """A hazard's own words are not also a symptom, unless the vocabulary says so."""
    if hit.payload.code not in _SENSED or _ALSO_SYMPTOM.get(hit.payload.code):
        return False
    own = screened.own_words
    if hit.payload.code == "leak":
        own = tuple(place for place in own if place[2] in _LEAKS)
    return any(a <= hit.start < b or a < hit.end <= b for a, b, _ in own)


_LEAKS = frozenset(("gas_smell", "refrigerant_leak"))
"""What leaks and is no water: “washer leaks and the stove flame is low” has a leak beside the flame."""


OTHER = "other"
"""Everything that is no appliance of the shop's."""


def listed_appliances(
    named: tuple[str, ...], stated: Statements, about: str | None, asked: Asked | None, dangers: Collection[str]
) -> tuple[str, ...]:
    """
    The appliances the text is about: named, implied, told by a symptom, or asked after with one of the *dangers*. In an
    answer, the water heater or the toaster is but part of the story.
    """
    found = list(named)
    if not found and about and asked is not None and asked.kind == "yes_no" and asked.code in dangers:
        found.append(about)
    if asked is not None and asked.kind not in ("appliance", "confirm"):
        found = [name for name in found if name != OTHER]
    for symptom in stated.symptoms:
        if symptom.appliance not in found and symptom.appliance not in (UNKNOWN, about):
            found.append(symptom.appliance)
    return tuple(found)


def outside_names(stated: Statements, names: Iterable[object], text: str) -> Statements:
    """What is stated outside the *names* in *text*, of streets, persons or makers: they tell nothing of a machine."""
    for name in names:
        if isinstance(name, str) and name in text:
            stated = _outside(stated, name, text.index(name))
    return stated


def _outside(stated: Statements, name: str, first: int) -> Statements:
    def elsewhere(found: Found) -> bool:
        return not (first <= found.start and found.end <= first + len(name))

    return replace(
        stated,
        symptoms=tuple(f for f in stated.symptoms if elsewhere(f)),
        denied=tuple(f for f in stated.denied if elsewhere(f)),
        observations=tuple(seen for seen in stated.observations if seen.words not in name),
    )


_DRY = frozenset(("range", "wall_oven", "cooktop", "microwave", "range_hood", "dryer", "trash_compactor"))
_NEVER_OF = {
    "active_leak": _DRY,
    "food_at_risk": _DRY | {"washer", "dishwasher", "disposal", "ice_maker"},
}
"""Machines that hold no water, or no food: told of these alone, a towel or a turkey is no reason to hurry."""


def urgencies(
    hits: Sequence[Hit], polarity: Polarity, screened: Screened, machines: Collection[str]
) -> tuple[str, ...]:
    """
    The reasons to be seen sooner that the *machines* of the text can give; only a "no" right before denies one. A flooding
    leaves out the leak to be caught.
    """
    harmless = [hit for hit in hits if hit.payload.kind == "urgency" and hit.payload.role == "innocent"]
    found: dict[str, None] = {}
    for hit in hits:
        code = hit.payload.code
        if (
            hit.payload.kind != "urgency"
            or hit.payload.role == "innocent"
            or polarity.negated_before(hit, nominal=True)
        ):
            continue
        if any(i.payload.code == code and i.start < hit.end and hit.start < i.end for i in harmless):
            continue
        if machines and _NEVER_OF.get(code, frozenset()).issuperset(machines):
            continue
        if polarity.judge(hit, function=False).verdict != "nothing":
            found.setdefault(hit.payload.code)
    if any(h.code == "flooding" for h in screened.raised):
        found.pop("active_leak", None)
    return tuple(found)


def volunteers(text: Reading, asked: Asked | None, answer: Answer | None) -> bool:
    """Whether a fault is told beyond what was asked: “none of them, the door fell off”, “3. and the light is out too”."""
    told: list[Found | HazardFound] = [*text.symptoms, *text.hazards]
    if asked is not None and asked.kind == "symptom" and answer is not None and answer.kind in ("none", "neither"):
        return bool(told)
    if "fixed" in text.intents and all(found.code == "vague" for found in told):
        return False
    if asked is not None and asked.kind == "appliance":
        return any(found.code != "vague" for found in told)
    if asked is not None and asked.kind == "symptom":
        return answer is not None and answer.kind == "choice" and any(found.code != answer.value for found in told)
    if asked is not None and not (answer is not None and answer.kind == "not_fixed"):
        told = [found for found in told if found.code != "vague" or _of_another(found, asked)]
    if asked is not None and asked.code:
        told = [found for found in told if found.code != asked.code or _of_another(found, asked)]
    if asked is not None and asked.kind == "code":
        told = [found for found in told if found.code not in ("noise", "error_code")]
    if asked is not None and answer is not None and answer.kind == "not_fixed" and asked.kind == "check_result":
        told = told if _NEWLY & set(text.text.lower().split()) else list(text.hazards)
    return bool(told or (asked is None and any(theory.words.lower() not in _ALSO_MEAN for theory in text.theories)))


def _of_another(found: Found | HazardFound, asked: Asked) -> bool:
    """Whether a fault is told of another machine than the one *asked* about: “it's the washer that leaks”."""
    return (
        isinstance(found, Found) and asked.appliance is not None and found.appliance not in (asked.appliance, UNKNOWN)
    )


_ALSO_MEAN = frozenset(("short", "caught", "shock", "shocked", "fire", "catch"))
"""Words of a cause that mostly mean something else: “a short cycle”, “shocked at the price”, “the neighbor's caught fire”."""
_NEWLY = frozenset(("now", "ahora", "also", "tambien", "también", "ahorita", "plus", "ademas", "además"))
"""With these what is told after a check that did not help is more than that the fault is still there."""


def still_there(
    hits: Sequence[Hit], facts: Facts, asked: Asked | None, text: Reading, words: Sequence[Word]
) -> Hit | None:
    """
    What says that something did not help: what was tried, told beside the fault, or “still”, “again” after a repair or a check.
    """
    told = bool(text.symptoms or text.hazards)
    tried = in_earnest(facts.tries, words) if facts.tries and told and "fixed" not in text.intents else None
    if tried is not None:
        start, end, code = tried
        return Hit(start, end, Meaning("talk", f"tried={code}", rule=f"talk.tried={code}"), 0)
    innocent = [h for h in hits if h.payload.code == "still" and h.payload.role == "innocent"]
    said = [h for h in hits if h.payload.code == "still" and h.payload.role == "sign"]
    said = [h for h in said if not any(i.start <= h.start and h.end <= i.end for i in innocent)]
    after = facts.stated.get("after", ())
    repaired = isinstance(after, tuple) and "repair" in after
    tried_out = repaired or (asked is not None and asked.kind == "check_result")
    return said[0] if said and tried_out and told else None


def reasons(heard: Mapping[str, Hit], normal: Normal, answer: Answer | None, consent: Consent | None) -> list[str]:
    """Why each intent, the answer and the consent were heard, a sentence each."""
    notes = []
    for code, hit in heard.items():
        words = normal.text[normal.words[hit.start].start : normal.words[hit.end - 1].end]
        notes.append(f"“{words}” is {code}: {hit.payload.rule}.")
    if answer is not None:
        value = f" ({answer.value})" if answer.value else ""
        notes.append(f"It answers what was asked: {answer.kind}{value}.")
    if consent is not None:
        notes.append(f"About texting itself it says: {consent}.")
    return notes
