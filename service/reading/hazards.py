"""
Hazards: looked for first, in every clause, on the words as typed and as corrected, by rules nothing else can switch
off.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.reading.clauses import Clause, Marks
from service.reading.lexicon import LANGUAGES, Lexicon
from service.reading.matching import Hit
from service.reading.model import HazardFound
from service.reading.normalising import Normal, Word
from service.reading.settling import (
    in_another_house,
    of_a_machine_gone,
    only_supposed,
    runs_over_a_no,
    settled_long_ago,
    settled_since,
)

DENYING = frozenset((
    "no", "not", "dont", "doesnt", "didnt", "isnt", "arent", "aint", "wasnt", "havent", "hasnt", "never",
    "without", "zero", "none", "sin", "ni", "nunca", "nor", "neither",
))  # fmt: skip
"""Words that can deny a hazard. "won't" and "can't" cannot: they belong to the machine ("wont start smells burnt")."""

_AFTER_ANSWER = frozenset(
    ["and", "but", "it", "its", "i", "im", "the", "my", "there", "theres", "now", "also", "y", "pero", "ahora"]
)
"""After these a "no" that opens a text answers what was asked and denies nothing of what follows."""

_SMELT = frozenset(["gas_smell", "burning_smell", "smoke", "sparks", "fire", "shock", "carbon_monoxide", "hot_wiring"])
"""Hazards whose own words are not symptoms besides, also where they are denied."""

_LISTED = frozenset(["or", "nor", "and", "o", "ni", "y"])
_SENSED_ONLY = frozenset(["smell", "smells", "odor", "noise", "sound", "olor", "ruido", "olores", "ruidos"])
"""“no smell or smoke”: what stands before the "or" is denied with it."""


@dataclass(frozen=True, slots=True)
class Screened:
    """
    What the screen found; ``own_words`` are the places of all hazards, raised or denied: no symptoms besides; ``heard`` are
    the hazards of which any phrase was heard, also one that denies or excuses it.
    """

    raised: tuple[HazardFound, ...]
    denied: tuple[HazardFound, ...]
    own_words: tuple[tuple[int, int], ...]
    notes: tuple[str, ...]
    heard: frozenset[str] = frozenset()

    @property
    def codes(self) -> tuple[str, ...]:
        """The hazards raised."""
        return tuple(found.code for found in self.raised)

    @property
    def cleared(self) -> tuple[str, ...]:
        """The hazards denied."""
        return tuple(found.code for found in self.denied)


_ANYBODY_S = frozenset(["injury"])
"""Dangers that count whoever is told to have had them: “my neighbor cut two fingers in the disposal”."""

_HOME = frozenset(["house", "place", "apartment", "kitchen", "unit", "casa", "cocina", "apartamento", "departamento"])
_HERE = frozenset(["your", "our", "here", "aqui", "nuestra", "nuestro"])

NOTHING = Screened((), (), (), ())


def screen(
    lexicon: Lexicon, normal: Normal, typed: Sequence[Word], marks: Marks, clauses: Sequence[Clause]
) -> Screened:
    """
    The hazards of a text: ``normal`` has its words corrected, ``typed`` the words as they came.

    A negation counts only right before the hazard and inside its own sentence; "no longer" and "anymore" do not clear
    one (a person does); what is asked, supposed or hedged is raised all the same.
    """
    hits = _all_hits(lexicon, normal, typed)
    if not hits:
        return NOTHING
    innocent = [
        hit
        for hit in hits
        if hit.payload.role == "innocent"
        and not hit.negated
        and not _told_again(hit, normal.words)
        and not _breaks(hit, normal.words)
        and not _only_answers(hit.start, normal.words)
        and not _of_the_machine(hit, normal.words)
    ]
    raised: dict[str, HazardFound] = {}
    denied: dict[str, HazardFound] = {}
    spans: list[tuple[int, int]] = [
        (h.start, h.end)
        for h in hits
        if h.payload.role != "innocent"
        and (h.payload.code in _SMELT or (h.payload.code == "refrigerant_leak" and h.payload.role == "sign"))
    ]
    fillers = lexicon.words.get("hazard_fillers", {})
    passing = frozenset().union(*fillers.values()) if fillers else frozenset()
    signs = [
        hit
        for hit in hits
        if hit.payload.role == "sign"
        and not _is_innocent(hit, innocent)
        and not runs_over_a_no(hit, normal.words, DENYING, passing)
    ]
    sign_words = {
        at for hit in (*signs, *(h for h in hits if h.payload.role == "denial")) for at in range(hit.start, hit.end)
    }
    denials = [
        hit
        for hit in hits
        if hit.payload.role == "denial"
        and (not _softened(hit, normal.words) or settled_since(hit, normal.words, marks))
        and not _breaks(hit, normal.words)
        and not _only_answers(hit.start, normal.words)
        and not _of_the_machine(hit, normal.words)
    ]
    for hit in denials:
        denied.setdefault(hit.payload.code, _found(hit, normal))
    for hit in signs:
        code = hit.payload.code
        if any(d.payload.code == code and _covers(d, hit, normal.words) for d in denials):
            continue
        clause = _clause_of(clauses, hit.start)
        if _denied(hit, normal.words, marks, clause, passing, sign_words):
            denied.setdefault(code, _found(hit, normal))
            continue
        if not _not_ours_now(hit, normal.words, marks, clause):
            raised.setdefault(code, _found(hit, normal))
    notes = [f"“{h.words}” raises {h.code}: {h.rule}." for h in raised.values()]
    notes += [f"“{h.words}” denies {h.code}." for h in denied.values() if h.code not in raised]
    return Screened(
        tuple(raised.values()), tuple(h for h in denied.values() if h.code not in raised), tuple(spans), tuple(notes),
        frozenset(hit.payload.code for hit in hits),
    )  # fmt: skip


def _not_ours_now(hit: Hit, words: Sequence[Word], marks: Marks, clause: Clause | None) -> bool:
    """Whether *hit* is over, only supposed or somebody else's."""
    if clause is not None and (clause.past or (clause.others and not _ours_too(hit, words))):
        return True
    if settled_long_ago(hit, words, marks) or of_a_machine_gone(hit, words, marks) or only_supposed(hit, words):
        return True
    return in_another_house(hit, words, marks, clause)


