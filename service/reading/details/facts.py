"""
Everything else a text states: the facts of the vocabulary, by wording where rules list it and by shape where it is a
number.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from service.reading.dangers.hazards import Screened
from service.reading.details.attempts import Attempts
from service.reading.details.bare_streets import bare_street, name_before
from service.reading.details.contacts import email_address, phone_number, postal_code, street_address
from service.reading.details.entering import ways_in
from service.reading.details.handlings import Handlings
from service.reading.details.names import Namer
from service.reading.details.streets import may_be_spoken
from service.reading.details.worded_facts import (
    Tries,
    access_told,
    counting,
    fuel_worded,
    may_pay,
    pays,
    taken_back,
    tell_tried,
)
from service.reading.faults.polarity import Polarity
from service.reading.faults.undertaken import of_an_alarm
from service.reading.machines.brands import BrandFinder
from service.reading.machines.displays import may_display
from service.reading.machines.kinds import fuel_instead, fuel_told, of_these
from service.reading.machines.maker_places import whole_maker
from service.reading.machines.mentions import Mentions
from service.reading.machines.plates import error_code, machines_number, makers_number, plate_numbers
from service.reading.machines.set_right_codes import set_right
from service.reading.model import Asked
from service.reading.times.bare_ages import age_behind_maker
from service.reading.times.how_old import age_in_years
from service.reading.times.since import since_when
from service.reading.words.asking import questions
from service.reading.words.letters import has_digit
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal

MANY = ("after", "access")
"""Facts that hold several values."""

_OF_AGE = (
    "old",
    "year",
    "yr",
    "ano",
    "anit",
    "new",
    "nuev",
    "month",
    "mes",
    "viej",
    "ancient",
    "nineteen",
    "two thousand",
)
PLATE = ("model", "serial", "code")
"""What is asked for when five digits alone are no ZIP code."""

_ONE = ("variant", "pattern", "payer")
_PATTERNS = ("worsening", "once", "sometimes", "always")
"""Which is said of two: what grows worse does so every day, what happens once did so each of those times."""


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
        handlings: Handlings,
    ) -> None:
        self._area, self._brands, self._namer = area, brands, namer
        self._attempts, self._handlings = attempts, handlings

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
        done = self._attempts.was_done
        tried += self._handlings.found(normal.words, hits, polarity, done, tuple(tried), danger=danger)
        tell_tried(found, tried, normal, _machines(mentions), kind)
        self._numbers(found, normal, kind, this_year, _named_at(normal, mentions))
        since = since_when(normal.text, normal.folded, danger=danger)
        if since:
            found["since"] = since
        self._people(found, normal, kind)
        pays(found, normal, kind)
        self._maker(found, normal, mentions, kind)
        _kind_of_machine(found, hits, normal, mentions, kind)
        return Facts(found, tuple(tried) if "tried" in found else ())

    def _maker(self, found: dict[str, object], normal: Normal, mentions: Mentions, kind: str | None) -> None:
        besides = f"{found.get('name', '')} {found.get('address', '')}"
        brand = self._brands.brand(normal, mentions, asked=kind == "brand", besides=besides)
        if not brand:
            return
        found["brand"] = whole_maker(normal.text, brand)
        if "age_years" not in found:
            age = age_behind_maker(normal.folded, normal.text.find(brand) + len(brand))
            found.update({"age_years": age} if age is not None else {})
        number = makers_number(normal.text, normal.folded, brand) if has_digit(normal.folded) else None
        if number and "model" not in found and number not in (found.get("serial"), found.get("code")):
            found["model"] = number
        if kind != "name" and found.get("name") == brand:  # "name on it is Quillmark"
            found.pop("name")

    def _worded(
        self, normal: Normal, hits: Sequence[Hit], polarity: Polarity, kind: str | None, tried: Tries, *, wary: bool
    ) -> dict[str, object]:
        found: dict[str, object] = {}
        many: dict[str, list[str]] = {}
        places: list[tuple[int, int]] = []
        asking = questions(normal.words)
        behind = taken_back(normal) if kind in _ONE else 0
        for hit in counting(hits, normal, polarity, kind):
            name, _, value = hit.payload.code.partition("=")
            if name == "tried":
                if self._attempts.tells(normal.words, hit.start, hit.end, polarity, wary=wary):
                    tried.append((hit.start, hit.end, value))
                continue
            if name == "access" and kind != "access" and hit.length < 3:
                continue
            if name == "payer" and not may_pay(hit, normal, kind, value, asking.marked):
                continue
            if name == "access":
                places.append((normal.words[hit.start].start, normal.words[hit.end - 1].end))
            elif name in MANY:
                many.setdefault(name, []).append(value)
            elif name == "pattern" and (wary or not of_an_alarm(normal.words, hit.start)):
                found[name] = min(value, str(found.get(name, value)), key=_PATTERNS.index)
            elif name in _ONE and name != "pattern" and not (kind == name and hit.start < behind):
                found.setdefault(name, value)
        many |= access_told(normal, [*places, *ways_in(normal.folded)])
        kept_back = any(hit.payload.code in ("declined", "dont_know") and hit.payload.role == "sign" for hit in hits)
        if kind == "access" and "access" not in many and len(normal.words) > 1 and not kept_back:
            many["access"] = [normal.text.strip()]
        return found | {name: tuple(dict.fromkeys(values)) for name, values in many.items()}

    def _numbers(
        self,
        found: dict[str, object],
        normal: Normal,
        kind: str | None,
        this_year: int | None,
        machines: Sequence[tuple[int, int]],
    ) -> None:
        text, folded = normal.text, normal.folded
        figures = has_digit(folded)
        if figures or kind in ("age", "code") or any(word in folded for word in _OF_AGE):
            age = age_in_years(
                folded, asked=kind == "age", this_year=this_year, machines=machines, plate=kind in ("brand", "model")
            )
            if age is not None:
                found["age_years"] = age
        if (
            figures
            or kind == "code"
            or may_display(text)
            or "code" in folded
            or "codigo" in folded
            or "error" in folded
        ):
            found.update(plate_numbers(text, folded, kind) if figures else {})
            number = machines_number(text, [end for _, end in machines]) if figures and "model" not in found else None
            found.update({"model": number} if number else {})
            code = (
                error_code(text, folded, kind)
                if kind not in ("model", "serial", "phone", "address", "postal_code", "age", "offer", "access", "name")
                else None
            )
            if code and code not in (found.get("model"), found.get("serial")):
                found["code"] = set_right(folded, code) or code

    def _people(self, found: dict[str, object], normal: Normal, kind: str | None) -> None:
        text, folded = normal.text, normal.folded
        phone = phone_number(text)
        if phone:
            found["phone"] = phone
        email = email_address(folded) if "@" in folded else None
        if email:
            found["email"] = email
        if has_digit(folded) or "calle" in folded or kind in ("address", "postal_code") or may_be_spoken(folded):
            zip_code = postal_code(folded, asked=kind == "postal_code", alone=kind not in PLATE, area=self._area)
            if zip_code:
                found["postal_code"] = zip_code
            address = street_address(text, folded, asked=kind == "address")
            if address and not (kind in PLATE and address == bare_street(text, folded)):
                found["address"] = _NOT_THE_OTHER.sub("", address)
        if kind not in ("brand", "model", "serial"):
            only_sure = kind in ("offer", "address")
            name = self._namer.name(text, folded, asked=kind == "name", only_sure=only_sure)
            if name is None and kind == "offer":
                name = self._namer.taken_by(text, folded)
            if name is None and "address" in found:  # "1200 Invented Rd NE 87106, Dana Reyes"
                beside = text.replace(str(found["address"]), "").replace(str(found.get("postal_code", "")), "")
                name = self._namer.lone(beside.split(", ")[0] or beside) or self._namer.lone(beside)
                name = name or name_before(text, str(found["address"]))
            if name and not (text.startswith(name) and 0 in questions(normal.words).plain):
                found["name"] = name


_NOT_THE_OTHER = re.compile(
    r",?\s+(?:y\s+)?(?:no|not|instead of|en vez de)\s+(?:el\s+|la\s+|the\s+)?\d+\w*$", re.IGNORECASE
)
"""“350 Griegos no 305”: the number that it is not."""


def _kind_of_machine(
    found: dict[str, object], hits: Sequence[Hit], normal: Normal, mentions: Mentions, kind: str | None
) -> None:
    """Puts the fuel in *found*, and takes out a fuel or a variant that none of the machines can have."""
    told = (
        fuel_instead(normal.folded)
        or fuel_worded(hits, normal, kind)
        or fuel_told(normal, mentions, asked=kind == "fuel", brand=str(found.get("brand", "")))
    )
    if told:
        found["fuel"] = told
    for name in ("fuel", "variant"):
        if name in found and kind != name and not of_these(name, str(found[name]), mentions, normal.folded):
            del found[name]


def _machines(mentions: Mentions) -> frozenset[str]:
    """The machines that a text is about."""
    named = {mention.appliance for mention in mentions.found}
    return frozenset(named | {mentions.about} if mentions.about else named)


def _named_at(normal: Normal, mentions: Mentions) -> list[tuple[int, int]]:
    """Where in the text machines are named."""
    words = normal.words
    return [(words[m.start].start, words[m.end - 1].end) for m in mentions.found if not m.implied]
