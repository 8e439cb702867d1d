"""
How far two labellers agree: texts of ``tests/reading`` that somebody else labelled again (``second``), without seeing the first
labels. Run: python -m tests.reading.agreement
"""

from __future__ import annotations

from pathlib import Path

from tests.reading.score import Scores, compare, lines_of, no_scores, table, under_discussion

HERE = Path(__file__).parent


def agreement() -> Scores:
    """The second labels scored against the first, kind by kind."""
    lines = lines_of([*HERE.glob("texts/*.jsonl"), *HERE.glob("unseen/*.jsonl")])
    by_id = {line["id"]: line for line in lines}
    by_both = {(line["id"], line["text"]): line for line in lines}  # ids of different writers may be the same
    scores = no_scores()
    for again in lines_of(sorted(HERE.glob("second/*.jsonl"))):
        line, labels = by_both.get((again["id"], again.get("text"))) or by_id[again["id"]], again["expected"]
        found = {**labels, "hazards": [{"code": code} for code in labels["hazards"]], "answer": labels.get("answer")}
        scores.texts += 1
        compare(scores, line["expected"], found, f"{line['id']} “{line['text']}”", but=under_discussion(line))
    return scores


if __name__ == "__main__":
    print(table(agreement(), misses=False))
