"""
Finding every phrase of a rulebook in a text at once: per language, a graph over word stems, with gaps.

Phrases share the plain words they begin with; from its first group or gap on a phrase has nodes of its own, one for each of its
words, so that building is linear in what is written and no phrase ever hears another's words.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from typing import Any, NamedTuple

from service.reading.words.normalising import Word, Words
from service.reading.words.notation import Gap, Group, Phrase, Plain, parse
from service.reading.words.stemming import stem_en, stem_es

MOST_SKIPPED = 3
"""Words that one ``*`` of the notation may stand for; two in a row stand for twice as many."""

MOST_STEPS = 60_000
"""Steps taken in one text before the search ends: far above any language, a bound for what is none."""


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


_hit: Callable[[tuple[int, int, Any, int, int]], Hit] = partial(tuple.__new__, Hit)
"""A Hit of its parts; ``Hit._make`` takes several times as long, and a text has some forty."""


def by_kind(hits: Iterable[Hit]) -> Mapping[str, list[Hit]]:
    """*hits* by the kind of what they stand for, each kind in its order; empty for a kind that was not heard."""
    kinds: defaultdict[str, list[Hit]] = defaultdict(list)
    for hit in hits:
        kinds[hit.payload.kind].append(hit)
    return kinds


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
        self._exactly: dict[str, _Node] = {}
        self._stemmed: dict[str, _Node] = {}
        self._ends: dict[str, list[_Node]] = {}
        self._keys: dict[str, str] = {}
        self._groups: dict[int, tuple[Group, tuple[tuple[str, bool], ...], list[Phrase]]] = {}
        self.forms: set[str] = set()

    def add(self, phrases: Iterable[str], payload: Any) -> None:
        """Have every wording of *phrases* found as *payload*. Raises PhraseMistaken for a phrase out of notation."""
        self._exactly.clear()
        self._stemmed.clear()
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
                front = (
                    self._shared_word(part, front[0][0])
                    if beginning
                    else self._words([(self._key(part), part.exact)], front)
                )
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
        kept = self._groups.get(id(group))
        if kept is None:  # the group is kept too: its number is its own while it is there
            words = [option[0] for option in group.options if len(option) == 1 and isinstance(option[0], Plain)]
            keys = dict.fromkeys((self._key(word), word.exact) for word in words if isinstance(word, Plain))
            longer = [option for option in group.options if len(option) != 1 or not isinstance(option[0], Plain)]
            kept = self._groups[id(group)] = (group, tuple(keys), longer)
        _, single, longer = kept
        if single:
            ways += self._words(single, front)
        for option in longer:
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

    def _words(self, keys: Iterable[tuple[str, bool]], front: _Front) -> _Front:
        """One node of this phrase's own, behind every way that leads to one of the words that *keys* stand for."""
        following = _Node()
        for key, exact in keys:
            for node, reach in front:
                before = _behind(node, reach) if reach else node
                edges = _edges(before, exact=True) if exact else before.by_stem
                others = edges.get(key)
                if others is None:
                    edges[key] = [following]
                else:
                    others.append(following)
        return [(following, 0)]

    def may_hit(self, words: Words) -> bool:
        """Whether a phrase begins with a word of *words*: if not, nothing can be found."""
        keys, root = words.keys(), self._root
        stems = keys.spanish if self._spanish else keys.english
        return not (root.by_stem.keys().isdisjoint(stems) and (root.by_form or {}).keys().isdisjoint(keys.forms))

    def hits(self, words: Sequence[Word], *, joined: bool = False) -> list[Hit]:
        """
        Every phrase found, in the order of their first word; none runs over the end of a sentence, and no gap over a "but",
        unless *joined*.
        """
        words = words if isinstance(words, Words) else Words(words)
        if not self.may_hit(words):
            return []
        keys, by_form, by_stem = words.keys(), self._root.by_form or {}, self._root.by_stem
        stems = keys.spanish if self._spanish else keys.english
        begun: list[tuple[int, _Node]] = []
        for start, (form, stem) in enumerate(zip(keys.forms, stems, strict=True)):
            if form in by_form:
                begun.append((start, self._exactly.get(form) or self._beginning(form, exact=True)))
            if stem in by_stem:
                begun.append((start, self._stemmed.get(stem) or self._beginning(stem, exact=False)))
        nowhere = [False] * len(stems)
        ends, reached = (nowhere, [len(stems)] * len(stems)) if joined else (keys.ends, keys.reached)
        return _walk(begun, _Text(stems, keys.forms, ends, keys.negations, reached))

    def _beginning(self, key: str, *, exact: bool) -> _Node:
        """Where phrases that begin with *key* go on, as one node: hundreds may begin with "not"."""
        kept = self._exactly if exact else self._stemmed
        one = kept[key] = _merged(_edges(self._root, exact=exact)[key])
        return one


class _Text(NamedTuple):
    """
    The words of one text as the walk needs them; ``negations``: how many stand before each place; ``reached``: up to where a
    gap that begins there may reach.
    """

    stems: list[str]
    forms: list[str]
    ends: list[bool]
    negations: list[int]
    reached: list[int]


def _walk(begun: Sequence[tuple[int, _Node]], text: _Text) -> list[Hit]:
    """All phrases that go on from where one has *begun* with the word there."""
    stems, forms, ends, _, _ = text
    total, steps = len(stems), 0
    found: list[tuple[int, int, Any, int, int]] = []
    for start, first in begun:
        if steps >= MOST_STEPS:
            break
        todo = [(first, start + 1, 0, 0)]
        while todo:
            node, at, skipped, negated = todo.pop()
            steps += 1
            if node.ends is not None:
                for payload in node.ends:
                    found.append((start, at, payload, skipped, negated))
            if at >= total or ends[at]:
                continue
            nodes = node.by_stem.get(stems[at])
            if nodes is not None:
                for following in nodes:
                    todo.append((following, at + 1, skipped, negated))
            if node.by_form is not None:
                for following in node.by_form.get(forms[at], ()):
                    todo.append((following, at + 1, skipped, negated))
            if node.gaps is not None:
                steps += _over_gaps(node.gaps, at, skipped, negated, text, todo)
    return list(map(_hit, found))


def _over_gaps(
    gaps: dict[int, _Node], at: int, skipped: int, negated: int, text: _Text, todo: list[tuple[_Node, int, int, int]]
) -> int:
    """Adds to *todo* where phrases go on behind their gaps; returns the steps it took."""
    stems, forms, _, negations, reached = text
    steps = 0
    for reach, inner in gaps.items():
        by_stem, by_form = inner.by_stem, inner.by_form
        end = min(at + reach + 1, reached[at])
        steps += end - at
        if by_form is None and by_stem.keys().isdisjoint(stems[at:end]):
            continue
        for there in range(at, end):
            nodes = by_stem.get(stems[there])
            if nodes is not None:
                behind = there + 1, skipped + there - at, negated + negations[there] - negations[at]
                for following in nodes:
                    todo.append((following, *behind))
            if by_form is not None and forms[there] in by_form:
                behind = there + 1, skipped + there - at, negated + negations[there] - negations[at]
                for following in by_form[forms[there]]:
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
