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

SAID_UNASKED = frozenset({"dead", "no_start"})
"""Nobody complains of a smell and leaves out that the machine does not run: never asked after. Common practice, no source."""


def candidates(table: Table, evidence: Evidence, known: Held, shares: Floats) -> list[Question]:
    """
    Groups to tell apart first, then observations, then symptoms; those already asked or declined are among them.

    An observation must fit its ``when`` and ``unless``. A symptom must belong to a cause that is still likely, and neither
    stand for, nor be stood for by, one that was reported.
    """
    found = [_apart(table, group) for group in known.groups if len(group) > 1]
    likely = [cause for cause, share in zip(table.causes, shares.tolist(), strict=True) if share >= POSSIBLE]
    listed = set().union(*(table.lists[cause] for cause in likely))
    symptoms = table.appliance.symptoms
    settled = {code for present in known.present if present in symptoms for code in symptoms[present].over}
    settled |= known.present | evidence.symptoms.keys() | SAID_UNASKED
    open_symptoms = listed - settled
    for question in table.questions.values():
        if question.kind == "observation":
            observation = table.appliance.observations[question.code]
            fits = not observation.when or not known.present.isdisjoint(observation.when)
            if fits and question.code not in known.values and known.present.isdisjoint(observation.unless):
                found.append(question)
        elif question.code in open_symptoms and known.present.isdisjoint(symptoms[question.code].over):
            found.append(question)
    return found


def _apart(table: Table, group: tuple[str, ...]) -> Question:
    """The question which of *group* it is: each symptom's part of the whole, cause by cause."""
    each = np.array([table.symptoms[code] for code in group])
    blocks = np.zeros((len(group), len(table.checks)), dtype=bool)
    return Question("one_of", "|".join(group), group, each / each.sum(axis=0), blocks, 1.0, APART_DONT_KNOW)
