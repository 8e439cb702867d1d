"""They ask for one more thing to try themselves: offered beyond the shop's usual count, if anything safe has a chance."""

from __future__ import annotations

from service.conversation import narrow, trying
from service.conversation.ask import again
from service.conversation.matters import named, words_before
from service.conversation.state import TicketState
from service.conversation.summary import evidence_of
from service.conversation.underway import Turn
from service.diagnosis.questions import one_more
from service.reading.model import Reading

REFUSED = frozenset(("dont", "cant", "havent", "not", "nothing", "without", "sin", "tried"))
"""“I can't think of anything else to try” asks for nothing."""
BEFORE = 4
WANTS_US = frozenset(("cancel", "reschedule", "talk_to_person"))


def asked_for(turn: Turn, reading: Reading) -> bool:
    """
    “anything else I can try?”: the next check, though the shop's usual count is reached; said if there is none.

    A check under way whose result comes with it is taken first; without a result it is passed over.
    """
    ticket = turn.state.in_focus
    if ticket is None or not _may_ask(turn, reading, ticket):
        return False
    asked = turn.state.asked
    if asked is not None and asked.kind == "check_result":
        if trying.tells_result(turn, reading):
            if trying.result(turn, reading):
                return True
        else:
            turn.change(ticket.key, checks={**ticket.checks, asked.code or "": "unable"})
            turn.put(asked=None)
    rules = turn.rulebook.appliances[ticket.appliance]
    ticket = turn.the(ticket.key)
    found = one_more(rules, evidence_of(ticket), narrow.limits(turn, ticket, wants_more=True), turn.rulebook.shop)
    turn.put(misread=0)
    if found is None:
        turn.tell("try.no_more")
        turn.because("ruled_out", "They ask for more to try: nothing safe has a fair chance.")
        return again(turn)
    narrow.offer_check(turn, ticket.key, rules, found)
    words = (
        f"They ask for more to try: {found.check}, {found.chance:.0%} chance to settle it in {found.minutes} minutes."
    )
    turn.because("offered", words, found.check)
    return True


def _may_ask(turn: Turn, reading: Reading, ticket: TicketState) -> bool:
    """Whether the words ask for it of a complaint that was looked into, and that nobody comes for yet."""
    said = named(turn.rulebook, "one_more", reading.text)
    if said is None or REFUSED & set(words_before(reading.text, said, BEFORE)) or WANTS_US & set(reading.intents):
        return False
    looked_into = not {"ticket", "symptom"} & turn.learned
    ours = ticket.open and ticket.visit is None and not ticket.unsafe and not turn.state.person_asked
    return looked_into and ours and ticket.appliance in turn.rulebook.appliances and any(ticket.symptoms.values())
