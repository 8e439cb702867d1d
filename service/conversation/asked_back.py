"""A question instead of an answer: who writes, what a question is for or means, and what only a person can answer."""

from __future__ import annotations

from service.conversation.ask import again
from service.conversation.matters import bare_words, named, nothing_but
from service.conversation.passing import KNOWLEDGE
from service.conversation.summary import machine_words
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.words.asking import begins_a_question

ASKED_MOST = 2
"""As often as one question about the machine is put."""
SHORT = 7
"""A text of more words says more than "why do you need that"."""
_BESIDES = frozenset(("ask_help", "answer"))
"""Intents that such a question may seem to have as well."""
_HOW = frozenset(("what", "which", "where", "how", "wheres", "whats", "que", "cual", "donde", "como"))
_WHY = {"postal_code": "why.postal_code", "address": "why.address"}


def who_writes(turn: Turn, reading: Reading) -> bool:
    """“who is this”, from somebody whose complaint is open: told who writes, and the open question is put again."""
    if "wrong_number" not in reading.intents or not turn.open_tickets or not turn.state.introduced:
        return False
    if not nothing_but(turn.rulebook, reading.text, "who_writes"):
        return False
    machine = machine_words(turn.rulebook, turn.open_tickets[0].appliance, turn.language)
    turn.tell("answer.who", machine=machine)
    turn.because("told", "They ask who writes; their complaint stands.")
    again(turn)
    return True


def explained(turn: Turn, reading: Reading) -> bool:
    """“why do you need that”, “what?”: what the open question is for, or that not knowing will do; it is put again."""
    asked = turn.state.asked
    if asked is None or turn.answered or turn.learned or asked.code in turn.rulebook.dangers:
        return False
    means = nothing_but(turn.rulebook, reading.text, "what_means")
    what_for = named(turn.rulebook, "what_for", reading.text) is not None and {*reading.intents} <= _BESIDES
    if not (means or what_for) or len(bare_words(reading.text)) > SHORT:
        return False
    if asked.kind in _WHY:
        id = _WHY[asked.kind]
    elif asked.kind in KNOWLEDGE:
        id = "why.machine" if what_for else "why.unsure"
    elif asked.kind == "check_result":
        id = "try.how"
    else:
        return False
    turn.put(misread=0)
    turn.tell(id)
    turn.because("told", "They ask what the question is for or means.", asked.code or asked.kind)
    return again(turn)


def for_a_person(turn: Turn, reading: Reading) -> bool:
    """Something else that is asked, to which the line has no answer: noted for a person, and the open question is put again."""
    ticket = turn.state.in_focus
    asks = begins_a_question(reading.text) or _asks_how(turn, reading)
    if turn.state.asked is None or ticket is None or not ticket.open or not asks:
        return False
    if ticket.needs_person is None:
        turn.change(ticket.key, needs_person=f'asks what the line does not answer: "{reading.text[:80]}"')
    turn.put(misread=0)
    turn.tell("try.how" if _asks_how(turn, reading) else "unread.question")
    turn.because("told", "A question for a person: noted, and not guessed at.")
    if turn.state.asked.tries < ASKED_MOST or turn.state.asked.kind not in KNOWLEDGE:
        again(turn)
    else:
        turn.put(asked=None)
    return True


def _asks_how(turn: Turn, reading: Reading) -> bool:
    """“what plug”, “where is it”, “cómo le hago”, of a check: it was said what to look at; who does not see it leaves it."""
    words = bare_words(reading.text)
    asked = turn.state.asked
    return asked is not None and asked.kind == "check_result" and 0 < len(words) <= SHORT and words[0] in _HOW


def of_a_check(turn: Turn, reading: Reading) -> bool:
    """“can i still use it”, while a check is under way: no result of it, but a question for a person."""
    asked = turn.state.asked
    if asked is None or asked.kind != "check_result" or reading.answer is not None or turn.answered or turn.learned:
        return False
    return for_a_person(turn, reading)
