"""
Finding every phrase of a rulebook in a text at once: per language, a graph over word stems, with gaps.

Phrases that begin alike share their nodes; the ways through a phrase's groups meet again in one node. A node where ways meet is
copied before another phrase changes it, so that no phrase ever hears another's words.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import accumulate
from typing import Any, NamedTuple

from service.reading.normalising import Word
from service.reading.notation import Gap, Group, Phrase, Plain, parse
from service.reading.stemming import stem_en, stem_es

MOST_SKIPPED = 3
"""Words that one ``*`` of the notation may stand for; two in a row stand for twice as many."""

MOST_ROUNDS = 12
"""Times a phrase is gone through when it is added; three have been enough for any so far."""

MOST_STEPS = 60_000
"""Steps taken in one text before the search ends: far above any language, a bound for what is none."""


NEGATIONS = frozenset(["no", "never", "without", "nor", "sin", "ni", "nunca", "tampoco"])
"""Words beside the negative auxiliaries that turn a phrase round when they stand in its gap."""


class Hit(NamedTuple):
    """
    A phrase found from word ``start`` up to, not including, ``end``; in its gaps ``skipped`` words, ``negated`` of
    them negations.
    """

    start: int
    end: int
    payload: Any
    skipped: int
    negated: int = 0

    @property
    def length(self) -> int:
        """How many words of the phrase itself were found."""
        return self.end - self.start - self.skipped


class _Node:
    __slots__ = ("by_form", "by_stem", "ends", "gaps", "shared")

    def __init__(self) -> None:
        self.by_stem: dict[str, _Node] = {}
        self.by_form: dict[str, _Node] | None = None
        self.gaps: dict[int, _Node] | None = None
        self.ends: list[Any] | None = None
        self.shared = False

    def copy(self) -> _Node:
        """A node like this one; what follows both is from now on shared."""
        twin = _Node()
        twin.by_stem = dict(self.by_stem)
        twin.by_form = dict(self.by_form) if self.by_form is not None else None
        twin.gaps = dict(self.gaps) if self.gaps is not None else None
        twin.ends = list(self.ends) if self.ends is not None else None
        for following in (twin.by_stem, twin.by_form or {}, twin.gaps or {}):
            for node in following.values():
                node.shared = True
        return twin


_Front = list[tuple[_Node, int]]
"""Where the ways through a phrase stand: a node, and the reach of the gap that comes next."""


class PhraseTree:
    """All phrases of one language. Build with ``add``; ``hits`` finds them in the words of a text."""

    def __init__(self, language: str) -> None:
        self._root = _Node()
        self._spanish = language == "es"
        self._copied = False
        self.forms: set[str] = set()

    def add(self, phrases: Iterable[str], payload: Any) -> None:
        """Have every wording of *phrases* found as *payload*. Raises PhraseMistaken for a phrase out of notation."""
        for phrase in phrases:
            for node in self._last_nodes(parse(phrase)):
                node.ends = node.ends if node.ends is not None else []
                if payload not in node.ends:
                    node.ends.append(payload)

    def _last_nodes(self, phrase: Phrase) -> list[_Node]:
        """
        The nodes where the ways through *phrase* end.

        Alternatives that begin with the same word may copy a node another of them already went through, which is then on no way
        any more; going through the phrase again mends that, until nothing is copied.
        """
        front: _Front = []
        for _ in range(MOST_ROUNDS):
            self._copied = False
            front = self._follow(phrase, [(self._root, 0)])
            if not self._copied:
                break
        return [node for node, _ in front]

    def _follow(self, phrase: Phrase, front: _Front) -> _Front:
        for part in phrase:
            if isinstance(part, Plain):
                front = self._word(part, front)
            elif isinstance(part, Gap):
                front = [(node, reach + MOST_SKIPPED) for node, reach in front]
            else:
                front = self._group(part, front)
        return front

    def _group(self, group: Group, front: _Front) -> _Front:
        ways = list(front) if group.optional else []
        for option in group.options:
            ways += self._follow(option, front)
        return list({(id(node), reach): (node, reach) for node, reach in ways}.values())

    def _word(self, word: Plain, front: _Front) -> _Front:
        self.forms.add(word.form)
        key = word.form if word.exact else stem_es(word.form) if self._spanish else stem_en(word.form)
        fresh: _Node | None = None
        after: dict[int, _Node] = {}
        for node, reach in front:
            holder = _edges(self._behind(node, reach) if reach else node, exact=word.exact)
            following = holder.get(key)
            if following is None:
                fresh, met = fresh or _Node(), fresh is not None
                fresh.shared = met
                following = holder[key] = fresh
            elif following.shared and following is not fresh:
                following = holder[key] = following.copy()
                self._copied = True
            after[id(following)] = following
        return [(node, 0) for node in after.values()]

    def _behind(self, node: _Node, reach: int) -> _Node:
        """The node behind a gap of *reach*, this node's own."""
        if node.gaps is None:
            node.gaps = {}
        inner = node.gaps.get(reach)
        if inner is None:
            inner = node.gaps[reach] = _Node()
        elif inner.shared:
            inner = node.gaps[reach] = inner.copy()
            self._copied = True
        return inner

    def hits(self, words: Sequence[Word], *, joined: bool = False) -> list[Hit]:
        """
        Every phrase found, in the order of their first word; none runs over the end of a sentence, unless *joined*.
        """
        stems = [word.es for word in words] if self._spanish else [word.en for word in words]
        forms = [word.form for word in words]
        ends = [False] * len(words) if joined else [word.brk == 2 for word in words]
        negations = list(accumulate((word.en == "not" or word.form in NEGATIONS for word in words), initial=0))
        text = _Text(stems, forms, ends, negations)
        found: list[Hit] = []
        root, steps = self._root, MOST_STEPS
        for start, stem in enumerate(stems):
            firsts = [root.by_stem.get(stem), root.by_form.get(forms[start]) if root.by_form is not None else None]
            for first in firsts:
                if first is not None and steps > 0:
                    steps -= _walk(first, start, text, found)
        return found


