"""
The profile ``query_reply`` with Kannel (Debian: ``apt-get install kannel``) on loopback: both directions, texts in both
alphabets, long ones, and receipts. A small carrier stands behind it, speaking HTTP.
"""

from __future__ import annotations

import shutil
import subprocess
import threading
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import quote, unquote_to_bytes, urlsplit

import httpx2
import pytest
from sqlalchemy import Engine, select

from service.edge.deps import Deps
from service.storage import outbox as outbox_rows
from service.storage.engine import reading, writing
from service.storage.tables import messages, outbox
from tests.conftest import ROOT
from tests.edge.conftest import CUSTOMER, SHOP_NUMBER
from tests.edge.running import free_port, running_line, until

SETTINGS = """
group = core
admin-port = {admin}
admin-password = a
smsbox-port = {box}
box-allow-ip = "127.0.0.1"
admin-allow-ip = "127.0.0.1"

group = smsc
smsc = http
smsc-id = carrier
system-type = kannel
smsc-username = u
smsc-password = p
port = {from_carrier}
send-url = "http://127.0.0.1:{carrier}/send"
dlr-url = "http://127.0.0.1:{from_carrier}/?username=u&password=p"
connect-allow-ip = "127.0.0.1"

group = smsbox
bearerbox-host = 127.0.0.1
sendsms-port = {send}
mo-recode = false

group = sendsms-user
username = line
password = out
concatenation = true
max-messages = 10

group = sms-service
keyword = default
catch-all = true
concatenation = true
max-messages = 10
omit-empty = true
get-url = "http://127.0.0.1:{line}/hooks/demo/query_reply?token=in&from=%p&to=%P&id=%I&at=%T&coding=%c&text=%b"
"""


@dataclass
class Behind:
    """What the carrier was given: its query strings, and where to report."""

    port: int = 0
    given: list[dict[str, bytes]] = field(default_factory=list)

    def texts(self) -> list[str]:
        """The texts that arrived at phones whole; parts are joined by their header, in whatever order they came."""
        whole: dict[bytes, dict[int, str]] = {}
        texts = []
        for place, one in enumerate(list(self.given)):
            header, coding = one.get("udh", b""), one.get("coding", b"0")
            charset = "utf-16-be" if coding == b"2" else one.get("charset", b"utf-8").decode()
            reference = header[-3:-1] if header else b"alone" + bytes([place])  # its number, and of how many parts
            parts = whole.setdefault(reference, {})
            parts[header[-1] if header else 1] = one["text"].decode(charset)
            if len(parts) == (header[-2] if header else 1):
                texts.append("".join(parts[number] for number in sorted(parts)))
        return texts


@pytest.fixture
def behind() -> Iterator[Behind]:
    kept = Behind()

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            pairs = (part.partition("=") for part in urlsplit(self.path).query.split("&"))
            kept.given.append({name: unquote_to_bytes(value.replace("+", " ")) for name, _, value in pairs})
            self.send_response(202)
            self.end_headers()
            self.wfile.write(b"0: Accepted for delivery")

        def log_message(self, format: str, *args: object) -> None:
            return

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    kept.port = server.server_address[1]
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
    thread.start()
    yield kept
    server.shutdown()
    server.server_close()
    thread.join()


@dataclass
class Joined:
    """The line, Kannel and the carrier, joined."""

    deps: Deps
    behind: Behind
    from_carrier: int

    def phone_texts(self, words: str) -> None:
        """A customer's text reaches Kannel from the carrier."""
        beyond = not words.isascii()
        text = quote(words.encode("utf-16-be" if beyond else "utf-8"))
        coding = "&coding=2&charset=UTF-16BE" if beyond else ""
        query = f"username=u&password=p&from={quote(CUSTOMER)}&to={quote(SHOP_NUMBER)}&text={text}{coding}"
        httpx2.get(f"http://127.0.0.1:{self.from_carrier}/?{query}", trust_env=False).raise_for_status()

    def state_of(self, key: str) -> str:
        """The state of what we sent."""
        with reading(self.deps.engine) as connection:
            return str(connection.execute(select(outbox.c.status).where(outbox.c.key == key)).scalar_one())

    def heard(self) -> list[str]:
        """What the line has kept of it."""
        with reading(self.deps.engine) as connection:
            query = select(messages.c.text).where(messages.c.direction == "in").order_by(messages.c.at)
            return list(connection.execute(query).scalars())


