"""The tables beside conversations and visits: what was found and learned, who was told, who may sign in, who did what."""

from __future__ import annotations

from sqlalchemy import (
    JSON,
    Boolean,
    Column,
    Date,
    Float,
    Index,
    Integer,
    PrimaryKeyConstraint,
    String,
    Table,
    Text,
    UniqueConstraint,
)

from service.storage.columns import Moment, metadata, shop_column

outcomes = Table(
    "outcomes",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("visit", String(64)),
    Column("ticket", String(48), nullable=False),
    Column("appliance", String(32), nullable=False),
    Column("source", String(16), nullable=False),  # technician, owner_check, office
    Column("found", String(64), nullable=False),
    Column("found_words", String(500), nullable=False, default=""),
    Column("did", String(500), nullable=False, default=""),
    Column("parts", JSON, nullable=False, default=list),
    Column("minutes", Integer),
    Column("fixed", Boolean, nullable=False),
    Column("return_why", String(200)),
    Column("belief", JSON, nullable=False, default=list),  # as it was shown at the time
    Column("evidence", JSON, nullable=False, default=dict),
    Column("forecast", JSON),  # the plan as it was shown: chance to finish, load, minutes
    Column("edition", String(64), nullable=False),
    Column("by", String(64), nullable=False),
    Column("at", Moment, nullable=False),
    UniqueConstraint("shop", "visit", "ticket"),  # one outcome per visit and ticket; a correction replaces it
)

learned = Table(
    "learned",
    metadata,
    shop_column(),
    Column("appliance", String(32), nullable=False),
    Column("weights", JSON, nullable=False, default=dict),  # cause to weight, as accepted
    Column("evidence", JSON, nullable=False, default=dict),  # cause to code to grade, or to value to grade
    Column("frozen", JSON, nullable=False, default=list),  # causes and codes that stay as they are
    Column("since", Moment),  # outcomes before this moment are not counted: the shop began anew
    Column("jobs", Float, nullable=False, default=0.0),  # behind what was accepted last
    Column("by", String(64), nullable=False),
    Column("at", Moment, nullable=False),
    PrimaryKeyConstraint("shop", "appliance"),
)

learning_nights = Table(
    "learning_nights",
    metadata,
    shop_column(),
    Column("day", Date, nullable=False),
    Column("at", Moment, nullable=False),
    PrimaryKeyConstraint("shop", "day"),  # a night's learning is done once, whichever process comes first
)

alarms = Table(
    "alarms",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("thread", String(32)),
    Column("ticket", String(48)),
    Column("kind", String(16), nullable=False),
    Column("text", String(500), nullable=False),
    Column("rung", Integer, nullable=False, default=0),  # how many on-call phones were told
    Column("raised_at", Moment, nullable=False),
    Column("acknowledged_at", Moment),
    Column("acknowledged_by", String(64)),
    Index("ix_alarms_open", "shop", "acknowledged_at"),
)

consents = Table(
    "consents",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("number", String(40), nullable=False),
    Column("change", String(8), nullable=False),  # in, out
    Column("words", String(200), nullable=False),  # proof: what they wrote
    Column("message", String(32)),
    Column("at", Moment, nullable=False),
    Index("ix_consents_number", "shop", "number", "at"),
)

users = Table(
    "users",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("login", String(64), nullable=False),
    Column("name", String(120), nullable=False),
    Column("password", String(200), nullable=False),
    Column("role", String(16), nullable=False),  # office, technician, author
    Column("technician", String(64)),
    Column("active", Boolean, nullable=False, default=True),
    Column("created_at", Moment, nullable=False),
    UniqueConstraint("shop", "login"),
)

sessions = Table(
    "sessions",
    metadata,
    Column("token", String(64), primary_key=True),  # SHA-256 of the cookie's token
    shop_column(),
    Column("user", String(32), nullable=False),
    Column("csrf", String(64), nullable=False),
    Column("created_at", Moment, nullable=False),
    Column("seen_at", Moment, nullable=False),
    Column("ended_at", Moment),
)

sign_ins = Table(
    "sign_ins",
    metadata,
    shop_column(),
    Column("login", String(64), nullable=False),
    Column("failures", Integer, nullable=False, default=0),
    Column("last_at", Moment, nullable=False),
    PrimaryKeyConstraint("shop", "login"),
)

audit = Table(
    "audit",
    metadata,
    Column("id", String(32), primary_key=True),
    shop_column(),
    Column("at", Moment, nullable=False),
    Column("who", String(64), nullable=False),
    Column("did", String(64), nullable=False),
    Column("subject", String(80), nullable=False),
    Column("detail", JSON, nullable=False, default=dict),
    Index("ix_audit_subject", "shop", "subject", "at"),
)

unsent = Table(
    "unsent",
    metadata,
    shop_column(),
    Column("thread", String(32), nullable=False),
    Column("login", String(64), nullable=False),
    Column("about", String(80), nullable=False),  # the page's reply box, or the id of a draft that was changed
    Column("text", Text, nullable=False),
    Column("at", Moment, nullable=False),
    PrimaryKeyConstraint("shop", "thread", "login", "about"),
)

early_receipts = Table(
    "early_receipts",
    metadata,
    shop_column(),
    Column("gateway", String(64), nullable=False),
    Column("reference", String(200), nullable=False),
    Column("arrived", Boolean, nullable=False),
    Column("at", Moment, nullable=False),
    PrimaryKeyConstraint("shop", "gateway", "reference"),  # waits until the text has this reference
)

buckets = Table(
    "buckets",
    metadata,
    shop_column(),
    Column("name", String(80), nullable=False),
    Column("tokens", Float, nullable=False),
    Column("at", Moment, nullable=False),
    PrimaryKeyConstraint("shop", "name"),
)
