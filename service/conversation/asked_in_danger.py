"""What people ask while a danger stands, what it costs and when somebody comes, and the answer as the shop's file has it."""

from __future__ import annotations

from service.conversation.matters import named
from service.conversation.underway import Turn
from service.conversation.visit_words import fee_words
from service.reading.model import Reading

COMING = frozenset({"book", "ask_status", "reschedule", "cancel", "talk_to_person", "ask_help"})
"""Intents that ask who comes and when."""
PRICES = frozenset({"ask_price", "ask_warranty"})


def price_asked(turn: Turn, reading: Reading) -> bool:
    """Prices as the shop's file states them, who pays and what is worth it as ever; True when one was asked for."""
    part, worth = named(turn.rulebook, "part", reading.text), named(turn.rulebook, "worth", reading.text)
    if part is not None:
        turn.tell("answer.part")
    elif "ask_price" in reading.intents:
        turn.tell_own("shop.fees.say", fee_words(turn))
    if "ask_warranty" in reading.intents:
        turn.tell("answer.warranty")
    if worth is not None:
        turn.tell("answer.worth")
    return part is not None or worth is not None or bool(PRICES & set(reading.intents))


def only_asks(reading: Reading) -> bool:
    """Whether the text asks what it costs or when somebody comes, and says neither yes nor no."""
    return reading.answer is None and bool((PRICES | {"ask_status", "book"}) & {*reading.intents})


def asks_when(reading: Reading) -> bool:
    """Whether the text asks when somebody comes, or names a time."""
    return bool(COMING & {*reading.intents} - {"ask_help"}) or reading.wish is not None


def asks(turn: Turn, reading: Reading) -> bool:
    """Whether the text asks something, or calls into the silence."""
    asks = bool(COMING & {*reading.intents}) or "?" in reading.text
    return asks or named(turn.rulebook, "who_and_when", reading.text) is not None
