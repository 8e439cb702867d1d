"""The shops whose pages this process can show: installed in the database, and with their rules loaded."""

from __future__ import annotations

from service.access.users import installed_shops
from service.edge.deps import Deps


def served_shops(deps: Deps) -> tuple[str, ...]:
    """Their codes. A shop that was installed once and is served no longer has rows, but no rules."""
    found = []
    for code in installed_shops(deps.engine):
        try:
            deps.rulebook_of(code)
        except KeyError:
            continue
        found.append(code)
    return tuple(found)
