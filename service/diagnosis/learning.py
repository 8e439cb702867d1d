"""What outcomes teach: counts, and from them proposed weights and grades, shrunk to the book's. Nothing is changed here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import log

from service.diagnosis.grades import GRADES, SOMETHING_ELSE_LEAST, held_within
from service.diagnosis.likelihoods import Graded, prior
from service.diagnosis.model import SOMETHING_ELSE
from service.diagnosis.table import compiled
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.common import Grade

BOOK_JOBS = 20.0
"""
How many jobs the book's weights are worth: a Dirichlet's concentration; with more causes than that, a job for each. With
fewer the first fifty outcomes made simulated shops worse, not better. Our own choice.
"""
BOOK_ANSWERS = 8.0
"""How many answers a grade is worth: a Beta's concentration. Our own choice."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """
    One finished job, as far as it teaches.

    causes: what it was, shares summing to 1: one cause a technician confirmed, or the belief among causes that the check
    which settled it addresses. symptoms, observations: as answered when asked, or found; never inferred, and never what was
    complained of unasked, for that is always a yes. came_back: the same complaint returned within 30 days, so the cause is
    in doubt. done: a visit undone teaches nothing.
    """

    causes: Mapping[str, float]
    symptoms: Mapping[str, bool] = field(default_factory=dict)
    observations: Mapping[str, str] = field(default_factory=dict)
    done: bool = True
    came_back: bool = False


@dataclass(frozen=True, slots=True)
class Counts:
    """Jobs by cause; and by (cause, code, value) how often that answer was given, by (cause, code) how often any was."""

    jobs: Mapping[str, float]
    answers: Mapping[tuple[str, str, str], float]
    answered: Mapping[tuple[str, str], float]

    @property
    def total(self) -> float:
        """All jobs counted."""
        return sum(self.jobs.values())


@dataclass(frozen=True, slots=True)
class MovedWeight:
    """A cause's share before anything is known: the book's, and as proposed; weight is what to write in the shop's file."""

    cause: str
    before: float
    after: float
    weight: float
    jobs: float


@dataclass(frozen=True, slots=True)
class MovedGrade:
    """A grade that would change its word: chances before and after, the words, and the answers behind it."""

    cause: str
    code: str
    value: str
    before: float
    after: float
    word: Grade
    answered: float


@dataclass(frozen=True, slots=True)
class Proposal:
    """What would move, largest move first; nothing is in force until somebody accepts it."""

    weights: tuple[MovedWeight, ...]
    grades: tuple[MovedGrade, ...]
    jobs: float


def counted(outcomes: Iterable[Outcome], keep: float = 1.0) -> Counts:
    """
    Counts of *outcomes*, oldest first. keep: what an older job weighs with each one that follows (1: nothing is forgotten).

    Undone visits and complaints that came back are left out.
    """
    usable = [outcome for outcome in outcomes if outcome.done and not outcome.came_back]
    jobs: dict[str, float] = {}
    answers: dict[tuple[str, str, str], float] = {}
    answered: dict[tuple[str, str], float] = {}
    for age, outcome in enumerate(reversed(usable)):
        given = {code: "yes" if yes else "no" for code, yes in outcome.symptoms.items()} | dict(outcome.observations)
        for cause, share in outcome.causes.items():
            weight = share * keep**age
            jobs[cause] = jobs.get(cause, 0.0) + weight
            for code, value in given.items():
                answers[cause, code, value] = answers.get((cause, code, value), 0.0) + weight
                answered[cause, code] = answered.get((cause, code), 0.0) + weight
    return Counts(jobs, answers, answered)


def learned_shares(book: Mapping[str, float], jobs: Mapping[str, float], worth: float = BOOK_JOBS) -> dict[str, float]:
    """Dirichlet-multinomial: the book's shares as *worth* jobs, and the jobs counted on top; sums to 1."""
    total = sum(jobs.get(cause, 0.0) for cause in book)
    return {cause: (worth * share + jobs.get(cause, 0.0)) / (worth + total) for cause, share in book.items()}


def learned_chance(grade: float, given: float, answered: float, worth: float = BOOK_ANSWERS) -> float:
    """Beta-binomial: *grade* as *worth* answers, and *given* of *answered* on top; kept within the bounds of a grade."""
    return held_within((worth * grade + given) / (worth + answered))


def nearest_word(chance: float) -> Grade:
    """The grade whose number is nearest in log odds."""
    return min(GRADES, key=lambda word: abs(_logit(GRADES[word]) - _logit(held_within(chance))))


def propose(
    appliance: Appliance, counts: Counts, *, frozen: frozenset[str] = frozenset(), worth: float | None = None
) -> Proposal:
    """
    Weights and grades that the counts would move. frozen: causes, or codes, whose weight or grades stay as they are. worth:
    how many jobs the book counts for; as ``BOOK_JOBS`` says if not given.

    Weights keep the scale of the book: what is not frozen shares what frozen causes leave. A grade is proposed only where
    its word changes, for symptoms and yes-or-no observations and for each answer of the others.
    """
    jobs = max(BOOK_JOBS, float(len(appliance.causes))) if worth is None else worth
    return Proposal(_weights(appliance, counts, frozen, jobs), tuple(_grades(appliance, counts, frozen)), counts.total)


