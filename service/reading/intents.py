"""What the writer wants: the intents of the vocabulary, in the order of their weight."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from service.reading.asking import questions
from service.reading.consent import Consent
from service.reading.matching import Hit
from service.reading.model import Answer, Asked, Wish
from service.reading.normalising import Word
from service.reading.polarity import Polarity
from service.reading.unworded import ABOUT_PAYING, asks_who_pays

_ORDER = (
    "opt_out", "opt_in", "help_word", "answer", "report_problem", "not_fixed", "fixed", "book", "reschedule", "cancel",
    "talk_to_person", "ask_status", "ask_price", "ask_warranty", "ask_help", "wrong_number", "spam", "thanks", "unreadable",
)  # fmt: skip
_ONLY_ALONE = frozenset({"thanks", "unreadable", "spam"})
_CONSENT: dict[Consent, str] = {"out": "opt_out", "in": "opt_in", "help": "help_word"}
_NEGATABLE = frozenset({"book", "fixed", "cancel", "reschedule"})
_SUPPOSABLE = frozenset({"fixed", "not_fixed"})


def heard_intents(
    hits: Sequence[Hit], known: Collection[str], words: Sequence[Word], polarity: Polarity
) -> dict[str, Hit]:
    """The intents that wordings of the rules name, each with the phrase that did, in a text of *words*."""
    total = len(words)
    talk = [hit for hit in hits if hit.payload.kind == "talk" and hit.payload.code in known]
    innocent = [hit for hit in talk if hit.payload.role == "innocent"]
    heard: dict[str, Hit] = {}
    for hit in talk:
        code = hit.payload.code
        if hit.payload.role == "innocent" or code in _CONSENT.values():
            continue
        if hit.payload.role == "alone" and (hit.start > 0 or hit.end < total):
            continue
        if any(i.payload.code == code and i.start <= hit.start and hit.end <= i.end for i in innocent):
            continue
        if code in _NEGATABLE and polarity.negated_before(hit):
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
    if "book" in heard and ("reschedule" in heard or _of_the_price(heard, words)):
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


_AND = frozenset(("and", "y", "then", "also", "tambien"))


_ABOUT_WHEN = frozenset(("book", "reschedule", "cancel", "ask_status", "talk_to_person", "wrong_number", "spam"))
"""With one of these heard, a time that is wanted belongs to it."""


def with_the_time(
    heard: Sequence[str], wish: Wish | None, facts: Collection[str], asked: Asked | None, *, complains: bool
) -> tuple[str, ...]:
    """
    *heard*, and what a day or a time wanted says in a text that answers nothing: that somebody is to come then; without a
    complaint, and with a day told that does not suit, that a visit is to be another time.
    """
    if wish is None or "wish" not in facts or asked is not None or _ABOUT_WHEN & set(heard):
        return tuple(heard)
    dated = wish.days_in or wish.days_out or wish.dates or wish.week or set(wish.relative) - {0} or wish.relative_out
    if not (dated or (wish.soonest and not complains)):
        return tuple(heard)
    unsuited = bool(wish.days_out or wish.relative_out) and bool(
        wish.days_in or wish.relative or wish.dates or wish.week
    )
    return (*heard, "reschedule" if unsuited and not complains else "book")


def intents_of(
    heard: Collection[str],
    consent: Consent | None,
    *,
    problem: bool,
    answer: Answer | None,
    asked: Asked | None,
    readable: bool,
) -> tuple[str, ...]:
    """
    All intents, weightiest first. ``problem``: a fault is stated beyond what was asked; ``readable``: some word is
    known.
    """
    if consent is not None:
        return (_CONSENT[consent],)
    found = set(heard)
    if answer is not None and asked is not None:
        found.add("answer")
        if answer.kind in ("fixed", "not_fixed"):
            found.discard("fixed")
            found.discard("not_fixed")
            found.add(answer.kind)
    if problem:
        found.add("report_problem")
    if "fixed" in found and (problem or "not_fixed" in found) and not (answer is not None and answer.kind == "fixed"):
        found.discard("fixed")
    if found - _ONLY_ALONE - {"answer"} or "answer" in found:
        found -= _ONLY_ALONE
    if "wrong_number" in found:
        found -= {"ask_help", "spam"}
    if not found and not readable:
        found.add("unreadable")
    return tuple(code for code in _ORDER if code in found)
