"""Which rules a shop works by just now: its files as loaded, with what it accepted from its outcomes laid over them."""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from threading import Lock

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import DBAPIError

from service.reading.readers import reader_for
from service.rulebook.loading import Learned, rulebook_from_source, with_learned
from service.rulebook.model import Rulebook
from service.storage import shops
from service.storage.engine import reading
from service.storage.learned import learned_of

log = logging.getLogger("plainfault.editions")

LOOK_AGAIN = timedelta(seconds=5)
"""How soon a process sees that another one has put an edition in force."""


class Editions:
    """
    The current edition of every shop; call it with a shop's code. Raises KeyError for a shop that is not there.

    books: the rules as loaded from files. An edition put in force by another process is taken from the database, looked at
    every few seconds by one caller while the others go on with what they have.
    """

    def __init__(self, engine: Engine, clock: Callable[[], datetime], books: Mapping[str, Rulebook]) -> None:
        self._engine, self._clock, self._books = engine, clock, dict(books)
        self._current = dict(books)
        self._seen: dict[str, str] = {}
        self._looked: dict[str, datetime] = {}
        self._lock = Lock()

    def __call__(self, shop: str) -> Rulebook:
        """The shop's edition in force."""
        current = self._current[shop]
        if self._clock() - self._looked.get(shop, datetime.min.replace(tzinfo=self._clock().tzinfo)) < LOOK_AGAIN:
            return current
        if self._lock.acquire(blocking=False):
            try:
                self._look(shop)
            except DBAPIError as wrong:  # what is in force here goes on; the next look comes soon
                self._looked[shop] = self._clock()
                log.error("editions could not be looked at", extra={"shop": shop, "why": type(wrong.orig).__name__})
            finally:
                self._lock.release()
        return self._current[shop]

    def book(self, shop: str) -> Rulebook:
        """The shop's rules as written, with nothing learned."""
        return self._books[shop]

    @property
    def shops(self) -> tuple[str, ...]:
        """The shops served."""
        return tuple(self._books)

    def install(self, connection: Connection, shop: str, now: datetime) -> Rulebook:
        """Make the rules with all that was accepted the shop's edition in the database; ``use`` it once that is committed."""
        edition = self._with_accepted(connection, shop)
        shops.install(connection, edition, now)
        return edition

    def _with_accepted(self, connection: Connection, shop: str) -> Rulebook:
        accepted = {code: Learned(row.weights, row.evidence) for code, row in learned_of(connection, shop).items()}
        return with_learned(self._books[shop], accepted)

    def use(self, shop: str, edition: Rulebook) -> None:
        """Work by *edition* from now on, its reader compiled first so that no text waits for it."""
        reader_for(edition)
        self._current[shop] = edition
        self._seen[shop] = edition.fingerprint
        self._looked[shop] = self._clock()

    def _look(self, shop: str) -> None:
        with reading(self._engine) as connection:
            row = shops.shop_row(connection, shop)
            there = row.edition if row else None
            known = self._seen.setdefault(shop, there or "")
            news = there is not None and there != known
            learned = self._with_accepted(connection, shop) if news else None
            source = shops.edition_source(connection, shop, there) if there and news else None
        self._looked[shop] = self._clock()
        if there is None or source is None:
            return
        self._seen[shop] = there
        try:
            same = learned is not None and learned.fingerprint == there
            beside = self._books[shop].kept_in
            self.use(shop, learned if learned and same else replace(rulebook_from_source(source), kept_in=beside))
        except ValueError as wrong:  # another version of this program wrote it: go on with what is known to work
            log.error("an edition could not be read", extra={"shop": shop, "why": type(wrong).__name__})
