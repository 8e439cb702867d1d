"""
How much of the rules their examples hold in place: rules are taken out or exchanged, and the examples must notice.

``python -m tests.rulebook.mutations`` tries every one; ``--sample 200`` so many of each kind; ``--survivors`` names those
that no example noticed. A word of a phrase that was taken out stays a known word to the speller: that makes the share
caught a little smaller than it is, never larger.
"""

from __future__ import annotations

import argparse
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from pathlib import Path
from random import Random
from typing import Any, ClassVar
from unittest.mock import patch

from service.reading.reader import Reader
from service.reading.words import lexicon as lexicons
from service.reading.words.lexicon import Meaning
from service.reading.words.matching import Hit, PhraseTree
from service.rulebook.examples import Placed, every_example
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.workshop.examples import missed_by

KINDS = {
    "phrase": "a phrase taken out",
    "symptom": "a symptom's own phrases all taken out, those of talk left",
    "everywhere": "a symptom's phrases taken out everywhere",
    "swap": "two symptoms of a machine exchanged",
    "hazard": "a hazard's phrases of one language taken out",
    "not-phrase": "the wordings that do not count taken out",
    "denial": "the wordings that deny a hazard taken out",
    "talk": "a rule of talk taken out",
}


@dataclass(frozen=True, slots=True)
class Mutation:
    """A change of the rules. means: what its phrases stand for; only examples that hear one of them can notice."""

    kind: str
    name: str
    means: frozenset[Meaning]
    change: Callable[[], Callable[[], None]]
    """Makes the change; what it gives takes it back."""


class Tree(PhraseTree):
    """A phrase tree in which phrases can be taken out and meanings exchanged, and that notes what it heard."""

    every: ClassVar[list[Tree]] = []
    translate: ClassVar[Callable[[Meaning, str], Meaning | None] | None] = None
    heard: ClassVar[set[Meaning] | None] = None

    def __init__(self, language: str) -> None:
        super().__init__(language)
        self.language = language
        self.phrases: dict[tuple[str, Meaning], list[Any]] = {}
        Tree.every.append(self)

    def add(self, phrases: Iterable[str], payload: Any) -> None:
        for phrase in phrases:
            _forget(self)
            ends = []
            for node in self._ends_of(phrase):
                node.ends = node.ends if node.ends is not None else []
                if payload not in node.ends:
                    node.ends.append(payload)
                    ends.append(node)
            if ends:
                self.phrases[phrase, payload] = ends

    def hits(self, words: Sequence[Any], *, joined: bool = False) -> list[Hit]:
        found = super().hits(words, joined=joined)
        if Tree.heard is not None:
            Tree.heard.update(hit.payload for hit in found)
        if Tree.translate is None:
            return found
        told = [(hit, Tree.translate(hit.payload, self.language)) for hit in found]
        return [hit._replace(payload=meaning) for hit, meaning in told if meaning is not None]


