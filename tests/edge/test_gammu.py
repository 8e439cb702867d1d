"""The standard profile with gammu-smsd and its dummy phone, both directions: long texts, Unicode, a line that is down."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

import pytest
from sqlalchemy import Engine, select

from service.edge.deps import Deps
from service.storage.engine import reading
from service.storage.tables import messages
from tests.conftest import ROOT
from tests.edge.conftest import CUSTOMER, SHOP_NUMBER, SIGNING
from tests.edge.running import free_port, running_line, until, written

OTHER = "+15055550143"
FOLDERS = (
    "phone/sms/1",
    "phone/sms/2",
    "phone/sms/3",
    "phone/sms/4",
    "phone/sms/5",
    "inbox",
    "outbox",
    "sent",
    "error",
)


def utf16(text: str) -> bytes:
    return text.encode("utf-16-be")


def cut(text: str, units: int = 67) -> list[str]:
    """Parts as a phone cuts them, no pair split."""
    parts = [""]
    for character in text:
        if len(utf16(parts[-1] + character)) // 2 > units:
            parts.append("")
        parts[-1] += character
    return parts


@dataclass
class Modem:
    """A dummy phone in a folder."""

    folder: Path
    received: int = 0

    def text(self, number: str, text: str) -> None:
        """The phone gets a text, in as many parts as it takes."""
        parts = cut(text) if len(utf16(text)) // 2 > 70 else [text]
        for n, part in enumerate(parts, 1):
            self.received += 1
            header = f"UDH = 0500032A{len(parts):02X}{n:02X}\n" if len(parts) > 1 else ""
            words = utf16(part).hex().upper()
            lines = "\n".join(f"Text{i:02} = {words[at : at + 240]}" for i, at in enumerate(range(0, len(words), 240)))
            (self.folder / f"phone/sms/1/{self.received}").write_text(
                f"[SMSBackup000]\nPDU = Deliver\nDateTime = 20261201T100000\nState = UnRead\n"
                f'Number = "{number}"\nNumberUnicode = {utf16(number).hex().upper()}\n{header}{lines}\n'
                f"Coding = Unicode_No_Compression\nFolder = 1\nLength = {len(utf16(part)) // 2}\nClass = -1\n"
            )

    def sent(self, number: str) -> list[str]:
        """The texts the phone sent to *number*, whole, in order."""
        texts = []
        for path in sorted((self.folder / "sent").glob(f"*{number}*")):
            sections = {}
            for name, body in re.findall(r"\[(SMSBackup\d+)\](.*?)(?=\n\[|\Z)", path.read_text("utf-8"), re.DOTALL):
                sections[name] = "".join(re.findall(r"^Text\d+ = ([0-9A-F]*)$", body, re.MULTILINE))
            texts.append(bytes.fromhex("".join(sections[name] for name in sorted(sections))).decode("utf-16-be"))
        return texts


@dataclass
class Joined:
    """A line and a modem, joined."""

    deps: Deps
    modem: Modem


@pytest.fixture
def modem(tmp_path: Path) -> Modem:
    for name in FOLDERS:
        (tmp_path / name).mkdir(parents=True)
    settings = {
        "service": "files", "logfile": tmp_path / "smsd.log", "debuglevel": 1, "commtimeout": 1, "sendtimeout": 5,
        "loopsleep": 1, "checksecurity": 0, "checkbattery": 0, "checksignal": 0, "receivefrequency": 1,
        "inboxpath": f"{tmp_path}/inbox/", "outboxpath": f"{tmp_path}/outbox/", "sentsmspath": f"{tmp_path}/sent/",
        "errorsmspath": f"{tmp_path}/error/", "runonreceive": ROOT / "deploy" / "modem" / "receive.py",
    }  # fmt: skip
    (tmp_path / "smsdrc").write_text(
        f"[gammu]\nmodel = dummy\nconnection = none\ndevice = {tmp_path}/phone\n[smsd]\n"
        + "".join(f"{name} = {value}\n" for name, value in settings.items())
    )
    return Modem(tmp_path)


def environment(modem: Modem, port: int) -> dict[str, str]:
    return os.environ | {
        "MODEM_HOOK": f"http://127.0.0.1:{port}/hooks/demo/standard",
        "MODEM_SIGNING": SIGNING,
        "MODEM_NUMBER": SHOP_NUMBER,
        "MODEM_SPOOL": str(modem.folder / "spool"),
        "MODEM_TOKEN": "modem-token",
        "MODEM_CONFIG": str(modem.folder / "smsdrc"),
        "PATH": f"{Path(sys.executable).parent}:{os.environ['PATH']}",
    }


def stop(process: subprocess.Popen[str]) -> None:
    process.terminate()
    process.wait(15)
    if process.stdout:
        process.stdout.close()


@pytest.fixture
def joined(engine: Engine, modem: Modem) -> Iterator[Joined]:
    port = free_port()
    given = environment(modem, port)
    with ExitStack() as ends:
        bridge = [sys.executable, str(ROOT / "deploy" / "modem" / "send.py")]
        sender = subprocess.Popen(bridge, env=given, stdout=subprocess.PIPE, text=True)
        ends.callback(stop, sender)
        assert sender.stdout is not None
        url = f"http://127.0.0.1:{int(sender.stdout.readline())}/send"
        secrets = {"standard.signing": SIGNING, "standard.url": url, "standard.token": "modem-token"}
        deps = ends.enter_context(running_line(engine, ROOT / "deploy" / "gateways", secrets, port))
        smsd = ["gammu-smsd", "-c", str(modem.folder / "smsdrc")]
        daemon = subprocess.Popen(smsd, env=given, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, text=True)
        ends.callback(stop, daemon)
        yield Joined(deps, modem)


def inbound(deps: Deps) -> dict[str, str]:
    with reading(deps.engine) as connection:
        rows = connection.execute(select(messages.c.text, messages.c.thread).where(messages.c.direction == "in")).all()
    return {row.text: row.thread for row in rows}


@pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)
def test_texts_go_both_ways_through_a_real_modem_daemon(joined: Joined) -> None:
    long = "El lavaplatos no desagua y queda agua sucia en el fondo después de cada ciclo. " * 2 + "\N{DROPLET} gracias"
    joined.modem.text(CUSTOMER, "dishwasher drains slow")
    joined.modem.text(OTHER, long)
    until(lambda: len(inbound(joined.deps)) == 2, 40)
    assert set(inbound(joined.deps)) == {"dishwasher drains slow", long}
    for number in (CUSTOMER, OTHER):
        until(lambda n=number: written(joined.deps, n) and all(s == "sent" for _, s in written(joined.deps, n)), 40)
        expected = [text for text, _ in written(joined.deps, number)]
        until(lambda n=number, e=expected: len(joined.modem.sent(n)) == len(e), 40)
        assert joined.modem.sent(number) == expected
    assert any(set(text) & set("áéíóúñ¿") for text, _ in written(joined.deps, OTHER)), "the reply keeps its accents"


@pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)
def test_a_line_that_is_down_loses_no_text(modem: Modem, engine: Engine) -> None:
    port = free_port()
    given = environment(modem, port)
    spooled = modem.folder / "spool" / "IN20261201_100000_00_x.json"
    received = {"SMS_MESSAGES": "2", "SMS_1_NUMBER": CUSTOMER, "SMS_1_TEXT": "it ", "SMS_2_TEXT": "leaks"}
    program = [sys.executable, str(ROOT / "deploy" / "modem" / "receive.py")]
    impatient = given | received | {"PYTHONPATH": ""}
    down = subprocess.run([*program, spooled.with_suffix(".txt").name], env=impatient, timeout=60, check=False)
    assert down.returncode == 1
    assert spooled.exists()
    secrets = {"standard.signing": SIGNING, "standard.url": "http://127.0.0.1:9/", "standard.token": "t"}
    with running_line(engine, ROOT / "deploy" / "gateways", secrets, port) as deps:
        assert subprocess.run(program, env=given, timeout=60, check=False).returncode == 0
        assert set(inbound(deps)) == {"it leaks"}
    assert not spooled.exists()
