"""A quick look for what some telling of when the trouble began must have, before its patterns are tried on a text."""

from __future__ import annotations

import re

from service.reading.words.letters import has_any, has_digit

_LETTERS = (
    "since", "sice", "desde", "dsde", "dende", "dia", "mes", "seman", "day", "week", "wk", "month", "night", "nite", "hr",
    "hour", "hora", "morn", "while", "ye", "yr", "ago", "hace", "sat", "sun", "mon", "tue", "wed", "thu", "fri",
    "anoche", "lunes", "martes", "miercol", "jueves", "viernes", "sabado", "domingo", "empez", "comenz",
    "prior", "thanksgiving", "jan", "feb", "mar", "apr", "jun", "jul", "aug", "sep", "oct", "nov", "dec", "summer", "winter",
    "spring", "fall", "hoy", "tiempo", "rato", "christmas", "xmas", "manana", "ages", "antier", "after", "pa ca", "aca",
    "this am",
)  # fmt: skip
"""Letters of which some stand in every sign: looked for first, for that is much faster."""

_SIGNS = re.compile(
    r"sin?ce|desde|dsde|dende|dia|mes|seman|day|week|wk|month|night|nite|hrs?\b|hour|hora|morn|while|year|yr|ye|"
    r"ago|ayer|anoche|lunes|martes|miercol|jueves|viernes|sabado|domingo|empez|comenz|"
    r"hace|thanksgiving|sat|sun|mon|tue|wed|thu|fri|the \d|prior|jan|feb|mar|apr|jun|jul|aug|sep|oct|nov|dec|"
    r"start|began|summer|winter|spring|fall|hoy|tiempo|rato|christmas|xmas|weekend|manana|ages|antier|after|pa ca|para a?ca|"
    r"this am"
)


_SINCE = ("since", "sence", "scince", "desde", "dede", "dsde", "dende")
_SPANS = (
    "day", "night", "week", "wk", "month", "year", "yr", "ages", "while now", "time now", "since", "forever", "summer",
    "winter", "dia", "noche", "semana", "mes", "rato", "tiempo", "mucho", "un buen", "hora", "anos", " ano ",
    "pa ca", "para ca", "para aca", "pa aca", "loads", "cycles",
)  # fmt: skip
"""Letters of which some stand in every telling of how long it lasts, but for hours told by a figure."""


IN_LASTS = (
    ("for ", "day", "week", "wk"),
    ("been ", "goin", "for ", "now "),
    ("now", "running", "straight", "in a row", "already", "and counting", "of this", "of that", "like this"),
    ("last ", "past "),
    ("day ", "week ", "month ", "dia ", "semana ", "mes "),
    ("all week", "all month", "all summer", "all winter"),
    ("all day", "all week", "all month", "all summer", "all winter"),
    (" later",),
    (
        "dead ",
        "down ",
        "out ",
        "broken ",
        "broke ",
        "off ",
        "without ",
        "warm ",
        "like this ",
        " way ",
        "w/o",
        "wo ",
        "w/out",
    ),
    (" in ",),
    ("been ",),
    ("overnight",),
    ("from ",),
    (" in days", " in weeks", " in months", " in ages", " in forever"),
    (" since",),
    ("since",),
    ("tiene ", "lleva", "llevo ", "tengo ", "va ", "van ", "vamos ", "son ", "ya hace ", "asi "),
    ("hace ", "ase "),
    (", ", "say "),
    ("ya ",),
    ("tiempo", "rato", "mucho", "un buen"),
    ("para aca", "para ca", "pa ca", "pa aca"),
    (". ", "! ", "? ", "\n"),
    ("load", "cycle"),
    ("still ",),
    (" asi",),
    ("estos ", "los ultimos "),
)
"""For each pattern of how long it lasts, letters of which some stand in what it finds."""

IN_SURELY = (
    ("empez", "comenz", "dej", "apago", "descompuso", "murio", "trono", "tiro"),
    ("s when", "s the day"),
    ("es cuando", "fue cuando"),
    ("dead ",),
    ("d it", "done it", "been "),
    ("til", "hasta"),
    ("prior to the",),
    ("that day", "then", "day one", "ese dia", "after this", "from the "),
    (
        "quit",
        "died",
        "stop",
        "broke",
        "start",
        "began",
        "leaked",
        "flood",
        "froze",
        "gave",
        "trip",
        "went",
        "conked",
        "would",
        "shut",
        "locked",
        "jammed",
        "bang",
    ),
    ("been ",),
    ("desde ", "y asi "),
)
IN_BEGAN = (
    ("quit", "died", "stopped", "broke", "went out", "gave out", "conked out"),
    ("",),
    ("start", "began", "happen"),
    ("",),
    ("after ", "when ", "following "),
    ("cuando ", "despues de ", "con "),
    ("power", "light", "electricity", "outage", "storm", "luz", "rayo", "tormenta"),
)
IN_BARE = (
    "yesterday",
    "last ni",
    "this mornin",
    "this am",
    " ago",
    " back",
    "ayer",
    "anoche",
    "antier",
    "la semana pasada",
    "hace ",
)
"""The same for the patterns of when it began; "" stands in every text."""


def may_tell_since(folded: str) -> bool:
    """Whether *folded* has a word for a time."""
    return (has_any(folded, _LETTERS) or ("the " in folded and has_digit(folded))) and _SIGNS.search(folded) is not None


def may_say_since(folded: str) -> bool:
    """Whether *folded* has a "since"."""
    return has_any(folded, _SINCE)


def may_last(folded: str) -> bool:
    """Whether *folded* may tell how long something lasts."""
    return has_any(folded, _SPANS) or has_digit(folded)
