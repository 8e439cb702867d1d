"""What is told after a danger of those who help and of who is out: called, there, all outside, the gas shut; and the thanks."""

from __future__ import annotations

from dataclasses import replace

from service.conversation.beside import told_beside, told_sentences
from service.conversation.listen import open_question, under_discussion
from service.conversation.matters import bare_words, named, without, words_before
from service.conversation.people import reads_when
from service.conversation.state import DangerHeld
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.rulebook.schema.danger import Danger

TOLD = "danger:helped"
"""The mark on a ticket whose people were thanked for telling that help is there."""

_HELPERS = "those_who_help"


def of_the_danger_alone(turn: Turn, reading: Reading) -> Reading:
    """
    *reading*, while a danger stands, without new dangers that only the names of those who help tell.

    "fire dept came and shut the valve" is no fire; with "they" in the place of those who came it must still be told as one.
    """
    held = turn.state.danger
    if held is None or not {h.code for h in reading.hazards} - {*held.codes}:
        return reading
    without_names = _unnamed(turn, reading.text)
    if without_names is None:
        return reading
    asked, about = open_question(turn.state), under_discussion(turn.state)
    told = {h.code for h in turn.reader.read(without_names, asked=asked, about=about).hazards} | {*held.codes}
    left = tuple(h for h in reading.hazards if h.code in told)
    for code in sorted({h.code for h in reading.hazards} - told):
        turn.because("heard", f"Told of those who help, not of {code.replace('_', ' ')}.", code)
    return replace(reading, hazards=left)


def _unnamed(turn: Turn, text: str) -> str | None:
    """*text* with "they" for those who help; None where none of them is named."""
    if named(turn.rulebook, _HELPERS, text) is None:
        return None
    they = "ellos" if turn.language == "es" else "they"
    sentences = [f" {' '.join(bare_words(part))} " for part in _parts(text)]
    rest = []
    for sentence in sentences:
        while (who := named(turn.rulebook, _HELPERS, sentence)) is not None:
            sentence = sentence.replace(f" {' '.join(bare_words(who))} ", f" {they} ", 1)
        rest.append(" ".join(sentence.split()))
    return ". ".join(rest)


def _parts(text: str) -> list[str]:
    return [part for part in text.replace("?", ".").replace("!", ".").replace("\n", ".").split(".") if part.strip()]


def out(turn: Turn, reading: Reading) -> bool:
    """Whether they say that people are out."""
    return any(
        named(turn.rulebook, "all_out", told) is not None
        or told_beside(
            turn.rulebook, told, "who_is_out", "is_outside", not_so=("not_so",), filler="beside_being_out"
        )
        for told in told_sentences(turn.rulebook, reading.text)
    )  # fmt: skip


def called(turn: Turn, reading: Reading) -> bool:
    """Whether they say that those who help are called, on the way or there."""
    said = told_sentences(turn.rulebook, reading.text)
    return there(turn, reading) or any(
        named(turn.rulebook, "help_called", told) is not None
        or told_beside(turn.rulebook, told, _HELPERS, "help_is_called", not_so=("not_so",))
        or told_beside(turn.rulebook, told, "help_is_called", _HELPERS, not_so=("not_so",))
        for told in said
    )


def there(turn: Turn, reading: Reading) -> bool:
    """Whether they say that those who help are there or have been."""
    return any(
        named(turn.rulebook, "they_came", told) is not None
        or told_beside(turn.rulebook, told, _HELPERS, "help_is_there", not_so=("not_so", "not_there_yet"))
        for told in told_sentences(turn.rulebook, reading.text)
    )


def gas_shut(turn: Turn, reading: Reading) -> bool:
    """Whether they say that the gas is shut where it comes in."""
    return any(_shut(turn, told) for told in told_sentences(turn.rulebook, reading.text))


def _shut(turn: Turn, told: str) -> bool:
    off = named(turn.rulebook, "gas_shut", told)
    if off is None:
        return False
    before = words_before(without(turn.rulebook, told, "nothing_burns"), off, 3)
    return named(turn.rulebook, "not_done", " ".join(before)) is None


def with_people_inside(turn: Turn, reading: Reading) -> bool:
    """Whether they say that somebody is in it still, or back."""
    said = ". ".join(told_sentences(turn.rulebook, reading.text))
    said = without(turn.rulebook, said, "nobody_inside", "help_is_there", "they_came")
    return named(turn.rulebook, "people_inside", said) is not None


def thank(turn: Turn, held: DangerHeld, rule: Danger) -> None:
    """Thanks, stay out until those who came say that it is safe, and what comes next."""
    ticket = turn.the(held.ticket)
    turn.change(ticket.key, told=(*ticket.told, TOLD))
    turn.tell("danger.helped")
    say_next(turn, held)
    turn.because("heard", "They say that those who help are there: no instruction again.", rule.code)


def say_next(turn: Turn, held: DangerHeld) -> None:
    """What comes next: who checks and turns the gas back on, else that the machine stays off; and that the office writes."""
    turn.tell("danger.next.gas" if "gas_smell" in held.codes else "danger.next")
    turn.tell("danger.in_touch", when=reads_when(turn))


def news(turn: Turn, held: DangerHeld, reading: Reading) -> bool:
    """Whether they tell, for the first time, that those who help are there, and nobody is inside."""
    return (
        TOLD not in turn.the(held.ticket).told
        and there(turn, reading)
        and not with_people_inside(turn, reading)
    )  # fmt: skip
