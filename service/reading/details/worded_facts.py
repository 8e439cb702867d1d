"""Which wordings of facts count, and what they tell together: no look-alikes, nothing supposed, denied or told of another."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator, Sequence
from itertools import pairwise

from service.reading.details.entering import no_ways_in
from service.reading.details.liable import OR
from service.reading.details.parts_tried import of_dryer
from service.reading.details.payers import me_instead, party_named, payer_told
from service.reading.faults.polarity import Polarity
from service.reading.faults.undertaken import denied_before
from service.reading.machines.kinds import meant
from service.reading.words.asking import questions
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word

_OF_ITSELF = ("age", "brand", "model", "serial", "name", "address", "postal_code", "phone", "offer", "access", "payer")
"""Asked of these, an event or a habit dates the machine or belongs to people: "was here when we moved in"."""

_GATE = re.compile(
    r"(?:(?:gate|door|entry|lockbox|lock box|building|call ?box|porton|entrada|puerta|alarm)\s*(?:code|"
    r"codigo|#|number|pin)?|(?:code|codigo)\s+(?:for|to|del|de|para)\s+(?:the |la |el )?(?:gate|door|"
    r"building|porton|entrada|puerta))"
    r"\s*(?:is|es|:|=|#|code|,|number)*\s*(#?\*?\d{2,8}[#*]?)"
)

Tries = list[tuple[int, int, str]]
"""Where something is told as tried, first word and the one after the last, and its value."""

_PULLED = ("unplug", "unpl", "plugged", "desench", "desconect", "reboot", "restart", "enchuf", "conect")
_UNPLUGGED = ("unplug", "unpl", "plugged", "desench", "desconect", "reboot", "restart", "power", "off", "kill")


def tell_tried(found: dict[str, object], tried: Tries, normal: Normal, named: frozenset[str], kind: str | None) -> None:
    """
    Puts what was *tried* among the facts *found*. Beside what has a code of its own, that something else was done counts only
    where other words tell it. A "reset" is the breaker's where one is spoken of, and the disposal's button.
    """
    tried = [(start, end, _of_the_breaker(normal.words, start, end, code, named)) for start, end, code in tried]
    codes = dict.fromkeys(of_dryer(code, named) for _, _, code in tried if code != "other")
    other = any(
        code == "other" and not any(s < end and start < e for s, e, c in tried if c != "other")
        for start, end, code in tried
    )
    button = False
    if (
        "power_cycled" in codes
        and "reset_breaker" in codes
        and not any(w.form.startswith(_PULLED) for w in normal.words)
    ):
        codes.pop("power_cycled")
    if "power_cycled" in codes and not any(word.form.startswith(_UNPLUGGED) for word in normal.words):
        if "disposal" in named or "reset_breaker" in codes:
            codes.pop("power_cycled")
        button = "disposal" in named
    worded = button or any(end - start > 1 and code == "other" for start, end, code in tried)
    if (other or button) and (kind != "check_result" or worded):
        codes["other"] = None
    if codes:
        found["tried"] = tuple(codes)


_TRIPS = frozenset(
    ("trips", "trip", "tripping", "tripped", "pops", "popping", "popped", "brinca", "bota", "botan", "tumba")
)
_BREAKER = frozenset(("breaker", "breakers", "gfi", "gfci", "braker", "breka", "breca", "pastilla", "pastillas"))
_AT = frozenset(("del", "de", "desde", "en", "al", "at"))


def _of_the_breaker(words: Sequence[Word], start: int, end: int, code: str, named: frozenset[str]) -> str:
    """What power taken away was: “it trips the breaker, we reset it”, “la desconecté del breaker” tell of the breaker."""
    if code != "power_cycled":
        return code
    told = [word.form for word in words[start:end]]
    before = {word.form for word in words[max(0, start - 16) : start]}
    if "reset" in told and "disposal" not in named and _TRIPS & before and _BREAKER & before:
        return "reset_breaker"
    behind = [word.form for word in words[end - 1 : end + 3]]
    off_there = any(a in _AT and b in (_BREAKER | {"el", "la", "the"}) for a, b in pairwise(behind))
    return "reset_breaker" if off_there and _BREAKER & {*behind} else code


def counting(hits: Sequence[Hit], normal: Normal, polarity: Polarity, kind: str | None) -> Iterator[Hit]:
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
        if name in ("tried", "after") and not _holds(hit, polarity, normal):
            continue
        if code == "access=pets" and polarity.negated_before(hit):
            continue
        if name not in ("after", "pattern") or not _of_itself(hit, kind, polarity):
            yield hit


_ASKING = frozenset(
    ["how", "should", "can", "could", "do", "where", "what", "como", "debo", "debe", "puedo", "donde", "que"]
)
"""A clause that begins with one of these asks for what it names."""


def _holds(hit: Hit, polarity: Polarity, normal: Normal) -> bool:
    """Whether what was tried or happened is said to have been: not supposed, not denied, not asked."""
    clause = polarity.clause(hit.start)
    asks = polarity.word(clause.start) in _ASKING
    dated = hit.payload.code.startswith("after=") and hit.payload.code not in ("after=repair", "after=installed")
    past = clause.past and not dated  # a move of a year ago may still be what it began with
    negated = polarity.negated_before(hit) and not (dated and polarity.word(hit.start) in _SINCE)
    if negated and not dated and hit.payload.code.startswith("tried="):  # "no prende la apagué y la prendí"
        negated = denied_before(normal.words[max(0, hit.start - 6) : hit.start])
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
    opens = hit.start <= 2 or normal.words[hit.start].brk > 0
    return (kind == name and (besides <= 3 or first or (opens and name == "fuel"))) or bool(
        kind and name == "fuel" and not besides
    )


def taken_back(normal: Normal) -> int:
    """Behind which word an answer begins anew: “its electric no wait the stove is gas”."""
    forms = [word.form for word in normal.words]
    places = [
        at
        for at in range(1, len(forms))
        if forms[at] in ("wait", "espera", "perdon") and forms[at - 1] in ("no", "oh", "wait")
    ]
    return places[0] if places and places[0] + 1 < len(forms) else 0


def pays(found: dict[str, object], normal: Normal, kind: str | None) -> None:
    """Who pays, by grammar: it is surer than a role that somebody has, and takes away who is said not to."""
    told = payer_told(normal.words, questions(normal.words).marked)
    if kind == "payer" and (me := me_instead(normal.words)) is not None:
        found["payer"] = me
    elif kind == "payer" and told.who is None and OR & {word.form for word in normal.words[1:-1]}:
        found.pop("payer", None)  # "my landlord or me, not sure"
    elif told.who is not None:
        theirs = kind == "payer" and told.who == "owner" and any(word.form in _OWNER_ES for word in normal.words)
        found["payer"] = "landlord" if theirs else told.who
    elif found.get("payer") in told.denied:
        del found["payer"]
    elif kind == "payer" and "payer" not in found and (named := party_named(normal.words)) is not None:
        found["payer"] = named
    elif kind == "payer" and "payer" not in found and any(word.form in _PAYING for word in normal.words):
        found["payer"] = "owner"  # "the church will pay"


_OWNER_ES = frozenset(("dueno", "duena"))
"""Asked who pays, somebody who says “el dueño” is another one."""
_TAKE = frozenset(("take", "accept", "with", "honor", "trabajan", "aceptan", "agarran", "reciben"))
_TITLES = frozenset(("don", "dona"))


def may_pay(hit: Hit, normal: Normal, kind: str | None, value: str, marked: Container[int]) -> bool:
    """Whether a role or a plan tells who pays: not one asked about, but “do you take home warranty”; “don” is no “dueño”."""
    if any(word.was in _TITLES or word.form in _TITLES for word in normal.words[hit.start : hit.end]):
        return False
    if kind == "payer" or hit.start not in marked:
        return True
    return value == "home_warranty" and any(word.form in _TAKE for word in normal.words)


_PAYING = frozenset(("pay", "pays", "paying", "paga", "pagara", "pagan"))


_NOT_SO = frozenset(("era", "was", "wasnt", "no", "not"))


def fuel_worded(hits: Sequence[Hit], normal: Normal, kind: str | None) -> str | None:
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


def _joined(places: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """The stretches that *places* cover, in order: what overlaps is one."""
    joined: list[tuple[int, int]] = []
    for start, end in sorted(places):
        if joined and start < joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return joined


def access_told(normal: Normal, places: list[tuple[int, int]]) -> dict[str, list[str]]:
    """What *places* of the text and a gate code say of getting in, in the text's own words; empty when nothing does."""
    gate = _GATE.search(normal.folded)
    none = no_ways_in(normal.folded) if places else []
    places = (
        [place for place in places if not any(s <= place[0] and place[1] <= e for s, e in none)] if none else places
    )
    spans = _joined([*places, gate.span()] if gate else places)
    return {"access": [normal.text[start:end].strip() for start, end in spans]} if spans else {}
