"""What a schema cannot see: that rules fit each other, the vocabulary, and what an owner may safely be told to do."""

from __future__ import annotations

from service.rulebook.folder import Folder
from service.rulebook.problems import Problem


def problems_of(folder: Folder) -> list[Problem]:
    """Every problem of *folder*, those of reading it included, in no order."""
    return list(folder.problems)
