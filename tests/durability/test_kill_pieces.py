"""kill -9 between the pieces of long texts, and while they wait: each long text is read once, and whole."""

from __future__ import annotations

import http.client
import json
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import select

from service.edge.verify import sign_standard
from service.storage.engine import open_engine, reading
from service.storage.tables import messages, turns
from tests.durability.forked import Forked
from tests.durability.harness import SHOP_NUMBER, SIGNING, Carrier, Processes, rules_that_rest
from tests.edge.running import until

pytestmark = pytest.mark.durability

SENDERS = [f"+150555501{n}" for n in range(40, 46)]
PIECES = ("the dishwasher leaves wa", "ter in the bottom, and it is lou", "d as well")
PLACES = "  parts: {reference: header:x-ref, number: header:x-number, of: header:x-of, wait_s: 300}\n"
"""Waited for as long as the processes may take to start again on a busy machine."""


@pytest.fixture
def processes(database_url: str, tmp_path: Path) -> Iterator[Processes]:
    """The service with a gateway that hands texts over in pieces, and no rest."""
    carrier = Carrier(faults=0)
    made = Forked(database_url, rules_that_rest(tmp_path, 0), carrier, tmp_path)
    profile = made.gateways / "standard.yaml"
    profile.write_text(profile.read_text().replace("receive:\n", "receive:\n" + PLACES))
    yield made
    made.close()
    carrier.close()


def deliver(port: int, sender: str, number: int) -> int:
    """One piece; 0 when nobody answers."""
    body = json.dumps({"from": sender, "to": SHOP_NUMBER, "text": PIECES[number - 1]}).encode()
    at, identity = int(time.time()), f"{sender}-{number}"
    headers = {
        "webhook-id": identity, "webhook-timestamp": str(at), "webhook-signature": sign_standard(SIGNING, identity, at, body),
        "content-type": "application/json", "x-ref": "7", "x-number": str(number), "x-of": str(len(PIECES)),
    }  # fmt: skip
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    try:
        connection.request("POST", "/hooks/demo/standard", body, headers)
        return connection.getresponse().status
    except (OSError, http.client.HTTPException):
        return 0
    finally:
        connection.close()


def test_long_texts_are_whole_though_every_process_is_killed_between_their_pieces(processes: Processes) -> None:
    processes.start()
    for number in (2, 3, 1):
        for sender in SENDERS:
            assert deliver(processes.port, sender, number) == 200
            assert deliver(processes.port, sender, number) == 200
        processes.kill()
        processes.start()
    engine = open_engine(processes.url)

    def all_read() -> bool:
        with reading(engine) as connection:
            return len(connection.execute(select(turns.c.id)).all()) >= len(SENDERS)

    until(all_read)
    processes.kill()
    with reading(engine) as connection:
        stored = connection.execute(select(messages).where(messages.c.direction == "in")).all()
        read = [
            event["text"]
            for events in connection.execute(select(turns.c.events)).scalars()
            for event in events
            if event["type"] == "texted"
        ]
    engine.dispose()
    assert read == ["".join(PIECES)] * len(SENDERS)
    assert sorted(row.carrier_id for row in stored) == sorted(f"{s}-{n}/{n}" for s in SENDERS for n in (1, 2, 3))
    assert len({(row.thread, row.turn) for row in stored}) == len(SENDERS)
