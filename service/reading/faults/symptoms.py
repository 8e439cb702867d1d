"""
From phrases to symptoms, denials and observations, each with its appliance, its score and the words that carried it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from service.reading.faults.breakers import lowered_by_hand, surely_by_hand
from service.reading.faults.limits import spilled
from service.reading.faults.polarity import Polarity
from service.reading.faults.stated import (
    Stated,
    Statements,
    best,
    but_denied_ones,
    each_once,
    is_hint_in,
    is_name,
    is_of_a_part,
    is_part_of_a_fault,
    is_piece_of,
    lies_in,
    seen_in,
    words_passed,
)
from service.reading.faults.whose import able_owner, is_said_of_another
from service.reading.machines.mentions import UNKNOWN, Mentions
from service.reading.model import Found, Theory
from service.reading.words.lexicon import Lexicon
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal

VAGUE = "vague"

MOST_OF_A_THEORY = 0.6
"""A symptom's words that are most of a theory's stand beside it ("something is stuck in the pump")."""

MOST_STATED = 60
"""Phrases of one text that are weighed against each other; 1,600 signs of ordinary complaint hold about 25."""

_BESIDES = frozenset(["noise", "odor"])
"""What may be told beside anything: “no gira y rechina”."""

_COMMON = {
    "washer": 1, "refrigerator": 1, "dryer": 2, "dishwasher": 1, "range": 2, "freezer": 3, "microwave": 4, "disposal": 5,
}  # fmt: skip
"""Which machine is meant more often when nothing tells: the order of a shop's jobs (common practice, no source)."""


@lru_cache(maxsize=1024)
def _commonest(appliances: frozenset[str]) -> int:
    return min((_COMMON.get(appliance, 9) for appliance in appliances), default=0)


