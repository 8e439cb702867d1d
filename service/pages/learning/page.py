"""A proposal in words: which cause or grade would move, from where to where, and on how many jobs it stands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from service.diagnosis.grades import GRADES
from service.diagnosis.learning import applied, nearest_word
from service.diagnosis.likelihoods import prior
from service.diagnosis.model import SOMETHING_ELSE
from service.diagnosis.scores import FEW
from service.edge.learning import Study
from service.pages import words
from service.pages.frame import Frame
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.common import Grade
from service.storage.outcomes import Unlisted

SHOWN = 12
LEAST_SHOWN = 0.0005


@dataclass(frozen=True, slots=True)
class Move:
    """A cause's share before anything is known: as written, in force, as proposed. by: how much it would move from now."""

    code: str
    name: str
    book: str
    now: str
    proposed: str
    by: str
    jobs: str
    frozen: bool


@dataclass(frozen=True, slots=True)
class Regraded:
    """How often an answer is seen with a cause, in words: as written, in force, and as proposed; on how many answers."""

    code: str
    says: str
    book: str
    now: str
    after: str
    answered: str


@dataclass(frozen=True, slots=True)
class Paper:
    """
    One appliance's learning. held: frozen codes that are no causes. few: too few jobs to lean on. smaller: under a fold.

    unlisted: found and not in the rules, as (ticket number, words, when).
    """

    code: str
    name: str
    state: str
    jobs: str
    few: bool
    moves: tuple[Move, ...]
    smaller: tuple[Move, ...]
    grades: tuple[Regraded, ...]
    held: tuple[tuple[str, str], ...]
    can_accept: bool
    learned: bool
    unlisted: tuple[tuple[int, str, str], ...]


@dataclass(frozen=True, slots=True)
class LearningPage:
    """All appliances. nightly: the shop accepts by itself. can_act: the one who looks may decide. said: what was just done."""

    frame: Frame
    nightly: bool
    can_act: bool
    said: str
    papers: tuple[Paper, ...]


def paper_of(
    study: Study, now: Appliance, moment: datetime, zone: ZoneInfo, unlisted: Iterable[Unlisted], *, can_accept: bool
) -> Paper:
    """The paper of one *study*. now: the appliance as in force. unlisted: of all appliances, newest first."""
    row, proposal = study.row, study.proposal
    frozen = row.frozen if row else frozenset[str]()
    moves = sorted(_moves(study, now, frozen), key=lambda one: (not one[1].frozen, -abs(one[0])))
    shown = [move for size, move in moves if abs(size) >= LEAST_SHOWN or move.frozen]
    learned = bool(row and (row.weights or row.evidence))
    state = "as written in the rules"
    if row and learned:
        state = f"learned from {row.jobs:.0f} jobs, accepted by {row.by}, {words.when_words(row.at, moment, zone)}"
    elif row and row.since:
        state = f"reset by {row.by}, {words.when_words(row.at, moment, zone)}: outcomes before it are not counted"
    return Paper(
        code=study.book.code,
        name=study.book.basics.say.en.capitalize(),
        state=state,
        jobs=f"{proposal.jobs:.0f}",
        few=proposal.jobs < FEW,
        moves=tuple(shown[:SHOWN]),
        smaller=tuple(shown[SHOWN:]),
        grades=tuple(_grades(study, now)),
        held=tuple((code, _code(study.book, code)) for code in sorted(frozen) if code not in study.book.causes),
        can_accept=can_accept,
        learned=learned or bool(row and row.since),
        unlisted=tuple(
            (one.number, one.words, words.when_words(one.at, moment, zone))
            for one in unlisted
            if one.appliance == study.book.code
        )[:SHOWN],
    )


def _moves(study: Study, now: Appliance, frozen: frozenset[str]) -> Iterable[tuple[float, Move]]:
    names = (*study.book.causes, SOMETHING_ELSE)
    written = dict(zip(names, prior(study.book).tolist(), strict=True))
    in_force = dict(zip((*now.causes, SOMETHING_ELSE), prior(now).tolist(), strict=True))
    held = dict(zip(names, prior(study.held).tolist(), strict=True))
    after = {one.cause: (one.after, one.jobs) for one in study.proposal.weights}
    for cause in names:
        proposed, jobs = after.get(cause, (held[cause], 0.0))
        size = proposed - in_force[cause]
        yield size, Move(
            cause, _cause(study.book, cause), _percent(written[cause]), _percent(in_force[cause]), _percent(proposed),
            f"{100 * size:+.1f}".replace("-", "−"), f"{jobs:.1f}".removesuffix(".0"), cause in frozen,
        )  # fmt: skip


def _grades(study: Study, now: Appliance) -> Iterable[Regraded]:
    """Grades whose word would change from what is in force: those that outcomes move, then those they move back."""
    moved = {(one.cause, one.code, one.value): one for one in study.proposal.grades}
    after = applied(study.held, study.proposal)
    back = [
        (cause, code, value)
        for cause, graded in (study.row.evidence if study.row else {}).items()
        if cause in after.causes and cause in now.causes
        for code in graded
        for value in _values(now, cause, code)
        if (cause, code, value) not in moved
    ]
    for cause, code, value in (*moved, *back):
        one = moved.get((cause, code, value))
        written = _word(study.book, cause, code, value) or (nearest_word(one.before) if one else None)
        proposed = one.word if one else _word(after, cause, code, value)
        in_force = _word(now, cause, code, value) or written
        if proposed != in_force:
            answered = f"{one.answered:.0f}" if one else "too few"
            says = f"{_cause(study.book, cause)}: {_code(study.book, code)}"
            says += f": {value.replace('_', ' ')}" if value != "yes" else ""
            yield Regraded(code, says, _graded(written), _graded(in_force), _graded(proposed), answered)


def _values(appliance: Appliance, cause: str, code: str) -> Iterable[str]:
    graded = appliance.causes[cause].evidence.get(code)
    return tuple(graded) if isinstance(graded, Mapping) else ("yes",)


def _word(appliance: Appliance, cause: str, code: str, value: str) -> Grade | None:
    """The grade that stands there; None where the cause does not list it."""
    graded = appliance.causes[cause].evidence.get(code) if cause in appliance.causes else None
    if isinstance(graded, Mapping):
        return graded.get(value)
    return graded if value == "yes" else None


def _graded(word: Grade | None) -> str:
    return f"{word} ({_percent(GRADES[word])})" if word else "as with other causes"


def _cause(book: Appliance, cause: str) -> str:
    return "something else" if cause == SOMETHING_ELSE else book.causes[cause].name.en


def _code(book: Appliance, code: str) -> str:
    if code in book.symptoms:
        return book.symptoms[code].trade
    return book.observations[code].trade if code in book.observations else words.code_words(code)


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"