class _Text(NamedTuple):
    """The words of one text as the walk needs them; ``negations``: how many stand before each place."""

    stems: list[str]
    forms: list[str]
    ends: list[bool]
    negations: list[int]


def _walk(first: _Node, start: int, text: _Text, found: list[Hit]) -> int:
    """All phrases that go on from *first*; returns the steps it took."""
    stems, forms, ends, _ = text
    total, steps = len(stems), 0
    todo = [(first, start + 1, 0, 0)]
    while todo:
        node, at, skipped, negated = todo.pop()
        steps += 1
        if node.ends is not None:
            for payload in node.ends:
                found.append(Hit(start, at, payload, skipped, negated))
        if at >= total or ends[at]:
            continue
        following = node.by_stem.get(stems[at])
        if following is not None:
            todo.append((following, at + 1, skipped, negated))
        if node.by_form is not None:
            following = node.by_form.get(forms[at])
            if following is not None:
                todo.append((following, at + 1, skipped, negated))
        if node.gaps is not None:
            steps += _over_gaps(node.gaps, at, skipped, negated, text, todo)
    return steps


def _over_gaps(
    gaps: dict[int, _Node], at: int, skipped: int, negated: int, text: _Text, todo: list[tuple[_Node, int, int, int]]
) -> int:
    """Adds to *todo* where phrases go on behind their gaps; returns the steps it took."""
    stems, forms, ends, negations = text
    steps = 0
    for reach, inner in gaps.items():
        for there in range(at, min(at + reach + 1, len(stems))):
            if ends[there]:
                break
            steps += 1
            following = inner.by_stem.get(stems[there])
            if following is None and inner.by_form is not None:
                following = inner.by_form.get(forms[there])
            if following is not None:
                todo.append((following, there + 1, skipped + there - at, negated + negations[there] - negations[at]))
    return steps


def _edges(node: _Node, *, exact: bool) -> dict[str, _Node]:
    if not exact:
        return node.by_stem
    if node.by_form is None:
        node.by_form = {}
    return node.by_form
