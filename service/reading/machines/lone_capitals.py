"""A maker told in one breath: the one word in capitals that nobody knows, “its nine years old Tolvane and i rent”."""

from __future__ import annotations

import re

from service.reading.words.counting import COUNT
from service.reading.words.normalising import Normal

_AGE_BEFORE = re.compile(rf"\b(?P<count>{COUNT})[\s-]?(?:years?|yrs?|yr|anos?)(?:[\s-](?:old|viej[oa]))? $")
_SOMEBODYS = re.compile(r"\b(?:my|our|his|her|their|mi|mis|nuestr[oa]|su)(?: \w+)? $")
"""“my 5 year old Zayden” is a child."""
_LEADS_ON = frozenset((
    "es", "son", "its", "is", "load", "loader", "countertop", "freestanding", "undercounter", "builtin", "upright", "stackable",
    "empotrado", "empotrada", "portable", "range", "style", "electric", "gas", "induction", "convection",
))  # fmt: skip
"""Behind these, in a text in small letters, stands what a machine is."""
_ARE = ("es", "son")
_OF_PEOPLE = frozenset((
    "soy", "am", "im", "me", "name", "ask", "call", "tell", "from", "with", "at", "in", "near", "by", "on", "de", "en", "con",
    "her", "his", "him", "he", "she", "and", "y", "mr", "mrs", "ms", "dr", "thanks", "gracias", "hi", "hey", "hola", "this",
    "to", "a", "para", "for", "off", "past", "behind", "st",
    "my", "our", "mi", "nuestro", "nuestra", "the", "el", "la", "a", "an", "un", "una",
    "san", "santa", "santo", "calle", "camino", "paseo", "via",
))  # fmt: skip
_DOES_AS_PEOPLE = re.compile(
    r"\s+(?:will|can|could|would|said|says|told|broke|has|have|lives|tried|thinks|swears|ll|he|she|who|la que|el que|"
    r"quien|que|dice|dijo|va|puede|"
    r"vive|abre|le|les|esta|is|was|looked|showed|opened|pays|paga|or|and|y|o)\b"
)
"""What a person does: “Zaydena will let you in”; and one of two names."""
_NO_MAKERS_KIND = re.compile(r"\s+(?:[A-ZÁÉÍÓÚÑ]|\d+[A-Za-z]?\b(?! ?(?:yrs?|years?|years|anos|años)))")
"""A name or a number behind it makes it a street, or one of several words of a name."""


def beside_an_age(normal: Normal, at: int) -> bool:
    """Whether the unknown word in capitals at *at* stands right behind how old something is that is nobody's child."""
    word = normal.words[at]
    told = _AGE_BEFORE.search(normal.folded[: word.start]) if at and not word.brk else None
    return told is not None and not _SOMEBODYS.search(normal.folded[: told.start("count")])


def in_small_letters(normal: Normal) -> bool:
    """Whether *normal* is written in small letters throughout, so that a capital tells a name."""
    first = next((sign for sign in normal.text if sign.isalpha()), "A")
    return first.islower() and all(word.brk < _SENTENCE for word in normal.words[1:])


_SENTENCE = 2


def leads_to_maker(normal: Normal, at: int) -> bool:
    """Whether in a text in small letters the word in capitals at *at* stands behind what a machine is, or by itself."""
    before = normal.words[at - 1].form if at else ""
    if before in _ARE and not _DOES_AS_PEOPLE.match(normal.folded, normal.words[at].end):
        return True
    if not at or not in_small_letters(normal):
        return False
    if before in _LEADS_ON:
        return True
    told = _AGE_BEFORE.search(normal.folded[: normal.words[at].start])
    if told or _DOES_AS_PEOPLE.match(normal.folded, normal.words[at].end):
        return False
    after = _NO_MAKERS_KIND.match(normal.text, normal.words[at].end)
    return before not in _OF_PEOPLE and after is None
