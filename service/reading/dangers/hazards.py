"""Hazards: looked for first, in every clause, on the words as typed and as corrected, by rules that nothing else excuses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from service.reading.dangers.alarms_heard import sounds_in_earnest
from service.reading.dangers.danger_hits import danger_hits, is_innocent, runs_over_a_stop
from service.reading.dangers.denying import (
    DENYING,
    adds,
    asked_and_denied,
    breaks,
    covers,
    denied_before,
    never_ends,
    of_the_machine,
    only_answers,
    softened,
    told_again,
    turns,
    until_lately,
)
from service.reading.dangers.excepting import (
    denied_later,
    excepted,
    held_to_a_part,
    is_so_now,
    is_the_only,
    nobody_did,
    only_reported,
)
from service.reading.dangers.explaining import taken_back
from service.reading.dangers.foreign_things import is_of_another_thing
from service.reading.dangers.hearsay import mine_does_not
from service.reading.dangers.in_general import but_now, so_does_ours
from service.reading.dangers.no_matter import is_no_matter
from service.reading.dangers.other_sources import comes_from_elsewhere, is_told_to_be
from service.reading.dangers.people_and_pay import is_of_people
from service.reading.dangers.set_right import none_of_it, set_right, supposed_and_not_so
from service.reading.dangers.settling import (
    found_safe,
    in_another_house,
    of_a_machine_gone,
    only_supposed,
    others_have,
    reaches_them,
    runs_over_a_no,
    settled_long_ago,
    settled_since,
)
from service.reading.dangers.supposing import feared, not_at_hand, said_not_to_have
from service.reading.model import HazardFound
from service.reading.words.clauses import Clause
from service.reading.words.lexicon import Lexicon
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word
from service.reading.words.sentences import sentence_of

_SMELT = frozenset(["gas_smell", "burning_smell", "smoke", "sparks", "fire", "shock", "carbon_monoxide", "hot_wiring"])
"""Hazards whose own words are not symptoms besides, also where they are denied."""


@dataclass(frozen=True, slots=True)
class Screened:
    """
    What the screen found; ``own_words`` are the places of all hazards, raised or denied: no symptoms besides; ``heard`` are the
    hazards of which any phrase was heard, also one that denies or excuses it; ``explained`` come from no machine or are no
    matter here; ``doubted`` count if they say so when asked.
    """

    raised: tuple[HazardFound, ...]
    denied: tuple[HazardFound, ...]
    own_words: tuple[tuple[int, int, str], ...]
    notes: tuple[str, ...]
    heard: frozenset[str] = frozenset()
    explained: frozenset[str] = frozenset()
    doubted: tuple[HazardFound, ...] = ()

    @property
    def codes(self) -> tuple[str, ...]:
        """The hazards raised."""
        return tuple(found.code for found in self.raised)

    @property
    def cleared(self) -> tuple[str, ...]:
        """The hazards denied."""
        return tuple(found.code for found in self.denied)


_BELOW = frozenset(["downstairs", "below", "beneath", "abajo"])
_ANYBODY_S = frozenset(["injury"])
"""Dangers that count whoever is told to have had them: “my neighbor cut two fingers in the disposal”."""

_MY = frozenset(["my", "our", "mi", "nuestra", "nuestro"])
_HOME = frozenset((
    "house", "place", "apartment", "kitchen", "unit", "casa", "cocina", "apartamento", "departamento", "dryer", "washer",
    "stove", "oven", "range", "dishwasher", "fridge", "freezer", "microwave", "secadora", "lavadora", "estufa", "horno", "side",
))  # fmt: skip
_HERE = frozenset(["your", "our", "here", "aqui", "nuestra", "nuestro"])
_OURS = frozenset(["ours", "mine"])
_NEXT_DOOR = frozenset(
    ["neighbor", "neighbors", "vecino", "vecinos", "vecina", "vecinas", "street", "calle", "friend", "friends"]
)

NOTHING = Screened((), (), (), ())


def screen(
    lexicon: Lexicon, normal: Normal, typed: Sequence[Word], marks: Marks, clauses: Sequence[Clause]
) -> Screened:
    """
    The hazards of a text: ``normal`` has its words corrected, ``typed`` the words as they came.

    A negation counts only right before the hazard and inside its own sentence; "no longer" and "anymore" do not clear
    one (a person does); what is asked, supposed or hedged is raised all the same, but for what its writer answers
    with a no.
    """
    hits = danger_hits(lexicon, normal, typed)
    if not hits:
        return NOTHING
    innocent = [hit for hit in hits if hit.payload.role == "innocent" and _excuses(hit, normal.words)]
    raised: dict[str, HazardFound] = {}
    denied: dict[str, HazardFound] = {}
    explained: set[str] = set()
    fillers = lexicon.words.get("hazard_fillers", {})
    passing = frozenset().union(*fillers.values()) if fillers else frozenset()
    signs = [
        hit
        for hit in hits
        if hit.payload.role == "sign"
        and (not is_innocent(hit, innocent, normal.words) or held_to_a_part(hit, normal.words))
        and not (runs_over_a_no(hit, normal.words, DENYING, passing) or runs_over_a_stop(hit, normal))
    ]
    sign_words = {
        at for h in (*signs, *(h for h in hits if _tells_none(h, normal.words))) for at in range(h.start, h.end)
    }
    denials = [hit for hit in hits if hit.payload.role == "denial" and _clears(hit, normal.words, marks)]
    held = [hit for hit in denials if excepted(hit, normal.words)]
    denials = [hit for hit in denials if hit not in held]
    for hit in held:
        raised.setdefault(hit.payload.code, _found(hit, normal))
    for hit in denials:
        denied.setdefault(hit.payload.code, _found(hit, normal))
    for hit in signs:
        code = hit.payload.code
        if any(d.payload.code == code and covers(d, hit, normal.words) for d in denials):
            continue
        clause = _clause_of(clauses, hit.start)
        if so_does_ours(normal.words[hit.end :]) or but_now(
            hit, normal.words
        ):  # whatever was so once, elsewhere or in general
            raised.setdefault(code, _found(hit, normal))
        elif _is_denied(hit, normal.words, marks, clause, passing, sign_words):
            denied.setdefault(code, _found(hit, normal))
        elif _is_nothing(hit, normal.words, marks):
            explained.add(code)
        elif not (_not_ours_now(hit, normal.words, marks, clause) or not_at_hand(hit, normal, marks)):
            raised.setdefault(code, _found(hit, normal))
    notes = [f"“{h.words}” raises {h.code}: {h.rule}." for h in raised.values()]
    notes += [f"“{h.words}” denies {h.code}." for h in denied.values() if h.code not in raised]
    return Screened(
        tuple(raised.values()), tuple(h for h in denied.values() if h.code not in raised), _own_words(hits), tuple(notes),
        frozenset(hit.payload.code for hit in hits), frozenset(explained),
    )  # fmt: skip


def _is_denied(
    hit: Hit, words: Sequence[Word], marks: Marks, clause: Clause | None, passing: frozenset[str], sign_words: set[int]
) -> bool:
    """Whether *hit* is said not to be: before it or behind it, in a question answered with no, or by what it was instead."""
    if asked_and_denied(hit, words):
        return True
    if denied_before(hit, words, marks, clause, passing, sign_words) and not excepted(hit, words):
        return True
    if taken_back(hit, words, marks) or _told_otherwise(hit, words):
        return True
    return (feared(hit, words) and said_not_to_have(hit, words)) or supposed_and_not_so(hit, words)


def _tells_none(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* denies, or excuses by a “never”: “never a spark”."""
    role = hit.payload.role
    return role == "denial" or (role == "innocent" and words[hit.start].form in ("never", "nunca"))


