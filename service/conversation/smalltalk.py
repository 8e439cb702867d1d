"""Asides and noise: prices, warranty, status, thanks, wrong numbers, spam, pictures alone, what nobody can read."""

from __future__ import annotations

from service.conversation import asked_back
from service.conversation.ask import again, pose
from service.conversation.closing import close
from service.conversation.left_to_the_office import asks_of_a_visit, noted_for_the_office
from service.conversation.matters import named, nothing_but, said_alone
from service.conversation.office_questions import asks_of_a_sum, asks_who_is_home
from service.conversation.passing import KNOWLEDGE
from service.conversation.people import call_person, reads_when, settle_warranty
from service.conversation.underway import Turn
from service.conversation.visit_words import fee_words
from service.conversation.visits import status
from service.reading.model import Asked, Reading

TELLS = frozenset({
    "symptom", "denied", "observation", "fact", "appliance", "ticket", "theory", "urgency", "wish", "corrected", "name",
    "address", "postal_code", "phone", "email", "payer", "access", "answer", "photo", "book", "not_fixed",
    "language", "settled", "no_danger",
})  # fmt: skip
"""What a text may bring that is worth going on with."""
ASKED_MOST = 2
"""As often as one question is put; then the talk goes on without its answer."""
NOD_WORDS = 3
"""A nod has at most this many words."""
LOOKING_WORDS = 2
"""Fewer words than this ("ok") do not say that they go and look."""
DID_WORDS = 4
"""Fewer words than this ("did it", "listo") do not say what was done."""
BE_HOME_WORDS = 10
"""A text of more words is about more than whether somebody must be home."""
_WRONG = frozenset(("wrong", "equivocado", "equivocada", "equivocaron", "equivoco"))
MISREAD_MOST = 2
"""Texts in a row that nobody could read; then a person reads them."""


def unwanted(turn: Turn, reading: Reading) -> bool:
    """Spam is not answered; a wrong number gets one sentence and no more."""
    gives_theirs = "phone" in turn.learned and turn.open_tickets and not _WRONG & {*reading.text.lower().split()}
    if "wrong_number" in reading.intents and not gives_theirs:
        _wrong_number(turn)
        return True
    if "spam" in reading.intents and not TELLS & turn.learned:
        turn.because("held", "Reads as an offer or a scam: not answered.")
        return True
    return False


def _wrong_number(turn: Turn) -> None:
    for ticket in turn.open_tickets:
        if ticket.visit is None:
            close(turn, ticket.key, "withdrawn")
        else:
            call_person(turn, "says that this is a wrong number, and a visit stands", ticket=ticket.key)
    turn.put(asked=None, introduced=True)
    turn.clear_wake("silence")
    turn.tell("wrong_number")


def asides(turn: Turn, reading: Reading) -> bool:
    """
    Answer what was asked in passing. True when the text asked nothing else, and the open question was put again.

    Prices: the shop's own sentence and nothing more. Who pays under a warranty is for the office; whether a repair is worth
    it is for a person who has seen the machine.
    """
    intents, part = set(reading.intents), named(turn.rulebook, "part", reading.text)
    if part is not None:
        turn.tell("answer.part")
        turn.because("told", f'"{part}": parts are priced after the look, and by a person.')
        intents -= {"ask_price", "ask_status"}
    if named(turn.rulebook, "beside_the_price", reading.text) and not named(turn.rulebook, "how_much", reading.text):
        intents -= {"ask_price"}  # "do you take cards" is no question of what it costs
    asks_office = part is None and not turn.answered and noted_for_the_office(turn, reading)
    if asks_office:
        intents -= {"ask_price", "ask_help"}
    if "ask_price" in intents or asks_of_a_sum(reading.text):
        intents.add("ask_price")
        turn.tell_own("shop.fees.say", fee_words(turn))
        turn.because("told", "The fee as the shop's file states it; no other price is ever told.", "shop.fees.say")
    if "ask_warranty" in intents:
        turn.tell("answer.warranty")
        settle_warranty(turn)
    if "ask_status" in intents:
        status(turn)
    worth = named(turn.rulebook, "worth", reading.text)
    if worth is not None:
        turn.tell("answer.worth")
        turn.because("told", f'"{worth}": whether a repair is worth it is for a person to say.')
    home = _asks_to_be_home(turn, reading)
    if home:
        turn.tell("answer.be_home")
        turn.because("told", "They ask whether somebody must be home.")
    answered = bool(worth or part or asks_office or home or intents & {"ask_price", "ask_warranty", "ask_status"})
    if not answered or TELLS & turn.learned:
        return False
    before = turn.state.asked
    if again(turn) and before is not None and turn.state.asked is not None:
        turn.put(asked=turn.state.asked.model_copy(update={"tries": before.tries}))  # who asks has not failed to answer
    elif not turn.open_tickets:
        pose(turn, "appliance")
    return True