class Laboratory:
    """A reader whose rules can be changed in place, and for each meaning the examples that hear it."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.rulebook = rulebook
        Tree.every, Tree.translate, Tree.heard = [], None, None
        with (
            patch.object(lexicons, "PhraseTree", Tree),
            # Phrases are what is tried here: a second opinion, learned from the examples, would stand in for what is taken out.
            patch("service.reading.opinion.told_texts.taught_symptoms", lambda _: ()),
            patch("service.reading.opinion.told_texts.taught_dangers", lambda _: ()),
            patch("service.reading.opinion.told_texts.taught_denials", lambda _: ()),
        ):
            self.reader = Reader(rulebook)
        self.trees = tuple(Tree.every)
        self.hearing: dict[Meaning, list[Placed]] = defaultdict(list)
        for placed in every_example(rulebook):
            Tree.heard = set()
            if missed_by(self.reader, rulebook, placed) is None:  # one that is missed already can judge nothing
                for meaning in Tree.heard:
                    self.hearing[meaning].append(placed)
        Tree.heard = None

    def mutations(self) -> dict[str, list[Mutation]]:
        """All of them, by kind."""
        found: dict[str, list[Mutation]] = {kind: [] for kind in KINDS}
        for mutation in (*self._phrases(), *self._whole(), *self._swaps()):
            found[mutation.kind].append(mutation)
        return found

    def caught(self, mutation: Mutation) -> bool:
        """Whether an example notices."""
        undo = mutation.change()
        try:
            examples = {id(p): p for meaning in mutation.means for p in self.hearing.get(meaning, ())}
            return any(missed_by(self.reader, self.rulebook, placed) for placed in examples.values())
        finally:
            undo()

    def _meanings(self) -> frozenset[Meaning]:
        return frozenset(meaning for tree in self.trees for _, meaning in tree.phrases)

    def _phrases(self) -> Iterator[Mutation]:
        """Each phrase of a symptom, observation, hazard, urgency or rule of talk, out of every tree that holds it."""
        places: dict[tuple[str, str, Meaning], list[Tree]] = defaultdict(list)
        for tree in self.trees:
            for phrase, meaning in tree.phrases:
                if meaning.rule:
                    places[tree.language, phrase, meaning].append(tree)
        for (language, phrase, meaning), trees in places.items():
            name = f"{meaning.rule} {meaning.role} {language}: {phrase}"
            yield Mutation(
                "phrase", name, frozenset([meaning]), lambda p=phrase, m=meaning, t=trees: _take_out(p, m, t)
            )

    def _whole(self) -> Iterator[Mutation]:
        rules: dict[tuple[str, str, str], set[Meaning]] = defaultdict(set)
        for meaning in self._meanings():
            if meaning.role == "innocent":
                rules["not-phrase", meaning.rule, ""].add(meaning)
            elif meaning.role == "denial":
                rules["denial", meaning.rule, ""].add(meaning)
            elif meaning.kind == "hazard":
                for language in lexicons.LANGUAGES:
                    rules["hazard", meaning.rule, language].add(meaning)
            elif meaning.kind in ("symptom", "talk"):
                own = meaning.kind == "symptom" and meaning.own
                rules["symptom" if own else "talk", meaning.rule, ""].add(meaning)
                for appliance in meaning.appliances or self.rulebook.appliances:
                    if meaning.kind == "symptom" and meaning.code in self._symptoms(appliance):
                        rules["everywhere", f"{appliance}.{meaning.code}", ""].add(meaning)
        for (kind, rule, language), meanings in sorted(rules.items()):
            gone = frozenset(meanings)
            yield Mutation(kind, f"{rule} {language}".strip(), gone, lambda g=gone, s=language: _deaf_to(g, s))

    def _symptoms(self, appliance: str) -> Mapping[str, object]:
        rules = self.rulebook.appliances.get(appliance)
        return rules.symptoms if rules else {}

    def _swaps(self) -> Iterator[Mutation]:
        by_rule: dict[str, dict[str, Meaning]] = defaultdict(dict)
        for meaning in self._meanings():
            if meaning.kind == "symptom" and meaning.own:
                by_rule[meaning.rule][meaning.role] = meaning
        for one, other in combinations(sorted(by_rule), 2):
            if one.split(".")[0] == other.split(".")[0]:
                means = frozenset([*by_rule[one].values(), *by_rule[other].values()])
                yield Mutation("swap", f"{one} and {other}", means, lambda a=one, b=other: _exchange(a, b))


def _forget(tree: Tree) -> None:
    """Let go of beginnings that were put together before."""
    tree._exactly.clear()
    tree._stemmed.clear()


def _take_out(phrase: str, meaning: Meaning, trees: Sequence[Tree]) -> Callable[[], None]:
    nodes = [node for tree in trees for node in tree.phrases[phrase, meaning]]
    for node in nodes:
        node.ends.remove(meaning)
    for tree in trees:
        _forget(tree)

    def put_back() -> None:
        for node in nodes:
            node.ends.append(meaning)
        for tree in trees:
            _forget(tree)

    return put_back


def _deaf_to(gone: frozenset[Meaning], language: str) -> Callable[[], None]:
    def translate(meaning: Meaning, heard_in: str) -> Meaning | None:
        return None if meaning in gone and language in ("", heard_in) else meaning

    return _translating(translate)


def _exchange(one: str, other: str) -> Callable[[], None]:
    def translate(meaning: Meaning, _: str) -> Meaning:
        if meaning.rule not in (one, other):
            return meaning
        instead = other if meaning.rule == one else one
        return replace(meaning, code=instead.split(".")[1], rule=instead)

    return _translating(translate)


def _translating(translate: Callable[[Meaning, str], Meaning | None]) -> Callable[[], None]:
    Tree.translate = staticmethod(translate)

    def undo() -> None:
        Tree.translate = None

    return undo


def sampled(every: dict[str, list[Mutation]], most: int | None, seed: int) -> dict[str, list[Mutation]]:
    """At most *most* of each kind, drawn with *seed*; all of them for None."""
    rng = Random(f"mutations {seed}")
    return {kind: rng.sample(one, min(most or len(one), len(one))) for kind, one in every.items()}


def main() -> None:
    """Try them and print the share caught of each kind."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--rules", type=Path, default=Path("rules"))
    options.add_argument("--shop", default="demo")
    options.add_argument("--sample", type=int, help="so many of each kind; all when left out")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--survivors", action="store_true", help="name those that no example noticed")
    given = options.parse_args()
    laboratory = Laboratory(load_rulebook(given.rules, given.shop))
    print("| what is done to the rules | tried | noticed |\n| --- | ---: | ---: |")
    survivors = []
    for kind, mutations in sampled(laboratory.mutations(), given.sample, given.seed).items():
        missed = [mutation for mutation in mutations if not laboratory.caught(mutation)]
        survivors += missed
        if mutations:
            share = 1 - len(missed) / len(mutations)
            print(f"| {KINDS[kind]} | {len(mutations):,} | {share:.1%} |", flush=True)
    for mutation in survivors if given.survivors else ():
        print(f"{mutation.kind}: {mutation.name}")


if __name__ == "__main__":
    main()
