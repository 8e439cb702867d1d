"""Which questions make sense to ask now: not answered yet, and fitting what was said."""

from __future__ import annotations

import numpy as np

from service.diagnosis.held import Held
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Evidence
from service.diagnosis.table import Question, Table

POSSIBLE = 0.02
"""A symptom is only asked after if a cause with at least this share lists it. Our own choice."""

APART_DONT_KNOW = 0.1


def candidates(table: Table, evidence: Evidence, known: Held, shares: Floats) -> list[Question]:
    """
    Groups to tell apart first, then observations, then symptoms; those already asked or declined are among them.

    An observation must fit its ``when`` and ``unless``. A symptom must belong to a cause that is still likely, and neither
    stand for, nor be stood for by, one that was reported.
    """
    found = [_apart(table, group) for group in known.groups if len(group) > 1]
    asking, present = table.asking, known.present
    told = [*present, *(f"{code}={value}" for code, value in known.values.items())]
    fits = asking.opening.open_with(present, told, (shares >= POSSIBLE).dot(asking.listed))
    known_already = [asking.observations.get(code) for code in known.values]
    known_already += [asking.symptoms.get(code) for code in evidence.symptoms]
    for place in known_already:
        if place is not None:
            fits[place] = False
    return found + [asking.all[place] for place in fits.nonzero()[0].tolist()]


def _apart(table: Table, group: tuple[str, ...]) -> Question:
    """The question which of *group* it is: each symptom's part of the whole, cause by cause."""
    each = np.array([table.symptoms[code] for code in group])
    blocks = np.zeros((len(group), len(table.checks)), dtype=bool)
    return Question("one_of", "|".join(group), group, each / each.sum(axis=0), blocks, 1.0, APART_DONT_KNOW)
