"""What is fixed about an appliance's questions and checks, as masks: which symptom opens or closes which."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from service.diagnosis.likelihoods import Floats
from service.rulebook.schema.appliance import Appliance

if TYPE_CHECKING:
    from service.diagnosis.table import Question

Bools = NDArray[np.bool_]
Places = NDArray[np.intp]

SAID_UNASKED = frozenset({"dead", "no_start"})
"""Nobody complains of a smell and leaves out that the machine does not run: never asked after. Common practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class Opening:
    """
    Things that are open always or once one of several codes is there, and closed once one of others is; as masks.

    opens: by code what it opens; leaves: by code what it does not close.
    """

    always: Bools
    opens: Mapping[str, Bools]
    leaves: Mapping[str, Bools]

    def open_with(self, there: Iterable[str], said: Iterable[str], besides: Bools | None = None) -> Bools:
        """What is open, also those *besides*: opened by codes that are *there*, closed by those that were *said*."""
        found = self.always.copy() if besides is None else self.always | besides
        for code in there:
            if code in self.opens:
                found |= self.opens[code]
        for code in said:
            if code in self.leaves:
                found &= self.leaves[code]
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Asking:
    """
    All questions of an appliance in one order. all: the questions. price, told: in texts, and chance of an answer.

    counts: how many answers each has; spans: where they stand in the table's outcomes. observations, symptoms: code to place.
    listed: causes by questions, true where the cause's evidence names the symptom.
    """

    all: tuple[Question, ...]
    price: Floats
    told: Floats
    counts: Places
    spans: tuple[range, ...]
    observations: Mapping[str, int]
    symptoms: Mapping[str, int]
    opening: Opening
    listed: Bools

    def answers_of(self, questions: Iterable[Question]) -> list[int]:
        """Where the answers of those of *questions* that have a place stand in the table's outcomes."""
        return list(chain.from_iterable([self.spans[q.place] for q in questions if q.place >= 0]))


def asking_of(appliance: Appliance, questions: Sequence[Question], causes: Sequence[str]) -> Asking:
    """The masks for *questions*, each known by its place among them."""
    counts = [len(q.answers) for q in questions]
    ends = np.cumsum([1, *counts]).tolist()
    return Asking(
        all=tuple(questions),
        price=np.array([q.price for q in questions]),
        told=np.array([1 - q.dont_know for q in questions]),
        counts=np.array(counts, dtype=np.intp),
        spans=tuple(range(*span) for span in pairwise(ends)),
        observations={q.code: place for place, q in enumerate(questions) if q.kind == "observation"},
        symptoms={q.code: place for place, q in enumerate(questions) if q.kind == "symptom"},
        opening=_questions_opening(appliance, questions),
        listed=np.array([[_names(appliance, cause, q) for q in questions] for cause in causes], dtype=bool),
    )


def checks_opening(appliance: Appliance) -> Opening:
    """When owner checks are open: by ``when``; and closed, by ``never_if``."""
    checks = list(appliance.checks.values())
    return opening([c.when for c in checks], [c.never_if for c in checks])


def opening(when: Sequence[Sequence[str]], unless: Sequence[Sequence[str]]) -> Opening:
    """Masks over things that open with any code of *when* (always, without any) and close with any of *unless*."""
    leaves = {code: ~closed for code, closed in _by_code(unless).items()}
    return Opening(np.array([not codes for codes in when], dtype=bool), _by_code(when), leaves)


def _questions_opening(appliance: Appliance, questions: Sequence[Question]) -> Opening:
    """
    Observations: by ``when`` and ``unless``. Symptoms: opened by the belief alone, closed by what replaces, or is replaced.
    """
    when, unless = [], []
    for question in questions:
        if question.kind == "observation":
            observation = appliance.observations[question.code]
            when.append(tuple(observation.when))
            unless.append(tuple(observation.unless))
        else:
            over = [code for code, one in appliance.symptoms.items() if question.code in one.over]
            when.append((_BY_BELIEF,))
            unless.append((question.code, *appliance.symptoms[question.code].over, *over))
    return opening(when, unless)


_BY_BELIEF = ""
"""No symptom's code: what waits for it is opened by likely causes only."""


def _names(appliance: Appliance, cause: str, question: Question) -> bool:
    """Whether *cause* names the symptom that *question* asks after; some are never asked after."""
    listed = appliance.causes[cause].evidence if cause in appliance.causes else {}
    return question.kind == "symptom" and question.code not in SAID_UNASKED and question.code in listed


def _by_code(several: Sequence[Sequence[str]]) -> dict[str, Bools]:
    codes = {code for one in several for code in one}
    return {code: np.array([code in one for one in several], dtype=bool) for code in codes}
