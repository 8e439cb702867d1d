"""One turn: danger, consent, hearing, then one concern after another until one has the word. Pure."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from service.conversation import (
    after_danger,
    answers,
    arranging,
    asked_back,
    booking,
    consent,
    danger,
    doubted,
    fit,
    forbidden,
    hear,
    heeded,
    inside,
    language,
    left_to_the_office,
    lights_late,
    narrow,
    no_answer,
    office,
    one_more,
    passing,
    people,
    refusing,
    smalltalk,
    stopping,
    taken_back,
    trying,
    unasked,
    visits,
    waking,
    water_off,
)
from service.conversation.ask import again
from service.conversation.closing import pruned
from service.conversation.compose import compose, once
from service.conversation.events import DeliveryFailed, Event, OfficeDid, TechnicianDid, Texted, Woke
from service.conversation.freezer_part import part_told
from service.conversation.judged import triage_of
from service.conversation.listen import STALE, listen
from service.conversation.merge import keep_words
from service.conversation.needs import needs_diary
from service.conversation.saying_back import NOTED, noted, say_back, still_asked, thank
from service.conversation.state import State, TicketState
from service.conversation.step import Reply, Step
from service.conversation.underway import Said, Turn
from service.reading.model import Reading
from service.reading.readers import reader_for
from service.rulebook.model import Rulebook
from service.scheduling.model import Diary

__all__ = ["needs_diary", "take"]

REPEATS = 3
"""The same reply this often in a row: a person is needed, and the line is silent."""
PLAIN = {"address", "postal_code", "name", "phone", "email", "access", "payer", "wish", "answer"}
"""What is kept in its own place and needs no words beside it; a gate code least of all."""


def take(
    state: State,
    events: Sequence[Event],
    rulebook: Rulebook,
    now: datetime,
    diary: Diary | None,
    *,
    thread: str,
    turn: int,
    held: bool = False,
) -> Step:
    """
    What *events* do to the thread: its new state, replies, diary changes, wakes, alarms, and why.

    diary: needed where ``needs_diary`` says so. thread, turn: the thread's id and this turn's number, for ids of what it
    makes. held: a person holds the thread, so nothing but danger and consent is said. Texts are taken together, oldest
    first, after the other events. Raises DiaryMissing, and OfficeMistaken for an office action that cannot be.
    """
    under_way = Turn(
        rulebook=rulebook, reader=reader_for(rulebook), now=now, diary=diary, thread=thread, number=turn, held=held,
        state=_known(state, rulebook),
    )  # fmt: skip
    return run(under_way, events)


def run(turn: Turn, events: Sequence[Event]) -> Step:
    """Take *events* with a turn that is set up already."""
    texts = tuple(sorted((e for e in events if isinstance(e, Texted)), key=lambda t: t.at))
    for event in events:
        if isinstance(event, Woke) and texts:
            turn.because("held", f"Wake {event.kind} dropped: they have just written.", event.kind)
        elif isinstance(event, Woke):
            waking.woke(turn, event)
        elif isinstance(event, OfficeDid):
            office.did(turn, event)
        elif isinstance(event, TechnicianDid):
            office.technician(turn, event)
        elif isinstance(event, DeliveryFailed):
            office.undelivered(turn, event)
    if texts:
        turn.kind = "answer"
        _texted(turn, texts)
    return _step(turn)


def _known(state: State, rulebook: Rulebook) -> State:
    """*state* without codes that this edition no longer has; a new edition applies from the next turn."""
    return state.model_copy(update={"tickets": tuple(_known_ticket(t, rulebook) for t in state.tickets)})


def _known_ticket(ticket: TicketState, rulebook: Rulebook) -> TicketState:
    rules = rulebook.appliances.get(ticket.appliance)
    if rules is None or not ticket.open:
        return ticket
    seen = rules.observations
    return ticket.model_copy(
        update={
            "symptoms": {c: v for c, v in ticket.symptoms.items() if c in rules.symptoms},
            "observations": {i: v for i, v in ticket.observations.items() if i in seen and v in seen[i].values},
            "checks": {c: v for c, v in ticket.checks.items() if c in rules.checks},
            "theories": tuple(c for c in ticket.theories if c in rules.causes),
        }
    )


def _texted(turn: Turn, texts: tuple[Texted, ...]) -> None:
    """Danger first, then consent, then what they say."""
    hear.forget_if_long_silent(turn, STALE.days)
    turn.put(last_in=texts[-1].at)
    turn.texts = tuple(t.text for t in texts)
    besides = consent.consent(turn, texts)
    # A danger told in the same text as "stop texting me" is a danger all the same; other texts need no look for one here.
    spoken = [t for t in texts if t in besides or turn.reader.hazards(t.text)]
    if not spoken:
        return
    reading = doubted.weighed(turn, listen(turn.reader, turn.state, spoken))
    was_asked, standing = turn.state.asked, {t.key for t in turn.state.tickets}
    language.follow(turn, reading)
    if danger.heard(turn, reading):
        turn.replies.sort(key=lambda reply: reply.kind != "danger")
        hear.hear(turn, reading)
        _keep(turn, reading)
        return
    inside.take(turn, reading := part_told(turn, taken_back.take(turn, lights_late.take(turn, reading))))
    if turn.state.danger is None or not heeded.only_out_and_called(turn, reading):
        hear.hear(turn, reading)
    if not no_answer.answers_nothing(turn, reading):
        answers.answer(turn, reading)
        unasked.note(turn, reading)
    unasked.maker(turn, reading)
    _keep(turn, reading)
    water_off.note(turn, reading)
    media = sum(t.media for t in texts)
    if _silent(turn, standing) or after_danger.follow(turn, reading):
        smalltalk.note_pictures(turn, media)
        return
    smalltalk.picture(turn, reading, media)
    _converse(turn, reading, was_asked.kind if was_asked else None)


def _keep(turn: Turn, reading: Reading) -> None:
    """Keep their words with the ticket they are about; a mere address, code or "don't know" is not a word that matters."""
    focus = turn.state.in_focus
    brief = reading.answer is not None and reading.answer.kind in ("dont_know", "declined")
    bare = bool(turn.learned) and turn.learned <= PLAIN and not reading.hazards
    if focus is None or not focus.open or brief or bare or reading.intents == ("thanks",):
        return
    keep_words(turn, focus.key, turn.texts)


def _silent(turn: Turn, standing: set[str]) -> bool:
    """Whether the line only listens: a person holds the thread, or they opted out (then a new complaint needs a person)."""
    if turn.held:
        turn.because("held", "A person holds the thread: heard, not answered.")
        return True
    if turn.state.consent == "in":
        return False
    turn.because("held", "They opted out: heard, not answered.")
    if any(t.key not in standing for t in turn.open_tickets):
        people.call_person(turn, "opted out of texts and writes of a new complaint: reach them another way")
    return True


def _converse(turn: Turn, reading: Reading, was_asked: str | None) -> None:
    """One concern after another; the first that has the word ends the turn's talk."""
    turn.learned.update({"book", "not_fixed"} & set(reading.intents))
    refusing.take(turn, reading)
    consent.may_end(turn, reading)
    if not no_answer.not_now(turn, reading):
        passing.just_send(turn, reading)
    fit.reopen_if_mended(turn)
    warned = stopping.warn(turn, reading)
    concerns: tuple[Callable[[Turn, Reading], bool], ...] = (
        doubted.ask,
        lambda t, r: people.loops(t, told=_told(t) or r.answer is not None),
        asked_back.who_writes,
        smalltalk.unwanted,
        no_answer.child,
        no_answer.puts_off,
        people.wanted,
        people.complains,
        lambda t, r: people.abuses(t, r, told=_told(t)),
        lambda t, r: forbidden.answer(t, r) or stopping.answer(t, r, warned=warned),
        one_more.asked_for,
        arranging.answer,
        no_answer.keeps_address,
        inside.part_meant,
        visits.confirmed,
        visits.asked,
        asked_back.explained,
        smalltalk.asides,
        smalltalk.thanked,
        smalltalk.turned_away,
        asked_back.of_a_check,
        trying.result,
        lambda t, _: booking.finish(t, was_asked or "") if t.answered else False,
        smalltalk.unread,
        lambda t, _: _still_asked(t),
    )
    if any(concern(turn, reading) for concern in concerns):
        if turn.answered:
            turn.put(misread=0)
        return
    if was_asked and "answer" not in turn.learned:
        noted(turn)
    narrow.go_on(turn)
    narrow.greet(turn)
    left_to_the_office.unanswered(turn, reading)
    thank(turn)


