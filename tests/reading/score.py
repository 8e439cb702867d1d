"""
How well texts are read: labelled texts in the bulk format, scored per kind of finding. Run: python -m
tests.reading.score FILE...
"""

from __future__ import annotations

import json
import re
import sys
from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from service.reading.bulk import read_line
from service.reading.reader import Reader
from service.reading.readers import reader_for
from service.rulebook.loading import load_rulebook

RULES = Path(__file__).parents[2] / "rules"
TEXTS = Path(__file__).parent / "texts"
YEAR = 2026
"""The year the labels were written in, for ages told by a year of purchase."""


@dataclass
class Tally:
    """Counts of one kind of finding."""

    right: int = 0
    extra: int = 0
    missed: int = 0
    misses: list[str] = field(default_factory=list)

    def add(self, expected: set[Any], found: set[Any], told: str) -> None:
        self.right += len(expected & found)
        self.extra += len(found - expected)
        self.missed += len(expected - found)
        if expected != found:
            lost, more = sorted(map(str, expected - found)), sorted(map(str, found - expected))
            self.misses.append(f"{told}\n      missed {lost} extra {more}")

    @property
    def recall(self) -> float:
        return self.right / (self.right + self.missed) if self.right + self.missed else 1.0

    @property
    def f1(self) -> float:
        total = 2 * self.right + self.extra + self.missed
        return 2 * self.right / total if total else 1.0


@dataclass
class Scores:
    """All tallies over a set of texts; ``language`` counts texts."""

    kinds: dict[str, Tally]
    texts: int

    def __getitem__(self, kind: str) -> Tally:
        return self.kinds[kind]


def lines_of(paths: Iterable[Path]) -> list[dict[str, Any]]:
    return [json.loads(line) for path in paths for line in path.read_text().splitlines() if line.strip()]


@cache
def demo_reader() -> Reader:
    return reader_for(load_rulebook(RULES, "demo"))


KINDS = (
    "appliance", "symptom", "code", "denied", "hazard", "denied_hazard", "urgency", "intent", "fact", "answer",
    "language", "vague",
)  # fmt: skip


def no_scores() -> Scores:
    """A tally of nothing yet, for every kind."""
    return Scores({kind: Tally() for kind in KINDS}, 0)


def score(reader: Reader, lines: Iterable[Mapping[str, Any]]) -> Scores:
    scores = no_scores()
    for line in lines:
        found = read_line(reader, line, this_year=YEAR)
        scores.texts += 1
        compare(scores, line["expected"], found, f"{line['id']} “{line['text']}”", but=under_discussion(line))
    return scores


def _pairs(items: Iterable[Mapping[str, Any]]) -> set[tuple[str, str]]:
    return {(item["appliance"], item["code"]) for item in items}


def under_discussion(line: Mapping[str, Any]) -> set[str]:
    """The machine that an answer is about, if the line asked of one."""
    about = line.get("about") or {}
    return {about["appliance"]} if line.get("asked") and "appliance" in about else set()


def compare(
    scores: Scores, expected: Mapping[str, Any], found: Mapping[str, Any], told: str, *, but: Collection[str] = ()
) -> None:
    """
    Count what was expected and what was found.

    but: machines that count neither way. In an answer the machine asked about is one: a careful labeller may list it for a
    bare "yes" or not, and half of them did.
    """
    scores["appliance"].add(set(expected["appliances"]).difference(but), set(found["appliances"]).difference(but), told)
    scores["symptom"].add(_pairs(expected["symptoms"]), _pairs(found["symptoms"]), told)
    scores["code"].add({c for _, c in _pairs(expected["symptoms"])}, {c for _, c in _pairs(found["symptoms"])}, told)
    scores["denied"].add(_pairs(expected["denied"]), _pairs(found["denied"]), told)
    scores["hazard"].add(set(expected["hazards"]), {h["code"] for h in found["hazards"]}, told)
    scores["denied_hazard"].add(set(expected["denied_hazards"]), set(found["denied_hazards"]), told)
    scores["urgency"].add(set(expected["urgency"]), set(found["urgency"]), told)
    scores["intent"].add(set(expected["intents"]), set(found["intents"]), told)
    scores["fact"].add(_facts(expected["facts"], expected["facts"]), _facts(found["facts"], expected["facts"]), told)
    scores["answer"].add(_answer(expected.get("answer")), _answer(found["answer"], expected.get("answer")), told)
    scores["language"].add({expected["language"]}, {found["language"]}, told)
    if any(s["code"] == "vague" for s in expected["symptoms"]):
        scores["vague"].add({"vague"}, {s["code"] for s in found["symptoms"]}, told)


def _facts(facts: Mapping[str, Any], expected: Mapping[str, Any]) -> set[tuple[str, str]]:
    """Facts as pairs; one whose label only says that it is there is compared by name."""
    found: set[tuple[str, str]] = set()
    for name, value in facts.items():
        if expected.get(name) is True:
            found.add((name, "stated"))
            continue
        for item in value if isinstance(value, list) else [value]:
            said = str(item).casefold()
            found.add((name, re.sub(r"\D", "", said)[-10:] if name == "phone" else said))
    return found


_SAME = {"fixed": "yes", "not_fixed": "no"}
"""How a check went is told in its own kinds of answer; some labels say yes or no."""


def _answer(answer: Mapping[str, Any] | None, expected: Mapping[str, Any] | None = None) -> set[str]:
    if answer is None:
        return set()
    wanted = expected or answer
    if answer["kind"] == "choice" and "index" in answer:
        return {f"choice={answer['index']}"}
    value = answer.get("value") if "value" in wanted else None
    kind = str(answer["kind"])
    return {f"{kind}={str(value).casefold()}" if value is not None else _SAME.get(kind, kind)}


def table(scores: Scores, *, misses: bool) -> str:
    lines = [f"{scores.texts} texts", f"{'':14} {'recall':>7} {'F1':>7} {'right':>6} {'extra':>6} {'missed':>6}"]
    for kind, tally in scores.kinds.items():
        lines.append(f"{kind:14} {tally.recall:7.3f} {tally.f1:7.3f} {tally.right:6} {tally.extra:6} {tally.missed:6}")
    if misses:
        seen: Counter[str] = Counter()
        for kind, tally in scores.kinds.items():
            for miss in tally.misses:
                seen[kind] += 1
                lines.append(f"  {kind}: {miss}")
    return "\n".join(lines)


if __name__ == "__main__":
    paths = [Path(p) for p in sys.argv[1:] if not p.startswith("-")] or sorted(TEXTS.glob("*.jsonl"))
    print(table(score(demo_reader(), lines_of(paths)), misses="-m" in sys.argv))
