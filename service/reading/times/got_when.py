"""When a machine was got: so many years ago, or in a year that is named; not a part of it, a house or a fire."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.words.counting import YEAR, year_of

Span = tuple[int, int]

ABOUT = (
    r"(?:(?:about|abt|bout|around|like|maybe|probably|probly|prob|approx\w*|roughly|nearly|almost|only|over|under|"
    r"close to|going on|at least|more than|less than|some|just|pushing|oh|the|a good|good|como|unos|unas|casi|apenas|"
    r"mas de|ya|cerca de|alrededor de|mas o menos|yo creo|creo)\s+)*"
)
"""What may stand before a number that is not told exactly."""
THING = (
    r"(?:carbon|smoke|co|alarms?|detectors?|outlet|plug|cord|hoses?|filters?|pump|belt|parts?|motor|element|igniter|board|"
    r"valve|seal|gasket|thermostat|compressor|bulb|bulbs|bearings?|line|wiring|breaker|floors?|kitchen|house|home|casa|"
    r"cocina|building|roof|carpet|baby|sink|battery|batteries|pans?|pots?|phone|truck|heater|manguera|filtro|bomba|pieza|"
    r"banda|foco|empaque|pila|baterias?|piso|edificio|granite|counters?|countertops?|tiles?|rug|cabinets?|granito)"
)
"""What is old, new or put in beside the machine."""

HACE = re.compile(r"\bh?a[cs]e\s+" + ABOUT + "$")
_GOT = (
    r"(?:bought|buy|purchased|got|gotten|getting|installed|put (?:it |this |him |her |one |that |them )?in|delivered|new|"
    r"came|conveyed|inherited|had (?:it|this|her|him|them)|replaced it|moved in with|compr\w+|instal\w+|regal\w+|pus\w+|"
    r"traj\w+|dieron|entreg\w+|nuev[oa])"
)
_GOT_IT = re.compile(rf"\b{_GOT}\b[^.;!?\n]*$")
_GOT_AFTER = re.compile(
    r"\s*(?:que )?(?:(?:la|lo|me|nos|se|mi|el|mama|papa|apa|esposo|esposa|hijo|hija|we|i) )*"
    r"(?:compr\w+|instal\w+|regal\w+|pus\w+|traj\w+|dieron|entreg\w+|bought|got)\b"
)
_FROM = re.compile(r"\b(?:from|(?<!desde )de hace)\s+" + ABOUT + "$")
_OTHER_EVENT = re.compile(
    rf"\b{THING}\b(?: \w+)?$|\b(?:fire|flood\w*|leak\w*|repair\w*|fixed|serviced|shock\w*|visit|cleaned|checked|"
    rf"neighbors?|vecin[oa]|my old|lived)\b[^.;!?\n]*$"
)
_PART = re.compile(rf"\b{THING}\b[^.;,!?\n]*$")
_OTHER_GOT = re.compile(
    r"\b(?:the|a|new|our|my|some|los|las|el|la)\s+(?P<thing>\w+)\s+(?:put in|installed|delivered|redone|instalad[oa]|"
    r"puest[oa])\b"
)

_YEAR = re.compile(
    rf"(?<![\w#$-])(?<![^\d]/){YEAR}\b(?! (?:\w+ )?(?:st|ave|street|rd|road|dr|ct|ln|blvd|way|calle|nw|ne|se|sw|"
    r"owners?|tenants?|renters?|fire|flood|remodel|repair|leak|storm|freeze|invoice|bill|work order)\b)"
)
_OF_YEAR = re.compile(
    r"\b(?:from|since|its? an?|it's an?|it is an?|model year|year|circa|vintage|original|old as (?:the|this|"
    r"my) (?:house|casa|hills)|dated?|mfg|mfd|made|built|"
    r"manufactured|"
    r"fabricad[oa]|es|son|tiene|de|del|desde|ano|modelo)(?: (?:it|we|the|year|date|about|around|like|maybe|early|late|mid|"
    r"el|la|"
    r"ano|como|por|in|en|el|del|de|\d{1,2}|\w{3,9}(?= (?:19|20))))*[\s,(/:]*$"
)
_OF_WHEN = re.compile(r"\b(?:from when|de cuando|del tiempo|from the time)\b[^.;!?\n]{0,45}$")
_MODEL_YEAR = re.compile(r"\s(?:model|modelo|unit|machine|one)\b")
_OTHER_YEAR = re.compile(
    r"\b(?:house|home|casa|building|edificio|bldg|condo|apt|apartment|customer|cliente|lived|living|vivo|fire|incendio|"
    r"flood|inund\w+|leak\w*|"
    r"fixed|replaced|repaired|healed|old place|previous|used to|depa\w*)\b[^.;!?\n]*$"
)
_WITH_THE_HOUSE = re.compile(r"\b(?:came|conveyed|venia|vino|original|old as)\b")
_YEAR_OR_SO = re.compile(r"\s*(?:or so|ish|maybe|i think|mas o menos|creo)\b")
_STANDS_APART = re.compile(r"(?:^|[.,;!?\n]\s*)(?:(?:about|like|around|circa|como|maybe|del?|from) )*$")
_ON_DAY = re.compile(
    r"\b(?:bought|purchased|registered|installed|delivered|mfg|mfd|made|dated?|date|comprad[oa]|instalad[oa]|fecha)\b"
    r"[^.;!?\n\d]{0,25}\d{1,2}[/-](?:\d{1,2}[/-])?(?P<year>20\d\d|\d\d)\b"
)
"""“registered 3/3/24”: a date on the papers."""
_BEFORE_LAST = re.compile(r"\b(?:year before last|ano antepasado)\b")
_OLDEST = 1970


def got_ago(before: str, after: str, machines: Sequence[Span]) -> bool:
    """Whether *before* or *after* tells that the machine was got then, and not a part of it, a fire or a repair."""
    if _FROM.search(before) or _GOT_AFTER.match(after):
        return True
    clause = re.split(r"[.;!?\n]", before)[-1]
    first = len(before) - len(clause)
    for other in _OTHER_GOT.finditer(clause):
        if not any(start <= first + other.start("thing") < end for start, end in machines):
            return False
    return bool(_GOT_IT.search(clause)) and not _OTHER_EVENT.search(clause) and not _PART.search(_behind_got(clause))


def _behind_got(clause: str) -> str:
    """What *clause* says behind its last word of getting: what was got; “came with the house” names no part."""
    got = list(re.finditer(rf"\b{_GOT}\b", clause))
    rest = clause[got[-1].end() :] if got else clause
    return "" if got and _WITH_THE_HOUSE.match(got[-1].group()) else rest


def got_before(folded: str) -> bool:
    """Whether *folded* tells of getting the machine at all."""
    return bool(_GOT_IT.search(folded))


def bought_in(folded: str, this_year: int, *, asked: bool) -> int | None:
    """The age by a year of purchase: “bought it in 2019”, “la puse en 2019”, “a 2015 model”; no year of a house or a fire."""
    for match in _YEAR.finditer(folded):
        year = year_of(match.group(), this_year)
        clause = re.split(r"[.;!?\n]|\b(?:pero|but)\b", folded[: match.start()])[-1]
        told = (
            _OF_YEAR.search(clause)
            or _OF_WHEN.search(clause)
            or _MODEL_YEAR.match(folded, match.end())
            or _GOT_IT.search(clause)
            or (_YEAR_OR_SO.match(folded, match.end()) and _STANDS_APART.search(folded[: match.start()]))
        )
        others = _OTHER_YEAR.search(clause) and not _WITH_THE_HOUSE.search(clause)
        if _OLDEST <= year <= this_year and (asked or (told and not others)):
            return this_year - year
    dated = _ON_DAY.search(folded)
    if dated and (year := 2000 + int(dated["year"][-2:])) <= this_year:
        return this_year - year
    last = _BEFORE_LAST.search(folded)
    return 2 if last and _GOT_IT.search(folded[: last.start()]) else None