def _asks_to_be_home(turn: Turn, reading: Reading) -> bool:
    """Whether they ask if somebody must be home, or if one under age will do."""
    asks = named(turn.rulebook, "be_home", reading.text) is not None and len(reading.text.split()) <= BE_HOME_WORDS
    return asks or asks_who_is_home(reading.text)


def thanked(turn: Turn, reading: Reading) -> bool:
    """
    Thanks, goodbyes and a mere "ok" need no answer; the open question, if any, stays open.

    Neither does a text that brings nothing while a person has the matter and nothing is asked. Thanks for the one window
    that is offered may be a yes: it is asked once more.
    """
    if TELLS & turn.learned or not turn.state.introduced:
        return False
    if (
        reading.intents == ("thanks",)
        and reading.answer is None
        and named(turn.rulebook, "worked", reading.text) is None
    ):
        asked = turn.state.asked
        if asked is not None and (asked.kind, asked.code) == ("offer", "one") and asked.tries < ASKED_MOST:
            return again(turn)
        turn.because("held", "Thanks alone: no answer needed.")
        return True
    if turn.state.asked is not None:
        return False
    if _with_a_person(turn) and not reading.intents:
        turn.because("held", "A person has the matter, and this text brings nothing new: not answered.")
        return True
    if not nods(turn, reading):
        return False
    turn.because("held", "A nod alone: no answer needed.")
    return True


def turned_away(turn: Turn, reading: Reading) -> bool:
    """After "not ours", what only adds to the complaint that was turned away needs no answer; a new one does."""
    if turn.open_tickets or not turn.state.tickets or turn.state.asked is not None:
        return False
    last = turn.state.tickets[-1]
    adds = bool(TELLS & turn.learned or reading.facts) or reading.intents == ("answer",)
    if last.closed not in ("out_of_area", "not_ours", "referred") or not adds or "report_problem" in reading.intents:
        return False
    turn.because("held", "Told already that this is not ours, and nothing new is asked: not answered.")
    return True


def _with_a_person(turn: Turn) -> bool:
    ticket = turn.state.in_focus
    return turn.state.person_asked or (ticket is not None and ticket.open and ticket.needs_person is not None)


def nods(turn: Turn, reading: Reading) -> bool:
    """Whether the text is no more than "ok", "yes", "thank you, bye"; where all is closed, also that it works."""
    nods = {"thanks", "answer"} if turn.open_tickets else {"thanks", "answer", "fixed"}
    if not set(reading.intents) <= nods:
        return False
    if reading.intents or nothing_but(turn.rulebook, reading.text, "at_it", "cheers", "plain_yes", "small_words"):
        return True
    answer = turn.reader.read(reading.text, asked=Asked("yes_no")).answer
    return answer is not None and len(reading.text.split()) <= NOD_WORDS


def note_pictures(turn: Turn, media: int) -> None:
    """Count pictures on the ticket in focus."""
    ticket = turn.state.in_focus
    if media and ticket is not None and ticket.open:
        turn.change(ticket.key, photos=ticket.photos + media)


def picture(turn: Turn, reading: Reading, media: int) -> None:
    """Keep that pictures came; without words, say so and go on to what the machine is doing."""
    note_pictures(turn, media)
    if media and not reading.text.strip():
        turn.learned.add("photo")
        turn.tell("photo.got")
        turn.because("heard", "A picture without words: kept for the technician; the line does not look at pictures.")


def _passes(turn: Turn, reading: Reading) -> bool:
    """Plain words that still do not answer a question put twice: it is left, their words are kept, the talk goes on."""
    asked = turn.state.asked
    if asked is None or asked.tries < ASKED_MOST or asked.kind not in KNOWLEDGE or "unreadable" in reading.intents:
        return False
    turn.put(asked=None, misread=0)
    turn.because("heard", "Put twice and not answered: left, and their words are kept for the technician.", asked.code)
    return True


