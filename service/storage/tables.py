"""
The tables of shops, conversations, tickets and visits; what else is kept stands in ``ledgers``.

Every row carries its shop, and every unique key begins with it; keys that hold an invariant say which.
"""

from __future__ import annotations

from sqlalchemy import (
    JSON,
    BigInteger,
    Boolean,
    Column,
    Date,
    Float,
    ForeignKeyConstraint,
    Index,
    Integer,
    PrimaryKeyConstraint,
    String,
    Table,
    Text,
    UniqueConstraint,
    text,
)

from service.storage.columns import Moment, metadata, shop_column

shops = Table(
    "shops",
    metadata,
    Column("shop", String(64), primary_key=True),
    Column("number", String(20), nullable=False, unique=True),
    Column("edition", String(64), nullable=False),
    Column("autonomy", String(16), nullable=False),
    Column("paused", Boolean, nullable=False, default=False),
    Column("next_ticket", Integer, nullable=False, default=1001),
    Column("created_at", Moment, nullable=False),
)

editions = Table(
    "editions",
    metadata,
    shop_column(),
    Column("fingerprint", String(64), nullable=False),
    Column("source", Text, nullable=False),
    Column("created_at", Moment, nullable=False),
    PrimaryKeyConstraint("shop", "fingerprint"),
)

threads = Table(
    "threads",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("number", String(40), nullable=False),
    Column("gateway", String(64), nullable=False),
    Column("language", String(8), nullable=False),
    Column("consent", String(8), nullable=False),
    Column("state", JSON, nullable=False),
    Column("turns", Integer, nullable=False, default=0),
    Column("held_by", String(64)),
    Column("household", String(32)),
    Column("parked", String(64)),
    Column("created_at", Moment, nullable=False),
    Column("last_in_at", Moment),
    Column("last_out_at", Moment),
    Column("paced_to", Moment),  # how far its texts have come at the pace of a person
    UniqueConstraint("shop", "number"),  # one thread per number and shop, for years
)

messages = Table(
    "messages",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("thread", String(32), nullable=False),
    Column("direction", String(3), nullable=False),  # in, out
    Column("gateway", String(64), nullable=False),
    Column("carrier_id", String(200), nullable=False),
    Column("author", String(64), nullable=False),  # customer, line, or a user's login
    Column("text", Text, nullable=False),
    Column("media", JSON, nullable=False, default=list),
    Column("carrier_at", Moment),
    Column("at", Moment, nullable=False),
    Column("turn", String(48)),
    Column("answer", JSON),  # what the HTTP answer said, kept for repeats
    Column("whole", String(64)),  # of a piece of a long text: what all its pieces share
    Column("part", Integer),  # and its number among them
    Column("parts", Integer),  # and how many there are
    UniqueConstraint("shop", "gateway", "carrier_id"),  # each carrier message once
    Index("ix_messages_thread_at", "shop", "thread", "at"),
    Index(
        "ix_messages_waiting",
        "shop",
        "thread",
        sqlite_where=text("turn IS NULL"),
        postgresql_where=text("turn IS NULL"),
    ),
)

turns = Table(
    "turns",
    metadata,
    Column("id", String(48), primary_key=True),
    shop_column(),
    Column("thread", String(32), nullable=False),
    Column("number", Integer, nullable=False),
    Column("at", Moment, nullable=False),
    Column("state_before", JSON, nullable=False),
    Column("events", JSON, nullable=False),
    Column("edition", String(64), nullable=False),
    Column("autonomy", String(16), nullable=False),  # as the desk had switched it: the turn depends on it
    Column("code_version", String(32), nullable=False),
    Column("diary", JSON),
    Column("step", JSON, nullable=False),
    UniqueConstraint("shop", "thread", "number"),  # a turn is taken once
)

outbox = Table(
    "outbox",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("thread", String(32), nullable=False),
    Column("turn", String(48)),
    Column("key", String(120), nullable=False),
    Column("number", String(40), nullable=False),
    Column("gateway", String(64), nullable=False),
    Column("kind", String(16), nullable=False),
    Column("author", String(64), nullable=False),
    Column("text", Text, nullable=False),
    Column("segments", Integer, nullable=False),
    Column("status", String(16), nullable=False),  # draft, waiting, leased, sent, delivered, dropped, failed, unsure
    Column("reason", String(200)),
    Column("ticket", String(48)),
    Column("visit", String(64)),
    Column("visit_version", Integer),
    Column("seq", BigInteger, nullable=False),
    Column("due_at", Moment, nullable=False),
    Column("not_after", Moment),
    Column("attempts", Integer, nullable=False, default=0),
    Column("lease_until", Moment),
    Column("lease", String(32)),  # fencing token: a mark counts only while it still matches
    Column("carrier_ref", String(200)),
    Column("created_at", Moment, nullable=False),
    Column("sent_at", Moment),
    UniqueConstraint("shop", "key"),  # a reply is written once
    Index("ix_outbox_due", "status", "due_at"),
    Index("ix_outbox_number", "shop", "number", "seq"),
)

