"""A reader whose readings are written by hand: what a turn does with a reading is tested apart from how texts are read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from service.conversation.events import Event, Texted
from service.conversation.state import State
from service.conversation.step import Step
from service.conversation.turn import run
from service.conversation.underway import Turn
from service.reading.model import Answer, Asked, Found, HazardFound, Reading, Seen
from service.rulebook.model import Rulebook
from service.scheduling.model import Diary
from tests.journeys.line import TUESDAY_TEN, demo

CONSENT = {"stop": "out", "gas, stop texting me": "out", "start": "in", "unstop": "in", "help": "help"}


class Scripted:
    """Gives each text the reading that was written for it; an unwritten text says nothing."""

    def __init__(self) -> None:
        self.readings: dict[str, Reading] = {}
        self.asked: Asked | None = None
        self.about: str | None = None

    def says(self, text: str, **fields: object) -> str:
        """Write the reading of *text*."""
        self.readings[text] = Reading(text=text, language=fields.pop("language", "en"), **fields)
        return text

    def read(
        self,
        text: str,
        *,
        media: int = 0,
        asked: Asked | None = None,
        about: str | None = None,
        this_year: int | None = None,
    ) -> Reading:
        self.asked, self.about = asked, about
        plain = Reading(text=text, answer=Answer("yes") if text.lower() == "yes" else None)
        return self.readings.get(text, plain)

    def read_together(self, texts: Sequence[str], **same: object) -> Reading:
        return replace(self.read("\n".join(texts)), hazards=tuple(h for t in texts for h in self.hazards(t)))

    def hazards(self, text: str) -> tuple[HazardFound, ...]:
        return self.readings[text].hazards if text in self.readings else ()

    def consent(self, text: str) -> str | None:
        return CONSENT.get(text.strip(" .").lower())


class Bench:
    """A thread on the bench: one turn at a time with scripted readings and the real rules."""

    def __init__(self, rulebook: Rulebook | None = None, state: State | None = None) -> None:
        self.reader = Scripted()
        self.rulebook = rulebook or demo()
        self.state = state or State()
        self.now = TUESDAY_TEN
        self.turn = 0
        self.held = False

    def hears(self, text: str = "text", *, at: datetime | None = None, media: int = 0, **fields: object) -> Step:
        """Send *text*, read as *fields* say."""
        if fields:
            self.reader.says(text, **fields)
        return self.happens(Texted(id=f"m{self.turn}", text=text, media=media, at=at or self.now))

    def happens(self, *events: Event) -> Step:
        """Take a turn with *events*."""
        self.turn += 1
        under_way = Turn(
            rulebook=self.rulebook, reader=self.reader, now=self.now, diary=Diary(), thread="th1", number=self.turn,
            held=self.held, state=self.state,
        )  # fmt: skip
        step = run(under_way, events)
        self.state = step.state
        self.now += timedelta(minutes=1)
        return step


def sign(code: str, appliance: str = "dishwasher", words: str = "words") -> Found:
    return Found(appliance, code, 0.9, words, 0, len(words), f"{appliance}.{code}")


def hazard(code: str, words: str = "words") -> HazardFound:
    return HazardFound(code, words, 0, len(words), f"danger.{code}")


def seen(id: str, value: str, *, hedged: bool = False) -> Seen:
    return Seen("dishwasher", id, value, "words", hedged)


def choice(index: int, value: str | None = None) -> Answer:
    return Answer("choice", value=value, index=index)
