"""A trial: many past turns on edited rules, and what came of each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from service.conversation.events import Texted
from service.conversation.step import Step
from service.rulebook.edition import rulebook_from_source
from service.rulebook.model import Rulebook
from service.workshop.report import count
from service.workshop.trial.differences import KINDS, Difference, differences
from service.workshop.trial.past import PastTurn
from service.workshop.trial.retaking import NotRetaken, retaken

SourceOf = Callable[[str], str | None]
"""Gives the stored rules of an edition by its fingerprint, or None."""


@dataclass(frozen=True, slots=True)
class Tried:
    """
    One turn: what was heard, and what differs. passed_over: why it could not be judged. failed: the error it would meet.
    program: the rules of then give something else today too, so that the program has changed since.
    """

    past: PastTurn
    heard: tuple[str, ...]
    differences: tuple[Difference, ...] = ()
    passed_over: str = ""
    failed: str = ""
    program: bool = False

    @property
    def differs(self) -> bool:
        """Whether anything would be otherwise."""
        return bool(self.differences or self.failed)


def no_source(_edition: str) -> None:
    """For turns of a file: the rules of then are not at hand."""


def trial(past: Iterable[PastTurn], rulebook: Rulebook, source_of: SourceOf = no_source) -> Iterator[Tried]:
    """Each turn of *past* on *rulebook*; *source_of* gives the rules of then, to tell their share from the program's."""

    @lru_cache(maxsize=8)
    def book_of(edition: str) -> Rulebook | None:
        source = source_of(edition)
        return rulebook_from_source(source) if source else None

    for turn in past:
        yield _tried(turn, rulebook, book_of)


def _tried(past: PastTurn, rulebook: Rulebook, book_of: Callable[[str], Rulebook | None]) -> Tried:
    heard = tuple(event.text for event in past.events if isinstance(event, Texted)) or tuple(
        f"({event.type})" for event in past.events
    )
    if past.step is None:
        return Tried(past, heard, passed_over="nothing was decided then that can be compared with")
    try:
        now = retaken(past, rulebook)
    except NotRetaken as wrong:
        return Tried(past, heard, passed_over=str(wrong))
    except Exception as wrong:
        return Tried(past, heard, failed=f"{type(wrong).__name__}: {wrong}")
    found = tuple(differences(past.step, now))
    return Tried(past, heard, found, program=bool(found) and _program_differs(past, past.step, book_of(past.edition)))


def _program_differs(past: PastTurn, was: Step, book: Rulebook | None) -> bool:
    """Whether the rules of then, taken by the program of today, decide otherwise than was recorded."""
    if book is None:
        return False
    try:
        return any(True for _ in differences(was, retaken(past, book)))
    except Exception:
        return True


def summary(tried: Iterable[Tried]) -> str:
    """How many turns were tried, and how many would be otherwise in what."""
    turns = list(tried)
    kinds = Counter(kind for one in turns for kind in {difference.kind for difference in one.differences})
    differing = sum(one.differs for one in turns)
    lines = [f"{count(len(turns), 'turn')} tried, {differing} otherwise. Nothing was sent."]
    lines += [f"  {kinds[kind]} with {words}" for kind, words in KINDS.items() if kinds[kind]]
    failed, passed = sum(bool(one.failed) for one in turns), sum(bool(one.passed_over) for one in turns)
    program = sum(one.program for one in turns)
    if program:
        lines.append(f"  {program} of them differ on the rules of then too: the program has changed since.")
    if passed:
        lines.append(f"  {passed} passed over.")
    if failed:
        lines.append(f"  {failed} would fail: mend this before these rules are used.")
    return "\n".join(lines)
