"""Sources: every line that bears on safety says where it comes from, or that it comes from practice only."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from service.rulebook.folder import Page
from service.rulebook.problems import Problem

_SOURCE = re.compile(r"^([A-Z]{1,2}\d+|Section \d+)\b|\bcommon practice\b|\bown rule\b")
_EXPECTED = 'Expected the id and title of a source ("H1 state gas-emergency page"), or "common practice, no source".'


def source_problems(page: Page[Any]) -> Iterator[Problem]:
    """A problem for each source that names none."""
    for path, value in page.written.speaking():
        source = value.get("source")
        if isinstance(source, str) and not _SOURCE.search(source):
            yield page.problem((*path, "source"), f'"{source}" names no source.', expected=_EXPECTED)
