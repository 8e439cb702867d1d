"""Said in passing: another language, that somebody should just come, that it is back."""

from __future__ import annotations

from service.conversation import refusing
from service.conversation.matters import named, nothing_but, said_alone
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.wording.sentences import say

KNOWLEDGE = ("observation", "symptom", "yes_no", "brand", "model", "serial", "age", "code", "fuel", "variant")
"""Questions that a ticket can do without."""
JUST_SEND_QUESTIONS = 1
"""Questions in all to somebody who only wants a visit, besides address and safety."""


def other_language(turn: Turn, text: str) -> bool:
    """Whether they ask for the other language in so many words; the talk goes on in it."""
    for language in ("en", "es"):
        if named(turn.rulebook, f"speak_{language}", text) is None:
            continue
        turn.put(language=language)
        turn.learned.add("language")
        turn.because("heard", f"They ask for {'English' if language == 'en' else 'Spanish'}.")
        return True
    return False


def leave_for_later(turn: Turn) -> None:
    """The open question about the machine is closed and may be asked again."""
    asked = turn.state.asked
    if asked is not None and asked.kind in KNOWLEDGE and asked.ticket is not None:
        ticket = turn.the(asked.ticket)
        mark = asked.code if asked.kind in ("observation", "yes_no") else asked.kind
        turn.change(ticket.key, asked=tuple(a for a in ticket.asked if a not in (mark, f"{asked.kind}:{asked.code}")))
        turn.put(asked=None)


def just_send(turn: Turn, reading: Reading) -> None:
    """
    They only want somebody to come, or are not where the machine is: hardly a question more, besides address and safety.

    What was asked of the machine is left unanswered.
    """
    away = next((said for m in ("away", "no_checks") if (said := named(turn.rulebook, m, reading.text))), None)
    away = away or refusing.is_away(reading.text)
    wants = "book" in reading.intents or ("wish" in turn.learned and "ticket" not in turn.learned)
    wants = wants or _whenever(turn, reading)
    if away is None and not wants:
        return
    for ticket in turn.open_tickets:
        if ticket.visit is not None:
            continue
        most = ticket.questions if ticket.just_send or away else max(ticket.questions, JUST_SEND_QUESTIONS)
        if ticket.just_send and ticket.questions_cap is not None and ticket.questions_cap <= most:
            continue
        turn.change(ticket.key, just_send=True, questions_cap=most)
        why = f'They cannot look ("{away}")' if away else "They want somebody to come"
        turn.because("heard", f"{why}: questions end at {most}, besides address and safety.", ticket=ticket.key)
    turn.learned.add("book")
    asked = turn.state.asked
    if asked is not None and asked.kind in KNOWLEDGE and not turn.answered and turn.open_tickets:
        turn.put(asked=None)
        turn.answered = True
        turn.because("heard", "What was asked is left: a visit is wanted.", asked.code or asked.kind)


def _whenever(turn: Turn, reading: Reading) -> bool:
    """“whenever”, “cuando puedan”, asked about the machine: come when it suits; not where it is the answer."""
    asked = turn.state.asked
    if asked is None or asked.kind not in KNOWLEDGE or turn.answered or "when" in (asked.code or ""):
        return False
    return said_alone(turn.rulebook, reading.text, "whenever")


def same_as_before(turn: Turn, reading: Reading) -> TicketState | None:
    """The last complaint, closed not long ago, that they say is back ("it's doing it again"); None if they do not."""
    last = turn.state.tickets[-1] if turn.state.tickets else None
    if last is None or last.open or last.appliance == "unknown" or (turn.now - last.opened_at).days > COMES_BACK_DAYS:
        return None
    return last if named(turn.rulebook, "again", reading.text) else None


SETTLED_DAYS = 3
"""So long after a complaint was settled by its owner "it did not help" and "send somebody" are about that one."""


def not_settled(turn: Turn, reading: Reading) -> TicketState | None:
    """The last complaint, settled by its owner days ago, where they want a visit or say that it was no good after all."""
    last = turn.state.tickets[-1] if turn.state.tickets else None
    if last is None or last.closed != "settled_by_owner" or (turn.now - last.opened_at).days > SETTLED_DAYS:
        return None
    if any(found.code != "vague" for found in reading.symptoms) or "fixed" in reading.intents:
        return None
    says_so = {"book", "not_fixed"} & set(reading.intents) or reading.symptoms or _took_back(turn, reading)
    return last if says_so else None


def _took_back(turn: Turn, reading: Reading) -> bool:
    """“no”, “not yet”, right after we closed it as working: it was no yes that it works."""
    closing = tuple(say(turn.rulebook, language, "try.fixed") for language in ("en", "es"))
    return (
        (turn.state.last_reply or "").endswith(closing)
        and named(turn.rulebook, "not_after_all", reading.text) is not None
        and nothing_but(turn.rulebook, reading.text, "not_after_all", "beside_that_no")
    )


COMES_BACK_DAYS = 30
"""A complaint this young that comes back is the same one: what was found out then still counts."""


def carried_over(earlier: TicketState) -> dict[str, object]:
    """
    What still counts of *earlier* when its complaint is back within days.

    Its answers, and what was tried: a check that helped for a while is not offered again, nor taken as a failure.
    """
    checks = {check: "unable" if result == "fixed" else result for check, result in earlier.checks.items()}
    kept = tuple(a for a in earlier.asked if a in earlier.observations)
    return {"observations": dict(earlier.observations), "checks": checks, "asked": kept, "hedged": earlier.hedged}
