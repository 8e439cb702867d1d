"""From phrases to symptoms, denials and observations, each with its appliance, its score and the words that carried it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from service.reading.lexicon import Lexicon
from service.reading.matching import Hit
from service.reading.mentions import UNKNOWN, Mentions
from service.reading.model import Found, Seen, Theory
from service.reading.normalising import Normal
from service.reading.polarity import Polarity

VAGUE = "vague"


@dataclass(frozen=True, slots=True)
class Stated:
    """One phrase judged: what was found, present or denied, the words it spans, and why."""

    found: Found
    present: bool
    first: int
    last: int
    own: bool
    observation: str | None
    because: str


@dataclass(frozen=True, slots=True)
class Statements:
    """What a text states of its machines."""

    symptoms: tuple[Found, ...]
    denied: tuple[Found, ...]
    observations: tuple[Seen, ...]
    theories: tuple[Theory, ...]
    notes: tuple[str, ...]


class Judge:
    """Weighs the phrases of one text. ``order`` is the vocabulary's order of symptom codes, for ties."""

    def __init__(
        self, lexicon: Lexicon, normal: Normal, polarity: Polarity, mentions: Mentions, order: Sequence[str]
    ) -> None:
        self._lexicon, self._normal, self._polarity = lexicon, normal, polarity
        self._mentions = mentions
        self._order = {code: number for number, code in enumerate(order)}

    def statements(self, hits: Sequence[Hit], covered: Callable[[Hit], bool]) -> Statements:
        """Everything stated; ``covered`` says which phrases are a hazard's own words and so no symptom besides."""
        notes: list[str] = []
        stated = []
        for hit in hits:
            if hit.payload.kind in ("symptom", "observation") and not covered(hit):
                found = self._state(hit, notes)
                if found is not None:
                    stated.append(found)
        stated = self._settle(stated)
        present = [s for s in stated if s.present and s.observation is None]
        gone = [s for s in stated if not s.present and s.observation is None]
        heard = {(s.found.appliance, s.found.code) for s in present}
        for s in [*present, *(s for s in gone if (s.found.appliance, s.found.code) not in heard)]:
            notes.append(f"“{s.found.words}” is {s.found.code} of {s.found.appliance} by {s.found.rule}: {s.because}.")
        return Statements(
            symptoms=_best(present),
            denied=tuple(f for f in _best(gone) if (f.appliance, f.code) not in heard and f.code != VAGUE),
            observations=_seen(stated),
            theories=self._theories(hits),
            notes=tuple(notes),
        )

    def _state(self, hit: Hit, notes: list[str]) -> Stated | None:
        meaning = hit.payload
        clause = self._polarity.clause(hit.start)
        owner = self._mentions.owner(hit, clause)
        if owner is None:
            return None
        judged = self._polarity.judge(hit, function=meaning.role == "function")
        words = self._words(hit)
        if judged.verdict == "nothing":
            if meaning.role != "function":
                notes.append(f"“{words}” ({meaning.code}) counts for nothing: {judged.because}.")
            return None
        score = self._score(hit, owner, weak=judged.weak)
        found = Found(owner, meaning.code, score, words, *self._span(hit), rule=meaning.rule)
        observation = meaning.role if meaning.kind == "observation" else None
        return Stated(found, judged.verdict == "present", hit.start, hit.end, meaning.own, observation, judged.because)

    def _score(self, hit: Hit, owner: str, *, weak: bool) -> float:
        score = 0.95 if hit.payload.own else 0.9
        score -= 0.1 if owner == UNKNOWN else 0.0
        score -= 0.1 if weak else 0.0
        score -= 0.03 * hit.skipped
        score -= 0.1 if any(w.was for w in self._normal.words[hit.start : hit.end]) else 0.0
        return round(max(score, 0.3), 2)

    def _settle(self, stated: list[Stated]) -> list[Stated]:
        """Longer wordings replace shorter ones inside them; particular codes replace general ones."""
        kept = [s for s in stated if not any(self._covers(other, s) for other in stated)]
        return self._particular(kept)

    def _covers(self, other: Stated, s: Stated) -> bool:
        if other is s or other.found.code == s.found.code or other.found.appliance != s.found.appliance:
            return False
        if (other.observation is None) != (s.observation is None):
            return False
        inside = other.first <= s.first and s.last <= other.last
        longer = other.last - other.first > s.last - s.first
        if inside and longer:
            return True
        if not inside or s.observation is not None:
            return False
        if other.own != s.own:
            return other.own
        return self._order.get(other.found.code, 99) < self._order.get(s.found.code, 99) and s.found.code != VAGUE

    def _particular(self, stated: list[Stated]) -> list[Stated]:
        present = [(s.found.appliance, s.found.code) for s in stated if s.present and s.observation is None]
        beaten = {(a, VAGUE) for a, code in present if code != VAGUE}
        named = {a for a, code in present if code != VAGUE}
        for appliance, code in present:
            over = self._lexicon.over.get((appliance, code), frozenset()) | self._lexicon.over.get(
                ("", code), frozenset()
            )
            if appliance == UNKNOWN:
                for (_, key_code), codes in self._lexicon.over.items():
                    over = over | codes if key_code == code else over
            beaten |= {(appliance, general) for general in over}
        if named and (UNKNOWN, VAGUE) in present:
            beaten.add((UNKNOWN, VAGUE))
        return [
            s
            for s in stated
            if s.observation is not None or not s.present or (s.found.appliance, s.found.code) not in beaten
        ]

    def _theories(self, hits: Sequence[Hit]) -> tuple[Theory, ...]:
        found: dict[str, Theory] = {}
        for hit in hits:
            if hit.payload.kind == "theory":
                owner = self._mentions.owner(hit, self._polarity.clause(hit.start))
                negated = self._polarity.judge(hit, function=False).verdict != "present"
                if owner is not None and not negated:
                    found.setdefault(hit.payload.code, Theory(owner, hit.payload.code, self._words(hit)))
        return tuple(found.values())

    def _words(self, hit: Hit) -> str:
        start, end = self._span(hit)
        return self._normal.text[start:end]

    def _span(self, hit: Hit) -> tuple[int, int]:
        return self._normal.words[hit.start].start, self._normal.words[hit.end - 1].end


def _best(stated: Sequence[Stated]) -> tuple[Found, ...]:
    """The best-scored finding per appliance and code, in the order of the text."""
    best: dict[tuple[str, str], Found] = {}
    for s in stated:
        key = (s.found.appliance, s.found.code)
        if key not in best or s.found.score > best[key].score:
            best[key] = s.found
    return tuple(sorted(best.values(), key=lambda f: f.start))


def _seen(stated: Sequence[Stated]) -> tuple[Seen, ...]:
    seen: dict[tuple[str, str], Seen] = {}
    for s in stated:
        if s.observation is None:
            continue
        if s.observation.startswith("="):
            if not s.present:
                continue
            value = s.observation[1:]
        else:
            value = "yes" if s.present else "no"
        seen.setdefault((s.found.appliance, s.found.code), Seen(s.found.appliance, s.found.code, value, s.found.words))
    return tuple(seen.values())


def with_appliance(found: Found, appliance: str) -> Found:
    """*found* as a finding about *appliance*."""
    return replace(found, appliance=appliance)
