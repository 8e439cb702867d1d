"""What is wrong in a rule file, said so that its author can mend it: where, what was found, the remedy, what was expected."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rapidfuzz import fuzz, process


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """
    One mistake in one rule file.

    file: as the author knows it, from the rules folder on. line: from 1; 0 when the file itself is meant. where: the
    rule and the fields down to the mistake. found, remedy, expected: whole sentences; the last two may be empty.
    blocks: False for what is only missing so far; such rules still load.
    """

    file: str
    line: int
    where: str
    found: str
    expected: str = ""
    remedy: str = ""
    blocks: bool = True

    def __str__(self) -> str:
        place = ", ".join(part for part in (self.file, f"line {self.line}" if self.line else "", self.where) if part)
        first = " ".join(part for part in (self.found, self.remedy) if part)
        return "\n".join([place, *(f"  {line}" for line in (first, self.expected) if line)])


class RulesMistaken(Exception):
    """The rules cannot be used; ``problems`` says why, sorted by file and line."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(problems))
        super().__init__(render(self.problems))


def render(problems: Sequence[Problem]) -> str:
    """All of *problems* as text, a block each, sorted, with a closing count; empty text when there are none."""
    if not problems:
        return ""
    files = len({problem.file for problem in problems})
    count = f"{_number(len(problems), 'problem')} in {_number(files, 'file')}."
    if any(problem.blocks for problem in problems):
        count += " The rules now in use were not changed."
    return "\n".join([*(str(problem) for problem in sorted(problems)), count])


def did_you_mean(written: str, known: Iterable[str]) -> str:
    """``Did you mean "no_drain"?`` for the known word nearest to *written*, or empty text when none is near."""
    best = process.extractOne(written, sorted(known), scorer=fuzz.ratio, score_cutoff=70)
    return f'Did you mean "{best[0]}"?' if best else ""


def one_of(words: Iterable[str]) -> str:
    """A list of *words* for a sentence: ``a, b or c``."""
    items = list(words)
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} or {items[-1]}"


def _number(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
