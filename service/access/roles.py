"""Who may do what. A role is a set of permissions; pages ask for a permission, never for a role."""

from __future__ import annotations

from typing import Literal, get_args

Role = Literal["office", "technician", "author"]
Permission = Literal["read_desk", "act_desk", "switch_shop", "see_days", "write_rules"]

ROLES: tuple[str, ...] = get_args(Role)

MAY: dict[str, frozenset[Permission]] = {
    "office": frozenset({"read_desk", "act_desk", "switch_shop", "see_days"}),
    "author": frozenset({"read_desk", "act_desk", "switch_shop", "see_days", "write_rules"}),
    "technician": frozenset({"see_days"}),
}
"""A technician sees days and the sheets of visits; conversations and prices stay with the office."""


def may(role: str, permission: Permission) -> bool:
    """True if *role* has *permission*; a role nobody knows has none."""
    return permission in MAY.get(role, frozenset())
