"""
Everything else a text states: the facts of the vocabulary, by wording where rules list it and by shape where it is a
number.
"""

from __future__ import annotations

import re
from collections.abc import Container, Sequence

from service.reading.ages import since_when
from service.reading.asking import questions
from service.reading.brands import BrandFinder
from service.reading.contacts import email_address, phone_number, postal_code, street_address
from service.reading.displays import may_display
from service.reading.entering import ways_in
from service.reading.how_old import age_in_years
from service.reading.kinds import fuel_told, meant, of_these
from service.reading.matching import Hit
from service.reading.mentions import Mentions
from service.reading.model import Asked
from service.reading.names import Namer
from service.reading.normalising import Normal
from service.reading.payers import payer_told
from service.reading.plates import error_code, has_digit, makers_number, plate_numbers
from service.reading.polarity import Polarity
from service.reading.streets import may_be_spoken

MANY = ("tried", "after", "access")
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

"""Facts that hold several values."""

_ONE = ("variant", "pattern", "payer")
_GATE = re.compile(
    r"(?:(?:gate|door|entry|lockbox|lock box|building|call ?box|porton|entrada|puerta|alarm)\s*(?:code|"
    r"codigo|#|number|pin)?|(?:code|codigo)\s+(?:for|to|del|de|para)\s+(?:the |la |el )?(?:gate|door|"
    r"building|porton|entrada|puerta))"
    r"\s*(?:is|es|:|=|#|code|,|number)*\s*(#?\*?\d{2,8}[#*]?)"
)


class FactFinder:
    """
    Finds facts in one shop's *area*; ``brands`` finds the maker, ``namer`` people's names.
    """

    def __init__(
        self,
        area: frozenset[str],
        brands: BrandFinder,
        namer: Namer,
    ) -> None:
        self._area, self._brands, self._namer = area, brands, namer

    def facts(
        self,
        normal: Normal,
        hits: Sequence[Hit],
        polarity: Polarity,
        mentions: Mentions,
        asked: Asked | None,
        this_year: int | None,
    ) -> dict[str, object]:
        """
        The facts of a text, by name. ``tried``, ``after`` and ``access`` are tuples, ``age_years`` a number, the rest
        strings.
        """
        kind = asked.kind if asked else None
        found = self._worded(normal, hits, polarity, kind)
        told = _fuel(hits, normal, kind) or fuel_told(normal, mentions, asked=kind == "fuel")
        if told:
            found["fuel"] = told
        for name in ("fuel", "variant"):
            if name in found and kind != name and not of_these(name, str(found[name]), mentions, normal.folded):
                del found[name]
        self._numbers(found, normal, kind, this_year, _machines(normal, mentions))
        self._people(found, normal, kind)
        _pays(found, normal, kind)
        besides = f"{found.get('name', '')} {found.get('address', '')}"
        brand = self._brands.brand(normal, mentions, asked=kind == "brand", besides=besides)
        if brand:
            found["brand"] = brand
            number = makers_number(normal.text, normal.folded, brand) if has_digit(normal.folded) else None
            if number and "model" not in found and number not in (found.get("serial"), found.get("code")):
                found["model"] = number
            if kind != "name" and found.get("name") == brand:  # "name on it is Quillmark"
                found.pop("name")
        return found

    def _worded(self, normal: Normal, hits: Sequence[Hit], polarity: Polarity, kind: str | None) -> dict[str, object]:
        found: dict[str, object] = {}
        many: dict[str, list[str]] = {}
        talk = [h for h in hits if h.payload.kind == "talk" and "=" in h.payload.code]
        innocent = [h for h in talk if h.payload.role == "innocent"]
        places: list[tuple[int, int]] = []
        asking = questions(normal.words)
        taken_back = _taken_back(normal) if kind in _ONE else 0
        for hit in talk:
            name, _, value = hit.payload.code.partition("=")
            if hit.payload.role == "innocent" or any(
                i.payload.code == hit.payload.code and i.start < hit.end and hit.start < i.end for i in innocent
            ):
                continue
            if hit.payload.role == "alone" and not _answers(hit, normal, name, kind):
                continue
            if name in ("tried", "after") and not _holds(hit, polarity):
                continue
            if name == "access" and kind != "access" and hit.length < 3:
                continue
            if name == "payer" and not _may_pay(hit, normal, kind, value, asking.marked):
                continue
            if name == "access":
                places.append((normal.words[hit.start].start, normal.words[hit.end - 1].end))
            elif name in MANY:
                many.setdefault(name, []).append(value)
            elif name in _ONE and not (kind == name and hit.start < taken_back):
                found.setdefault(name, value)
        places += ways_in(normal.folded)
        many |= _access(normal, places)
        kept_back = any(hit.payload.code in ("declined", "dont_know") and hit.payload.role == "sign" for hit in hits)
        if kind == "access" and "access" not in many and len(normal.words) > 1 and not kept_back:
            many["access"] = [normal.text.strip()]
        specific = {name: tuple(dict.fromkeys(values)) for name, values in many.items()}
        for name, values in specific.items():
            found[name] = tuple(v for v in values if v != "other") or values
        return found

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
            code = (
                error_code(text, folded, kind)
                if kind not in ("model", "serial", "phone", "address", "postal_code", "age", "offer", "access", "name")
                else None
            )
            if code and code not in (found.get("model"), found.get("serial")):
                found["code"] = code
        since = since_when(text, folded)
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
        if has_digit(folded) or "calle" in folded or kind in ("address", "postal_code") or may_be_spoken(folded):
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


