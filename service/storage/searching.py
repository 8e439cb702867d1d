"""What somebody types to find a ticket or a conversation: every word must be found; a phone number however it is written."""

from __future__ import annotations

import re
from typing import Any

from sqlalchemy import ColumnElement, String, Text, and_, cast, exists, func, or_

from service.storage.folding import Folded, fold
from service.storage.tables import messages, threads, tickets

MOST_WORDS = 6
SHORTEST_NUMBER = 4
"""As few digits as may stand for a part of a phone number."""
_NUMBER = re.compile(r"[+(]?\d[\d\s().+\-/]{4,}\d")
_WHOLE_NUMBER = 7


def ticket_matches(search: str) -> list[ColumnElement[bool]]:
    """Conditions on tickets joined with their threads, all of which must hold."""
    return _conditions(search, lambda word: or_(_of_ticket(word), _of_thread(word)))


def thread_matches(search: str) -> list[ColumnElement[bool]]:
    """Conditions on threads, all of which must hold."""
    return _conditions(search, _of_thread)


def _conditions(search: str, holds: Any) -> list[ColumnElement[bool]]:
    found: list[ColumnElement[bool]] = []
    rest = search
    for match in _NUMBER.finditer(search):
        digits = _digits(match.group())
        if len(digits) >= _WHOLE_NUMBER:  # what looks like a number may be a house number and a ZIP
            words = and_(*(holds(word) for word in match.group().split()[:MOST_WORDS]))
            found.append(or_(threads.c.number.contains(digits, autoescape=True), words))
            rest = rest.replace(match.group(), " ", 1)
    return [*found, *(holds(word) for word in rest.split()[:MOST_WORDS])]


def _digits(text: str) -> str:
    return "".join(sign for sign in text if sign.isdigit() and sign.isascii())


def _has(column: Any, word: str) -> ColumnElement[bool]:
    return Folded(column).contains(fold(word) or "", autoescape=True)


def _of_ticket(word: str) -> ColumnElement[bool]:
    state = tickets.c.state
    told = [cast(state[name], Text) for name in ("words", "theory_words")]
    facts = [state[("facts", name)].as_string() for name in ("brand", "model", "serial", "code")]
    # Codes as words: what was read is found by "slow drain", and a lone underscore finds none of them.
    codes = [func.replace(column, "_", " ") for column in (tickets.c.appliance, cast(state["symptoms"], Text))]
    number = cast(tickets.c.number, String) == word.lstrip("#")
    either = [_has(column, word) for column in (*facts, tickets.c.needs_person)]
    if any(sign.isalnum() for sign in word):  # brackets and quotes are the document's own
        either += [_has(column, word) for column in (*told, *codes)]
    return or_(number, *either)


def _of_thread(word: str) -> ColumnElement[bool]:
    contact = [threads.c.state[("contact", name)] for name in ("name", "address", "postal_code", "phone", "email")]
    either = [_has(value.as_string(), word) for value in contact]
    if any(sign.isalnum() for sign in word):
        either.append(_has(cast(threads.c.state[("contact", "access")], Text), word))
    either.append(
        exists().where(
            messages.c.shop == threads.c.shop, messages.c.thread == threads.c.id, messages.c.direction == "in",
            _has(messages.c.text, word),
        )
    )  # fmt: skip
    digits = _digits(word)
    if len(digits) >= SHORTEST_NUMBER:
        either.append(threads.c.number.contains(digits, autoescape=True))
    return or_(*either)
