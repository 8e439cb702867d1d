"""Which parts to carry: the set that saves most second trips for what carrying costs, within the van's room. Exact."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

JOINED_AT_MOST = 15
"""Parts that only help together are tried in every subset; of more than so many the likeliest are."""


@dataclass(frozen=True, slots=True)
class Carried:
    """One part's cost of being on board, in cents, and its room in litres."""

    cents: float
    litres: float


Needs = Sequence[tuple[float, frozenset[str]]]
"""Chance of each cause and all the parts that mend it."""


def best_load(needs: Needs, parts: Mapping[str, Carried], second_trip_cents: float, litres: float) -> frozenset[str]:
    """
    The parts worth carrying: most expected saving, each cause's parts counting only when all are on board.

    Exact for any number of parts: what can never pay is left out, parts needed together are tried in every subset, and
    independent groups are joined by the best saving for each room taken. Of equal savings the fewer litres win.
    """
    merged = _merged(needs, parts)
    wanted: dict[str, float] = {}
    for need, chance in merged.items():
        wanted |= {part: wanted.get(part, 0.0) + chance for part in need}
    useful = {part for part, chance in wanted.items() if chance * second_trip_cents > parts[part].cents}
    kept = {need: chance for need, chance in merged.items() if need <= useful}
    groups = [_options(group, kept, parts, second_trip_cents, litres) for group in _joined(kept)]
    if sum(group[-1][0] for group in groups) <= litres:
        return frozenset().union(*(group[-1][2] for group in groups))
    front: list[tuple[float, float, frozenset[str]]] = [(0.0, 0.0, frozenset())]
    for options in groups:
        both = [
            (room + more, saving + gain, load | added) for room, saving, load in front for more, gain, added in options
        ]
        front = _undominated(one for one in both if one[0] <= litres + 1e-9)
    return max(front, key=lambda one: (round(one[1], 9), -one[0], sorted(one[2])))[2]


def saving_cents(load: frozenset[str], needs: Needs, parts: Mapping[str, Carried], second_trip_cents: float) -> float:
    """Expected cents saved against carrying nothing."""
    helped = sum(chance for chance, need in needs if need and need <= load)
    return second_trip_cents * helped - sum(parts[part].cents for part in load)


def _merged(needs: Needs, parts: Mapping[str, Carried]) -> dict[frozenset[str], float]:
    """Chance of each set of parts; causes that need none, or a part nobody lists, cannot be helped by loading."""
    merged: dict[frozenset[str], float] = {}
    for chance, need in needs:
        if need and need <= parts.keys():
            merged[need] = merged.get(need, 0.0) + chance
    return merged


def _joined(kept: Mapping[frozenset[str], float]) -> list[list[str]]:
    """Parts in groups that share no cause with another group, in a stable order."""
    groups: list[set[str]] = []
    for need in kept:
        touching = [group for group in groups if group & need]
        groups = [group for group in groups if not group & need]
        groups.append(set(need).union(*touching))
    found = []
    for group in groups:
        ranked = sorted(group, key=lambda part: (-sum(c for n, c in kept.items() if part in n), part))
        found.append(sorted(ranked[:JOINED_AT_MOST]))
    return sorted(found)


def _options(
    group: Sequence[str],
    kept: Mapping[frozenset[str], float],
    parts: Mapping[str, Carried],
    second_trip_cents: float,
    litres: float,
) -> list[tuple[float, float, frozenset[str]]]:
    own = [(chance, need) for need, chance in kept.items() if not need.isdisjoint(group)]
    found = []
    for size in range(len(group) + 1):
        for chosen in combinations(group, size):
            room = sum(parts[part].litres for part in chosen)
            if room <= litres + 1e-9:
                load = frozenset(chosen)
                found.append((room, saving_cents(load, own, parts, second_trip_cents), load))
    return _undominated(found)


def _undominated(
    options: Iterable[tuple[float, float, frozenset[str]]],
) -> list[tuple[float, float, frozenset[str]]]:
    """The options of which no other saves as much in as little room, by room; the last saves most."""
    best: list[tuple[float, float, frozenset[str]]] = []
    for option in sorted(options, key=lambda one: (one[0], -one[1], sorted(one[2]))):
        if not best or option[1] > best[-1][1] + 1e-12:
            best.append(option)
    return best
