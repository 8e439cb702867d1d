"""Rows for the pages: a small dishwasher, three customers, and the states a desk must be able to show."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from random import Random
from uuid import NAMESPACE_URL, uuid5

from fastapi import FastAPI
from sqlalchemy import Connection, Engine, insert, update

from service.access.passwords import Passwords
from service.access.users import create_user
from service.conversation.state import Contact, DangerHeld, State, TicketState, VisitHeld
from service.conversation.step import Reason
from service.edge.deps import Deps
from service.edge.editions import Editions
from service.edge.gateways import load_gateways
from service.pages.desk.routes import desk_router
from service.pages.phone.routes import phone_router
from service.pages.sheet.routes import sheet_router
from service.pages.static_files import static_router
from service.rulebook.model import Rulebook
from service.settings import Settings
from service.storage import alarms, shops
from service.storage.tables import (
    households,
    machines,
    messages,
    outbox,
    threads,
    tickets,
    turns,
    visit_tickets,
    visits,
)
from service.storage.tables import shops as shop_table
from tests.pages.small_rules import small_rulebook

GATEWAYS = Path(__file__).parent.parent.parent / "deploy" / "gateways"
PASSWORD = "teal kettle under nine maps"
CHEAP = Passwords(memory_kib=64, passes=1, lanes=1)
MARIA, SAM, LUZ, BO = "+15055550142", "+15055550143", "+15055550144", "+15055550145"


def settings(database: str) -> Settings:
    return Settings.model_validate({"database": database, "secret": "s" * 40, "secure_cookies": True})


def deps_for(engine: Engine, clock: Callable[[], datetime], rulebook: Rulebook | None = None) -> Deps:
    kept = settings(str(engine.url))
    gateways = load_gateways(GATEWAYS, kept.gateway_secret)
    editions = Editions(engine, clock, {"demo": rulebook or small_rulebook()})
    return Deps(engine, clock, editions, Random(1), gateways, kept, editions)


def app_for(deps: Deps) -> FastAPI:
    """The pages alone, as the application includes them."""
    app = FastAPI()
    for router in (static_router(), desk_router(deps, CHEAP), sheet_router(deps), phone_router(deps)):
        app.include_router(router)
    return app


def fill(connection: Connection, now: datetime) -> None:
    """The demo: a shop with three users and four conversations."""
    shops.install(connection, small_rulebook(), now - timedelta(days=30))
    for login, name, role, technician in (
        ("olive", "Olive Baca", "office", None),
        ("ray", "Ray Ortega", "technician", "ray"),
        ("ada", "Ada Quill", "author", None),
    ):
        create_user(
            connection, CHEAP, shop="demo", login=login, name=name, password=PASSWORD, role=role, technician=technician,
            now=now,
        )  # fmt: skip
    connection.execute(update(shop_table).values(next_ticket=1005))
    maria(connection, now)
    sam(connection, now)
    luz(connection, now)
    bo(connection, now)


@dataclass
class Thread:
    """Writes one thread's rows."""

    connection: Connection
    id: str
    number: str
    now: datetime
    turn: int = 0

    def heard(self, text: str, minutes_ago: float, *, turned: bool = True) -> None:
        at = self.now - timedelta(minutes=minutes_ago)
        self.turn += 1
        name = f"{self.id}.{self.turn}"
        self.connection.execute(
            insert(messages).values(
                id=f"m{name}", shop="demo", thread=self.id, direction="in", gateway="loopback", carrier_id=f"c{name}",
                author="customer", text=text, media=[], at=at, turn=name if turned else None,
            )
        )  # fmt: skip

    def said(self, text: str, minutes_ago: float, *, status: str = "sent", kind: str = "answer", author: str = "line",
             reasons: tuple[Reason, ...] = ()) -> None:  # fmt: skip
        at = self.now - timedelta(minutes=minutes_ago)
        name = f"{self.id}.{self.turn}"
        self.connection.execute(
            insert(outbox).values(
                id=f"o{self.id}{self.turn}", shop="demo", thread=self.id, turn=name, key=f"{name}:1", number=self.number,
                gateway="loopback", kind=kind, author=author, text=text, segments=1 + len(text) // 153, status=status,
                reason="the carrier refused it" if status == "failed" else None, seq=self.turn, due_at=at, attempts=1,
                created_at=at, sent_at=at if status == "sent" else None,
            )
        )  # fmt: skip
        self.connection.execute(
            insert(turns).values(
                id=name, shop="demo", thread=self.id, number=self.turn, at=at, state_before={}, events=[],
                edition="e1",
                autonomy="automatic", code_version="0", step={"reasons": [r.model_dump(mode="json") for r in reasons]},
            )
        )  # fmt: skip

    def keep(
        self, state: State, *, held_by: str | None = None, household: str | None = None, first: int = 1001
    ) -> None:
        self.connection.execute(
            insert(threads).values(
                id=self.id, shop="demo", number=self.number, gateway="loopback", language=state.language,
                consent=state.consent, state=state.model_dump(mode="json"), turns=self.turn, held_by=held_by,
                household=household, created_at=self.now, last_in_at=self.now - timedelta(minutes=3),
            )
        )  # fmt: skip
        for place, ticket in enumerate(state.tickets):
            self.connection.execute(
                insert(tickets).values(
                    id=f"{self.id}-{ticket.key}", shop="demo", number=first + place, thread=self.id, key=ticket.key,
                    household=household, machine=f"{household}m" if household else None, appliance=ticket.appliance,
                    stage=ticket.stage, closed=ticket.closed, level=ticket.level, needs_person=ticket.needs_person,
                    state=ticket.model_dump(mode="json"), opened_at=ticket.opened_at, changed_at=self.now,
                )
            )  # fmt: skip


