"""What is stated in a text, as values: phrases judged, and what they come to together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from service.reading.machines.mentions import UNKNOWN
from service.reading.model import Found, Seen, Theory
from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word


class Stated(NamedTuple):
    """
    One phrase judged: what was found, present or denied, the words it spans, and why. works: a function that is said to work.
    part: what is told of a part that is named.
    """

    found: Found
    present: bool
    first: int
    last: int
    own: bool
    observation: str | None
    because: str
    commoner: int = 0
    works: bool = False
    part: bool = False


@dataclass(frozen=True, slots=True)
class Statements:
    """
    What a text states of its machines. dismissed: codes whose words were heard, and count for nothing. excused: codes of which
    something was heard that only sounds like them.
    """

    symptoms: tuple[Found, ...]
    denied: tuple[Found, ...]
    observations: tuple[Seen, ...]
    theories: tuple[Theory, ...]
    notes: tuple[str, ...]
    dismissed: frozenset[str] = frozenset()
    excused: frozenset[str] = frozenset()


def best(stated: Sequence[Stated]) -> tuple[Found, ...]:
    """The best-scored finding per appliance and code, of equal ones that with the longest wording, in the order of the text."""
    best: dict[tuple[str, str], Found] = {}
    for s in stated:
        key = (s.found.appliance, s.found.code)
        known = best.get(key)
        if known is None or (s.found.score, len(s.found.words)) > (known.score, len(known.words)):
            best[key] = s.found
    return tuple(sorted(best.values(), key=lambda f: f.start))


def seen_in(stated: Sequence[Stated]) -> tuple[Seen, ...]:
    """The observations told, the longest wording of each first."""
    seen: dict[tuple[str, str], Seen] = {}
    for s in sorted(stated, key=lambda s: s.first - s.last):
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


LONGER = 3
"""Words of a general wording of a part that says more than an own one of the whole in it: “prende” in “no prende la luz”."""

_OF_THE_WHOLE = frozenset(["dead", "no_start", "vague"])
_OF_A_PART = frozenset(["light_out", "fan_dead", "burner_dead", "controls_fault", "turntable_stuck"])


def is_hint_in(s: Stated, other: Stated) -> bool:
    """Whether *s*, of an appliance's own rules, is but a word or two of the longer general wording *other*."""
    return (
        s.own
        and not other.own
        and (s.found.code in _OF_THE_WHOLE or (s.works and s.found.code == "no_heat"))
        and other.found.code in _OF_A_PART
        and s.present == other.present
        and s.last - s.first < LONGER <= other.last - other.first
        and lies_in(s, other)
    )


def is_of_a_part(s: Stated) -> bool:
    """Whether *s* tells of a part that fails: “the right rear quits on me” says more than that something quits."""
    return s.present and s.found.code in _OF_A_PART and s.last - s.first > LONGER


def is_piece_of(s: Stated, other: Stated) -> bool:
    """Whether *s* is heard inside the longer words of a known machine's: “turn” in “wont turn the plate”."""
    if other.found.appliance == UNKNOWN or other.present != s.present or other.observation != s.observation:
        return False
    return lies_in(s, other)


def lies_in(s: Stated, other: Stated) -> bool:
    """Whether the words of *s* are some of those of *other*, and not all."""
    return other.first <= s.first and s.last <= other.last and other.last - other.first > s.last - s.first


def is_part_of_a_fault(s: Stated, stated: Sequence[Stated], words: Sequence[Word]) -> bool:
    """
    Whether a function said to work is only part of a fault's words: “freezing everything”, not “turns on but wont start”.
    """
    return s.works and any(
        t.present
        and t.observation is None
        and t.found.appliance == s.found.appliance
        and lies_in(s, t)
        and not any(w.brk or w.form in CONTRASTS for w in words[t.first + 1 : t.last])
        for t in stated
    )


def inside(hit: Hit, places: Sequence[tuple[int, int]]) -> bool:
    """Whether *hit* lies in one of *places*."""
    return any(start <= hit.start and hit.end <= end for start, end in places) if places else False


def is_name(hit: Hit, names: Sequence[tuple[int, int]], words: Sequence[Word]) -> bool:
    """
    Whether *hit* lies in a machine's name; a part may be named as one is: the freezer of a refrigerator, the fan of a hood.
    """
    if hit.payload.role != "thing":
        return inside(hit, names)
    within = any(start <= hit.start and hit.end < end for start, end in names)
    return within and words[hit.end].form not in _OF


_OF = frozenset(["of", "in", "on", "de", "del", "en"])


def words_passed(hits: Sequence[Hit], names: Sequence[tuple[int, int]]) -> frozenset[int]:
    """The words of parts and of machines' names: several may share what is said."""
    parts = [(hit.start, hit.end) for hit in hits if hit.payload.role == "thing"]
    return frozenset(at for start, end in [*parts, *names] for at in range(start, end)) if parts else frozenset()


def each_once(hits: Sequence[Hit]) -> list[Hit]:
    """The phrases of symptoms and observations, each place and meaning once, the one that skips least."""
    found: dict[tuple[int, int, int], Hit] = {}
    for hit in hits:
        if hit.payload.kind in ("symptom", "observation"):
            key = (hit.start, hit.end, id(hit.payload))
            known = found.get(key)
            if known is None or hit.skipped < known.skipped:
                found[key] = hit
    return list(found.values())


def but_denied_ones(present: Sequence[Stated], gone: Sequence[Stated], words: Sequence[Word]) -> list[Stated]:
    """
    *present* without what is only asked and then denied, or was so once: “she told you it leaks? it does not leak”, “it was
    leaking, no longer leaking”.
    """
    return [
        s
        for s in present
        if not (words[s.first].asks or _was(s, words))
        or not any(
            g.found.code == s.found.code
            and g.first >= s.last
            and not words[g.first].asks
            and (words[s.first].asks or _no_longer(g, words))
            for g in gone
        )
    ]


def _was(s: Stated, words: Sequence[Word]) -> bool:
    """“was leaking”, “goteaba”."""
    before = words[s.first - 1].form if s.first else ""
    return before in ("was", "were", "estaba", "estaban") or words[s.first].form.endswith(("aba", "aban"))


def _no_longer(g: Stated, words: Sequence[Word]) -> bool:
    """“no longer leaking”, “it doesn't leak anymore”, “ya no gotea”."""
    around = [word.form for word in words[max(0, g.first - _NEAR) : g.last + _NEAR]]
    return not _ANY_LONGER.isdisjoint(around) or ("ya" in around and "no" in around)


_NEAR = 3
_ANY_LONGER = frozenset(("longer", "anymore"))
