"""One appliance's rules as arrays, computed once: what belief, questions and plans reckon with."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from threading import Lock
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import NDArray

from service.diagnosis.asking import Asking, Opening, asking_of, checks_opening
from service.diagnosis.grades import GRADES
from service.diagnosis.likelihoods import Floats, prior, value_rows, yes_row
from service.diagnosis.model import SOMETHING_ELSE
from service.diagnosis.prefixes import BARRED, NOTHING
from service.diagnosis.testing import minutes_by_order
from service.diagnosis.worth import xlog2x
from service.rulebook.schema.appliance import Appliance, Check
from service.rulebook.schema.common import Grade

if TYPE_CHECKING:
    from service.diagnosis.belief import Weighing
    from service.diagnosis.costs import VisitMin

Bools = NDArray[np.bool_]
EFFORT_MIN = 1.5
"""Minutes that a step of effort weighs, and the texts that explain a check and ask after it. Our own choice, no source."""
TEXTS_MIN = 2.0
CONFIRMING = (2.0, 0.1)
"""Price in texts and chance of "don't know" of asking after a symptom nobody mentioned. Our own choice."""
KEPT = 256


@dataclass(frozen=True, slots=True, eq=False)
class Question:
    """
    Something that may be asked, with a row of likelihoods per answer.

    answers: the values. rows: likelihoods, answers by causes. blocks: answers by checks, true where that answer forbids
    the check. price: in texts. dont_know: chance that no answer comes of it. place: among the table's questions, or -1.
    """

    kind: Literal["observation", "symptom", "one_of"]
    code: str
    answers: tuple[str, ...]
    rows: Floats
    blocks: Bools
    price: float
    dont_know: float
    place: int = -1


@dataclass(frozen=True, slots=True, eq=False)
class Table:
    """
    The arrays of one appliance; causes in file order with ``something_else`` last.

    symptoms, hazards: code to chance of *yes* per cause. values: observation to value to chance per cause. settles, unsafe:
    checks by causes. guarded: places of the checks that are unsafe for anything. check_min: minutes with effort.
    readiness: causes by what one may be ready for: each set of parts needed together (carrying it costs bundle_cents), then
    a pressing fault, then a long repair. telling: symptoms, the rarest by the prior first. places: check to its row.
    resets: rows of the checks that reset something: only one of them is ever done.
    outcomes: all that may happen next by causes, stacked: nothing, every answer of every question, each check failing; the
    checks begin at *failing*. outcome_bits: the same as ``xlog2x``. bars: the same by checks and none, what it forbids.
    asking, offering: when questions and checks fit. orders, kept, latest: what was reckoned once, see ``testing``,
    ``costs.visit_min`` and ``belief.weigh_once``.
    """

    appliance: Appliance
    causes: tuple[str, ...]
    prior: Floats
    symptoms: Mapping[str, Floats]
    values: Mapping[str, Mapping[str, Floats]]
    hazards: Mapping[str, Floats]
    checks: tuple[str, ...]
    settles: Floats
    check_min: Sequence[float]
    unsafe: Bools
    guarded: frozenset[int]
    tests: tuple[str, ...]
    finds: Floats
    orders: dict[str | None, Floats]
    kept: dict[tuple[float, float, str | None], VisitMin]
    latest: list[Weighing]
    test_min: Floats
    readiness: Floats
    bundle_cents: Floats
    questions: Mapping[str, Question]
    telling: Mapping[str, int]
    outcomes: Floats
    outcome_bits: Floats
    bars: Floats
    failing: int
    asking: Asking
    offering: Opening
    places: Mapping[str, int]
    resets: tuple[int, ...]

    def leading(self, present: frozenset[str]) -> str | None:
        """The most telling of the *present* symptoms; None without any that the rules know."""
        return min((code for code in present if code in self.telling), key=self.telling.__getitem__, default=None)

    def testing(self, leading: str | None) -> Floats:
        """Causes by orders of tests: minutes until the cause shows, in orders that suit the *leading* symptom."""
        found = self.orders.get(leading)
        if found is None:
            belief = self.prior if leading is None else self.prior * self.symptoms[leading]
            found = self.orders.setdefault(leading, minutes_by_order(self.appliance, self.finds, belief))
        return found


def compiled(appliance: Appliance) -> Table:
    """The table of *appliance*, made once per object; the object is kept with it, so an id is never taken for another's."""
    key = id(appliance)
    table = _TABLES.get(key)
    if table is None or table.appliance is not appliance:
        table = _compile(appliance)
        with _LOCK:
            _TABLES[key] = table
            while len(_TABLES) > KEPT:
                _TABLES.popitem(last=False)
    return table


_TABLES: OrderedDict[int, Table] = OrderedDict()
_LOCK = Lock()