def maria(connection: Connection, now: datetime) -> None:
    """A visit that stands: she has the trickle drain."""
    thread = Thread(connection, "thmaria", MARIA, now)
    thread.heard(
        "hi its maria from last yr, dishwasher again, takes forever to drain & still water in the bottom after", 95
    )
    thread.said("Slow to drain, some water left. Same machine as last March?", 94, reasons=(
        Reason(what="heard", words='"takes forever to drain" read as slow_drain on the dishwasher.', rule="slow_drain"),
        Reason(what="asked", words="The machine is on record; one question settles whether it is the same.", rule="same"),
    ))  # fmt: skip
    thread.heard("yes same one. cleaned the filter already, no change", 80)
    thread.said("Thu 3 Dec, 1 to 3 pm. The visit is $95. Is the gate code still right?", 79, reasons=(
        Reason(what="believed", words="Likely with the dishwasher: worn drain-valve seal 34%, was 21%.", rule=None),
        Reason(what="offered", words="Three windows near other visits.", rule=None),
    ))  # fmt: skip
    thread.heard("yep", 3)
    start = (now + timedelta(days=2)).replace(hour=20, minute=0, second=0, microsecond=0)
    visit = VisitHeld(id="vmaria", technician="ray", start=start, end=start + timedelta(hours=2), minutes=60)
    ticket = TicketState(
        key="t1", appliance="dishwasher", stage="arranged", opened_at=now - timedelta(minutes=95),
        symptoms={"slow_drain": True, "no_drain": False, "leak": False},
        facts={"brand": "Calder", "age_years": 6.0, "tried": ("cleaned_filter",)}, visit=visit, level="routine",
        words=("takes forever to drain & still water in the bottom after", "cleaned the filter already, no change"),
        theory_words=("prob the pump",),
    )  # fmt: skip
    contact = Contact(
        name="Maria Luján",
        address="418 Cholla Wren Ln NE",
        postal_code="87111",
        access=("gate code 0420", "dog in the yard"),
    )
    insert_household(connection, "hmaria", contact, now)
    thread.keep(State(tickets=(ticket,), focus="t1", contact=contact, introduced=True), household="hmaria", first=1001)
    insert_visit(connection, "vmaria", "thmaria-t1", start, contact, now, "standing")


