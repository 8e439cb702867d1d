"""The way to the machine: what they wrote of it, in their own words and whole, and whom to call at which number. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from service.conversation.names_told import is_their_name
from service.conversation.state import Contact
from service.pages import words
from service.reading.details.contacts import phone_number
from service.storage.desk import HeardRow

BARE = 2
"""A word or a number so short answers a question of ours: "1", "ok", "si". Any longer one may be the code of a gate."""
BREATH = 6
"""Words between a name and its number: "Jenna will be there, her number is"."""
_DIGITS = re.compile(r"\(?\+?\d")
_ANSWERS = frozenset(("yes", "yep", "yeah", "nope", "okay", "sure", "thanks", "gracias", "bueno", "vale"))


@dataclass(frozen=True, slots=True)
class Call:
    """Somebody to call. who: a name or what the number is; tel: as it is dialled; phone: as it is read."""

    who: str
    tel: str
    phone: str


@dataclass(frozen=True, slots=True)
class Door:
    """said: texts about the way in, oldest first, as they were written. on_file: known from before. calls: likeliest first."""

    said: tuple[str, ...]
    on_file: tuple[str, ...]
    calls: tuple[Call, ...]


def door_of(contact: Contact, writes: str, heard: Sequence[HeardRow], address: str, booked_at: datetime) -> Door:
    """
    Everything of the way in. writes: the number that texts us. address: where the visit goes. booked_at: when it was made.

    Whatever they wrote from the address on, or once the visit stood, is theirs to be read by whoever drives: no reading
    of ours may leave out a gate code, in whatever language it stands.
    """
    said = _of_the_door(contact, heard, address, booked_at)
    known = " ".join(said).casefold()
    on_file = tuple(item for item in contact.access if item.casefold() not in known)
    return Door(said, on_file, _calls(contact, writes, [row.text for row in heard]))


def _of_the_door(contact: Contact, heard: Sequence[HeardRow], address: str, booked_at: datetime) -> tuple[str, ...]:
    street = _plain(address)
    told = [_plain(item) for item in contact.access]
    found: dict[str, None] = {}
    since = False
    for row in heard:
        text = _plain(row.text)
        here = bool(street) and street in text
        since = since or here or row.at >= booked_at
        left = text.replace(street, "").strip(" .,0123456789") if here else text
        bare = _bare(left) or is_their_name(left, contact.name)
        if (since and not bare) or any(item in text for item in told):
            found[row.text.strip()] = None
    return tuple(found)


def _calls(contact: Contact, writes: str, texts: Sequence[str]) -> tuple[Call, ...]:
    """The numbers they told, the last first, then the one that texts us; the name with none that may be somebody else's."""
    told = {number: text for text in texts if (number := phone_number(text)) and number != writes}
    numbers = list(dict.fromkeys([*([contact.phone] if contact.phone else []), *reversed(told)]))
    numbers = [number for number in numbers if number != writes]
    name = contact.name or ""
    calls = []
    for number in numbers:
        theirs = bool(name) and (number not in told or _told_together(name, told[number]))
        calls.append(_call(name if theirs else "the number they gave", number))
    calls.append(_call(name if name and not numbers else "the phone that texts", writes))
    return tuple(calls)


def _told_together(name: str, text: str) -> bool:
    """Whether *text* tells the number of whoever is called *name*: in one breath, with nobody else named between."""
    _, found, after = text.partition(name)
    until = _DIGITS.search(after)
    if not found or until is None:
        return False
    between = after[: until.start()].split()
    return len(between) <= BREATH and not any(word[:1].isupper() or word[-1] in ".;!?" for word in between)


def _call(who: str, number: str) -> Call:
    return Call(who, number, words.phone_words(number))


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _bare(text: str) -> bool:
    return len(text.strip(".,!?")) <= BARE or text.strip(".,!?") in _ANSWERS
