"""The turn while it is being taken: what was read, what will be said, what changes. It decides nothing by itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Protocol

from service.conversation.state import Asked, State, TicketState
from service.conversation.step import Alarm, DiaryChange, Reason, Reply, ReplyKind, SetWake
from service.reading import model as reading_model
from service.reading.model import HazardFound, Reading
from service.rulebook.model import Rulebook
from service.rulebook.schema.common import Text
from service.scheduling.model import Diary
from service.wording.segments import plain
from service.wording.sentences import say


class Reads(Protocol):
    """What the turn needs of a reader."""

    def read(
        self,
        text: str,
        *,
        media: int = 0,
        asked: reading_model.Asked | None = None,
        about: str | None = None,
        this_year: int | None = None,
    ) -> Reading:
        """One text."""

    def read_together(
        self,
        texts: Sequence[str],
        *,
        media: int = 0,
        asked: reading_model.Asked | None = None,
        about: str | None = None,
        this_year: int | None = None,
    ) -> Reading:
        """Texts that rested together."""

    def hazards(self, text: str) -> tuple[HazardFound, ...]:
        """The quick screen for dangers."""

    def consent(self, text: str) -> str | None:
        """The quick screen for consent words."""

    def is_cut(self, form: str) -> bool:
        """Whether a word is none, and is read as several."""


class DiaryMissing(LookupError):
    """Windows must be offered and no diary was handed in: ``needs_diary`` said wrongly that none was needed."""


@dataclass(frozen=True, slots=True)
class Said:
    """
    One piece of a reply: the wording or rule it comes from and its words. spare: a reply may go without it.

    alone marks no words but a cut: what follows stands in a text of its own (spare: only where one text is not enough).
    """

    id: str
    text: str
    spare: bool = False
    alone: bool = False


@dataclass
class Turn:
    """
    Everything one turn works on. Handlers read ``state`` and write through the methods; ``turn.take`` makes the Step of it.

    pieces: the ordinary answer so far. learned: what this turn's texts brought (``symptom``, ``appliance``, ``fact``,
    ``answer``, ``theory``...). answered: the open question found its answer.
    """

    rulebook: Rulebook
    reader: Reads
    now: datetime
    diary: Diary | None
    thread: str
    number: int
    held: bool
    state: State
    texts: tuple[str, ...] = ()
    pieces: list[Said] = field(default_factory=list)
    replies: list[Reply] = field(default_factory=list)
    diary_changes: list[DiaryChange] = field(default_factory=list)
    wakes: list[SetWake] = field(default_factory=list)
    cleared: list[str] = field(default_factory=list)
    alarms: list[Alarm] = field(default_factory=list)
    reasons: list[Reason] = field(default_factory=list)
    learned: set[str] = field(default_factory=set)
    new_symptoms: list[tuple[str, str]] = field(default_factory=list)
    answered: bool = False
    kind: ReplyKind = "answer"
    needs_visit: tuple[str, int] | None = None

    @property
    def language(self) -> str:
        """The language to answer in: the thread's, if the shop speaks it."""
        told = self.state.language
        return told if told in self.rulebook.shop.languages else self.rulebook.shop.languages[0]

    def put(self, **values: object) -> None:
        """Change fields of the state."""
        self.state = self.state.model_copy(update=values)

    def change(self, key: str, **values: object) -> TicketState:
        """Change fields of the ticket *key*; gives it as it is now."""
        tickets = tuple(t.model_copy(update=values) if t.key == key else t for t in self.state.tickets)
        self.put(tickets=tickets)
        return self.the(key)

    def the(self, key: str) -> TicketState:
        """The ticket *key*. Raises KeyError when there is none: a bug."""
        ticket = self.state.ticket(key)
        if ticket is None:
            raise KeyError(key)
        return ticket

    @property
    def open_tickets(self) -> tuple[TicketState, ...]:
        """The complaints that stand, the one in focus first."""
        standing = [t for t in self.state.tickets if t.open]
        return tuple(sorted(standing, key=lambda t: t.key != self.state.focus))

    def words(self, id: str, **values: object) -> str:
        """The sentence *id* in their language; every sentence may name the shop and its office's phone."""
        shop = self.rulebook.shop
        return say(self.rulebook, self.language, id, shop=shop.name, phone=spoken(shop.office_phone), **values)

    def own(self, text: Text) -> str:
        """A sentence of the rules in their language, signs made plain."""
        return plain(text.in_(self.language), self.language, self.rulebook.shop.policies.spanish)

    def tell(self, id: str, *, spare: bool = False, **values: object) -> None:
        """Add the sentence *id* to the answer."""
        self.pieces.append(Said(id, self.words(id, **values), spare))

    def tell_own(self, id: str, text: str) -> None:
        """Add words of the rules (a check's step, a stop-use line) to the answer; *id* names where they stand."""
        self.pieces.append(Said(id, text))

    def new_text(self) -> None:
        """What follows goes into a text of its own."""
        self.pieces.append(Said("", "", alone=True))

    def may_break(self) -> None:
        """Where a text may be cut, if one is not enough."""
        self.pieces.append(Said("", "", spare=True, alone=True))

    def at_once(self, kind: ReplyKind, id: str, text: str, *, ticket: str | None = None, **more: object) -> None:
        """A reply that stands alone and goes before the answer: a danger instruction, a consent word."""
        self.replies.append(
            Reply.model_validate({"kind": kind, "text": text, "wording": (id,), "ticket": ticket, **more})
        )

    def ask(self, asked: Asked) -> None:
        """Keep *asked* as the open question."""
        self.put(asked=asked, nudged=False)

    def because(self, what: str, words: str, rule: str | None = None, **data: object) -> None:
        """A reason for the desk."""
        self.reasons.append(Reason(what=what, words=words, rule=rule, data=data))

    def wake(self, kind: str, key: str, due: datetime, ticket: str | None = None, version: int | None = None) -> None:
        """Be woken at *due*; the same key again moves the wake."""
        self.wakes = [w for w in self.wakes if w.key != key]
        self.wakes.append(SetWake(kind=kind, key=key, due=due, ticket=ticket, version=version))
        self.cleared = [k for k in self.cleared if k != key]

    def clear_wake(self, key: str) -> None:
        """Drop the wake *key*, or all that begin as a key ending in ``*``."""
        prefix = key[:-1] if key.endswith("*") else None
        self.wakes = [w for w in self.wakes if (not w.key.startswith(prefix) if prefix is not None else w.key != key)]
        if key not in self.cleared:
            self.cleared.append(key)


def spoken(number: str) -> str:
    """A number as people read it: ``+15055550100`` is 505-555-0100; other countries' numbers as they are."""
    if number.startswith("+1") and len(number) == 12:
        return f"{number[2:5]}-{number[5:8]}-{number[8:]}"
    return number
