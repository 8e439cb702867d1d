"""What a workshop command prints and how it ends."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Report:
    """What to print and how to end: ``exit_code`` 0 when the rules may be used, 1 when something must be mended first."""

    text: str
    exit_code: int


def count(number: int, one: str, many: str | None = None) -> str:
    """*number* with its noun: ``1 cause``, ``2 causes``."""
    return f"{number} {one if number == 1 else many or one + 's'}"