def profiles(folder: Path) -> Path:
    """The profile we ship, with the two names that Kannel has for where and what to report."""
    gateways = folder / "gateways"
    gateways.mkdir()
    text = (ROOT / "deploy" / "gateways" / "query_reply.yaml").read_text()
    (gateways / "query_reply.yaml").write_text(text.replace("    report:", '    dlr-mask: "19"\n    dlr-url:'))
    return gateways


def end(process: subprocess.Popen[bytes]) -> None:
    process.kill()
    process.wait(15)


@pytest.fixture
def joined(engine: Engine, behind: Behind, tmp_path: Path) -> Iterator[Joined]:
    names = ("admin", "box", "from_carrier", "send", "line")
    ports = {name: free_port() for name in names} | {"carrier": behind.port}
    config = tmp_path / "gateway.conf"
    config.write_text(SETTINGS.format(**ports))
    secrets = {
        "query_reply.token": "in", "query_reply.url": f"http://127.0.0.1:{ports['send']}/cgi-bin/sendsms",
        "query_reply.user": "line", "query_reply.send_password": "out",
    }  # fmt: skip
    with ExitStack() as ends:
        deps = ends.enter_context(running_line(engine, profiles(tmp_path), secrets, ports["line"]))
        for program in ("bearerbox", "smsbox"):
            found = shutil.which(program, path="/usr/sbin:/usr/bin")
            assert found, "Kannel is not installed: apt-get install kannel"
            log = ends.enter_context((tmp_path / f"{program}.log").open("wb"))
            ends.callback(end, subprocess.Popen([found, str(config)], stdout=log, stderr=log, cwd=tmp_path))
            until(lambda name=program: b"started" in (tmp_path / f"{name}.log").read_bytes().lower())
        yield Joined(deps, behind, ports["from_carrier"])


@pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)
def test_texts_go_both_ways_through_kannel_with_receipts(joined: Joined) -> None:
    long = "The dishwasher does not drain and there is water on the floor of the kitchen. " * 4
    spanish = "Se inund\u00f3 la lavander\u00eda, \u00bfpueden venir ma\u00f1ana? \U0001f4a7"
    joined.phone_texts("my dishwasher does not drain")
    until(lambda: len(joined.behind.texts()) == 1)
    joined.phone_texts(long.strip())
    joined.phone_texts(spanish)
    until(lambda: len(joined.heard()) == 3)
    assert joined.heard() == ["my dishwasher does not drain", long.strip(), spanish]
    words = "Ma\u00f1ana a las 8, \u00f3 despu\u00e9s. " * 8
    with writing(joined.deps.engine) as connection:
        thread = connection.execute(select(messages.c.thread).limit(1)).scalar_one()
        text = outbox_rows.Outgoing(
            shop="demo", thread=thread, key="k-1", number=CUSTOMER, gateway="query_reply", kind="consent",
            text=words.strip(), segments=4, due_at=joined.deps.clock(),
        )  # fmt: skip
        outbox_rows.put(connection, text, joined.deps.clock())
    until(lambda: words.strip() in joined.behind.texts())
    until(lambda: joined.state_of("k-1") == "sent")

    def delivered() -> bool:
        """The carrier says so of all it was given of this text, until it is known: Kannel may have handed a part over
        twice, and forgets a report that overtakes its own note of the text."""
        for one in joined.behind.given:  # the answer to the Spanish text is beyond the 7-bit alphabet as well
            if one.get("dlr-url") and one["coding"] == b"2" and one["text"].decode("utf-16-be") in words:
                httpx2.get(one["dlr-url"].decode().replace("%d", "1"), trust_env=False)
        return joined.state_of("k-1") == "delivered"

    until(delivered)