wakes = Table(
    "wakes",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("thread", String(32), nullable=False),
    Column("kind", String(32), nullable=False),
    Column("key", String(160), nullable=False),
    Column("ticket", String(48)),
    Column("version", Integer),
    Column("data", JSON, nullable=False, default=dict),
    Column("due_at", Moment, nullable=False),
    Column("done_at", Moment),
    Column("result", String(200)),
    UniqueConstraint("shop", "key"),  # setting a wake again moves it
    Index("ix_wakes_due", "done_at", "due_at"),
)

households = Table(
    "households",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("address", String(300), nullable=False),
    Column("postal_code", String(10), nullable=False),
    Column("access", JSON, nullable=False, default=list),
    Column("created_at", Moment, nullable=False),
    UniqueConstraint("shop", "address", "postal_code"),  # one household per address
)

machines = Table(
    "machines",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("household", String(32), nullable=False),
    Column("appliance", String(32), nullable=False),
    Column("brand", String(80)),
    Column("model", String(80)),
    Column("serial", String(80)),
    Column("facts", JSON, nullable=False, default=dict),
    Column("created_at", Moment, nullable=False),
    Index("ix_machines_household", "shop", "household"),
)

tickets = Table(
    "tickets",
    metadata,
    Column("id", String(48), primary_key=True),  # thread id, "-", the state's ticket key
    shop_column(),
    Column("number", Integer, nullable=False),
    Column("thread", String(32), nullable=False),
    Column("key", String(12), nullable=False),
    Column("household", String(32)),
    Column("machine", String(32)),
    Column("appliance", String(32), nullable=False),
    Column("stage", String(16), nullable=False),
    Column("closed", String(32)),
    Column("level", String(16), nullable=False),
    Column("needs_person", String(200)),
    Column("state", JSON, nullable=False),
    Column("earlier", String(48)),
    Column("opened_at", Moment, nullable=False),
    Column("changed_at", Moment, nullable=False),
    Column("closed_at", Moment),
    UniqueConstraint("shop", "number"),
    UniqueConstraint("shop", "thread", "key"),  # one row per ticket of a thread
    Index(
        "ux_tickets_open_machine",
        "shop",
        "machine",
        unique=True,  # one open ticket per machine
        sqlite_where=text("closed IS NULL AND machine IS NOT NULL"),
        postgresql_where=text("closed IS NULL AND machine IS NOT NULL"),
    ),
    Index("ix_tickets_desk", "shop", "closed", "level"),
)

diary_days = Table(
    "diary_days",
    metadata,
    shop_column(),
    Column("day", Date, nullable=False),
    Column("version", Integer, nullable=False, default=0),
    PrimaryKeyConstraint("shop", "day"),  # compare-and-set: a booking names the version it saw
)

visits = Table(
    "visits",
    metadata,
    Column("id", String(64), primary_key=True),
    shop_column(),
    Column("technician", String(64), nullable=False),
    Column("day", Date, nullable=False),
    Column("start_at", Moment, nullable=False),
    Column("end_at", Moment, nullable=False),
    Column("minutes", Integer, nullable=False),
    Column("lat", Float, nullable=False),
    Column("lon", Float, nullable=False),
    Column("address", String(300), nullable=False),
    Column("postal_code", String(10), nullable=False),
    Column("status", String(16), nullable=False),  # tentative, standing, done, cancelled, missed
    Column("version", Integer, nullable=False, default=0),
    Column("uid", String(40), nullable=False),  # the calendar's UID: random, says nothing of anybody (A8)
    Column("why", String(200)),
    Column("created_at", Moment, nullable=False),
    Column("changed_at", Moment, nullable=False),
    Index("ix_visits_day", "shop", "day"),
)

visit_tickets = Table(
    "visit_tickets",
    metadata,
    shop_column(),
    Column("visit", String(64), nullable=False),
    Column("ticket", String(48), nullable=False),
    PrimaryKeyConstraint("shop", "visit", "ticket"),
    ForeignKeyConstraint(["visit"], ["visits.id"]),
)