def _pays(found: dict[str, object], normal: Normal, kind: str | None) -> None:
    """Who pays, by grammar: it is surer than a role that somebody has, and takes away who is said not to."""
    told = payer_told(normal.words, questions(normal.words).marked)
    if told.who is not None:
        theirs = kind == "payer" and told.who == "owner" and any(word.form in _OWNER_ES for word in normal.words)
        found["payer"] = "landlord" if theirs else told.who
    elif found.get("payer") in told.denied:
        del found["payer"]
    elif kind == "payer" and "payer" not in found and any(word.form in _PAYING for word in normal.words):
        found["payer"] = "owner"  # "the church will pay"


_OWNER_ES = frozenset(("dueno", "duena"))
"""Asked who pays, somebody who says “el dueño” is another one."""
_TAKE = frozenset(("take", "accept", "with", "honor", "trabajan", "aceptan", "agarran", "reciben"))
_TITLES = frozenset(("don", "dona"))


def _may_pay(hit: Hit, normal: Normal, kind: str | None, value: str, marked: Container[int]) -> bool:
    """Whether a role or a plan tells who pays: not one asked about, but “do you take home warranty”; “don” is no “dueño”."""
    if any(word.was in _TITLES or word.form in _TITLES for word in normal.words[hit.start : hit.end]):
        return False
    if kind == "payer" or hit.start not in marked:
        return True
    return value == "home_warranty" and any(word.form in _TAKE for word in normal.words)


_PAYING = frozenset(("pay", "pays", "paying", "paga", "pagara", "pagan"))

_ASKING = frozenset(
    ["how", "should", "can", "could", "do", "where", "what", "como", "debo", "debe", "puedo", "donde", "que"]
)
"""A clause that begins with one of these asks for what it names."""


_NOT_SO = frozenset(("era", "was", "wasnt", "no", "not"))


def _fuel(hits: Sequence[Hit], normal: Normal, kind: str | None) -> str | None:
    """The fuel that phrases tell, one that was not taken back and is not said of what was."""
    heard = [h for h in hits if h.payload.kind == "talk" and h.payload.code.startswith("fuel=")]
    innocent = [h for h in heard if h.payload.role == "innocent"]
    fuels: list[tuple[int, str]] = []
    for hit in heard:
        beside = any(i.payload.code == hit.payload.code and i.start < hit.end and hit.start < i.end for i in innocent)
        if beside or (hit.payload.role == "alone" and not _answers(hit, normal, "fuel", kind)):
            continue
        if _NOT_SO.isdisjoint(word.form for word in normal.words[max(0, hit.start - 1) : hit.end]):
            fuels.append((normal.words[hit.start].start, hit.payload.code.partition("=")[2]))
    return meant(normal.folded, fuels)


def _machines(normal: Normal, mentions: Mentions) -> list[tuple[int, int]]:
    """Where in the text machines are named."""
    words = normal.words
    return [(words[m.start].start, words[m.end - 1].end) for m in mentions.found if not m.implied]


def _holds(hit: Hit, polarity: Polarity) -> bool:
    """Whether what was tried or happened is said to have been: not supposed, not denied, not asked."""
    clause = polarity.clause(hit.start)
    asks = polarity.word(clause.start) in _ASKING
    return not (clause.if_ or clause.past or clause.others or clause.asked or asks or polarity.negated_before(hit))


def _answers(hit: Hit, normal: Normal, name: str, kind: str | None) -> bool:
    """
    Whether a word that tells *name* by itself answers: nearly alone, or first, another matter behind it (“electric. and btw the
    door glass cracked”). It also answers late: "electric", when the ZIP is asked by now.
    """
    besides = len(normal.words) - (hit.end - hit.start)
    first = hit.start == 0 and (hit.end == len(normal.words) or normal.words[hit.end].brk > 0)
    opens = hit.start <= 2 or normal.words[hit.start].brk > 0
    return (kind == name and (besides <= 3 or first or (opens and name == "fuel"))) or bool(
        kind and name == "fuel" and not besides
    )


def _taken_back(normal: Normal) -> int:
    """Behind which word an answer begins anew: “its electric no wait the stove is gas”."""
    forms = [word.form for word in normal.words]
    places = [
        at
        for at in range(1, len(forms))
        if forms[at] in ("wait", "espera", "perdon") and forms[at - 1] in ("no", "oh", "wait")
    ]
    return places[0] if places and places[0] + 1 < len(forms) else 0


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
