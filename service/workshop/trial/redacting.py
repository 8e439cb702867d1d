"""
A past turn without the person in it: name, address, numbers and codes replaced by invented ones of the same shape.

The ZIP code, the machine's brand and model, and what was said of the fault stay, since the turn was decided on them. A turn
that would be read differently without its person is left out of the export, never exported as it was.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from service.conversation.events import Texted
from service.conversation.state import Contact
from service.reading.reader import Reader
from service.reading.readers import reader_for
from service.rulebook.model import Rulebook
from service.rulebook.schema.common import Phrases
from service.workshop.counting import within
from service.workshop.trial.differences import differences
from service.workshop.trial.past import PastTurn
from service.workshop.trial.retaking import retaken

Replace = tuple[re.Pattern[str], Callable[[re.Match[str]], str]]

PHONE_DIGITS = "5055550199"
"""A number of the range kept free for invented ones. Source N3."""
NAMES = ("Pat", "Doe", "Lee")
_EMAIL = re.compile(r"[\w.+\-]+@[\w.\-]+\.\w{2,}")
_PHONE = re.compile(r"(?<!\d)(?:\+?1[\s.\-]?)?\(?\d{3}\)?[\s.\-]?\d{3}[\s.\-]?\d{4}(?!\d)")
_LONG_NUMBER = re.compile(r"\d{7,}")
_STREET = """st street ave avenue av rd road dr drive ln lane blvd boulevard ct court pl place way cir circle ter terrace trl
trail pkwy parkway hwy highway loop sq square calle avenida camino paseo plaza vista via n s e w ne nw se sw north south east
west apt unit ste suite apartment depto departamento apartamento lot space spc de la el las los del"""
_STREET_WORDS = frozenset(_STREET.split())
_WORD = re.compile(r"[^\W_]+")
_DROPPED = ("note", "text")
"""What a person in the office typed freely: not needed to take the turn again."""


@dataclass(frozen=True, slots=True)
class Gathered:
    """Turns fit to leave the shop, and how many were left out because they would be read differently without the person."""

    turns: tuple[PastTurn, ...]
    left_out: int


def gathered(past: Iterable[PastTurn], rulebook: Rulebook) -> Gathered:
    """*past* redacted, threads numbered anew. *rulebook*: the rules in use; they tell whether a turn still means the same."""
    redactor, threads = Redactor(rulebook), dict[str, str]()
    kept: list[PastTurn] = []
    left_out = 0
    for turn in past:
        thread = threads.setdefault(turn.thread, f"t{len(threads) + 1}")
        without = redactor.redacted(turn, thread)
        if _means_the_same(turn, without, rulebook):
            kept.append(without)
        else:
            left_out += 1
    return Gathered(tuple(kept), left_out)


class Redactor:
    """Knows what is the shop's own and stays: its numbers, and every word that its rules listen for."""

    def __init__(self, rulebook: Rulebook) -> None:
        shop = rulebook.shop
        self._reader = reader_for(rulebook)
        own = (shop.number, shop.office_phone, *(one.number for one in shop.on_call))
        self._own_numbers = frozenset(_digits(number)[-10:] for number in own)
        self._ordinary = frozenset(_listened_for(rulebook))

    def redacted(self, past: PastTurn, thread: str) -> PastTurn:
        """*past* with invented persons; *thread* stands for its thread's id wherever that was."""
        replaces = [(re.compile(re.escape(past.thread)), _constant(thread)), *self._persons(past)]
        document = _replaced(past.model_dump(mode="json"), replaces)
        for event in document["events"]:
            if "by" in event:
                event["by"] = "office"
            if isinstance(event.get("data"), dict):
                event["data"] = {name: "" if name in _DROPPED else value for name, value in event["data"].items()}
        return PastTurn.model_validate({**document, "redacted": True})

    def _persons(self, past: PastTurn) -> Iterator[Replace]:
        """What stands for the person in this turn, from what is on record and from what the texts tell."""
        known = list(_known(past, self._reader))
        for address in sorted({c.address for c in known if c.address}, key=len, reverse=True):
            yield from _address(address)
        for name in sorted({c.name for c in known if c.name}, key=len, reverse=True):
            for place, word in enumerate(_WORD.findall(name)):
                yield _whole(word), _constant(NAMES[min(place, len(NAMES) - 1)])
        for word in sorted({word for text in _texts(past) for word in self._perhaps_names(text)}):
            yield _whole(word), _constant("Sample")
        codes = {code for c in known for said in c.access for code in re.findall(r"\b\w*\d\w*\b", said)}
        for code in sorted(codes, key=len, reverse=True):
            yield _whole(code), _constant("0" * len(code))
        yield _EMAIL, _constant("someone@example.com")
        yield _PHONE, self._phone
        yield _LONG_NUMBER, self._number

    def _perhaps_names(self, text: str) -> Iterator[str]:
        """Words with a capital that begin no sentence and mean nothing to the rules; all words of a text that is a name."""
        words = [(found[0], text[: found.start()].rstrip()) for found in _WORD.finditer(text)]
        strange = [word for word, _ in words if word.casefold() not in self._ordinary]
        if strange and len(words) <= len(NAMES) and all(word[0].isupper() for word, _ in words):
            yield from (word for word, _ in words)
            return
        for word, before in words:
            begins = not before or before[-1] in ".!?\n"
            if word in strange and word[0].isupper() and not word.isupper() and not begins:
                yield word

    def _phone(self, found: re.Match[str]) -> str:
        """The invented number with the signs of the one it stands for; the shop's own numbers stay."""
        written = found[0]
        digits = _digits(written)
        if digits[-10:] in self._own_numbers:
            return written
        wanted = iter(("1" + PHONE_DIGITS)[-len(digits) :])
        return "".join(next(wanted) if sign.isdigit() else sign for sign in written)

    def _number(self, found: re.Match[str]) -> str:
        kept = found[0][-10:] in self._own_numbers | {PHONE_DIGITS}
        return found[0] if kept else "0" * len(found[0])