def _told(turn: Turn) -> bool:
    """Whether these texts answered something, or answer a question whose answer acts, or brought news."""
    return bool(smalltalk.TELLS & turn.learned)


def _still_asked(turn: Turn) -> bool:
    """They told something, but not what was asked: asked once more, then the talk goes on without."""
    if (asked := turn.state.asked) is None or turn.answered:
        return False
    ticket = turn.state.ticket(asked.ticket)
    fits = ticket is None or not ticket.open or not fit.misfit(turn.rulebook, turn.state, ticket)
    if asked.tries < smalltalk.ASKED_MOST and fits and (ticket is None or ticket.open):
        say_back(turn)
        return again(turn, shortly=still_asked(turn))
    turn.put(asked=None)
    return False


def _step(turn: Turn) -> Step:
    _levels(turn)
    replies = (*turn.replies, *_answer(turn))
    waking.set_waiting(turn)
    return Step(
        state=pruned(turn.state), replies=replies, diary=tuple(turn.diary_changes), wakes=tuple(turn.wakes),
        clear_wakes=tuple(turn.cleared), alarms=tuple(turn.alarms), reasons=tuple(turn.reasons),
    )  # fmt: skip


def _answer(turn: Turn) -> tuple[Reply, ...]:
    """The ordinary answer as texts; the first one ever says who answers."""
    pieces = once(turn.pieces)
    if not any(p.text for p in pieces) or turn.held or turn.state.consent == "out":
        return ()
    if first := not turn.state.introduced:
        pieces.insert(0, Said("intro", turn.words("intro")))
        turn.put(introduced=True)
    texts = compose(pieces, turn.language, first=first)
    whole = "\n".join(t.text for t in texts)
    again = turn.state.repeats + 1 if whole == turn.state.last_reply else 1
    if again >= REPEATS and not NOTED & turn.learned:
        people.call_person(turn, f"the line would say the same for the {REPEATS}rd time")
        turn.put(repeats=again)
        return ()
    turn.put(last_reply=whole[:600], repeats=again)
    kind, focus, visit = turn.kind, turn.state.focus, turn.needs_visit
    return tuple(Reply(kind=kind, text=t.text, wording=t.wording, ticket=focus, needs_visit=visit) for t in texts)


def _levels(turn: Turn) -> None:
    """Triage of every open ticket, from what is held now."""
    for ticket in turn.open_tickets:
        found = triage_of(turn.rulebook, ticket)
        level, why = found.level, found.reasons
        if ticket.hazards and ticket.hazards_cleared and level in ("soon", "routine"):
            level, why = "today", (*why, "a danger was named; a person has cleared it")
        if (level, why) != (ticket.level, ticket.level_why):
            turn.change(ticket.key, level=level, level_why=why)
