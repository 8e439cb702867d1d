"""What the rule author sees, as values: the files' problems, what they hold, what the shop lays over them, and one run."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from service.pages import words
from service.pages.desk.reading import Fact
from service.pages.frame import Frame
from service.rulebook.checking import problems_of
from service.rulebook.folder import Folder
from service.rulebook.model import Rulebook
from service.rulebook.problems import Problem
from service.workshop.counting import COLUMNS, counts
from service.workshop.cover.finding import KINDS as COVERED
from service.workshop.cover.finding import Finding
from service.workshop.examples import Missed
from service.workshop.overrides import KINDS as LAID_OVER
from service.workshop.overrides import Override, overrides, own_matters
from service.workshop.trial.trying import Tried, summary


@dataclass(frozen=True, slots=True)
class Told:
    """A problem: where, what is wrong with its remedy, what was expected. blocks: the rules cannot be used with it."""

    where: str
    says: str
    expected: str
    blocks: bool


@dataclass(frozen=True, slots=True)
class Group:
    """Findings of one kind under their heading."""

    heading: str
    told: tuple[Told, ...]


@dataclass(frozen=True, slots=True)
class Laid:
    """What the shop lays over the base, of one kind: (what, base, own, why) each."""

    heading: str
    rows: tuple[tuple[str, str, str, str], ...]


@dataclass(frozen=True, slots=True)
class Turned:
    """A past turn that would be otherwise: when, what was heard, (about, then, now) rows, and a remark."""

    when: str
    heard: str
    rows: tuple[tuple[str, str, str], ...]
    remark: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one run gave: its title, a sentence that sums up, and what it found."""

    title: str
    summary: str
    groups: tuple[Group, ...] = ()
    turns: tuple[Turned, ...] = ()


@dataclass(frozen=True, slots=True)
class RulesPage:
    """
    The page. state: whether the files are those in use. usable: nothing blocks. machines: (code, name) with rules.
    outcome: of the run that was asked for, if any.
    """

    frame: Frame
    state: str
    usable: bool
    problems: tuple[Told, ...]
    columns: tuple[str, ...]
    held: tuple[tuple[str, tuple[int, ...]], ...]
    laid: tuple[Laid, ...]
    own: tuple[Fact, ...]
    machines: tuple[tuple[str, str], ...]
    outcome: Outcome | None


def build_page(
    frame: Frame, folder: Folder, shop: str, written: Rulebook | None, in_use: Rulebook, outcome: Outcome | None
) -> RulesPage:
    """The page on *folder*. written: the rulebook of its files, None while something blocks them. in_use: the line's own."""
    problems = tuple(told(problem) for problem in sorted(problems_of(folder)))
    over = overrides(folder, shop) if written else ()
    return RulesPage(
        frame=frame,
        state=_state(written, in_use),
        usable=written is not None,
        problems=problems,
        columns=COLUMNS,
        held=tuple((words.code_words(name), numbers) for name, numbers in counts(folder)),
        laid=tuple(laid(kind, over) for kind in LAID_OVER if any(one.kind == kind for one in over)),
        own=tuple(Fact(label, value) for label, value in own_matters(written.shop)) if written else (),
        machines=tuple((code, words.code_words(code)) for code in written.appliances) if written else (),
        outcome=outcome,
    )


def _state(written: Rulebook | None, in_use: Rulebook) -> str:
    if written is None:
        return "The files cannot be used as they are. The line goes on with the rules it has."
    if written.fingerprint == in_use.fingerprint:
        return "The files are the rules in use."
    return "The files differ from the rules in use. They come into use when the line is started again."


def told(problem: Problem) -> Told:
    """*problem* for the page."""
    line = f"line {problem.line}" if problem.line else ""
    where = ", ".join(part for part in (problem.file, line, problem.where) if part)
    return Told(
        where, " ".join(part for part in (problem.found, problem.remedy) if part), problem.expected, problem.blocks
    )


def laid(kind: str, over: Iterable[Override]) -> Laid:
    """The overrides of one *kind*."""
    rows = tuple((one.what, one.base, one.own, one.why) for one in over if one.kind == kind)
    return Laid(LAID_OVER[kind], rows)


def of_examples(number: int, missed: Iterable[Missed]) -> Outcome:
    """What running *number* examples gave."""
    rows = tuple(Told(f"{one.placed.file}, {one.placed.rule}", str(one).partition("\n")[2], "", True) for one in missed)
    said = (
        f"{number} examples, all read as they say."
        if not rows
        else f"{len(rows)} of {number} examples not read as they say."
    )
    return Outcome("Examples", said, (Group("Not read as they say", rows),) if rows else ())


def of_cover(machine: str, found: Iterable[Finding]) -> Outcome:
    """What the rules of *machine* leave open."""
    findings = list(found)
    groups = tuple(
        Group(heading, tuple(told(one.problem) for one in findings if one.kind == kind))
        for kind, heading in COVERED.items()
        if any(one.kind == kind for one in findings)
    )
    things = "nothing" if not findings else f"{len(findings)} thing{'s' * (len(findings) != 1)}"
    return Outcome(f"Left open: {machine}", f"{things.capitalize()} left to mend.", groups)


def of_trial(tried: Iterable[Tried], now: datetime, zone: ZoneInfo) -> Outcome:
    """The past turns that these rules would answer otherwise."""
    turns = list(tried)
    rows = tuple(
        Turned(
            words.when_words(one.past.at, now, zone),
            " / ".join(one.heard),
            tuple((row.about, row.was, row.now) for row in one.differences),
            _remark(one),
        )
        for one in turns
        if one.differs
    )
    return Outcome("Trial", summary(turns), (), rows)


def _remark(one: Tried) -> str:
    if one.failed:
        return f"This turn would fail: {one.failed}"
    return "The rules of then give something else today too: the program has changed since." if one.program else ""
