"""A machine's age as a number without its unit, or set right: “its old, 15 prob”, “fridge is 3”, “no son 16 años son 6”."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.times.got_when import ABOUT, Span, got_before
from service.reading.words.counting import ARTICLES, COUNT, number

_CLOSES = (
    r"(?:ish|\+|\s*(?:or so|years?|prob\w*|maybe|i think|mas o menos|yo creo))*"
    r"\s*(?=[.,;!?\n]|$|\b(?:and|but|so|y|pero|con)\b)"
)
_OLD_SO = re.compile(
    r"\b(?:old|ancient|vintage|antique|older than \w+(?: \w+)?|viej\w+|antigu\w+)(?:,|\s+so|\s+like|\s+about|\s+prob\w*|"
    rf"\s+maybe|\s+como|\s+unos|\.\.+|\s*-)\s*(?:so |i'd say |id say |at least |ha de tener |"
    rf"tendra )?{ABOUT}(?P<count>{COUNT})" + _CLOSES
)
"""“its old, 15 prob”, “older than me so 22+”: a bare number where old is the word before."""
_OLDER_THAN = re.compile(
    r"\bolder than (?:me|i am|my \w+)\b[^.;\d]{0,15}\b(?:i'm|im|i am|he is|she is|he's|hes|she's|shes|who is|whos)\s+"
    rf"(?P<count>{COUNT})\b"
)
_SO = re.compile(
    rf"\b(?:so|asi que)\s+(?:its |it's |like |que )?{ABOUT}(?P<count>{COUNT})(?:ish|\+)?\s*(?:[.,;!?\n]|$)"
)
_IS = re.compile(
    rf"\s*(?:'s|s|is|are|es|tiene|must be|gotta be|has to be|has got to be|ha de tener|"
    rf"tendra)\s+{ABOUT}(?P<count>{COUNT}){_CLOSES}"
)
"""“fridge is 3”, behind a machine's name."""
_ITS = re.compile(
    r"(?:^|[.,;!?\n]\s*)(?:it'?s|it is|she'?s|he'?s|its got to be|gotta be|must be|prob\w*|thing is|thing's|tiene|"
    r"ha de tener|debe tener)\s+"
    r"(?:(?:about|like|maybe|prob\w*|around|over|almost|at least|going on|pushing|easily|close to|como|unos|mas de|casi)\s+)+"
    rf"(?P<count>{COUNT})(?:ish|\+|\s*(?:or so|prob\w*|maybe|i think|mas o menos|yo creo))*\s*(?:[.;!?\n]|$)"
)
"""“its like 20.”, all of a statement beside a machine: not exactly known, and no more said."""
_BEHIND_MAKER = re.compile(
    r"[,.;:]?\s*(?:(?:about|approx|roughly|like|maybe|prob\w*|around|"
    r"over|almost|at least|going on|pushing|como|unos|mas de|casi)\s+)+"
    rf"(?P<count>{COUNT})(?:ish|\+|\s*(?:or so|prob\w*|maybe|i think|mas o menos|yo creo))*\s*(?:[.,;!?\n]|$)"
)
_BEHIND_MAKER_ONLY = re.compile(rf",\s*(?P<count>(?!a\b|an\b|una?\b){COUNT})\s*(?:[.;!?\n]|$)(?!\d)")
"""“Wexbury, 8.”: the number alone, behind a comma, and the sentence's end."""
_YEARS_BEHIND_MAKER = re.compile(
    rf",?\s+(?:(?:about|maybe|like|only|como|de|con)\s+)*(?P<count>{COUNT})\s*(?:yrs?|years?|anos?)\b(?! (?:ago|back|hace)\b)"
)
"""“Montivar 3 yrs home warranty claim is open”: behind a maker's name it is an age whatever follows."""
_ITS_ONLY = re.compile(rf"(?<=[.!?\n])\s*(?:it'?s|it is|tiene) (?P<count>{COUNT})\s*[.!?\n]")
_COLD_OR_HOT = re.compile(
    r"fridge|freez|refri|refer|cooler|ice|hielo|congel|nevera|cava|cold|warm|temp|degree|\d f\b|oven|horno|thermo|minut|timer"
)
"""With these a bare number that "it is" may be a temperature or a time."""
_DEGREES = re.compile(r"degree|grados|°|temp|thermo|termo|\bset\b|\breads?\b|should be|suppose|\d ?f\b|\bmarca\b")
_NOT_SO_OLD = re.compile(
    rf"\b(?:no (?:son|es|tiene|era)|not|isn'?t|aint) {COUNT}\s*(?:years?|yrs?|anos?)(?: old)?,?(?: (?:but|sino|it'?s|"
    rf"it is|its|son|es|tiene))+"
    rf" (?P<count>{COUNT})(?=\s*(?:[.,;!?\n]|$|years?|yrs?|anos?))"
)
"""“no son 16 años son 6”."""
_MOST_BARE = 30
_FEWEST_BARE = 3
_MINE = re.compile(r"\b(?:mine|the one in question|la mia|el mio|this one)\b")

Told = tuple[float | int, int]
"""An age, and where in the text it ends."""


def age_instead(folded: str) -> float | int | None:
    """The age told in the stead of one that is denied."""
    instead = _NOT_SO_OLD.search(folded)
    return number(instead["count"]) if instead else None


def bare_of_a_machine(folded: str, machines: Sequence[Span]) -> Told | None:
    """A number without its unit: “its old, 15 prob”, “fridge is 3”, “came with the house so maybe 7”."""
    so = _SO.search(folded)
    old = (
        _OLD_SO.search(folded)
        or _OLDER_THAN.search(folded)
        or (so if so and got_before(folded[: so.start()]) else None)
    )
    if old and old.group("count") not in ARTICLES:
        return number(old.group("count")), old.end()
    if machines and not _DEGREES.search(folded):
        for end in [*(end for _, end in machines), *(mine.end() for mine in _MINE.finditer(folded))]:
            told = _IS.match(folded, end - 2 if folded[:end].endswith("'s") else end)
            if told and told.group("count") not in ARTICLES and 0 < number(told.group("count")) <= _MOST_BARE:
                return number(told.group("count")), told.end()
        its = _ITS.search(folded)
        if its and its.group("count") not in ARTICLES and number(its.group("count")) <= _MOST_BARE:
            return number(its.group("count")), its.end()
        only = _ITS_ONLY.search(folded)
        if only and not _COLD_OR_HOT.search(folded) and _FEWEST_BARE <= number(only["count"]) <= _MOST_BARE:
            return number(only["count"]), only.end()
    return None


_OLDEST = 60
"""No machine is older."""


def age_behind_maker(folded: str, end: int) -> float | int | None:
    """A number of years, or one that can be no other, right behind the maker's name that ends at *end*: “Tolvane, about 10.”"""
    for pattern in (_BEHIND_MAKER, _BEHIND_MAKER_ONLY, _YEARS_BEHIND_MAKER):
        told = pattern.match(folded, end)
        if told and told["count"] not in ARTICLES and 0 < number(told["count"]) <= _OLDEST:
            return number(told["count"])
    return None