def _excuses(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether an innocent wording counts: nothing denied, ended or told again inside it."""
    if nobody_did(hit, words) or is_so_now(hit, words) or until_lately(hit, words) or _so_here(hit, words):
        return False
    return not (hit.negated or told_again(hit, words) or adds(hit, words) or _is_no_statement(hit, words))


def _so_here(hit: Hit, words: Sequence[Word]) -> bool:
    """“can a dryer catch fire? mine did”, “if it catches fire again”, “a new CO detector and it reads 70”."""
    behind = words[hit.end : hit.end + 7]
    if behind and words[hit.start].form in ("if", "si") and behind[0].form in ("again", "otra"):
        return True
    if hit.payload.code == "carbon_monoxide":
        return sounds_in_earnest(words)
    return so_does_ours(words[hit.end :]) or but_now(hit, words)


def _clears(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether a denial counts: of what is so now, in one breath."""
    if softened(hit, words) and not settled_since(hit, words, marks):
        return False
    return not (turns(hit, words) or but_now(hit, words) or _is_no_statement(hit, words))


def _is_no_statement(hit: Hit, words: Sequence[Word]) -> bool:
    return breaks(hit, words) or only_answers(hit.start, words) or of_the_machine(hit, words) or never_ends(hit, words)


def _own_words(hits: Sequence[Hit]) -> tuple[tuple[int, int, str], ...]:
    """Where words stand that are a hazard's own and no symptom's besides, and whose."""
    return tuple(
        (h.start, h.end, h.payload.code)
        for h in hits
        if h.payload.role != "innocent"
        and (h.payload.code in _SMELT or (h.payload.code == "refrigerant_leak" and h.payload.role == "sign"))
    )


def _not_ours_now(hit: Hit, words: Sequence[Word], marks: Marks, clause: Clause | None) -> bool:
    """Whether *hit* is over, only supposed or somebody else's."""
    if clause is not None and clause.past and not _smells_again(hit, words):
        return True
    if clause is not None and clause.others and _others_only(hit, words, marks, clause):
        return True
    if found_safe(hit, words, marks) or settled_long_ago(hit, words, marks):
        return True
    if of_a_machine_gone(hit, words, marks) or only_supposed(hit, words):
        return True
    return in_another_house(hit, words, marks, clause)


def _smells_again(hit: Hit, words: Sequence[Word]) -> bool:
    """“used to smell gas before they moved the meter and now it smells again”."""
    if hit.payload.code not in _SMELT:
        return False
    return any(a.form.startswith(_SENSED) and b.form in ("again", "otra") for a, b in pairwise(words[hit.end :]))


_SENSED = ("smell", "smok", "spark", "shock", "zap", "beep", "huele", "humo", "chisp", "toque")


def _told_otherwise(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether it is told what *hit* was instead, or denied behind it."""
    return (
        is_told_to_be(hit, words)
        or is_the_only(hit, words)
        or denied_later(hit, words)
        or none_of_it(hit, words)
        or set_right(hit, words)
        or mine_does_not(hit, words)
    )


def _is_nothing(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether *hit* is told to come from no machine, or tells of nothing that is so."""
    return (
        comes_from_elsewhere(hit, words)
        or is_no_matter(hit, words, marks)
        or is_of_another_thing(hit, words)
        or is_of_people(hit, words)
    )


def _others_only(hit: Hit, words: Sequence[Word], marks: Marks, clause: Clause) -> bool:
    """Whether what *hit* tells is theirs, and ours in no way."""
    if (hit.payload.code == "flooding" and reaches_them(hit, marks)) or so_does_ours(words[hit.end :]):
        return False
    return others_have(hit, words, marks, clause) and not (_ours_too(hit, words) or only_reported(hit, words))


def _ours_too(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether what somebody else tells or had is our business all the same: “the neighbor said your kitchen smells”."""
    near = words[max(0, hit.start - 2) : hit.end + 1]
    if hit.payload.code in _ANYBODY_S or any(a.form in _HERE and b.form not in _NEXT_DOOR for a, b in pairwise(near)):
        return True
    if any(word.form in _OURS for word in words[max(0, hit.start - 3) : hit.start]):
        return True
    first, last = sentence_of(hit, words, 4)
    if hit.payload.code == "water_near_power" and any(word.form in _BELOW for word in words[first:last]):
        return True  # what comes through the light of those below has left our floor
    last = next((at for at in range(hit.end, last) if words[at].brk), last)
    return any(a.form in _MY and b.form in _HOME for a, b in pairwise(words[first : min(last + 1, len(words))]))


def _clause_of(clauses: Sequence[Clause], at: int) -> Clause | None:
    return next((c for c in clauses if c.start <= at < c.end), None)


def _found(hit: Hit, normal: Normal) -> HazardFound:
    start, end = normal.words[hit.start].start, normal.words[hit.end - 1].end
    return HazardFound(hit.payload.code, normal.text[start:end], start, end, hit.payload.rule)
