"""What the writer wants: the intents of the vocabulary, in the order of their weight."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from service.reading.aims.answering import told_instead
from service.reading.aims.consent import Consent
from service.reading.aims.telling import volunteers
from service.reading.aims.unworded import ABOUT_PAYING, asks_who_pays
from service.reading.faults.polarity import Polarity
from service.reading.model import Answer, Asked, Reading
from service.reading.words.asking import questions
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word

_ORDER = (
    "opt_out", "opt_in", "help_word", "answer", "report_problem", "not_fixed", "fixed", "book", "reschedule", "cancel",
    "talk_to_person", "ask_status", "ask_price", "ask_warranty", "ask_help", "wrong_number", "spam", "thanks", "unreadable",
)  # fmt: skip
_ONLY_ALONE = frozenset({"thanks", "unreadable", "spam"})
_CONSENT: dict[Consent, str] = {"out": "opt_out", "in": "opt_in", "help": "help_word"}
_BESIDE_AN_END = {
    "talk_to_person": ("call me", "call us", "person", "human", "llám", "llam", "márq", "marq"),
    "wrong_number": ("wrong", "no soy", "equivocad", "otra persona", "not me", "i'm not", "im not", "conozco"),
}
"""What may be wanted in one text with an end to texts, and what says so: “wrong number, take me off your list”."""
_NEGATABLE = frozenset({"book", "fixed", "cancel", "reschedule"})
_SUPPOSABLE = frozenset({"fixed", "not_fixed", "cancel"})


def _outside(hits: list[Hit], address: object, normal: Normal) -> list[Hit]:
    """The *hits* outside the *address*: “9000 Candelara” calls nothing off."""
    if not isinstance(address, str) or address not in normal.text:
        return hits
    first, words = normal.text.index(address), normal.words
    last = first + len(address)
    return [h for h in hits if not (first <= words[h.start].start and words[h.end - 1].end <= last)]


def heard_intents(
    hits: Sequence[Hit], known: Collection[str], normal: Normal, polarity: Polarity, address: object = None
) -> dict[str, Hit]:
    """The intents that wordings of the rules name, each with the phrase that did, outside the *address* that is told."""
    words, total = normal.words, len(normal.words)
    talk = [hit for hit in hits if hit.payload.kind == "talk" and hit.payload.code in known]
    talk = _outside(talk, address, normal)
    innocent = [hit for hit in talk if hit.payload.role == "innocent"]
    heard: dict[str, Hit] = {}
    insists = total > 1 and len({word.form for word in words}) == 1  # "operator operator operator"
    for hit in talk:
        code = hit.payload.code
        if hit.payload.role == "innocent" or code in _CONSENT.values():
            continue
        if hit.payload.role == "alone" and not insists and (hit.start > 0 or hit.end < total):
            continue
        if any(i.payload.code == code and i.start <= hit.start and hit.end <= i.end for i in innocent):
            continue
        if code in _NEGATABLE and not words[hit.start].brk and polarity.negated_before(hit):
            continue
        if code in _SUPPOSABLE and polarity.clause(hit.start).if_:
            continue
        if code == "fixed" and hit.start in questions(words).marked:
            continue
        heard.setdefault(code, hit)
    return _agreeing(heard, words)


def _agreeing(heard: dict[str, Hit], words: Sequence[Word]) -> dict[str, Hit]:
    """
    *heard* without what only words of another intent say: of a visit called off and one moved what is said last; “how much to
    come out” and “can he come later instead” ask for no further visit; a lone “warranty” asks nothing where nothing asks.
    """
    drop = set()
    if "cancel" in heard and "reschedule" in heard:
        drop.add("cancel" if heard["cancel"].start <= heard["reschedule"].start else "reschedule")
    if "book" in heard and ("reschedule" in heard or _of_the_price(heard, words) or _of_who_comes(heard, words)):
        drop.add("book")
    if "book" in heard and "cancel" in heard and heard["cancel"].start <= heard["book"].start < heard["cancel"].end:
        drop.add("book")
    if ABOUT_PAYING in heard and heard[ABOUT_PAYING].length == 1 and not asks_who_pays(words):
        drop.add(ABOUT_PAYING)
    return {code: hit for code, hit in heard.items() if code not in drop} if drop else heard


def _of_the_price(heard: dict[str, Hit], words: Sequence[Word]) -> bool:
    """Whether the visit is named behind the price that is asked, in one sentence with it."""
    if "ask_price" not in heard or heard["ask_price"].start > heard["book"].start:
        return False
    between = words[heard["ask_price"].end : heard["book"].start + 1]
    return not any(word.brk == 2 or word.form in _AND for word in between)


def _of_who_comes(heard: dict[str, Hit], words: Sequence[Word]) -> bool:
    """Whether it is asked of one who is to come already: “is anybody coming today”."""
    booked = heard["book"]
    return "ask_status" in heard and any(word.form in _COMING for word in words[booked.start : booked.end])


_COMING = ("coming", "comin")
_AND = frozenset(("and", "y", "then", "also", "tambien"))


def without_what_is_over(draft: Reading, worded: Mapping[str, Hit], words: Sequence[Word]) -> Reading:
    """*draft* without faults that are over: “that noise drove me mad but its fixed now, thanks”. A danger told is not."""
    mended = worded.get("fixed")
    if mended is None or not draft.symptoms or draft.hazards or len(draft.appliances) > 1:
        return draft
    before = words[max(0, mended.start - _NEAR_BUT) : mended.start + 1]
    told = words[mended.start].start
    turned = any(word.form in _BUT for word in before) and all(found.end <= told for found in draft.symptoms)
    goes_on = any(word.form in _TURNS for word in words[mended.end :]) or _praises_a_machine(mended, words)
    return replace(draft, symptoms=()) if turned and not goes_on else draft


def _praises_a_machine(mended: Hit, words: Sequence[Word]) -> bool:
    """“no heat but dryer works fine”: the rest of a machine that is named is praised; “but it works now” settles the fault."""
    first = next((at for at in range(mended.start, -1, -1) if words[at].form in _BUT), mended.start)
    named = {word.form for word in words[first + 1 : mended.start]} - _THE_FAULT
    return bool(named) and not any(word.form in _NOW | {"ya", "again"} for word in words[first:])


_THE_FAULT = frozenset((
    "it", "its", "that", "thats", "this", "they", "theyre", "she", "shes", "he", "hes", "everything", "all", "todo", "se", "le",
    "lo", "la", "el", "the", "my", "mi", "eso", "esto", "esta", "is", "are", "i", "we", "has", "have", "been", "got", "just",
    "finally", "al", "fin", "luego", "then", "seems", "looks", "actually",
))  # fmt: skip
"""Words for what was wrong, and what may stand beside them."""


_IT_WAS = re.compile(r"\b(?:but|pero) (?:it was|was|it turned out|era|eran|fue|fueron|result\w+)\b")
"""“smelled awful but it was the trash”: what it was in truth turns nothing."""
_BUT = ("but", "pero")
_NOW = frozenset(("now", "ahora", "ahorita", "ora"))
_NEAR_BUT = 2
_ASKS = frozenset(("ask_help", "ask_price", "ask_warranty"))
_SETTLED = frozenset(("thanks", "thank", "thx", "gracias", "owe", "debo", "cancel", "cancelen", "now", "finally"))
_SHUT = frozenset(("closed", "shut", "cerre", "cerré", "cerrada", "cerrado", "cerramos"))
_VALVES = frozenset(("valve", "water", "tap", "shutoff", "llave", "agua", "llavecita"))

_TURNS = frozenset(
    ("but", "pero", "though", "tho", "instead", "except", "keep", "need", "ocupo", "still", "todavia", "sigue")
)


def _is_over(found: Collection[str], draft: Reading) -> bool:
    """Whether the fault told in the *draft* is but why the visit was wanted that is called off: “it was a skunk”."""
    if draft.hazards or "book" in found or len(draft.appliances) > 1:
        return False
    told = _IT_WAS.sub(" ", draft.text.lower().replace(",", " ").replace(".", " "))
    return _TURNS.isdisjoint(told.split())


def _is_mended(found: Collection[str], words: Sequence[str]) -> bool:
    """
    Whether a text of these *words* that sounds so says that a machine is mended: one that “works great” beside a question was
    never out of order, and one that is dry since the valve was shut still is.
    """
    if any(but in _BUT and now in _NOW for but, now in pairwise(words)):
        return False  # "they fixed the noise, but now …"
    if not _SHUT.isdisjoint(words) and not _VALVES.isdisjoint(words) and "cancel" not in found:
        return False
    return _ASKS.isdisjoint(found) or not _SETTLED.isdisjoint(words)


def intents_of(
    heard: Collection[str],
    consent: Consent | None,
    draft: Reading,
    answer: Answer | None,
    asked: Asked | None,
    *,
    readable: bool,
) -> tuple[str, ...]:
    """All intents of the text *draft*, weightiest first. ``readable``: some word is known."""
    if consent is not None:
        said = draft.text.lower() if consent == "out" else ""
        besides = [
            code for code, signs in _BESIDE_AN_END.items() if code in heard and any(sign in said for sign in signs)
        ]
        return (_CONSENT[consent], *besides)
    found = set(heard)
    problem = volunteers(draft, asked, answer) or told_instead(draft, asked, answer)
    if answer is not None and asked is not None:
        found.add("answer")
        if answer.kind in ("fixed", "not_fixed"):
            found.discard("fixed")
            found.discard("not_fixed")
            found.add(answer.kind)
    if problem and not ("cancel" in found and _is_over(found, draft)):
        found.add("report_problem")
    if "fixed" in found and (problem or "not_fixed" in found) and not (answer is not None and answer.kind == "fixed"):
        found.discard("fixed")
    if "fixed" in found and asked is None and not _is_mended(found, draft.text.lower().split()):
        found.discard("fixed")
    if found - _ONLY_ALONE - {"answer"} or "answer" in found:
        found -= _ONLY_ALONE
    if "wrong_number" in found:
        found -= {"ask_help", "spam"}
    if not found and not readable:
        found.add("unreadable")
    return tuple(code for code in _ORDER if code in found)
