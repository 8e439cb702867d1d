"""A customer's phone, the diary and the clock around the pure turn: drives whole conversations without a database."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import cache
from pathlib import Path
from zoneinfo import ZoneInfo

from service.conversation.events import DeliveryFailed, Event, OfficeDid, TechnicianDid, Texted, Woke
from service.conversation.state import State, TicketState
from service.conversation.step import Alarm, Book, CancelVisit, Move, Reply, SetWake, Step
from service.conversation.turn import needs_diary, take
from service.conversation.upgrade import read_state
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.scheduling.model import Booked, Diary
from service.wording.segments import count

RULES = Path(__file__).parent.parent.parent / "rules"
TUESDAY_TEN = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)
"""Tuesday 1 December 2026, 10:00 in Albuquerque."""


@cache
def demo() -> Rulebook:
    """The demo shop's rules, loaded once for all tests."""
    return load_rulebook(RULES, "demo")


def with_policies(rulebook: Rulebook, **policies: object) -> Rulebook:
    """*rulebook* with some of its shop's policies changed, an edition of its own."""
    shop = rulebook.shop.model_copy(update={"policies": rulebook.shop.policies.model_copy(update=policies)})
    mark = "".join(f"{k}={v};" for k, v in sorted(policies.items()))
    return replace(rulebook, shop=shop, fingerprint=rulebook.fingerprint + mark)