def _asks_back(turn: Turn, reading: Reading) -> bool:
    """They ask what is meant by a question: it is beyond them, and left for the technician."""
    asked = turn.state.asked
    if asked is None or asked.kind not in KNOWLEDGE or "ask_help" not in reading.intents:
        return False
    if asked.code in turn.rulebook.dangers:
        return False
    turn.put(asked=None, misread=0)
    turn.because("heard", "They ask what is meant: the question is left, as one they cannot answer.", asked.code)
    return True


def _left_open(turn: Turn, reading: Reading) -> bool:
    """Nothing is asked and a complaint waits, since they put it off: any word of theirs takes it up again."""
    if turn.state.asked is not None or "unreadable" in reading.intents:
        return False
    return any(t.visit is None and t.needs_person is None and t.stage == "narrowing" for t in turn.open_tickets)


def _did_something(turn: Turn, reading: Reading) -> bool:
    """What they did to the machine, though nobody asked: their words are kept, and the open question is put again."""
    said = named(turn.rulebook, "did_it", reading.text)
    if said is None or turn.state.asked is None or len(reading.text.split()) < DID_WORDS:
        return False
    turn.because("heard", f'"{said}": what they did is kept in their words for the technician.')
    return True


def _at_it(turn: Turn, reading: Reading) -> bool:
    """They go and look: waited for, and the question stays open."""
    asked = turn.state.asked
    if asked is None or asked.kind not in KNOWLEDGE:
        return False
    if reading.answer is not None and (reading.answer.kind != "yes" or len(reading.text.split()) < LOOKING_WORDS):
        return False
    if not nothing_but(turn.rulebook, reading.text, "at_it") and named(turn.rulebook, "will_do", reading.text) is None:
        return False
    turn.tell("try.waiting")
    turn.because("heard", "They are looking: the question stays open.", asked.code)
    return True


def _said_before(turn: Turn, reading: Reading) -> bool:
    """A greeting, or what is known already (“ya le dije que no calienta”): not unread; the open question is put again."""
    known = reading.symptoms or reading.denied or reading.observations
    if turn.state.asked is None or not (known or said_alone(turn.rulebook, reading.text, "greets")):
        return False
    turn.put(misread=0)
    turn.because("heard", "A greeting, or nothing that was not known: the open question is put again.")
    return again(turn)


def unread(turn: Turn, reading: Reading) -> bool:
    """
    Nothing could be made of the text: asked again once, then a person is told and the line is silent.

    A text that brought something, or a greeting, is not unread.
    """
    if (TELLS & turn.learned) or turn.answered:
        turn.put(misread=0)
        return False
    if not turn.state.introduced and "unreadable" not in reading.intents:
        return False
    if turn.state.asked is None and not turn.open_tickets and "unreadable" not in reading.intents:
        return False
    if (turn.state.asked is None and asks_of_a_visit(turn, reading)) or _asks_back(turn, reading):
        return False
    if asked_back.for_a_person(turn, reading):
        return turn.state.asked is not None
    if (
        _passes(turn, reading)
        or _left_open(turn, reading)
        or _did_something(turn, reading)
        or _known_already(turn, reading)
    ):
        return False
    if _at_it(turn, reading) or _said_before(turn, reading):
        return True
    misread = turn.state.misread + 1
    turn.put(misread=misread)
    turn.because("heard", "Nothing in the text answers the open question or tells anything new.", times=misread)
    if misread == 1:
        if not again(turn, lead="unread.again"):
            turn.tell("unread.again")
            if not turn.open_tickets:
                pose(turn, "appliance")
    elif misread == MISREAD_MOST:
        call_person(turn, f'two texts in a row could not be read, the last: "{reading.text[:80]}"')
        turn.tell("unread.person", when=reads_when(turn))
        turn.clear_wake("silence")
    return True


def _known_already(turn: Turn, reading: Reading) -> bool:
    """Whether the text tells the fault once more that is known: “like its not even on” of a machine that is dead."""
    ticket = turn.state.in_focus
    if ticket is None or not ticket.open or "unreadable" in reading.intents:
        return False
    told = turn.reader.read(reading.text, about=ticket.appliance).symptoms
    known = any(ticket.symptoms.get(found.code) for found in told)
    if known:
        turn.learned.add("fact")
        turn.because("heard", "The fault that is known, told once more.")
    return known
