"""Addresses that open one thing without signing in: the visit sheet and the calendar file."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from pydantic import SecretStr

from service.access import links
from service.edge.deps import Deps
from service.pages.answer import Lost
from service.storage.visits_view import VisitRow


class LinkSettings(Protocol):
    """What signing a link needs of the settings."""

    @property
    def secret(self) -> SecretStr:
        """Signs links; 32 characters or more."""

    @property
    def base_url(self) -> str:
        """How the pages are reached from outside."""


def sheet_path(deps: Deps, shop: str, visit: VisitRow) -> str:
    """The path of a visit's sheet: it opens until 30 days after the visit, and is the same whenever it is asked for."""
    return "/visit/" + links.sign(secret_of(deps), "sheet", shop, visit.id, visit.end_at + links.LIVES["sheet"])


def sheet_links(deps: Deps, shop: str, visits: Iterable[VisitRow]) -> dict[str, str]:
    """Visit id to the path of its sheet."""
    return {visit.id: sheet_path(deps, shop, visit) for visit in visits}


def public(deps: Deps, path: str) -> str:
    """The whole address of a *path*, for what leaves the pages."""
    settings: LinkSettings = deps.settings
    return settings.base_url.rstrip("/") + path


def open_link(deps: Deps, purpose: links.Purpose, token: str) -> links.Link:
    """What *token* opens. Raises Lost in words for whoever holds the link."""
    found = links.read(secret_of(deps), purpose, token, deps.clock())
    if isinstance(found, links.Expired):
        raise Lost("This link has expired. Ask the office for a new one.")
    if found is None:
        raise Lost("This link is not complete or not ours. Open it again from the message it came in.")
    return found


def secret_of(deps: Deps) -> str:
    """The secret that signs links."""
    settings: LinkSettings = deps.settings
    return settings.secret.get_secret_value()