class Line:
    """
    One thread. ``text`` is what the customer sends and gives the replies' texts; ``wait`` lets time pass and wakes ring.

    Every turn is checked for what always holds: budgets, one question a text, silence where silence is due, the state
    surviving storage, the diary asked for whenever it is used.
    """

    def __init__(
        self, rulebook: Rulebook | None = None, now: datetime = TUESDAY_TEN, state: State | None = None
    ) -> None:
        self.rulebook = rulebook or demo()
        self.now = now
        self.state = state or State()
        self.turns = 0
        self.texts_sent = 0
        self.held = False
        self.steps: list[Step] = []
        self.replies: list[Reply] = []
        self.alarms: list[Alarm] = []
        self.wakes: dict[str, SetWake] = {}
        self.visits: dict[str, Book] = {}
        self.cancelled: dict[str, str] = {}
        self.done: set[str] = set()

    # What happens

    def text(self, *texts: str, media: int = 0) -> list[str]:
        """Send one text, or several that rest together; the replies of this turn."""
        events = []
        for n, words in enumerate(texts or ("",)):
            self.texts_sent += 1
            at = self.now - timedelta(seconds=len(texts) - 1 - n)
            events.append(Texted(id=f"m{self.texts_sent}", text=words, media=media if n == 0 else 0, at=at))
        return self.happen(*events)

    def photo(self) -> list[str]:
        """Send a picture without words."""
        return self.text("", media=1)

    def office(self, action: str, ticket: str | None = None, **data: object) -> list[str]:
        """The office does something."""
        if action in ("hold", "release"):
            self.held = action == "hold"
        event = {"action": action, "ticket": ticket, "data": data, "by": "pat", "at": self.now}
        return self.happen(OfficeDid.model_validate(event))

    def outcome(self, found: str, *, fixed: bool = True, returning: bool = False, why: str = "") -> list[str]:
        """The technician's outcome for the ticket in focus."""
        ticket = self.state.focus or ""
        self.done |= {self.ticket.visit.id} if self.ticket.visit else set()
        return self.happen(
            TechnicianDid(ticket=ticket, found=found, fixed=fixed, returning=returning, why=why, by="ray", at=self.now)
        )

    def undelivered(self, *, danger: bool) -> list[str]:
        """The carrier gave a reply up."""
        return self.happen(DeliveryFailed(key="r1", danger=danger, at=self.now))

    def wait(self, **by: float) -> list[str]:
        """Let time pass (hours, days, minutes); wakes ring when they are due. The replies they brought."""
        end, said = self.now + timedelta(**by), []
        while due := sorted((w for w in self.wakes.values() if w.due <= end), key=lambda w: (w.due, w.key)):
            wake = due[0]
            del self.wakes[wake.key]
            self.now = max(self.now, wake.due)
            said += self.happen(Woke(kind=wake.kind, ticket=wake.ticket, version=wake.version, at=self.now))
        self.now = end
        return said

    def happen(self, *events: Event) -> list[str]:
        """Take a turn."""
        self.turns += 1
        diary = self.diary if needs_diary(self.state, events, self.rulebook, self.now) else None
        step = take(self.state, events, self.rulebook, self.now, diary, thread="th1", turn=self.turns, held=self.held)
        self._apply(step)
        self._check(step)
        self.now += timedelta(seconds=30)
        return [r.text for r in step.replies]

    def talk(self, answers: Mapping[str, str], *, until: str, most: int = 10) -> list[str]:
        """
        Answer the line's questions until one of kind *until* stands open; gives what was asked, code or kind, in order.

        answers: by the question's code, else by its kind; any other question gets "I don't know".
        """
        asked: list[str] = []
        while self.state.asked is not None and self.state.asked.kind != until:
            question = self.state.asked
            assert len(asked) < most, f"still asking after {asked}"
            code = question.code or question.kind
            asked.append(code if question.kind != "check_result" else question.kind)
            self.text(answers.get(code, answers.get(question.kind, "I don't know")))
        return asked

    # What stands

    @property
    def last(self) -> Step:
        """The latest turn."""
        return self.steps[-1]

    @property
    def said(self) -> str:
        """The replies of the latest turn, as one."""
        return "\n".join(r.text for r in self.last.replies)

    @property
    def ticket(self) -> TicketState:
        """The ticket in focus, open or closed."""
        assert self.state.in_focus is not None, "no ticket is in focus"
        return self.state.in_focus

    @property
    def book(self) -> Book:
        """The one visit that stands."""
        standing = [b for b in self.visits.values() if b.visit not in self.cancelled and b.visit not in self.done]
        assert len(standing) == 1, f"{len(standing)} visits stand"
        return standing[0]

    @property
    def diary(self) -> Diary:
        """The technicians' days as the visits made here stand in them."""
        area = self.rulebook.shop.area
        booked = tuple(
            Booked(b.visit, b.technician, b.start, b.end, b.minutes, area[b.postal_code].lat, area[b.postal_code].lon)
            for b in self.visits.values()
            if b.visit not in self.cancelled
        )
        return Diary(booked=booked, versions={})

    def day_of_visit(self) -> date:
        """The day of the one visit, in the shop's time."""
        return self.book.start.astimezone(ZoneInfo(self.rulebook.shop.timezone)).date()

    # How it is kept

    def _apply(self, step: Step) -> None:
        self.steps.append(step)
        self.state = read_state(step.state.model_dump(mode="json"))
        assert self.state == step.state, "the state must survive storage"
        self.replies += step.replies
        self.alarms += step.alarms
        for key in step.clear_wakes:
            self._clear(key)
        self.wakes.update({w.key: w for w in step.wakes})
        for change in step.diary:
            if isinstance(change, Book):
                assert change.visit not in self.visits, "one id, one visit"
                self.visits[change.visit] = change
            elif isinstance(change, Move):
                update = {"technician": change.technician, "start": change.start, "end": change.end}
                self.visits[change.visit] = self.visits[change.visit].model_copy(update=update)
            elif isinstance(change, CancelVisit):
                self.cancelled[change.visit] = change.why

    def _clear(self, key: str) -> None:
        prefix = key[:-1] if key.endswith("*") else None
        gone = [k for k in self.wakes if (k.startswith(prefix) if prefix is not None else k == key)]
        for wake in gone:
            del self.wakes[wake]

    def _asked_in(self, text: str) -> int:
        """Questions to the customer; choices are none, nor what a step tells them to ask somebody else."""
        text = re.sub(r"^\d .*$", "", text, flags=re.M)
        for rules in self.rulebook.appliances.values():
            for step in (s for check in rules.checks.values() for s in check.steps):
                for said in (step.en, step.es):
                    text = text.replace(said, "")
        return text.count("?")

    def _check(self, step: Step) -> None:
        for reply in step.replies:
            assert reply.text.strip(), "an empty reply"
            assert self._asked_in(reply.text) <= 1, f"more than one question: {reply.text!r}"
            assert "!" not in reply.text, reply.text
            assert within_budget(reply, step.state.language), (count(reply.text).number, reply.text)
        if step.replies and any(r.kind != "danger" for r in step.replies):
            assert step.reasons, "every reply carries why"
        answers = [r for r in step.replies if r.kind in ("answer", "started")]
        if self.held or step.state.consent == "out":
            assert not answers, "silence while a person holds the thread or they opted out"


def told(*texts: str) -> Line:
    """A line that has been sent *texts*, one after the other."""
    line = Line()
    for text in texts:
        line.text(text)
    return line


def within_budget(reply: Reply, language: str) -> bool:
    """Two segments, three for danger; accented Spanish one more; a text that introduces the line two more."""
    counted = count(reply.text)
    most = 3 if reply.kind == "danger" else 2
    if language == "es" and counted.encoding == "UCS-2":
        most += 1
    if any(id.startswith("intro") for id in reply.wording):
        most += 2
    return counted.number <= most


def questions(replies: Sequence[str]) -> int:
    """How many of *replies* ask something."""
    return sum("?" in r for r in replies)
