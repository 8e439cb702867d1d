"""What is asked of the shop itself: how to pay, parts, how long it takes, who must be home. No answer to something else."""

from __future__ import annotations

import re

from service.conversation.matters import bare_words, named
from service.conversation.underway import Turn
from service.reading.words.asking import begins_a_question

SHORT = 12
"""A text of more words tells of the machine besides."""
_BARE = 3
"""So few words ("en efectivo", "venmo?") ask without saying so."""
_A_SUM = re.compile(r"\b(?:more than|less than|over|under|mas de|menos de|pasa de|arriba de)\s+\$?\d{2,4}\b")
_HOME = frozenset(("home", "there", "house", "casa", "ahi", "alli"))
_UNDER_AGE = re.compile(
    r"\b(?:hes|shes|he is|she is|im|is|are|tiene|de|only|solo|nomas)\s+(?:solo |nomas |only )?(?:[5-9]|1[0-7])\b"
)


def asks_of_a_sum(text: str) -> bool:
    """“is it gonna be more than 200”: asked what it costs."""
    return _A_SUM.search(" ".join(bare_words(text))) is not None and asks(text)


def asks_who_is_home(text: str) -> bool:
    """“roommate home not me. hes 17 is that ok”: somebody under age at the door."""
    words = bare_words(text)
    return not _HOME.isdisjoint(words) and _UNDER_AGE.search(" ".join(words)) is not None and len(words) <= SHORT


def for_the_office(turn: Turn, text: str) -> str | None:
    """The words that ask what the office answers; None if there are none. "How much" asks the price, not how to pay."""
    words = bare_words(text)
    if len(words) > SHORT:
        return None
    found = named(turn.rulebook, "office_question", text)
    costs = named(turn.rulebook, "how_much", text) is not None
    if found is None and not costs and (len(words) <= _BARE or asks(text)):
        found = named(turn.rulebook, "beside_the_price", text)
    return found


def asks_the_shop(turn: Turn, text: str) -> bool:
    """Whether the text asks any of these."""
    return for_the_office(turn, text) is not None or asks_of_a_sum(text) or asks_who_is_home(text)


def asks(text: str) -> bool:
    """Whether *text* asks: by its mark or by how it begins."""
    return (
        text.rstrip().endswith("?") or begins_a_question(text) or _OPENS.search(" ".join(bare_words(text))) is not None
    )


_OPENS = re.compile(
    r"\b(?:do (?:you|u|yall)|can (?:i|we|you|u)|could (?:i|we)|will (?:it|i|u|you)|is it|are (?:you|u)|may i|puedo|podemos|"
    r"aceptan|se puede|va a|me va|toman|reciben)\b"
)
