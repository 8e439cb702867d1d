"""Whether what they answer says that a danger's instruction was followed: all out and called, switched off, found safe."""

from __future__ import annotations

from service.conversation import help_came
from service.conversation.beside import told_sentences
from service.conversation.matters import bare_words, named, nothing_but, without, words_before
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.opinion.leaning import TOLD_TEXTS

_WELL = ("all_well", "nothing_burns", "no_smoke")
_DONE = ("all_out", "help_called", "plain_yes", "small_words")


def only_out_and_called(turn: Turn, reading: Reading) -> bool:
    """Whether the text says that people are out or help is called, and nothing else that could be a danger of its own."""
    told = _named(turn, "all_out", reading) or _named(turn, "help_called", reading)
    return told and nothing_but(turn.rulebook, reading.text, *_DONE)


def part_done(turn: Turn, reading: Reading) -> bool:
    """Whether people are out, help is called or the gas is shut, and not a word takes it back."""
    told = help_came.out(turn, reading) or help_came.called(turn, reading) or help_came.gas_shut(turn, reading)
    return told and not _taken_back(turn, reading)


def out_and_called(turn: Turn, reading: Reading, *, asked: bool) -> bool:
    """
    Whether the text is a plain "all out and called". asked: it answers that very question, so that a bare yes says both.

    A refusal, a doubt or a yes to something else ("yes I turned it off") is none: what stays in doubt counts as not done.
    Those who help are there: they see to it, unless somebody is said to be inside.
    """
    if _back_now(turn, reading):
        return False
    if help_came.there(turn, reading):
        return not help_came.with_people_inside(turn, reading)
    if _taken_back(turn, reading):
        return False
    if help_came.out(turn, reading) and help_came.called(turn, reading):
        return True
    return asked and _named(turn, "plain_yes", reading) and nothing_but(turn.rulebook, reading.text, *_DONE)


def made_safe(turn: Turn, reading: Reading) -> bool:
    """Whether they say that the machine, its power or the water is off; a danger told before that is no new one."""
    given = reading.answer.kind if reading.answer else None
    if not reading.hazards and given != "no" and (given == "yes" or _named(turn, "made_safe", reading)):
        return True
    return is_off(turn, reading)


def is_off(turn: Turn, reading: Reading) -> bool:
    """
    Whether the words themselves say that it is off, with nobody unwell: “no fire, just sparks. its unplugged now”.

    A danger may be told besides only if it is the one that stands, told before what ends it, and not as back or going on.
    """
    off = named(turn.rulebook, "made_safe", reading.text)
    if off is None or "?" in reading.text or _turned(turn, reading, off):
        return False
    if named(turn.rulebook, "not_well", without(turn.rulebook, reading.text, *_WELL)) is not None:
        return False
    if sensed_again(turn, reading):
        return False
    return not reading.hazards or (
        _same_danger(turn, reading) and _told_before(reading, off) and not _returns(turn, reading)
    )


def smoke_gone(turn: Turn, reading: Reading) -> bool:
    """Whether they say that there is no smoke, or no more."""
    denied = "smoke" in {h.code for h in reading.denied_hazards}
    return denied or (_named(turn, "no_smoke", reading) and not sensed_again(turn, reading))


def all_well(turn: Turn, reading: Reading) -> bool:
    """Whether they say that nobody is hurt."""
    return _named(turn, "all_well", reading)


def told_of_then(turn: Turn, reading: Reading) -> bool:
    """Whether the danger that stands is only told again as it was: “it was only a small smell”, not that it is back."""
    if not _same_danger(turn, reading) or _returns(turn, reading):
        return False
    return _named(turn, "told_then", reading) or is_off(turn, reading) or out_and_called(turn, reading, asked=False)


def _back_now(turn: Turn, reading: Reading) -> bool:
    """Whether a danger is told besides as back, growing or going on; or one that was not told before."""
    if sensed_again(turn, reading):
        return True
    told = [h for h in reading.hazards if h.rule != TOLD_TEXTS]
    return bool(told) and (not _same_danger(turn, reading) or _returns(turn, reading))


def sensed_again(turn: Turn, reading: Reading) -> bool:
    """“it smells again”, “huele más fuerte”: that what stands is back or worse, without naming it."""
    return _named(turn, "sensed", reading) and _named(turn, "back_again", reading) and not reading.denied_hazards


def _returns(turn: Turn, reading: Reading) -> bool:
    return _named(turn, "comes_back", reading)


def _same_danger(turn: Turn, reading: Reading) -> bool:
    held = turn.state.danger
    return held is not None and {h.code for h in reading.hazards} <= {*held.codes}


def _turned(turn: Turn, reading: Reading, off: str) -> bool:
    """Whether what stands before *off* says that it is not so: “i havent unplugged it”."""
    return named(turn.rulebook, "not_done", " ".join(words_before(reading.text, off, 3))) is not None


def _told_before(reading: Reading, off: str) -> bool:
    """Whether every danger of the text stands before *off*."""
    bare = " ".join(bare_words(reading.text))
    at = bare.rfind(" ".join(bare_words(off)))
    return all(bare.find(" ".join(bare_words(h.words))) < at for h in reading.hazards)


def found_safe(turn: Turn, reading: Reading) -> bool:
    """
    Whether the gas company or the fire department has found it safe, and no danger is told besides.

    That words about gas sound like a danger as a whole is none told besides.
    """
    if any(h.rule != TOLD_TEXTS for h in reading.hazards) or "?" in reading.text:
        return False
    return _named(turn, "who_may_clear", reading) and _named(turn, "found_safe", reading)


def _taken_back(turn: Turn, reading: Reading) -> bool:
    """Whether a word takes it back; a question asked besides, or what is told not to burn, takes nothing back."""
    said = told_sentences(turn.rulebook, reading.text)
    left = [_beside_done(turn, sentence) for sentence in said]
    return not said or any(named(turn.rulebook, "takes_back", words) is not None for words in left)


def _beside_done(turn: Turn, sentence: str) -> str:
    """What *sentence* says besides what is done, and besides what they say is not so."""
    lists = (*_DONE, "nobody_inside", "gas_shut", "they_came", "played_down", "all_well")
    words = without(turn.rulebook, sentence, *lists)
    left = without(turn.rulebook, words, "nothing_burns")
    return " ".join(left.split()[1:]) if left != words and left.split()[:1] == ["no"] else left


def _named(turn: Turn, matter: str, reading: Reading) -> bool:
    return named(turn.rulebook, matter, reading.text) is not None
