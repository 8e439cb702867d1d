"""Opt-out, opt-in and HELP: at once, by the texting rules (T1 to T11), before and beside everything else."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from service.conversation.events import Texted
from service.conversation.underway import Turn
from service.reading.model import Reading

CONFIRM_WITHIN = timedelta(minutes=5)
"""The one confirmation after an opt-out is fine within this long (T4)."""
BARE_YES = frozenset({"yes", "si", "sí"})
"""YES alone opts in those who are out (T11); "ok" and "yes but" are something else."""


def consent(turn: Turn, texts: Sequence[Texted]) -> list[Texted]:
    """
    Take consent words of each text in order; gives the texts that hold none, but none of them when all were consent.

    Two texts that rested together are two texts here: STOP is STOP beside whatever came with it.
    """
    others, without_word = 0, []
    for text in texts:
        word = turn.reader.consent(text.text) if text.text.strip() else None
        if word is None:
            without_word.append(text)
        if word is None and turn.state.consent == "out" and _bare_yes(text.text):
            word = "in"
        if word == "out":
            _out(turn, text)
        elif word == "in":
            _in(turn)
        elif word == "help":
            _help(turn)
        else:
            others += 1
    return without_word if others else []


def _bare_yes(text: str) -> bool:
    return text.strip(" .,;:").casefold() in BARE_YES


def _out(turn: Turn, text: Texted) -> None:
    """Stop at once. One confirmation the first time, none the second."""
    first = turn.state.consent == "in"
    turn.put(consent="out", asked=None, introduced=True)
    for key in ("silence", "offer:*", "reminder:*", "follow_up:*"):
        turn.clear_wake(key)
    turn.because("held", "Opted out: nothing but danger instructions and answers to consent words goes out.", "T1")
    if not first:
        return
    due = text.at if text.at <= turn.now else turn.now
    turn.at_once("consent", "consent.out", turn.words("consent.out"), not_after=due + CONFIRM_WITHIN)
    for ticket in turn.open_tickets:
        if ticket.visit is not None:
            turn.change(ticket.key, needs_person="opted out while a visit stands: reach them another way about it")
        elif ticket.stage != "visited":
            turn.clear_wake(f"offer:{ticket.key}")


def may_end(turn: Turn, reading: Reading) -> None:
    """Say how texts end to whom may have asked for it, in words that do not say so plainly (T1)."""
    if reading.may_want_no_more and not reading.hazards and not reading.doubted_hazards:
        turn.tell("consent.perhaps")
        turn.because("told", "May want no more texts, and does not say so plainly: told how they end.", "T1")


def _in(turn: Turn) -> None:
    """Start again. The confirmation carries who we are and how texts end (T9)."""
    turn.put(consent="in", introduced=True)
    turn.at_once("consent", "consent.in", turn.words("consent.in"))
    turn.because("held", "Opted in: texts may go out again.", "T11")


def _help(turn: Turn) -> None:
    """Who we are, a way to a person, how texts end; also for those who opted out, and it does not opt them in (T10)."""
    turn.at_once("consent", "consent.help", turn.words("consent.help"))
    if turn.state.consent == "in":
        turn.put(introduced=True)
    turn.because("told", "Answered HELP.", "T10")
