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
from service.reading.model import Answer, Asked, Found, HazardFound, Reading, Wish
from service.reading.times.bare_times import only_when_beside
from service.reading.times.wish_draft import EXCEPTING
from service.reading.times.wishes import states_time
from service.reading.words.asking import is_inquired
from service.reading.words.clauses import Marks
from service.reading.words.lexicon import Meaning
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
    return any(a <= hit.start < b or a < hit.end <= b for a, b in screened.own_words)


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


def without_no_wish(
    facts: Mapping[str, object], heard: Collection[str], answer: Answer | None, wish: Wish | None
) -> Mapping[str, object]:
    """
    *facts* without a wish that is none: a window that is taken (*answer* to an offer), the days of a sale, the time of a visit
    called off. "Not today, next week" is one, and so is what will not do where somebody is to come.
    """
    only_out = wish is not None and not (
        _wanted(wish) or answer is not None or wish.words.lower().startswith(EXCEPTING)
    )
    taken = (answer is not None and answer.kind == "choice") or "spam" in heard
    called_off = {"cancel", "fixed"} & set(heard) and not {"reschedule", "book"} & set(heard)
    instead = wish is not None and (wish.days_out or wish.relative_out) and (wish.days_in or wish.week or wish.relative)
    moves = wish is not None and (wish.requested or bool({"book", "reschedule"} & set(heard)))
    if taken or (only_out and not (moves and "cancel" not in heard)) or (called_off and not instead):
        return {name: value for name, value in facts.items() if name != "wish"}
    return facts


def _wanted(wish: Wish) -> bool:
    """Whether *wish* says when, and not only when not."""
    return bool(states_time(replace(wish, days_out=(), relative_out=())) or wish.soonest or wish.holiday)


def _merely_told(wish: Wish) -> bool:
    """Whether *wish* names but a part of the day, an hour, this week or today: in a complaint that is when it happens."""
    bound = (wish.start or wish.end) and not wish.point
    return not (
        bound
        or wish.days_in
        or wish.dates
        or wish.week == "next"
        or wish.soonest
        or {*wish.relative} - {0}
        or wish.days_out
    )


def keep_wish(
    wish: Wish | None,
    facts: dict[str, object],
    asked: Asked | None,
    heard: Collection[str],
    normal: Normal,
    *,
    alone: bool,
    complains: bool,
) -> Wish | None:
    """
    *wish*, where it is one for a visit, put among the *facts*; None for a time that only belongs to the story, or that is
    only inquired about.
    """
    alone = alone or only_when_beside(normal, wish, facts.get("address"))
    offered = asked is not None and asked.kind in ("offer", "access")
    booking = bool({"book", "reschedule"} & set(heard))
    inquired = wish is not None and not (offered or booking) and is_inquired(normal.words, wish.words, normal.text)
    arranging = asked is None or offered or _of_the_visit(asked)
    requested = (
        wish is not None and wish.requested and arranging and not ({"ask_help", "ask_status", "ask_price"} & set(heard))
    )
    if wish is None or not (
        (states_time(wish) or wish.soonest or (wish.holiday and (booking or requested or offered)))
        and not inquired
        and not (complains and asked is None and not requested and not booking and _merely_told(wish))
        and (requested or is_wish(wish.words.lower(), asked, heard, facts, alone=alone))
    ):
        return wish if "wish" in facts else None
    facts["wish"] = wish.words
    since = str(facts.get("since", ""))
    if requested and (since in wish.words or wish.words in since):
        facts.pop("since", None)
    if facts.get("since") and not complains and {"book", "reschedule", "cancel"} & set(heard):
        facts.pop("since")
    return wish


def _of_the_visit(asked: Asked) -> bool:
    return asked.kind in ARRANGING or (asked.kind == "confirm" and asked.code in ("visit", "cancel"))


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


ARRANGING = ("name", "address", "postal_code", "phone", "payer")
"""Questions put while a visit is being arranged: a time that is stated then is when they would like us."""


_ABOUT_A_VISIT = frozenset(("book", "reschedule", "cancel"))
"""Without these a day beside a question ("are you open saturdays", "is he coming today") asks for no visit."""


def is_wish(
    words: str, asked: Asked | None, heard: Iterable[str], facts: dict[str, object], *, alone: bool = False
) -> bool:
    """
    Whether a stated time is a wish: asked for, *alone* in the text or said with a booking word, and not when the trouble
    began.
    """
    if asked is not None and asked.kind == "offer":
        return True
    if alone:
        return not facts.get("since")
    since = str(facts.get("since", "")).lower()
    wanted = bool(_ABOUT_A_VISIT & set(heard))
    if words in ("today", "hoy", "tonight") and not wanted:
        return False
    if {"ask_help", "ask_status"} & set(heard) and not wanted:
        return False
    if asked is None and not wanted:
        return False
    if asked is not None and not _of_the_visit(asked) and not {"book", "reschedule", "cancel"} & set(heard):
        return False
    if since and (words in since or since in words):
        return False
    return bool({"book", "reschedule", "ask_status", "cancel"} & set(heard)) or not since


def urgencies(hits: Iterable[Hit], polarity: Polarity, screened: Screened) -> tuple[str, ...]:
    """The reasons to be seen sooner; only a "no" right before denies one. A flooding leaves out the leak to be caught."""
    found: dict[str, None] = {}
    for hit in hits:
        if hit.payload.kind != "urgency" or polarity.negated_before(hit, nominal=True):
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
    if asked is not None and asked.kind in ("symptom", "appliance"):
        return False
    if asked is not None and asked.code:
        told = [found for found in told if found.code != asked.code]
    if asked is not None and asked.kind == "code":
        told = [found for found in told if found.code not in ("noise", "error_code")]
    if asked is not None and answer is not None and answer.kind == "not_fixed" and asked.kind == "check_result":
        told = told if _NEWLY & set(text.text.lower().split()) else list(text.hazards)
    return bool(told or (asked is None and any(theory.words.lower() not in _ALSO_MEAN for theory in text.theories)))


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
