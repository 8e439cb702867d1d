"""Real processes to kill, a carrier that keeps accounts, and a gateway that delivers until it is told that a text is kept."""

from __future__ import annotations

import http.client
import json
import os
import random
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from service.edge.verify import sign_standard
from tests.conftest import ROOT

SIGNING = "whsec_AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8="
SHOP_NUMBER = "+15055550100"


class Carrier:
    """Takes texts with a key once each, fails now and then, and remembers what it accepted, in order."""

    def __init__(self, faults: float = 0.1, seed: int = 1) -> None:
        self.accepted: list[tuple[str, str, str]] = []  # key, number, text
        self.asked = 0
        self._keys: dict[str, str] = {}
        self._faults, self._random, self._lock = faults, random.Random(seed), threading.Lock()
        carrier = self

        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def do_POST(self) -> None:
                body = self.rfile.read(int(self.headers["content-length"]))
                status, answer = carrier.take(json.loads(body), self.headers["idempotency-key"])
                if status == 0:
                    self.close_connection = True
                    self.connection.shutdown(socket.SHUT_RDWR)
                    return
                self.send_response(status)
                self.send_header("content-length", str(len(answer)))
                self.end_headers()
                self.wfile.write(answer)

            def log_message(self, format: str, *args: object) -> None:
                return

        self._server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self._server.daemon_threads = True
        self.url = f"http://127.0.0.1:{self._server.server_address[1]}/send"
        self._thread = threading.Thread(target=self._server.serve_forever, daemon=True)
        self._thread.start()

    def take(self, document: dict[str, str], key: str) -> tuple[int, bytes]:
        """Accept it, refuse it for now, break off before or after accepting it, or answer nonsense."""
        with self._lock:
            self.asked += 1
            lot = self._random.random()
            if lot < self._faults / 2:
                return (500, b"<html>oops") if lot < self._faults / 4 else (0, b"")
            if key not in self._keys:
                self._keys[key] = f"c-{len(self._keys)}"
                self.accepted.append((document["key"], document["to"], document["text"]))
            if lot < self._faults:
                return (0, b"") if lot < self._faults * 3 / 4 else (504, b"")
            return 200, json.dumps({"id": self._keys[key]}).encode()

    def close(self) -> None:
        """Stop."""
        self._server.shutdown()
        self._server.server_close()


def rules_that_rest(folder: Path, rest_s: float) -> Path:
    """A copy of the rules whose demo shop answers by the standard gateway after *rest_s*."""
    rules = folder / "rules"
    shutil.copytree(ROOT / "rules", rules)
    shop = rules / "shops" / "demo.yaml"
    text = re.sub(r"rest_s: [\d.]+", f"rest_s: {rest_s}", shop.read_text())
    shop.write_text(re.sub(r"^gateway: \w+\n", "", text, flags=re.MULTILINE) + "\ngateway: standard\n")
    return rules


def impatient_gateways(folder: Path) -> Path:
    """The standard profile with short calls and no pace, so that a test need not wait."""
    gateways = folder / "gateways"
    shutil.copytree(ROOT / "deploy" / "gateways", gateways)
    standard = gateways / "standard.yaml"
    text = re.sub(r"limits: .*", "limits: {per_second: 500, burst: 500, attempts: 20}", standard.read_text())
    standard.write_text(text.replace("  idempotency_header", "  timeout_s: 2\n  idempotency_header"))
    return gateways