class Judge:
    """Weighs the phrases of one text. ``order``: the place of each symptom code in the vocabulary, for ties."""

    def __init__(
        self, lexicon: Lexicon, normal: Normal, polarity: Polarity, mentions: Mentions, order: Mapping[str, int]
    ) -> None:
        self._lexicon, self._normal, self._polarity = lexicon, normal, polarity
        self._mentions = mentions
        self._order = order
        self._passed: frozenset[int] = frozenset()
        self._own_of: frozenset[tuple[str, int]] = frozenset()

    def statements(self, hits: Sequence[Hit], covered: Callable[[Hit], bool]) -> Statements:
        """Everything stated; ``covered`` says which phrases are a hazard's own words and so no symptom besides."""
        notes: list[str] = []
        stated: list[Stated] = []
        harmless = (h for h in hits if h.payload.kind == "symptom" and h.payload.role == "innocent")
        innocent = [(h.start, h.end, h.payload.code) for h in harmless]
        brought = spilled(self._normal.words)
        by_hand = lowered_by_hand(self._normal.words)
        innocent += [*by_hand, *brought]
        unsaid = [*by_hand, *brought] if by_hand and surely_by_hand(self._normal.words) else brought
        dismissed = {code for _, _, code in unsaid}
        names = [(m.start, m.end) for m in self._mentions.found if not m.implied]
        self._passed = words_passed(hits, names)
        fits = self._mentions.possible()
        self._own_of = frozenset((a, hit.start) for hit in hits if hit.payload.own for a in hit.payload.appliances)
        for hit in each_once(hits):
            if hit.payload.role == "innocent" or not fits(hit) or is_name(hit, names, self._normal.words):
                continue
            if innocent and any(a < hit.end and hit.start < b and code == hit.payload.code for a, b, code in innocent):
                continue
            if not covered(hit):
                found = self._state(hit, notes, dismissed) if len(stated) < MOST_STATED else None
                if found is not None:
                    stated.append(found)
                    stated += self._shared(found, hit)
        theories = self._theories(hits, covered)
        stated = [s for s in stated if not self._only_theory(s, theories)]
        stated = self._settle([s for s in stated if not is_part_of_a_fault(s, stated, self._normal.words)])
        stated += self._left_vague(stated, theories)
        present = [s for s in stated if s.present and s.observation is None]
        gone = [s for s in stated if not s.present and s.observation is None]
        present = but_denied_ones(present, gone, self._normal.words)
        heard = {(s.found.appliance, s.found.code) for s in present}
        for s in [*present, *(s for s in gone if (s.found.appliance, s.found.code) not in heard)]:
            notes.append(f"“{s.found.words}” is {s.found.code} of {s.found.appliance} by {s.found.rule}: {s.because}.")
        return Statements(
            symptoms=best(present),
            denied=tuple(f for f in best(gone) if (f.appliance, f.code) not in heard and f.code != VAGUE),
            observations=seen_in(stated),
            theories=tuple(theories),
            notes=tuple(notes),
            dismissed=frozenset(dismissed),
            excused=frozenset([code for _, _, code in innocent]),
        )

    def _state(self, hit: Hit, notes: list[str], dismissed: set[str]) -> Stated | None:
        meaning = hit.payload
        clause = self._polarity.clause(hit.start)
        owner = self._mentions.owner(hit, clause)
        if meaning.role == "thing":
            owner = self._mentions.named_before(hit) or owner
        owner = able_owner(owner, hit, self._mentions, self._lexicon.codes)
        own_codes = self._lexicon.codes.get(owner or "")
        if owner is None or (own_codes is not None and meaning.kind == "symptom" and meaning.code not in own_codes):
            return None
        codes, own_of = self._lexicon.codes, self._own_of
        if meaning.kind == "symptom" and is_said_of_another(owner, hit, clause, self._mentions, codes, own_of):
            return None
        if meaning.role == "thing":
            judged = self._polarity.judge_thing(hit, self._passed)
        else:
            judged = self._polarity.judge(hit, function=meaning.role == "function")
        words = self._words(hit)
        if judged.verdict == "nothing":
            if meaning.role not in ("function", "thing"):
                dismissed.add(meaning.code)
                notes.append(f"“{words}” ({meaning.code}) counts for nothing: {judged.because}.")
            return None
        score = self._score(hit, owner, weak=judged.weak)
        found = Found(owner, meaning.code, score, words, *self._span(hit), rule=meaning.rule)
        observation = meaning.role if meaning.kind == "observation" else None
        commoner = _commonest(meaning.appliances)
        present, because = judged.verdict == "present", judged.because
        works = meaning.role in ("function", "thing") and meaning.kind == "symptom" and not present
        part = meaning.role == "thing"
        return Stated(found, present, hit.start, hit.end, meaning.own, observation, because, commoner, works, part)

    def _shared(self, stated: Stated, hit: Hit) -> list[Stated]:
        """“washer and dryer both dead”: what is said after two machines named together is said of both."""
        others = self._mentions.together(stated.found.appliance, hit, self._normal.words)
        return [stated._replace(found=replace(stated.found, appliance=other)) for other in others]

    def _score(self, hit: Hit, owner: str, *, weak: bool) -> float:
        score = 0.95 if hit.payload.own else 0.9
        score -= 0.1 if owner == UNKNOWN else 0.0
        score -= 0.1 if weak else 0.0
        score -= 0.03 * hit.skipped
        if self._normal.corrected and any(w.was for w in self._normal.words[hit.start : hit.end]):
            score -= 0.1
        return round(max(score, 0.3), 2)

    def _settle(self, stated: list[Stated]) -> list[Stated]:
        """Longer wordings replace shorter ones inside them; particular codes replace general ones."""
        if len(stated) < 2:
            return stated
        stated = [s for s in stated if s.found.appliance != UNKNOWN or not any(is_piece_of(s, t) for t in stated)]
        of_machine: dict[str, list[Stated]] = {}
        for s in stated:
            of_machine.setdefault(s.found.appliance, []).append(s)
        kept = [s for s in stated if not any(self._covers(other, s) for other in of_machine[s.found.appliance])]
        return self._particular(kept)

    def _covers(self, other: Stated, s: Stated) -> bool:
        """Whether *other*, of the same machine, says more than *s*."""
        if other is s:
            return False
        if other.found.code == s.found.code:
            return other.works and s.present and lies_in(s, other)
        if (other.works and s.works and lies_in(other, s)) or is_hint_in(other, s):
            return False
        if (
            s.found.appliance == UNKNOWN
            and other.commoner < s.commoner
            and other.first < s.last
            and s.first < other.last
        ):
            return True
        if (other.observation is None) != (s.observation is None) or s.observation is not None:
            return False
        speaks = other.own and not s.own and (other.present or not s.present) and not (s.works and other.present)
        if is_hint_in(s, other) or (speaks and self._speaks_alone(other, s)):
            return True
        if s.own and not other.own:
            return False
        inside = other.first <= s.first and s.last <= other.last
        longer = other.last - other.first > s.last - s.first
        if inside and longer:
            return not (s.works and other.present)
        if not inside or s.observation is not None:
            return False
        if other.own != s.own:
            return other.own
        return self._order.get(other.found.code, 99) < self._order.get(s.found.code, 99) and s.found.code != VAGUE

    def _replaced_by(self, s: Stated, stated: Sequence[Stated]) -> set[str]:
        """The more general codes that *s* replaces; by an appliance's own rules only those said in the same clause."""
        appliance, code = s.found.appliance, s.found.code
        over = self._lexicon.over.get((appliance, code), frozenset())
        if appliance not in self._lexicon.codes:
            over |= self._lexicon.over.get(("", code), frozenset())
        if appliance == UNKNOWN:
            over = over.union(*(codes for (_, key), codes in self._lexicon.over.items() if key == code))
        clause = self._polarity.clause(s.first) if appliance in self._lexicon.codes else None
        return {
            t.found.code
            for t in stated
            if t.found.code in over and (clause is None or self._polarity.clause(t.first) is clause)
        }

    def _speaks_alone(self, own: Stated, general: Stated) -> bool:
        """
        An appliance's own rules speak alone in a clause where they heard something, and wherever both heard the same
        words.
        """
        if own.first < general.last and general.first < own.last:
            more = lies_in(own, general) and self._polarity.word(general.first) == "no"  # “no agarra nada de calor”
            return own.found.code != VAGUE or not (more or is_of_a_part(general))
        if general.part or self._polarity.clause(own.first) is not self._polarity.clause(general.first):
            return False
        if general.found.code in _BESIDES and any(
            self._polarity.word(at) == "y" for at in range(own.last, general.first)
        ):
            return False
        return own.present and general.present and own.observation is None and own.found.code != VAGUE

    def _particular(self, stated: list[Stated]) -> list[Stated]:
        present = [(s.found.appliance, s.found.code) for s in stated if s.present and s.observation is None]
        beaten = {(a, VAGUE) for a, code in present if code != VAGUE}
        named = {a for a, code in present if code != VAGUE}
        for s in stated:
            if s.present and s.observation is None:
                beaten |= {(s.found.appliance, code) for code in self._replaced_by(s, stated)}
        if named and (UNKNOWN, VAGUE) in present:
            beaten.add((UNKNOWN, VAGUE))
        return [
            s
            for s in stated
            if s.observation is not None or not s.present or (s.found.appliance, s.found.code) not in beaten
        ]

    def _theories(self, hits: Sequence[Hit], covered: Callable[[Hit], bool]) -> list[Theory]:
        """
        What the customer takes for the cause; one that names a cause of the rules stands before one that only blames
        a part.
        """
        found: dict[str, Theory] = {}
        for hit in hits:
            told = hit.payload.kind == "theory" or (hit.payload.code == "theory" and hit.payload.role == "sign")
            if not told or covered(hit) or self._polarity.clause(hit.start).if_:
                continue
            if self._polarity.judge(hit, function=False).verdict == "denied":
                continue
            owner = self._mentions.owner(hit, self._polarity.clause(hit.start))
            if owner is not None:
                cause = hit.payload.code if hit.payload.kind == "theory" else None
                found.setdefault(cause or "", Theory(owner, cause, self._words(hit)))
        blamed = found.pop("", None) if len(found) > 1 else None
        return [replace(t, words=blamed.words) if blamed and t.words in blamed.words else t for t in found.values()]

    def _only_theory(self, s: Stated, theories: Sequence[Theory]) -> bool:
        """Whether the words of a symptom are but a part of a theory ("the compressor is dead")."""
        return any(s.found.words in t.words and len(s.found.words) < MOST_OF_A_THEORY * len(t.words) for t in theories)

    def _left_vague(self, stated: Sequence[Stated], theories: Sequence[Theory]) -> list[Stated]:
        """A theory alone leaves the symptom vague."""
        told = any(s.present and s.observation is None for s in stated)
        if told or not theories:
            return []
        theory = theories[0]
        at = max(self._normal.text.find(theory.words), 0)
        found = Found(theory.appliance, VAGUE, 0.6, theory.words, at, at + len(theory.words), "theory")
        return [Stated(found, True, 0, 0, False, None, "a theory alone says nothing of what is wrong")]

    def _words(self, hit: Hit) -> str:
        start, end = self._span(hit)
        return self._normal.text[start:end]

    def _span(self, hit: Hit) -> tuple[int, int]:
        return self._normal.words[hit.start].start, self._normal.words[hit.end - 1].end
