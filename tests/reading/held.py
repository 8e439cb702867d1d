"""
The held texts, set by set: a table for DEVELOPERS.md. Run: python -m tests.reading.held

Totals only: whoever looks at a single held text has spent it. A set flatters more, the oftener its totals were looked at
while margins were chosen, so how often that was stands beside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from tests.reading.score import Scores, demo_reader, lines_of, no_scores, score

UNSEEN = Path(__file__).parent / "unseen"


@dataclass(frozen=True, slots=True)
class Held:
    """A held set. looks: how often its totals were looked at. first: the F1 of its symptoms when it came, where kept."""

    what: str
    files: tuple[str, ...]
    looks: int
    first: float | None = None


SETS = (
    Held("a fair sample of a busy month", ("told_128",), 4, 0.94),
    Held("a month, look-alikes among it", ("told_120",), 5, 0.87),
    Held("a fair sample of everything", ("told_114",), 7, 0.91),
    Held("an ordinary week", ("told_103",), 12, 0.91),
    Held("a fair set of everything", ("told_100",), 12, 0.98),
    Held("everything, 240", ("told_93",), 34, 0.90),
    Held("everything, 240, before", ("told_80",), 40, 0.93),
    Held("a month", ("told_75",), 40, 0.96),
    Held("a month, what works told too", ("told_66",), 54, 0.94),
    Held("a month, before", ("told_62",), 54, 0.90),
    Held("first messages that tell it all", ("told_89",), 40, 0.90),
    Held("first messages that tell it all, before", ("told_86",), 40, 0.88),
    Held("English", ("told_56",), 54),
    Held("Spanish", ("told_57",), 54),
    Held("look-alikes above all", ("dangers_told_92",), 34, 0.81),
    Held("dangers and look-alikes", ("dangers_told_82",), 40, 0.87),
    Held("dangers and look-alikes, before", ("dangers_told_66",), 54, 0.86),
    Held("dangers and look-alikes, first", ("dangers_told_58",), 54),
)
"""The newest first. All that is held and stands in none of them is told together, as the older ones."""

KINDS = ("symptom", "intent", "fact", "denied", "denied_hazard", "answer")
EASY = ("appliance", "language", "vague")
"""Told over all sets together: they differ little."""


def main() -> None:
    """Print the table, a set a row."""
    own = {name for held in SETS for name in held.files}
    between = {
        "told_25",
        "told_27",
        "dangers_told_25",
        "told_36",
        "told_37",
        "dangers_told_38",
        "told_48",
        "told_49",
        "dangers_told_50",
    }
    older = tuple(path.stem for path in sorted(UNSEEN.glob("*.jsonl")) if path.stem not in own | between)
    heads = ("set", "texts", "looked at", "hazards heard", "false alarms", "when it came", "symptoms found", *KINDS)
    print(f"| {' | '.join(heads)} |\n|{' --- |' * len(heads)}")
    easy = no_scores()
    for held in (*SETS, Held("all between", tuple(sorted(between)), 48), Held("all older ones", older, 48)):
        scores = score(demo_reader(), lines_of(UNSEEN / f"{name}.jsonl" for name in held.files))
        print(f"| {' | '.join(_row(held, scores))} |", flush=True)
        for kind in EASY:
            own, total = scores[kind], easy[kind]
            total.right, total.extra, total.missed = (
                total.right + own.right, total.extra + own.extra, total.missed + own.missed
            )  # fmt: skip
    print(", ".join(f"{kind} {_share(easy, kind)}" for kind in EASY))


def _row(held: Held, scores: Scores) -> list[str]:
    hazard = scores["hazard"]
    heard = f"{hazard.right} of {hazard.right + hazard.missed}"
    cells = [held.what, f"{scores.texts:,}", str(held.looks), heard, str(hazard.extra)]
    cells += [f"{held.first:.2f}" if held.first else "", f"{scores['symptom'].recall:.2f}"]
    return [*cells, *(_share(scores, kind) for kind in KINDS)]


def _share(scores: Scores, kind: str) -> str:
    tally = scores[kind]
    few = tally.right + tally.missed
    return f"{tally.f1:.2f}" + (f" ({few})" if 0 < few < 16 else "") if few else ""


if __name__ == "__main__":
    main()