@dataclass
class Processes:
    """The service's own processes: one on SQLite; web and sender on PostgreSQL."""

    url: str
    rules: Path
    carrier: Carrier
    folder: Path
    port: int = 0
    running: dict[str, subprocess.Popen[bytes]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.gateways = impatient_gateways(self.folder)
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]

    def start(self) -> None:
        """Start them and wait until the web process answers."""
        for command in self.commands:
            self.begin(command)
        self.wait()

    @property
    def commands(self) -> tuple[str, ...]:
        """The commands that together are the service on this database."""
        return ("serve",) if self.url.startswith("sqlite") else ("serve", "send")

    def environment(self) -> dict[str, str]:
        """The settings they run with."""
        secrets = {"standard.signing": SIGNING, "standard.url": self.carrier.url, "standard.token": "t"}
        return os.environ | {
            "PLAINFAULT_DATABASE": self.url,
            "PLAINFAULT_SECRET": "s" * 40,
            "PLAINFAULT_RULES": str(self.rules),
            "PLAINFAULT_GATEWAYS": str(self.gateways),
            "PLAINFAULT_GATEWAY_SECRETS": json.dumps(secrets),
            "PLAINFAULT_PORT": str(self.port),
            "PLAINFAULT_SENDER": "false",
            "PLAINFAULT_LOG_LEVEL": "WARNING",
            "PLAINFAULT_SHOP_SHARE": "1000",
        }

    def begin(self, command: str) -> None:
        """Start one of them, in the place of the one that was killed."""
        environment = self.environment()
        with (self.folder / "log").open("ab") as log:
            program = [sys.executable, "-m", "service.cli", command]
            self.running[command] = subprocess.Popen(program, env=environment, cwd=ROOT, stdout=log, stderr=log)

    def wait(self) -> None:
        """Until the web process answers; AssertionError with the end of its log when it does not."""
        deadline = time.monotonic() + 60
        while not self.answers():
            if time.monotonic() > deadline or self.running["serve"].poll() is not None:
                raise AssertionError("the server did not start:\n" + (self.folder / "log").read_text()[-3000:])
            time.sleep(0.05)

    def answers(self) -> bool:
        """Whether the web process answers."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=2)
        try:
            connection.request("GET", "/health")
            return connection.getresponse().status == 200
        except (OSError, http.client.HTTPException):
            return False
        finally:
            connection.close()

    def kill(self, *commands: str) -> None:
        """kill -9: those *commands*, or all."""
        killed = [self.running.pop(command) for command in commands or tuple(self.running)]
        for process in killed:
            process.send_signal(signal.SIGKILL)
        for process in killed:
            process.wait()

    def close(self) -> None:
        """End them all."""
        self.kill()


@dataclass
class Delivering:
    """
    A gateway that delivers texts as real ones do: each until it is answered 200, with the same id, some of them twice.

    ``kept`` holds the ids that were answered 200. pause_s: the longest pause of a sender's lane between two texts.
    """

    port: int
    texts: list[tuple[str, str, str]]  # id, sender, text
    kept: list[str] = field(default_factory=list)
    twice: float = 0.1
    pause_s: float = 0.0
    until: float = field(default_factory=lambda: time.monotonic() + 400)

    def wait_for(self, count: int) -> None:
        """Until *count* texts are kept; AssertionError when it takes too long."""
        while len(self.kept) < count:
            assert time.monotonic() < self.until, f"{len(self.kept)} of {count} texts kept when time was up"
            time.sleep(0.005)

    def run(self, workers: int = 6) -> list[threading.Thread]:
        """Begin; texts of one sender stay in order on one worker."""
        lanes: list[list[tuple[str, str, str]]] = [[] for _ in range(workers)]
        for identity, sender, text in self.texts:
            lanes[int(sender[-2:]) % workers].append((identity, sender, text))
        threads = [threading.Thread(target=self._lane, args=(lane,), daemon=True) for lane in lanes]
        for thread in threads:
            thread.start()
        return threads

    def _lane(self, lane: list[tuple[str, str, str]]) -> None:
        lot = random.Random(len(lane))
        for identity, sender, text in lane:
            times = 2 if lot.random() < self.twice else 1
            for _ in range(times):
                while self._post(identity, sender, text) != 200:
                    time.sleep(0.05)
                    if time.monotonic() > self.until:
                        return
            self.kept.append(identity)
            time.sleep(lot.uniform(0, self.pause_s))

    def _post(self, identity: str, sender: str, text: str) -> int:
        body = json.dumps({"from": sender, "to": SHOP_NUMBER, "text": text}).encode()
        at = int(time.time())
        headers = {
            "webhook-id": identity,
            "webhook-timestamp": str(at),
            "webhook-signature": sign_standard(SIGNING, identity, at, body),
            "content-type": "application/json",
        }
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=15)
        try:
            connection.request("POST", "/hooks/demo/standard", body, headers)
            return connection.getresponse().status
        except (OSError, http.client.HTTPException):
            return 0
        finally:
            connection.close()
