"""Which texts get no turn though they are kept: from machines that cannot be answered, from the parked, in a flood."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from sqlalchemy import Connection

from service.conversation.step import Step
from service.edge.numbers import kind_of
from service.reading.readers import reader_for
from service.rulebook.model import Rulebook
from service.scheduling.hours import is_open, next_opening
from service.scheduling.words import moment_words
from service.storage import alarms, outbox, threads
from service.storage.messages import Waiting
from service.storage.threads import ThreadRow
from service.wording.segments import count
from service.wording.sentences import say

NUMBER_BURST, NUMBER_PACE = 30, timedelta(seconds=20)
"""No person writes thirty texts at a stretch and then one every twenty seconds; two machines that answer each other do."""

ABUSED_MOST = 3
"""After so many texts of abuse and nothing else a number is parked; answered again, after so many more."""

SHOP_REST_S = 60.0
"""How long the texts of a shop beyond its share rest."""


def heeded(rulebook: Rulebook, row: ThreadRow, waiting: Sequence[Waiting]) -> bool:
    """
    Whether the texts of a number that is not answered must be heard all the same: danger, and consent words.

    A number parked as spam is heard again once it writes of a machine.
    """
    reader = reader_for(rulebook)
    if any(reader.hazards(one.text) or reader.consent(one.text) is not None for one in waiting):
        return True
    return row.parked == "spam" and any(_of_a_machine(rulebook, one.text) for one in waiting)


def _of_a_machine(rulebook: Rulebook, text: str) -> bool:
    reading = reader_for(rulebook).read(text)
    return bool(reading.appliances or reading.symptoms)


def machine_sends(connection: Connection, rulebook: Rulebook, row: ThreadRow, text: str, now: datetime) -> bool:
    """
    Whether the sender is a short code or a name: no person reads what is sent there, and most cannot be sent to.

    The desk is told once. A danger is heard, should a person have such a number after all.
    """
    kind = kind_of(row.number)
    if kind not in ("short_code", "name") or reader_for(rulebook).hazards(text):
        return False
    if row.parked is None:
        threads.park(connection, row.id, "short code" if kind == "short_code" else "named sender")
        _tell_desk(connection, row, "A text came from a number that cannot be answered. It is kept.", now)
    return True


def paced(row: ThreadRow, now: datetime) -> tuple[ThreadRow, bool]:
    """
    *row* with one text more counted, and whether that is more than a person writes; such a text is not counted.

    The generic cell rate algorithm (ITU-T I.371): one moment says what a bucket needs two values for, and the row is
    written at the end of every turn anyway.
    """
    due = max(row.paced_to or now, now)
    if due - now > NUMBER_PACE * NUMBER_BURST:  # only a clock that was set back makes it so late
        due = now
    if due - now > NUMBER_PACE * (NUMBER_BURST - 1):
        return row, True
    return replace(row, paced_to=due + NUMBER_PACE), False


def floods(
    connection: Connection, rulebook: Rulebook, row: ThreadRow, text: str, now: datetime, *, too_many: bool
) -> bool:
    """
    Whether a text of a number that writes *too_many* gets no turn: it is kept, the number is told so once a day, and a
    person is asked for. Danger and consent words are always heard.
    """
    reader = reader_for(rulebook)
    if not too_many or reader.hazards(text) or reader.consent(text) is not None:
        return False
    if row.consent == "in" and row.held_by is None and row.parked is None:
        _say_once(connection, rulebook, row, now)
    return True


def park(connection: Connection, rulebook: Rulebook, row: ThreadRow, texts: Sequence[str], step: Step) -> None:
    """
    Park a number that abused us time and again, or whose texts read as offers or scams and left nothing to do.

    The desk shows it as parked, and the office may have it answered again.
    """
    abused = step.state.abused
    if abused > row.state.get("abused", 0) and abused % ABUSED_MOST == 0 and row.parked is None:
        threads.park(connection, row.id, "abuse")
        return
    if step.replies or step.state.tickets or row.parked or not texts:
        return
    reader = reader_for(rulebook)
    if all("spam" in reader.read(text).intents for text in texts):
        threads.park(connection, row.id, "spam")


def _say_once(connection: Connection, rulebook: Rulebook, row: ThreadRow, now: datetime) -> None:
    shop = rulebook.shop
    language = row.state.get("language", "en")
    opening = now if is_open(shop, now) else next_opening(shop, now)
    when = say(rulebook, language, "when.open") if opening == now else moment_words(opening, language, now)
    text = say(rulebook, language, "person.many", when=when, phone=shop.office_phone)
    outgoing = outbox.Outgoing(
        shop=row.shop, thread=row.id, key=f"{row.id}.many:{now.date()}", number=row.number, gateway=row.gateway,
        kind="answer", text=text, segments=len(count(text).parts), due_at=now,
    )  # fmt: skip
    if outbox.put(connection, outgoing, now):
        _tell_desk(connection, row, "One number sends more texts than a person does; they are kept, not answered.", now)


def _tell_desk(connection: Connection, row: ThreadRow, words: str, now: datetime) -> None:
    alarms.raise_alarm(connection, shop=row.shop, thread=row.id, kind="trouble", text=words, now=now)
