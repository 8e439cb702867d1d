"""Whose name a text tells: the customer's, though something else was asked; not that of the one who is thanked."""

from __future__ import annotations

import re

from service.conversation.underway import Turn
from service.reading import model
from service.reading.model import Reading

_NAME = r"([A-ZÁÉÍÓÚÑ][a-zà-ÿ'’-]+ [A-ZÁÉÍÓÚÑ][a-zà-ÿ'’-]+)"
_INTRODUCED = re.compile(
    r"^\W*(?:(?i:hi|hello|hey|hola|buenas|buenos d[ií]as|buenas tardes|ok|yes|s[ií])\W+)?"
    r"(?i:this is|my name is|my name'?s|name is|name'?s|it'?s|its under|it'?s under|under|i'?m|i am|soy|me llamo|mi nombre es|"
    rf"habla|a nombre de)\s+{_NAME}(?=\s*(?:[.,;!\n]|$))"
)
_BEFORE_A_PLACE = re.compile(rf"^\W*{_NAME}[,.;:]?\s+(?:(?i:at|de|en)\s+)?(?=\d{{1,6}} \w)")
_HERE = re.compile(rf"^\W*(?:(?i:hi|hello|hey|hola)\W+)?{_NAME} (?:here|aqu[ií])\b")
_THANKED = re.compile(
    r"\W*(?:(?:ok|okay|yes|great|perfect|awesome|s[ií]|perfecto|bueno|listo)\W+)?"
    r"(?:thanks|thank you|thx|ty|(?:muchas |mil )?gracias)(?: so much| very much| a lot| again)?,?\s+\S+(?: \S+)?",
    re.IGNORECASE,
)
"""A text that is nothing but thanks to somebody: "ok thanks Maria!"."""
_KNOWN_BY = ("brand", "wish")
"""Facts beside which two capitals are hardly a name."""


def name_of(turn: Turn, reading: Reading) -> str | None:
    """The customer's name that *reading* tells; None where it tells none, or that of somebody it thanks."""
    told = reading.facts.get("name")
    asked = turn.state.asked
    if isinstance(told, str) and told:
        of_another = _THANKED.fullmatch(reading.text) is not None and (asked is None or asked.kind != "name")
        return None if of_another else told
    if turn.state.contact.name is not None or any(fact in reading.facts for fact in _KNOWN_BY):
        return None
    return _plainly_told(turn, reading)


def is_their_name(words: str, name: object) -> bool:
    """Whether *words* are no more than the *name* that is known: told once more it opens no gate."""
    return isinstance(name, str) and words.strip(" .").lower() == name.lower()


def _plainly_told(turn: Turn, reading: Reading) -> str | None:
    """A whole name that is introduced or stands beside the address, and that the reader takes for one if asked."""
    forms = [_INTRODUCED, _HERE, *([_BEFORE_A_PLACE] if "address" in reading.facts else [])]
    found = next((match.group(1) for form in forms if (match := form.search(reading.text))), None)
    if found is None:
        return None
    read = turn.reader.read(found, asked=model.Asked("name"))
    known = read.facts.get("name")
    return found if known == found and not ({"brand"} & {*read.facts} or read.appliances) else None
