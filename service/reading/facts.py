"""
Everything else a text states: the facts of the vocabulary, by wording where rules list it and by shape where it is a
number.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from service.reading.ages import age_in_years
from service.reading.asking import questions
from service.reading.attempts import Attempts
from service.reading.brands import BrandFinder
from service.reading.contacts import email_address, phone_number, postal_code, street_address
from service.reading.hazards import Screened
from service.reading.matching import Hit
from service.reading.mentions import Mentions
from service.reading.model import Asked
from service.reading.names import Namer
from service.reading.normalising import Normal
from service.reading.plates import error_code, has_digit, plate_numbers
from service.reading.polarity import Polarity
from service.reading.since import since_when
from service.reading.undertaken import of_dryer

MANY = ("after", "access")
PLATE = ("model", "serial", "code")
"""What is asked for when five digits alone are no ZIP code."""

"""Facts that hold several values."""

_ONE = ("fuel", "variant", "pattern", "payer")
_OF_ITSELF = ("age", "brand", "model", "serial", "name", "address", "postal_code", "phone", "offer", "access", "payer")
"""Asked of these, an event or a habit dates the machine or belongs to people: "was here when we moved in"."""

_PATTERNS = ("worsening", "once", "sometimes", "always")
"""Which is said of two: what grows worse does so every day, what happens once did so each of those times."""

_GATE = re.compile(
    r"(?:(?:gate|door|entry|lockbox|lock box|building|call ?box|porton|entrada|puerta|alarm)\s*(?:code|"
    r"codigo|#|number|pin)?|(?:code|codigo)\s+(?:for|to|del|de|para)\s+(?:the |la |el )?(?:gate|door|"
    r"building|porton|entrada|puerta))"
    r"\s*(?:is|es|:|=|#|code|,|number)*\s*(#?\*?\d{2,8}[#*]?)"
)


@dataclass(frozen=True, slots=True)
class Facts:
    """What is ``stated``, by name; ``tries``: where something is told as tried, first word, the one after the last, value."""

    stated: dict[str, object]
    tries: tuple[tuple[int, int, str], ...] = ()


class FactFinder:
    """
    Finds facts in one shop's *area*; ``brands`` finds the maker, ``namer`` people's names.
    """

    def __init__(
        self,
        area: frozenset[str],
        brands: BrandFinder,
        namer: Namer,
        attempts: Attempts,
    ) -> None:
        self._area, self._brands, self._namer, self._attempts = area, brands, namer, attempts

    def facts(
        self,
        normal: Normal,
        hits: Sequence[Hit],
        polarity: Polarity,
        mentions: Mentions,
        asked: Asked | None,
        this_year: int | None,
        screened: Screened,
    ) -> Facts:
        """
        The facts of a text, by name. ``tried``, ``after`` and ``access`` are tuples, ``age_years`` a number, the rest
        strings. *screened*: the dangers told and denied; beside one, what was done was done to be safe.
        """
        kind = asked.kind if asked else None
        danger, wary = bool(screened.codes), bool(screened.codes or screened.cleared)
        tried: Tries = []
        found = self._worded(normal, hits, polarity, kind, tried, wary=wary)
        tried += self._attempts.found(normal.words, polarity, _machines(mentions), danger=danger, wary=wary)
        _tell_tried(found, tried, normal, _machines(mentions), kind)
        self._numbers(found, normal, kind, this_year, danger=danger)
        self._people(found, normal, kind)
        brand = self._brands.brand(normal, mentions, asked=kind == "brand")
        if brand:
            found["brand"] = brand
        return Facts(found, tuple(tried) if "tried" in found else ())

    def _worded(
        self, normal: Normal, hits: Sequence[Hit], polarity: Polarity, kind: str | None, tried: Tries, *, wary: bool
    ) -> dict[str, object]:
        found: dict[str, object] = {}
        many: dict[str, list[str]] = {}
        places: list[tuple[int, int]] = []
        asking = questions(normal.words)
        for hit in _counting(hits, normal, polarity, kind):
            name, _, value = hit.payload.code.partition("=")
            if name == "tried":
                if self._attempts.tells(normal.words, hit.start, hit.end, polarity, wary=wary):
                    tried.append((hit.start, hit.end, value))
                continue
            if name == "access" and kind != "access" and hit.length < 3:
                continue
            if name == "payer" and kind != "payer" and hit.start in asking.marked:
                continue
            if name == "access":
                places.append((normal.words[hit.start].start, normal.words[hit.end - 1].end))
            elif name in MANY:
                many.setdefault(name, []).append(value)
            elif name == "pattern":
                found[name] = min(value, str(found.get(name, value)), key=_PATTERNS.index)
            elif name in _ONE:
                found.setdefault(name, value)
        many |= _access(normal, places)
        if kind == "access" and "access" not in many and len(normal.words) > 1:
            many["access"] = [normal.text.strip()]
        return found | {name: tuple(dict.fromkeys(values)) for name, values in many.items()}

    def _numbers(
        self, found: dict[str, object], normal: Normal, kind: str | None, this_year: int | None, *, danger: bool
    ) -> None:
        text, folded = normal.text, normal.folded
        figures = has_digit(folded)
        if figures or kind in ("age", "code") or any(word in folded for word in ("old", "year", "ano", "new", "nuev")):
            age = age_in_years(folded, asked=kind == "age", this_year=this_year)
            if age is not None:
                found["age_years"] = age
        if figures or kind == "code" or "code" in folded or "codigo" in folded or "error" in folded:
            found.update(plate_numbers(text, folded, kind) if figures else {})
            code = (
                error_code(text, folded, kind)
                if kind not in ("model", "serial", "phone", "address", "postal_code", "age", "offer", "access", "name")
                else None
            )
            if code and code not in (found.get("model"), found.get("serial")):
                found["code"] = code
        since = since_when(text, folded, danger=danger)
        if since:
            found["since"] = since

    def _people(self, found: dict[str, object], normal: Normal, kind: str | None) -> None:
        text, folded = normal.text, normal.folded
        phone = phone_number(text)
        if phone:
            found["phone"] = phone
        email = email_address(folded) if "@" in folded else None
        if email:
            found["email"] = email
        if has_digit(folded):
            zip_code = postal_code(folded, asked=kind == "postal_code", alone=kind not in PLATE, area=self._area)
            if zip_code:
                found["postal_code"] = zip_code
            address = street_address(text, folded, asked=kind == "address")
            if address:
                found["address"] = address
        if kind not in ("brand", "model", "serial"):
            only_sure = kind in ("offer", "address")
            name = self._namer.name(text, folded, asked=kind == "name", only_sure=only_sure)
            if name is None and "address" in found:  # "1200 Invented Rd NE 87106, Dana Reyes"
                beside = text.replace(str(found["address"]), "").replace(str(found.get("postal_code", "")), "")
                name = self._namer.lone(beside.split(", ")[0] or beside) or self._namer.lone(beside)
            if name and not (text.startswith(name) and 0 in questions(normal.words).plain):
                found["name"] = name


Tries = list[tuple[int, int, str]]
"""Where something is told as tried, first word and the one after the last, and its value."""

_UNPLUGGED = ("unplug", "unpl", "plugged", "desench", "desconect", "reboot", "restart", "power", "off", "kill")


def _machines(mentions: Mentions) -> frozenset[str]:
    """The machines that a text is about."""
    named = {mention.appliance for mention in mentions.found}
    return frozenset(named | {mentions.about} if mentions.about else named)


def _tell_tried(
    found: dict[str, object], tried: Tries, normal: Normal, named: frozenset[str], kind: str | None
) -> None:
    """
    Puts what was *tried* among the facts *found*. Beside what has a code of its own, that something else was done counts only
    where other words tell it. A "reset" is the breaker's where one is spoken of, and the disposal's button.
    """
    codes = dict.fromkeys(of_dryer(code, named) for _, _, code in tried if code != "other")
    other = any(
        code == "other" and not any(s < end and start < e for s, e, c in tried if c != "other")
        for start, end, code in tried
    )
    if "power_cycled" in codes and not any(word.form.startswith(_UNPLUGGED) for word in normal.words):
        if "disposal" in named or "reset_breaker" in codes:
            codes.pop("power_cycled")
        other = other or "disposal" in named
    worded = any(end - start > 1 and code == "other" for start, end, code in tried)
    if other and (kind != "check_result" or worded):
        codes["other"] = None
    if codes:
        found["tried"] = tuple(codes)


def _counting(hits: Sequence[Hit], normal: Normal, polarity: Polarity, kind: str | None) -> Iterator[Hit]:
    """The wordings of facts among *hits* that count: no look-alikes, nothing supposed, denied or told of something else."""
    talk = [h for h in hits if h.payload.kind == "talk" and "=" in h.payload.code]
    innocent = [h for h in talk if h.payload.role == "innocent"]
    for hit in talk:
        name, code = hit.payload.code.partition("=")[0], hit.payload.code
        if hit.payload.role == "innocent" or any(
            i.payload.code == code and i.start < hit.end and hit.start < i.end for i in innocent
        ):
            continue
        if hit.payload.role == "alone" and not _answers(hit, normal, name, kind):
            continue
        if name in ("tried", "after") and not _holds(hit, polarity):
            continue
        if name not in ("after", "pattern") or not _of_itself(hit, kind, polarity):
            yield hit


_ASKING = frozenset(
    ["how", "should", "can", "could", "do", "where", "what", "como", "debo", "debe", "puedo", "donde", "que"]
)
"""A clause that begins with one of these asks for what it names."""


def _holds(hit: Hit, polarity: Polarity) -> bool:
    """Whether what was tried or happened is said to have been: not supposed, not denied, not asked."""
    clause = polarity.clause(hit.start)
    asks = polarity.word(clause.start) in _ASKING
    dated = hit.payload.code.startswith("after=") and hit.payload.code not in ("after=repair", "after=installed")
    past = clause.past and not dated  # a move of a year ago may still be what it began with
    negated = polarity.negated_before(hit) and not (dated and polarity.word(hit.start) in _SINCE)
    return not (clause.if_ or past or clause.others or clause.asked or asks or negated)


_SINCE = frozenset(("since", "after", "when", "until", "desde", "despues", "cuando"))
"""“wont light since we moved it”: what stands before is the fault, and no denial of the move."""


def _of_itself(hit: Hit, kind: str | None, polarity: Polarity) -> bool:
    """Whether an event or a habit is told of people or of the machine's age, of another machine, of years ago, or asked."""
    name, _, value = hit.payload.code.partition("=")
    clause = polarity.clause(hit.start)
    elsewhere = clause.others or clause.past or clause.asked
    return value != "worsening" and (kind in _OF_ITSELF or (name == "pattern" and elsewhere))


def _answers(hit: Hit, normal: Normal, name: str, kind: str | None) -> bool:
    """
    Whether a word that tells *name* by itself answers: nearly alone, or first, another matter behind it (“electric. and btw the
    door glass cracked”). It also answers late: "electric", when the ZIP is asked by now.
    """
    besides = len(normal.words) - (hit.end - hit.start)
    first = hit.start == 0 and (hit.end == len(normal.words) or normal.words[hit.end].brk > 0)
    return (kind == name and (besides <= 3 or first)) or bool(kind and name == "fuel" and not besides)


def _joined(places: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """The stretches that *places* cover, in order: what overlaps is one."""
    joined: list[tuple[int, int]] = []
    for start, end in sorted(places):
        if joined and start < joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return joined


def _access(normal: Normal, places: list[tuple[int, int]]) -> dict[str, list[str]]:
    """What *places* of the text and a gate code say of getting in, in the text's own words; empty when nothing does."""
    gate = _GATE.search(normal.folded)
    spans = _joined([*places, gate.span()] if gate else places)
    return {"access": [normal.text[start:end].strip() for start, end in spans]} if spans else {}