def _weights(appliance: Appliance, counts: Counts, frozen: frozenset[str], worth: float) -> tuple[MovedWeight, ...]:
    book, scale = _shares(appliance), _scale(appliance)
    free = {cause: share for cause, share in book.items() if cause not in frozen}
    room = sum(free.values())
    if room <= 0:
        return ()
    learned = learned_shares({cause: share / room for cause, share in free.items()}, counts.jobs, worth)
    after = _with_least({cause: room * share for cause, share in learned.items()})
    moved = [
        MovedWeight(cause, book[cause], share, share * scale, counts.jobs.get(cause, 0.0))
        for cause, share in after.items()
    ]
    moved = [one for one in moved if abs(one.after - one.before) > 1e-9]
    return tuple(sorted(moved, key=lambda one: -abs(one.after - one.before)))


def holding(book: Appliance, in_force: Appliance, frozen: frozenset[str]) -> Appliance:
    """
    *book* with the shares and the evidence of what is *frozen* as they are *in_force*; a proposal starts from it.

    The other causes keep their shares of what is left, as the book has them.
    """
    own, now = _shares(book), _shares(in_force)
    fixed = {cause: now[cause] for cause in own if cause in frozen}
    free = {cause: share for cause, share in own.items() if cause not in frozen}
    part = (1 - sum(fixed.values())) / sum(free.values()) if free else 0.0
    shares = fixed | _with_least({cause: share * part for cause, share in free.items()})
    causes = {
        code: cause.model_copy(
            update={
                "weight": shares[code] * _scale(book),
                "evidence": _held_evidence(cause.evidence, in_force.causes[code].evidence, frozen, code in frozen),
            }
        )
        for code, cause in book.causes.items()
    }
    return book.model_copy(update={"causes": causes, "something_else": shares[SOMETHING_ELSE] * _scale(book)})


def _held_evidence(
    book: Mapping[str, Graded], in_force: Mapping[str, Graded], frozen: frozenset[str], whole: bool
) -> dict[str, Graded]:
    codes = {*book, *in_force}
    found = {code: (in_force if whole or code in frozen else book).get(code) for code in sorted(codes)}
    return {code: graded for code, graded in found.items() if graded is not None}


def _shares(appliance: Appliance) -> dict[str, float]:
    return dict(zip((*appliance.causes, SOMETHING_ELSE), prior(appliance).tolist(), strict=True))


def _scale(appliance: Appliance) -> float:
    """What all weights of the appliance add up to, what is not listed among them."""
    named = sum(cause.weight for cause in appliance.causes.values())
    return named / (1 - _shares(appliance)[SOMETHING_ELSE])


def _with_least(shares: dict[str, float]) -> dict[str, float]:
    """*shares* with what is not listed lifted to its least, the others making room for it in proportion."""
    other, room = shares.get(SOMETHING_ELSE), sum(shares.values())
    if other is None or other >= SOMETHING_ELSE_LEAST or room <= SOMETHING_ELSE_LEAST:
        return shares
    part = (room - SOMETHING_ELSE_LEAST) / (room - other)
    return {cause: share * part for cause, share in shares.items()} | {SOMETHING_ELSE: SOMETHING_ELSE_LEAST}


def _grades(appliance: Appliance, counts: Counts, frozen: frozenset[str]) -> Sequence[MovedGrade]:
    table = compiled(appliance)
    place = {cause: k for k, cause in enumerate(table.causes[:-1])}
    found = []
    for (cause, code), answered in counts.answered.items():
        if cause not in place or cause in frozen or code in frozen:
            continue
        for value, before in _book_chances(appliance, code, place[cause]):
            after = learned_chance(before, counts.answers.get((cause, code, value), 0.0), answered)
            if nearest_word(after) != nearest_word(before):
                found.append(MovedGrade(cause, code, value, before, after, nearest_word(after), answered))
    return sorted(found, key=lambda one: (-abs(_logit(one.after) - _logit(one.before)), one.cause, one.code, one.value))


def _book_chances(appliance: Appliance, code: str, place: int) -> list[tuple[str, float]]:
    table = compiled(appliance)
    if code in table.symptoms:
        return [("yes", float(table.symptoms[code][place]))]
    observation = appliance.observations.get(code)
    if observation is None:
        return []
    values = observation.values if observation.answers else ("yes",)
    return [(value, float(table.values[code][value][place])) for value in values]


def _logit(chance: float) -> float:
    return log(chance / (1 - chance))


def applied(appliance: Appliance, proposal: Proposal) -> Appliance:
    """The appliance as it would be with the proposed weights and grades."""
    weights = {one.cause: one.weight for one in proposal.weights}
    evidence: dict[str, dict[str, Grade | dict[str, Grade]]] = {}
    for one in proposal.grades:
        cause = evidence.setdefault(one.cause, dict(appliance.causes[one.cause].evidence))
        observation = appliance.observations.get(one.code)
        if observation is None or not observation.answers:
            cause[one.code] = one.word
        else:
            words = _words_now(appliance, one.cause, one.code) | {one.value: one.word}
            before = cause.get(one.code)
            cause[one.code] = {**words, **(before if isinstance(before, dict) else {}), one.value: one.word}
    causes = {
        code: cause.model_copy(
            update={"weight": weights.get(code, cause.weight), "evidence": evidence.get(code, cause.evidence)}
        )
        for code, cause in appliance.causes.items()
    }
    other = weights.get(SOMETHING_ELSE, appliance.something_else)
    return appliance.model_copy(update={"causes": causes, "something_else": other})


def _words_now(appliance: Appliance, cause: str, code: str) -> dict[str, Grade]:
    """The words nearest to what each answer's chance is now, for a cause that may not list the observation."""
    table = compiled(appliance)
    place = table.causes.index(cause)
    return {value: nearest_word(float(row[place])) for value, row in table.values[code].items()}