def _compile(appliance: Appliance) -> Table:
    causes = (*appliance.causes, SOMETHING_ELSE)
    symptoms = {code: yes_row(appliance, code, symptom.otherwise) for code, symptom in appliance.symptoms.items()}
    values = {code: value_rows(appliance, observation) for code, observation in appliance.observations.items()}
    listed = {code for cause in appliance.causes.values() for code in cause.evidence}
    strangers = sorted(listed - set(symptoms) - set(values))
    minutes = [effective_min(check) for check in appliance.checks.values()]
    settles = _by_cause(causes, [check.settles for check in appliance.checks.values()])
    finds = _by_cause(causes, [test.finds for test in appliance.tests.values()])
    bundles, cents = _bundles(appliance)
    questions = _placed(_questions(appliance, symptoms, values))
    asked = tuple(questions.values())
    shares = prior(appliance)
    unsafe = _marked(causes, [check.unsafe_for for check in appliance.checks.values()])
    resets = tuple(place for place, check in enumerate(appliance.checks.values()) if check.reset)
    outcomes = np.concatenate([np.ones((1, len(causes))), *(q.rows for q in asked), 1 - settles])
    return Table(
        appliance=appliance,
        causes=causes,
        prior=shares,
        symptoms=symptoms,
        values=values,
        hazards={code: yes_row(appliance, code, "rarely") for code in strangers},
        checks=tuple(appliance.checks),
        settles=settles,
        check_min=minutes,
        unsafe=unsafe,
        guarded=frozenset(np.flatnonzero(unsafe.any(axis=1)).tolist()),
        tests=tuple(appliance.tests),
        finds=finds,
        orders={},
        kept={},
        latest=[],
        test_min=np.array([test.minutes for test in appliance.tests.values()]),
        readiness=np.concatenate([bundles, *_pressing_and_long(appliance)], axis=1),
        bundle_cents=cents,
        questions=questions,
        telling=_rarest_first({code: float(row @ shares) for code, row in symptoms.items()}),
        outcomes=outcomes,
        outcome_bits=xlog2x(outcomes),
        bars=_bars(appliance, asked, resets),
        failing=len(outcomes) - len(settles),
        asking=asking_of(appliance, asked, causes),
        offering=checks_opening(appliance),
        places={code: place for place, code in enumerate(appliance.checks)},
        resets=resets,
    )


def effective_min(check: Check) -> float:
    """Minutes the check costs its owner: its own, its effort, and the two texts it takes."""
    return check.minutes + EFFORT_MIN * check.effort + TEXTS_MIN


def _rarest_first(usual: Mapping[str, float]) -> dict[str, int]:
    """Each symptom's place when they are put by how usual they are, ties in file order."""
    return {code: place for place, code in enumerate(sorted(usual, key=usual.__getitem__))}


def _bars(appliance: Appliance, asked: Sequence[Question], resets: tuple[int, ...]) -> Floats:
    """Outcomes by checks and none: a check that failed is barred, and with a reset all others; ``NOTHING`` for none."""
    failed = np.eye(len(appliance.checks), dtype=bool)
    failed[np.ix_(resets, resets)] = True
    return barring(np.concatenate([np.zeros((1, len(failed)), dtype=bool), *(q.blocks for q in asked), failed]))


def barring(blocked: Bools) -> Floats:
    """*blocked*, rows by checks, as what is added to the gain of each check and of none."""
    none = np.full((len(blocked), 1), NOTHING)
    return np.concatenate([np.where(blocked, BARRED, 0.0), none], axis=1)


def _by_cause(causes: tuple[str, ...], rows: list[dict[str, Grade]]) -> Floats:
    """A row of chances per mapping from cause to grade; 0 for causes it does not name."""
    return np.array([[GRADES[row[c]] if c in row else 0.0 for c in causes] for row in rows]).reshape(
        len(rows), len(causes)
    )


def _marked(causes: tuple[str, ...], rows: list[tuple[str, ...]]) -> Bools:
    return np.array([[cause in row for cause in causes] for row in rows], dtype=bool).reshape(len(rows), len(causes))


def _pressing_and_long(appliance: Appliance) -> tuple[Floats, Floats]:
    half = appliance.basics.visit.median_min / 2
    pressing = [cause.level in ("now", "today") for cause in appliance.causes.values()]
    long = [cause.repair_min > half for cause in appliance.causes.values()]
    return np.array([[*pressing, False]], dtype=float).T, np.array([[*long, False]], dtype=float).T


def _bundles(appliance: Appliance) -> tuple[Floats, Floats]:
    needs = [frozenset(part for part in cause.parts if part in appliance.parts) for cause in appliance.causes.values()]
    sets = sorted({need for need in needs if need}, key=sorted)
    member = np.array([[need == other for other in sets] for need in [*needs, frozenset()]], dtype=float)
    cents = np.array([sum(appliance.parts[part].carry_cents for part in bundle) for bundle in sets], dtype=float)
    return member.reshape(len(needs) + 1, len(sets)), cents


def _questions(
    appliance: Appliance, symptoms: Mapping[str, Floats], values: Mapping[str, Mapping[str, Floats]]
) -> dict[str, Question]:
    found: dict[str, Question] = {}
    for code, observation in appliance.observations.items():
        if observation.who == "customer":
            answers = observation.values
            rows = np.array([values[code][value] for value in answers])
            blocks = np.array([_blocked(appliance, code, value) for value in answers], dtype=bool)
            found[code] = Question("observation", code, answers, rows, blocks, observation.price, observation.dont_know)
    for code, yes in symptoms.items():
        if code != "vague" and code not in found:
            blocks = np.array([_blocked(appliance, code, None), [False] * len(appliance.checks)], dtype=bool)
            found[code] = Question("symptom", code, ("yes", "no"), np.array([yes, 1 - yes]), blocks, *CONFIRMING)
    return found


def _placed(questions: Mapping[str, Question]) -> dict[str, Question]:
    """The questions, each knowing its place."""
    return {code: replace(question, place=place) for place, (code, question) in enumerate(questions.items())}


def _blocked(appliance: Appliance, code: str, value: str | None) -> list[bool]:
    """Which checks the answer would forbid; all of them if it means that the machine must not be used."""
    symptom, observation = appliance.symptoms.get(code), appliance.observations.get(code)
    stops = (value is None and symptom is not None and symptom.stop_use is not None) or (
        value is not None and observation is not None and value in observation.stop_use
    )
    said = code if value is None else f"{code}={value}"
    return [stops or said in check.never_if for check in appliance.checks.values()]
