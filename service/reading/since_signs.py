"""A quick look for what some telling of when the trouble began must have, before its patterns are tried on a text."""

from __future__ import annotations

import re

from service.reading.letters import has_any, has_digit

_LETTERS = (
    "since", "sice", "desde", "dsde", "dende", "dia", "mes", "seman", "day", "week", "wk", "month", "night", "nite", "hr",
    "hour", "hora", "morn", "while", "ye", "yr", "ago", "hace", "sat", "sun", "mon", "tue", "wed", "thu", "fri",
    "anoche", "prior", "jan", "feb", "mar", "apr", "jun", "jul", "aug", "sep", "oct", "nov", "dec", "summer", "winter",
    "spring", "fall", "hoy", "tiempo", "rato", "christmas", "xmas", "manana", "ages", "antier", "after",
)  # fmt: skip
"""Letters of which some stand in every sign: looked for first, for that is much faster."""

_SIGNS = re.compile(
    r"sin?ce|desde|dsde|dende|dia|mes|seman|day|week|wk|month|night|nite|hrs?\b|hour|hora|morn|while|year|yr|ye|"
    r"ago|ayer|anoche|hace|sat|sun|mon|tue|wed|thu|fri|the \d|prior|jan|feb|mar|apr|jun|jul|aug|sep|oct|nov|dec|"
    r"start|began|summer|winter|spring|fall|hoy|tiempo|rato|christmas|xmas|weekend|manana|ages|antier|after"
)


_SINCE = ("since", "sence", "scince", "desde", "dede", "dsde", "dende")
_SPANS = (
    "day", "night", "week", "wk", "month", "year", "yr", "ages", "while now", "time now", "since", "forever", "summer",
    "winter", "dia", "noche", "semana", "mes", "rato", "tiempo", "mucho", "un buen", "hora", "anos", " ano ",
)  # fmt: skip
"""Letters of which some stand in every telling of how long it lasts, but for hours told by a figure."""


def may_tell_since(folded: str) -> bool:
    """Whether *folded* has a word for a time."""
    return (has_any(folded, _LETTERS) or ("the " in folded and has_digit(folded))) and _SIGNS.search(folded) is not None


def may_say_since(folded: str) -> bool:
    """Whether *folded* has a "since"."""
    return has_any(folded, _SINCE)


def may_last(folded: str) -> bool:
    """Whether *folded* may tell how long something lasts."""
    return has_any(folded, _SPANS) or has_digit(folded)
