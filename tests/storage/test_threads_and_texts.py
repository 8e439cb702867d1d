"""One thread per number, each carrier message once, replies in order, and a database that belongs to one process."""

from __future__ import annotations

import subprocess
import sys
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import Engine, select

from service.conversation.state import State
from service.conversation.step import Reply
from service.storage import messages, privacy, threads
from service.storage.columns import Moment
from service.storage.engine import reading, writing
from service.storage.ledgers import consents
from service.storage.one_process import DatabaseInUse, only_process
from service.storage.replies import write_replies
from service.storage.tables import messages as rows
from service.storage.tables import outbox
from tests.conftest import Clock

NUMBER = "+15055550111"


def test_the_same_number_finds_the_same_thread_and_its_newest_gateway(shop_engine: Engine, clock: Clock) -> None:
    with writing(shop_engine) as connection:
        first = threads.lock_by_number(connection, "demo", NUMBER, "loopback", clock())
    with writing(shop_engine) as connection:
        second = threads.lock_by_number(connection, "demo", NUMBER, "standard", clock())

    assert (second.id, second.gateway) == (first.id, "standard")


def record(engine: Engine, clock: Clock, carrier_id: str, text: str, carrier_at: datetime | None = None) -> str | None:
    with writing(engine) as connection:
        row = threads.lock_by_number(connection, "demo", NUMBER, "loopback", clock())
        return messages.record_inbound(
            connection, shop="demo", thread=row.id, gateway="loopback", carrier_id=carrier_id, text=text, media=(),
            carrier_at=carrier_at, now=clock(),
        )  # fmt: skip


def test_a_repeated_carrier_id_is_kept_once(shop_engine: Engine, clock: Clock) -> None:
    assert record(shop_engine, clock, "a", "hello")
    assert record(shop_engine, clock, "a", "hello again") is None

    with reading(shop_engine) as connection:
        thread = connection.execute(select(rows.c.thread)).scalar_one()
        assert [w.text for w in messages.waiting(connection, "demo", thread)] == ["hello"]


def test_waiting_texts_come_in_the_carriers_order(shop_engine: Engine, clock: Clock) -> None:
    sent = clock()
    record(shop_engine, clock, "2", "second", sent + timedelta(seconds=2))
    record(shop_engine, clock, "1", "first", sent)
    record(shop_engine, clock, "3", "third", sent + timedelta(seconds=3))

    with reading(shop_engine) as connection:
        thread = connection.execute(select(rows.c.thread).limit(1)).scalar_one()
        assert [w.text for w in messages.waiting(connection, "demo", thread)] == ["first", "second", "third"]


def test_a_danger_drops_what_had_not_left(shop_engine: Engine, clock: Clock) -> None:
    with writing(shop_engine) as connection:
        row = threads.lock_by_number(connection, "demo", NUMBER, "loopback", clock())
        small = (Reply(kind="answer", text="Which one is it?"), Reply(kind="consent", text="You are opted out."))
        write_replies(connection, row, small, turn="x.1", draft=False, now=clock())
        write_replies(
            connection, row, (Reply(kind="danger", text="WARNING: stop."),), turn="x.2", draft=True, now=clock()
        )

    with reading(shop_engine) as connection:
        left = connection.execute(select(outbox.c.text, outbox.c.status).order_by(outbox.c.seq)).all()
    assert [tuple(row) for row in left] == [
        ("Which one is it?", "dropped"),
        ("You are opted out.", "waiting"),
        ("WARNING: stop.", "waiting"),
    ]


def test_in_draft_an_answer_waits_for_the_office(shop_engine: Engine, clock: Clock) -> None:
    with writing(shop_engine) as connection:
        row = threads.lock_by_number(connection, "demo", NUMBER, "loopback", clock())
        write_replies(connection, row, (Reply(kind="answer", text="Hello."),), turn="x.1", draft=True, now=clock())
        assert connection.execute(select(outbox.c.status)).scalar_one() == "draft"


def test_a_moment_without_zone_is_refused() -> None:
    naive = datetime(2026, 12, 1, 9)  # noqa: DTZ001 - that it is naive is the point
    with pytest.raises(ValueError, match="needs a zone"):
        Moment().process_bind_param(naive, None)


def test_erasing_a_customer_leaves_only_the_proof_of_their_opt_out(shop_engine: Engine, clock: Clock) -> None:
    record(shop_engine, clock, "a", "my dishwasher leaks")
    with writing(shop_engine) as connection:
        row = threads.lock_by_number(connection, "demo", NUMBER, "loopback", clock())
        threads.save(connection, row, State(consent="out").model_dump(mode="json"))
        connection.execute(
            consents.insert().values(id="c", shop="demo", number=NUMBER, change="out", words="stop", at=clock())
        )
    with writing(shop_engine) as connection:
        before = privacy.export_customer(connection, "demo", NUMBER)
        gone = privacy.erase_customer(connection, "demo", NUMBER, clock())
        after = privacy.export_customer(connection, "demo", NUMBER)

    assert len(before["messages"]) == 1
    assert gone["messages"] == gone["threads"] == 1
    assert {name for name, rows in after.items() if rows} == {"consents"}


def test_a_second_process_is_kept_off_the_database(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'one.sqlite3'}"
    program = (
        "import sys; from service.storage.one_process import only_process, DatabaseInUse\n"
        "try:\n    with only_process(sys.argv[1]): print('mine')\n"
        "except DatabaseInUse as told: print(told)"
    )
    with only_process(url):
        other = subprocess.run([sys.executable, "-c", program, url], capture_output=True, text=True, check=True)
        assert "is in use by process" in other.stdout
    alone = subprocess.run([sys.executable, "-c", program, url], capture_output=True, text=True, check=True)

    assert alone.stdout == "mine\n"
    with only_process(url), pytest.raises(DatabaseInUse), only_process(url):
        pass