def _texts(past: PastTurn) -> Iterator[str]:
    """What the customer wrote, now and as their tickets hold it."""
    yield from (event.text for event in past.events if isinstance(event, Texted))
    for state in (past.state_before, past.step.state.model_dump() if past.step else {}):
        for ticket in state.get("tickets", ()):
            yield from ticket.get("words", ())


def _digits(written: str) -> str:
    return "".join(sign for sign in written if sign.isdigit())


def _listened_for(rulebook: Rulebook) -> Iterator[str]:
    """Every word of the phrases, and the brands; small letters."""
    books = (rulebook.appliances, rulebook.names, rulebook.dangers, rulebook.urgency, rulebook.talk, rulebook.words)
    for phrases in within([*(item for book in books for item in book.values())], Phrases):
        for phrase in (*phrases.en, *phrases.es):
            yield from (word.casefold() for word in _WORD.findall(phrase))
    yield from _STREET_WORDS
    for brands in (rulebook.shop.brands.serves, rulebook.shop.brands.refuses):
        for brand, spellings in brands.items():
            yield from (word.casefold() for spelling in (brand, *spellings) for word in _WORD.findall(spelling))


def _known(past: PastTurn, reader: Reader) -> Iterator[Contact]:
    for state in (past.state_before, past.step.state.model_dump() if past.step else {}):
        yield Contact.model_validate(state.get("contact") or {})
    for event in past.events:
        data = getattr(event, "data", {})
        given = data.get("contact") if isinstance(data, dict) else None
        if isinstance(given, dict):
            yield Contact(name=_text(given.get("name")), address=_text(given.get("address")))
        if isinstance(event, Texted):
            facts = reader.read(event.text).facts
            access = facts.get("access", ())
            said = tuple(map(str, access)) if isinstance(access, tuple | list) else (str(access),)
            yield Contact(name=_text(facts.get("name")), address=_text(facts.get("address")), access=said)


def _text(value: object) -> str | None:
    return str(value) if value else None


def _address(address: str) -> Iterator[Replace]:
    """The house number and the words of the street; what only says that it is a street stays, so that it reads as one."""
    words = _WORD.findall(address)
    whole = r"[\s,.#]*".join(map(re.escape, words))
    yield re.compile(rf"(?<!\w){whole}(?!\w)", re.I), lambda found: _WORD.sub(_street_word, found[0])
    for word in words:
        if len(word) >= 4 and not word.isdigit() and word.casefold() not in _STREET_WORDS:
            yield _whole(word), _constant("Sample")


def _street_word(found: re.Match[str]) -> str:
    word = found[0]
    if word.casefold() in _STREET_WORDS:
        return word
    return "100"[: len(word)] if word.isdigit() else word if re.fullmatch(r"\d+\w+", word) else "Sample"


def _whole(word: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(word)}(?!\w)", re.I)


def _constant(text: str) -> Callable[[re.Match[str]], str]:
    return lambda _: text


_AS_THEY_ARE = (
    "at",
    "start",
    "end",
    "opened_at",
    "last_in",
    "due",
    "not_after",
    "edition",
    "code_version",
    "postal_code",
)
"""Times, and what names no person."""


def _replaced(value: Any, replaces: Sequence[Replace]) -> Any:
    if isinstance(value, str):
        for pattern, say in replaces:
            value = pattern.sub(say, value)
        return value
    if isinstance(value, dict):
        return {
            _replaced(name, replaces): item if name in _AS_THEY_ARE else _replaced(item, replaces)
            for name, item in value.items()
        }
    return [_replaced(item, replaces) for item in value] if isinstance(value, list) else value


def _means_the_same(turn: PastTurn, without: PastTurn, rulebook: Rulebook) -> bool:
    """Whether both versions differ in the same way from what was decided then."""
    return _shape_of(turn, rulebook) == _shape_of(without, rulebook)


def _shape_of(turn: PastTurn, rulebook: Rulebook) -> object:
    if turn.step is None:
        return None
    try:
        now = retaken(turn, rulebook)
    except Exception as wrong:
        return type(wrong).__name__
    rows = [(row.kind, row.about) for row in differences(turn.step, now)]
    return rows, [(reply.kind, reply.wording) for reply in now.replies]
