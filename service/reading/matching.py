"""
Finding every phrase of a rulebook in a text at once: per language, a graph over word stems, with gaps.

Phrases share the plain words they begin with; from its first group or gap on a phrase has nodes of its own, one for each of its
words, so that building is linear in what is written and no phrase ever hears another's words.
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
    __slots__ = ("by_form", "by_stem", "ends", "gaps", "plain")

    def __init__(self) -> None:
        self.by_stem: dict[str, list[_Node]] = {}
        self.by_form: dict[str, list[_Node]] | None = None
        self.gaps: dict[int, _Node] | None = None
        self.ends: list[Any] | None = None
        self.plain: dict[tuple[str, bool], _Node] | None = None


_Front = list[tuple[_Node, int]]
"""Where the ways through a phrase stand: a node, and the reach of the gap that comes next."""


class PhraseTree:
    """All phrases of one language. Build with ``add``; ``hits`` finds them in the words of a text."""

    def __init__(self, language: str) -> None:
        self._root = _Node()
        self._spanish = language == "es"
        self._merged: dict[tuple[str, bool], list[_Node]] = {}
        self._ends: dict[str, list[_Node]] = {}
        self._keys: dict[str, str] = {}
        self.forms: set[str] = set()

    def add(self, phrases: Iterable[str], payload: Any) -> None:
        """Have every wording of *phrases* found as *payload*. Raises PhraseMistaken for a phrase out of notation."""
        self._merged.clear()
        for phrase in phrases:
            for node in self._ends_of(phrase):
                if node.ends is None:
                    node.ends = [payload]
                elif payload not in node.ends:
                    node.ends.append(payload)

    def _ends_of(self, phrase: str) -> list[_Node]:
        """Where the ways through *phrase* end; a phrase that several machines have is built once."""
        ends = self._ends.get(phrase)
        if ends is None:
            ways = self._follow(parse(phrase), [(self._root, 0)], beginning=True)
            ends = self._ends[phrase] = [node for node, _ in ways]
        return ends

    def _follow(self, phrase: Phrase, front: _Front, *, beginning: bool = False) -> _Front:
        """The ways through *phrase*; the plain words it begins with share the nodes of other phrases that begin so."""
        for part in phrase:
            if isinstance(part, Plain):
                front = self._shared_word(part, front[0][0]) if beginning else self._words((part,), front)
                continue
            beginning = False
            if isinstance(part, Gap):
                front = [(node, reach + MOST_SKIPPED) for node, reach in front]
            else:
                front = self._group(part, front)
        return front

    def _group(self, group: Group, front: _Front) -> _Front:
        """Options of one word lead to one node together; longer ones have their own."""
        ways = list(front) if group.optional else []
        words = [option[0] for option in group.options if len(option) == 1]
        single = [word for word in words if isinstance(word, Plain)]
        if single:
            ways += self._words(single, front)
        for option in group.options:
            if len(option) != 1 or not isinstance(option[0], Plain):
                ways += self._follow(option, front)
        return ways if len(ways) == 1 else list({(id(node), reach): (node, reach) for node, reach in ways}.values())

    def _key(self, word: Plain) -> str:
        form = word.form
        key = self._keys.get(form)
        if key is None:
            self.forms.add(form)
            key = self._keys[form] = stem_es(form) if self._spanish else stem_en(form)
        return form if word.exact else key

    def _shared_word(self, word: Plain, node: _Node) -> _Front:
        key = self._key(word)
        if node.plain is None:
            node.plain = {}
        following = node.plain.get((key, word.exact))
        if following is None:
            following = node.plain[key, word.exact] = _Node()
            _edges(node, exact=word.exact).setdefault(key, []).append(following)
        return [(following, 0)]

    def _words(self, words: Sequence[Plain], front: _Front) -> _Front:
        """One node of this phrase's own, behind every way that leads to one of *words*."""
        following = _Node()
        keys = [(self._key(word), word.exact) for word in words]
        for key, exact in keys if len(keys) == 1 else dict.fromkeys(keys):
            for node, reach in front:
                before = _behind(node, reach) if reach else node
                edges = _edges(before, exact=True) if exact else before.by_stem
                others = edges.get(key)
                if others is None:
                    edges[key] = [following]
                else:
                    others.append(following)
        return [(following, 0)]

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
        steps = MOST_STEPS
        for start, stem in enumerate(stems):
            firsts = self._beginning(stem, exact=False) + self._beginning(forms[start], exact=True)
            if firsts and steps > 0:
                steps -= _walk(firsts, start, text, found)
        return found

    def _beginning(self, key: str, *, exact: bool) -> list[_Node]:
        """Where phrases that begin with *key* go on, as one node: hundreds may begin with "not"."""
        kept = self._merged.get((key, exact))
        if kept is None:
            edges = self._root.by_form if exact else self._root.by_stem
            nodes = edges.get(key, []) if edges is not None else []
            if not nodes:
                return []
            kept = self._merged[key, exact] = [_merged(nodes)]
        return kept


class _Text(NamedTuple):
    """The words of one text as the walk needs them; ``negations``: how many stand before each place."""

    stems: list[str]
    forms: list[str]
    ends: list[bool]
    negations: list[int]


def _walk(firsts: Sequence[_Node], start: int, text: _Text, found: list[Hit]) -> int:
    """All phrases that go on from *firsts*; returns the steps it took."""
    stems, forms, ends, _ = text
    total, steps = len(stems), 0
    todo = [(first, start + 1, 0, 0) for first in firsts]
    while todo:
        node, at, skipped, negated = todo.pop()
        steps += 1
        if node.ends is not None:
            for payload in node.ends:
                found.append(Hit(start, at, payload, skipped, negated))
        if at >= total or ends[at]:
            continue
        for following in node.by_stem.get(stems[at], ()):
            todo.append((following, at + 1, skipped, negated))
        if node.by_form is not None:
            for following in node.by_form.get(forms[at], ()):
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
            behind = there + 1, skipped + there - at, negated + negations[there] - negations[at]
            for following in inner.by_stem.get(stems[there], ()):
                todo.append((following, *behind))
            if inner.by_form is not None:
                for following in inner.by_form.get(forms[there], ()):
                    todo.append((following, *behind))
    return steps


def _merged(nodes: Sequence[_Node]) -> _Node:
    """One node with all that follows *nodes* and ends in them; what lies behind it is theirs and stays as it is."""
    if len(nodes) == 1:
        return nodes[0]
    one = _Node()
    for node in nodes:
        for edges, exact in ((node.by_stem, False), (node.by_form or {}, True)):
            for key, following in edges.items():
                _edges(one, exact=exact).setdefault(key, []).extend(following)
        one.ends = [*(one.ends or ()), *node.ends] if node.ends is not None else one.ends
    reaches = {reach for node in nodes for reach in node.gaps or ()}
    if reaches:
        one.gaps = {reach: _merged([n.gaps[reach] for n in nodes if n.gaps and reach in n.gaps]) for reach in reaches}
    return one


def _behind(node: _Node, reach: int) -> _Node:
    """What holds the words behind a gap of *reach* after *node*."""
    if node.gaps is None:
        node.gaps = {}
    inner = node.gaps.get(reach)
    if inner is None:
        inner = node.gaps[reach] = _Node()
    return inner


def _edges(node: _Node, *, exact: bool) -> dict[str, list[_Node]]:
    if not exact:
        return node.by_stem
    if node.by_form is None:
        node.by_form = {}
    return node.by_form
