"""
Everything else a text states: the facts of the vocabulary, by wording where rules list it and by shape where it is a
number.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from service.reading.ages import age_in_years, since_when
from service.reading.asking import questions
from service.reading.contacts import email_address, lone_name, person_name, phone_number, postal_code, street_address
from service.reading.matching import Hit
from service.reading.mentions import Mentions
from service.reading.model import Asked
from service.reading.normalising import Normal
from service.reading.plates import error_code, has_digit, plate_numbers
from service.reading.polarity import Polarity

MANY = ("tried", "after", "access")
PLATE = ("model", "serial", "code")
"""What is asked for when five digits alone are no ZIP code."""

"""Facts that hold several values."""

_ONE = ("fuel", "variant", "pattern", "payer")
_GATE = re.compile(
    r"(?:(?:gate|door|entry|lockbox|lock box|building|call ?box|porton|entrada|puerta|alarm)\s*(?:code|"
    r"codigo|#|number|pin)?|(?:code|codigo)\s+(?:for|to|del|de|para)\s+(?:the |la |el )?(?:gate|door|"
    r"building|porton|entrada|puerta))"
    r"\s*(?:is|es|:|=|#|code|,|number)*\s*(#?\*?\d{2,8}[#*]?)"
)
_ITS_BRAND = re.compile(
    r"^(?:it'?s|its|it is|the brand is|brand is|brand|i think(?: it'?s)?|es|es una?|la marca es|marca|maybe|"
    r"creo que es|a|an|una?)\s+"
)

_TOLD_BRAND = re.compile(
    r"(?:\b(?:brand|make|marca) (?:is |name is |es |de |called |: ?)?(?:an? |the |la |una )?|\bmade by |\bmarca[: ]+"
    r"|\b(?:it is|it's|its|is|es|son) (?:an?|una?|de marca|de la marca) )([^\W\d_]{3,})\b"
)

_BESIDE_BRAND = re.compile(r"\b([^\W\d_]{4,})(?: brand\b|,? (?:maybe |about |like |around )?\d+ ?(?:yrs?|years?)\b)")
"""“Larkspur brand”, “Tessaly, maybe 9 yrs old”."""

_SAID_SO = re.compile(r"\s+(?:i think|i believe|i guess|creo|maybe|is what|it says)\b.*$")
"""What an answer says besides the brand: “norvane i think it says”."""


class FactFinder:
    """
    Finds facts with one shop's brands and area. ``is_word``: everyday and trade words and their slips, which are
    neither names nor brands; ``knows``: the words alone.
    """

    def __init__(
        self,
        brands: Mapping[str, str],
        area: frozenset[str],
        is_word: Callable[[str], bool],
        knows: Callable[[str], bool],
    ) -> None:
        self._brands = brands
        self._area = area
        self._is_word, self._knows = is_word, knows
        self._pattern = (
            re.compile(r"\b(" + "|".join(map(re.escape, sorted(brands, key=len, reverse=True))) + r")\b")
            if brands
            else None
        )

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
        self._numbers(found, normal, kind, this_year)
        self._people(found, normal, kind)
        brand = self._brand(normal, mentions, kind)
        if brand:
            found["brand"] = brand
        return found

    def _worded(self, normal: Normal, hits: Sequence[Hit], polarity: Polarity, kind: str | None) -> dict[str, object]:
        found: dict[str, object] = {}
        many: dict[str, list[str]] = {}
        talk = [h for h in hits if h.payload.kind == "talk" and "=" in h.payload.code]
        innocent = [h for h in talk if h.payload.role == "innocent"]
        places: list[tuple[int, int]] = []
        for hit in talk:
            name, _, value = hit.payload.code.partition("=")
            if hit.payload.role == "innocent" or any(
                i.payload.code == hit.payload.code and i.start < hit.end and hit.start < i.end for i in innocent
            ):
                continue
            if hit.payload.role == "alone":
                besides = len(normal.words) - (hit.end - hit.start)
                # The word alone also answers late: "electric", when the ZIP is asked by now.
                if not (kind == name and besides <= 3) and not (kind and name == "fuel" and not besides):
                    continue
            if name in ("tried", "after") and not _holds(hit, polarity):
                continue
            if name == "access" and kind != "access" and hit.length < 3:
                continue
            if name == "access":
                places.append((normal.words[hit.start].start, normal.words[hit.end - 1].end))
            elif name in MANY:
                many.setdefault(name, []).append(value)
            elif name in _ONE:
                found.setdefault(name, value)
        many |= _access(normal, places)
        if kind == "access" and "access" not in many and len(normal.words) > 1:
            many["access"] = [normal.text.strip()]
        specific = {name: tuple(dict.fromkeys(values)) for name, values in many.items()}
        for name, values in specific.items():
            found[name] = tuple(v for v in values if v != "other") or values
        return found

    def _numbers(self, found: dict[str, object], normal: Normal, kind: str | None, this_year: int | None) -> None:
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
        if has_digit(folded):
            zip_code = postal_code(folded, asked=kind == "postal_code", alone=kind not in PLATE, area=self._area)
            if zip_code:
                found["postal_code"] = zip_code
            address = street_address(text, folded, asked=kind == "address")
            if address:
                found["address"] = address
        if kind not in ("brand", "model", "serial"):
            only_sure = kind in ("offer", "address")
            name = person_name(
                text, folded, asked=kind == "name", is_word=self._is_word, knows=self._knows, only_sure=only_sure
            )
            if name is None and "address" in found:  # "1200 Invented Rd NE 87106, Dana Reyes"
                beside = text.replace(str(found["address"]), "").replace(str(found.get("postal_code", "")), "")
                name = lone_name(beside.split(", ")[0] or beside, self._knows) or lone_name(beside, self._knows)
            if name and not (text.startswith(name) and 0 in questions(normal.words).plain):
                found["name"] = name

    def _brand(self, normal: Normal, mentions: Mentions, kind: str | None) -> str | None:
        """
        A brand the shop knows, or an unknown word right beside the appliance's name, or the answer when it was asked.
        """
        match = self._pattern.search(normal.folded) if self._pattern else None
        if match:
            return normal.text[match.start() : match.end()]
        words = normal.words
        for mention in mentions.found:
            if mention.implied:
                continue
            for at in (mention.start - 1, mention.end):
                if (
                    0 <= at < len(words)
                    and words[max(at, mention.start)].brk == 0
                    and self._looks_like_brand(normal, at, before=at < mention.start)
                ):
                    return normal.text[words[at].start : words[at].end]
        told = self._told_brand(normal)
        if told:
            return told
        if kind == "brand":
            bare = _SAID_SO.sub("", _ITS_BRAND.sub("", normal.folded.strip())).strip(" .!,")
            start = normal.folded.find(bare) if bare else -1
            if bare and len(bare.split()) <= 3 and not all(self._is_word(part) for part in bare.split()):
                return normal.text[start : start + len(bare)]
        return None

    def _told_brand(self, normal: Normal) -> str | None:
        """An unknown word that is said to be the brand: “the brand is Zorvex”, “it is a Zorvex”, “es marca zorvex”."""
        for match in (*_TOLD_BRAND.finditer(normal.folded), *_BESIDE_BRAND.finditer(normal.folded)):
            shown = normal.text[match.start(1) : match.end(1)]
            named = match.group().startswith(("brand", "make", "made", "marca")) or match.group().endswith(" brand")
            if (named or shown[0].isupper()) and not self._knows(match.group(1)):
                return shown
        return None

    def _looks_like_brand(self, normal: Normal, at: int, *, before: bool) -> bool:
        word = normal.words[at]
        shown = normal.text[word.start : word.end]
        if word.was or self._is_word(word.form) or not shown.isalpha() or len(shown) < 2 or word.emoji:
            return False
        return before or shown[0].isupper()


_ASKING = frozenset(
    ["how", "should", "can", "could", "do", "where", "what", "como", "debo", "debe", "puedo", "donde", "que"]
)
"""A clause that begins with one of these asks for what it names."""


def _holds(hit: Hit, polarity: Polarity) -> bool:
    """Whether what was tried or happened is said to have been: not supposed, not denied, not asked."""
    clause = polarity.clause(hit.start)
    asks = polarity.word(clause.start) in _ASKING
    return not (clause.if_ or clause.past or clause.others or clause.asked or asks or polarity.negated_before(hit))


def brand_spellings(serves: Mapping[str, tuple[str, ...]], refuses: Mapping[str, tuple[str, ...]]) -> dict[str, str]:
    """Every spelling of every brand a shop's file lists, lower case, to its proper name."""
    return {
        spelling.lower(): name
        for brands in (serves, refuses)
        for name, spellings in brands.items()
        for spelling in (name, *spellings)
    }


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