def sam(connection: Connection, now: datetime) -> None:
    """Danger, and nobody has acknowledged it."""
    thread = Thread(connection, "thsam", SAM, now)
    thread.heard("dishwasher stopped and there is a hot plastic smell and the plug looks brown", 4)
    thread.said(
        "WARNING: Do not use it, do not touch the plug. Breaker off if the way is dry. Smoke or flame: out, call 911.",
        4,
        kind="danger",
    )
    ticket = TicketState(
        key="t1", appliance="dishwasher", stage="listening", opened_at=now - timedelta(minutes=4),
        hazards=("burning_smell", "hot_wiring"), level="now", level_why=("danger named",),
        words=("there is a hot plastic smell and the plug looks brown",),
    )  # fmt: skip
    danger = DangerHeld(codes=("burning_smell", "hot_wiring"), at=now - timedelta(minutes=4), ticket="t1")
    thread.keep(State(tickets=(ticket,), focus="t1", danger=danger), first=1002)
    alarms.raise_alarm(connection, shop="demo", kind="danger", text="Burning smell and a brown plug at a dishwasher.",
                       now=now - timedelta(minutes=4), thread="thsam", ticket="thsam-t1", on_call=True)  # fmt: skip


def luz(connection: Connection, now: datetime) -> None:
    """In Spanish, asks for a person; a reply waits as a draft, another one failed."""
    thread = Thread(connection, "thluz", LUZ, now)
    thread.heard("el lavaplatos no saca el agua, el fregadero también se llena", 40)
    thread.said("¿El agua vuelve por el fregadero cuando el lavaplatos desagua?", 39, status="failed")
    thread.heard("prefiero hablar con una persona", 12)
    thread.said("Una persona de la oficina le escribirá hoy antes de las 6 pm.", 12, status="draft", reasons=(
        Reason(what="heard", words='"prefiero hablar con una persona" read as talk_to_person.', rule="talk_to_person"),
    ))  # fmt: skip
    ticket = TicketState(
        key="t1", appliance="dishwasher", stage="narrowing", opened_at=now - timedelta(minutes=40),
        symptoms={"no_drain": True, "backflow": True}, level="soon", needs_person="asked for a person",
        words=("el lavaplatos no saca el agua, el fregadero también se llena",),
    )  # fmt: skip
    thread.keep(
        State(language="es", tickets=(ticket,), focus="t1", contact=Contact(name="Luz", postal_code="87105")),
        first=1003,
    )


def bo(connection: Connection, now: datetime) -> None:
    """A first text that nobody could read yet: a conversation without a ticket, its reply a draft."""
    thread = Thread(connection, "thbo", BO, now)
    thread.heard("hey u there", 6)
    thread.said("Tarnwick Appliance Repair, automatic line. Which machine is it about?", 6, status="draft")
    thread.keep(State(), first=1004)


def insert_household(connection: Connection, identity: str, contact: Contact, now: datetime) -> None:
    connection.execute(insert(households).values(id=identity, shop="demo", address=contact.address or "",
                       postal_code=contact.postal_code or "", access=list(contact.access), created_at=now))  # fmt: skip
    connection.execute(insert(machines).values(id=f"{identity}m", shop="demo", household=identity, appliance="dishwasher",
                       brand="Calder", model="CD-240", facts={"age_years": 6}, created_at=now))  # fmt: skip


def insert_visit(
    connection: Connection, identity: str, ticket: str, start: datetime, contact: Contact, now: datetime, status: str
) -> None:
    connection.execute(insert(visits).values(
        id=identity, shop="demo", technician="ray", day=start.date(), start_at=start, end_at=start + timedelta(hours=2),
        minutes=60, lat=35.13, lon=-106.52, address=contact.address or "", postal_code=contact.postal_code or "",
        status=status, version=0, uid=str(uuid5(NAMESPACE_URL, identity)), created_at=now, changed_at=now,
    ))  # fmt: skip
    connection.execute(insert(visit_tickets).values(shop="demo", visit=identity, ticket=ticket))
