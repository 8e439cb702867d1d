"""Causes of one appliance that no question, symptom, owner check or technician's test tells apart."""

from __future__ import annotations

from itertools import combinations

import numpy as np

from service.diagnosis.table import Table, compiled
from service.rulebook.folder import ApplianceFolder
from service.rulebook.schema.appliance import Appliance
from service.workshop.cover.finding import Finding, Findings

TELLS_APART = 0.15
"""Two causes are told apart by what is seen at least this much more often with one of them. Our own choice, no source."""


def same(folder: ApplianceFolder, appliance: Appliance) -> Findings:
    """Pairs of causes with which everything is seen about equally often."""
    page = folder.causes
    if page is None:
        return
    seen = everything_seen(compiled(appliance))
    for (one, first), (other, second) in combinations(enumerate(appliance.causes), 2):
        if np.abs(seen[:, one] - seen[:, other]).max(initial=0.0) < TELLS_APART:
            line = page.written.line(("causes", one))
            found = f"Nothing tells {second} from {first} (line {line}): no answer, no owner check, no test."
            remedy = "Grade a symptom, observation or test differently for one of them, or join the two."
            yield Finding("same", page.problem(("causes", other), found, remedy=remedy, blocks=False))


def everything_seen(table: Table) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """A row for all that can be seen, answered, settled or found; a column for each cause."""
    rows = [*table.symptoms.values(), *table.hazards.values()]
    rows += [row for values in table.values.values() for row in values.values()]
    return np.array([*rows, *table.settles, *table.finds])
