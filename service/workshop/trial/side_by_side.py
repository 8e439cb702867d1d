"""A trial as text for a terminal: then on the left, with these rules on the right."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from itertools import zip_longest

from service.workshop.report import Report
from service.workshop.trial.trying import Tried, summary

LEAST_WIDTH = 60


def report(tried: Iterable[Tried], width: int = 120) -> Report:
    """
    Each turn that differs, side by side in *width* columns, and the summary.

    It fails only if a turn could not be taken at all on these rules: a difference is what the author asked for.
    """
    turns = list(tried)
    blocks = ["\n".join(_block(one, max(width, LEAST_WIDTH))) for one in turns if one.differs]
    passed = [f"{_head(one)}\n  passed over: {one.passed_over}." for one in turns if one.passed_over]
    return Report("\n\n".join([*blocks, *passed, summary(turns)]), int(any(one.failed for one in turns)))


def _head(one: Tried) -> str:
    return f"turn {one.past.id}, {one.past.at:%Y-%m-%d %H:%M}: {' / '.join(one.heard)}"


def _block(one: Tried, width: int) -> Iterator[str]:
    yield _head(one)
    if one.failed:
        yield f"  would fail: {one.failed}"
    if one.program:
        yield "  (the rules of then give something else today too: the program has changed since)"
    half = (width - 5) // 2
    if one.differences:
        yield f"  {'then':<{half}} | with these rules"
    for difference in one.differences:
        yield f"  {difference.about}"
        columns = [_wrapped(text, half) for text in (difference.was, difference.now)]
        for left, right in zip_longest(*columns, fillvalue=""):
            yield f"  {left:<{half}} | {right}".rstrip()


def _wrapped(text: str, width: int) -> list[str]:
    return [line for piece in text.splitlines() or [""] for line in textwrap.wrap(piece, width) or [""]]