def _hits(lexicon: Lexicon, words: Sequence[Word]) -> list[Hit]:
    """Hazard phrases over the whole text, sentence ends ignored: what people break off they still mean."""
    return [hit for language in LANGUAGES for hit in lexicon.hazard_trees[language].hits(words, joined=True)]


def _all_hits(lexicon: Lexicon, normal: Normal, typed: Sequence[Word]) -> list[Hit]:
    """Hazard phrases in the words as corrected and as typed, all placed among the corrected ones."""
    hits = _hits(lexicon, normal.words)
    if normal.corrected:
        placed = (_placed(hit, typed, normal.words) for hit in _hits(lexicon, typed))
        hits += [hit for hit in placed if hit not in hits]
    return hits


def _placed(hit: Hit, typed: Sequence[Word], words: Sequence[Word]) -> Hit:
    """*hit* in *typed*, where the same letters stand in *words*: a correction may part a word or join two."""
    if len(typed) == len(words):
        return hit
    first, last = typed[hit.start].start, typed[hit.end - 1].end
    inside = [at for at, word in enumerate(words) if word.start < last and first < word.end]
    if not inside:
        return Hit(0, len(words), hit.payload, 0)
    return Hit(inside[0], inside[-1] + 1, hit.payload, hit.skipped, hit.negated)


def _is_innocent(hit: Hit, innocent: Sequence[Hit]) -> bool:
    return any(
        i.payload.code == hit.payload.code and ((i.start <= hit.start and hit.end <= i.end) or _mostly(i, hit))
        for i in innocent
    )


def _mostly(innocent: Hit, hit: Hit) -> bool:
    """An innocent wording that overlaps a third of the sign, what it skips counted, and is longer explains it."""
    overlap = min(innocent.end, hit.end) - max(innocent.start, hit.start)
    return overlap > 0 and innocent.length > hit.length and overlap * 3 >= hit.end - hit.start


def _ours_too(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether what somebody else tells or had is our business all the same: “the neighbor said your kitchen smells”."""
    near = words[max(0, hit.start - 2) : hit.end]
    if hit.payload.code in _ANYBODY_S or any(word.form in _HERE for word in near):
        return True
    around = range(max(0, hit.start - 4), min(hit.end + 4, len(words) - 1))
    return any(words[at].form in ("my", "mi") and words[at + 1].form in _HOME for at in around)


def _covers(denial: Hit, sign: Hit, words: Sequence[Word]) -> bool:
    """
    Whether *denial* holds all of *sign*, or, beginning with its "no", the end: "the cooler is warm. no chemical smell".
    """
    if denial.start <= sign.start:
        return sign.end <= denial.end
    return denial.start < sign.end <= denial.end and words[denial.start].form in DENYING


def _clause_of(clauses: Sequence[Clause], at: int) -> Clause | None:
    return next((c for c in clauses if c.start <= at < c.end), None)


def _denied(
    hit: Hit, words: Sequence[Word], marks: Marks, clause: Clause | None, passing: frozenset[str], sign_words: set[int]
) -> bool:
    if clause is None or (_softened(hit, words) and not settled_since(hit, words, marks)):
        return False
    pseudo = marks.at("pseudo")
    at = hit.start - 1
    if words[hit.start].form in DENYING:
        return False
    while at >= clause.start and at >= hit.start - 7:
        form = words[at].form
        if words[at + 1].brk == 2:
            return False
        if form in DENYING:
            if any(a <= at < b for a, b in pseudo):
                return False
            stopped = any(at < a < hit.start for a, _ in marks.at("stoppers"))
            return not stopped and not _only_answers(at, words)
        listed = form in _LISTED and (at - 1 in sign_words or words[at - 1].form in _SENSED_ONLY)
        if form not in passing and at not in sign_words and not listed:
            return False
        at -= 1
    return False


def _only_answers(at: int, words: Sequence[Word]) -> bool:
    """“no and it smells”, “no, smells”: a "no" that opens the text is an answer."""
    after = words[at + 1] if at + 1 < len(words) else None
    return (
        words[at].form == "no"
        and words[at].brk == 2
        and after is not None
        and (after.brk >= 1 or after.form in _AFTER_ANSWER)
    )


_SETTLED = frozenset(["fixed", "repaired", "cleared", "sealed", "replaced"])
_AGAIN = frozenset(["again", "still", "back", "yet", "returned", "smell", "stink", "reek", "odor", "leak", "hiss"])


def _told_again(hit: Hit, words: Sequence[Word]) -> bool:
    """“the gas company fixed it but it smells again”: what a repair had settled is settled no longer."""
    if words[hit.end - 1].form not in _SETTLED:
        return False
    return any(word.form in _AGAIN or word.en in _AGAIN for word in words[hit.end :])


_SENSES = frozenset(["smell", "see", "hear", "feel", "tell", "notice", "find"])


def _of_the_machine(hit: Hit, words: Sequence[Word]) -> bool:
    """“wont start smells burnt”: that negation is the machine's."""
    first, after = words[hit.start], words[min(hit.start + 1, len(words) - 1)]
    return first.form in ("wont", "cant", "couldnt") and after.en not in _SENSES


def _breaks(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether a sentence ends inside *hit*: then it neither denies nor excuses anything ("no" + "smell gas")."""
    return any(word.brk == 2 for word in words[hit.start + 1 : hit.end])


def _softened(hit: Hit, words: Sequence[Word]) -> bool:
    """“anymore”, “no longer”, “ya no”: it was there; a person clears it."""
    first, last = max(0, hit.start - 3), hit.end + 3
    around = [w.form for w in words[first:last]]
    if any(w in ("anymore", "longer") for w in around) or ("any" in around and "more" in around):
        return True
    before = any(w.form == "ya" for w in words[first : hit.end])
    return before or (hit.end < len(words) and words[hit.end].form == "ya" and _ends(hit.end, words))


def _ends(at: int, words: Sequence[Word]) -> bool:
    """Whether the sentence ends with word *at*: “no huele ya”, not “no huele, ya me fijé”."""
    return words[at].brk == 0 and (at + 1 == len(words) or words[at + 1].brk > 0)


def _found(hit: Hit, normal: Normal) -> HazardFound:
    start, end = normal.words[hit.start].start, normal.words[hit.end - 1].end
    return HazardFound(hit.payload.code, normal.text[start:end], start, end, hit.payload.rule)
