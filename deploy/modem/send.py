#!/usr/bin/env python3
"""
A small server on loopback: what the line sends to it goes into gammu-smsd's outbox.

Settings from the environment: MODEM_PORT (0 picks a free one), MODEM_TOKEN (what the line must bring), MODEM_CONFIG (the
configuration file of gammu-smsd), MODEM_SPOOL (a folder of this program's own). A text with a key it has seen is not sent
again. Give the line standard.url http://127.0.0.1:PORT/send and standard.token.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import os
import re
import subprocess
import sys
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

LARGEST_BODY = 20_000
INJECT_S = 15

SEVEN_BIT = set(
    "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?"
    "¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà^{}\\[~]|€"
)
"""The alphabet of 3GPP TS 23.038 with its extension; anything else makes the text UCS-2."""

ONE_AT_A_TIME = threading.Lock()


def inject(config: str, number: str, text: str) -> str:
    """Put the text into the outbox, in as many parts and in the alphabet it needs; gammu's id of it."""
    units = len(text.encode("utf-16-be")) // 2
    command = ["gammu-smsd-inject", "-c", config, "TEXT", number, "-autolen", str(max(units, 1)), "-report"]
    command += ["-unicode"] if set(text) - SEVEN_BIT else []
    command += ["-text", text]
    # No shell, and the number was checked: what a customer is told cannot become an option or a command.
    done = subprocess.run(command, capture_output=True, text=True, timeout=INJECT_S, check=True)  # noqa: S603
    found = re.search(r"ID (\S+)", done.stdout + done.stderr)
    return found[1] if found else ""


class Handler(BaseHTTPRequestHandler):
    """POST /send with JSON: to, text, key."""

    def do_POST(self) -> None:
        """Send once per key."""
        given = self.headers.get("authorization", "")
        if not hmac.compare_digest(given.encode(), f"Bearer {os.environ['MODEM_TOKEN']}".encode()):
            return self._answer(401, {"error": "the token is missing or wrong"})
        length = int(self.headers.get("content-length") or 0)
        if length > LARGEST_BODY:
            return self._answer(413, {"error": "too large"})
        try:
            document = json.loads(self.rfile.read(length))
            to, text, key = (str(document[name]) for name in ("to", "text", "key"))
        except (ValueError, KeyError, TypeError):
            return self._answer(422, {"error": "JSON with to, text and key is wanted"})
        if not re.fullmatch(r"\+?\d{3,15}", to) or not text:
            return self._answer(422, {"error": "to must be a number, text must not be empty"})
        with ONE_AT_A_TIME:
            return self._answer(*send_once(to, text, key))

    def _answer(self, status: int, document: dict[str, str]) -> None:
        body = json.dumps(document).encode()
        self.send_response(status)
        self.send_header("content-type", "application/json")
        self.send_header("content-length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:
        """Nothing: a line of the log would hold a number."""


def send_once(to: str, text: str, key: str) -> tuple[int, dict[str, str]]:
    """Inject, unless this key was injected before; the same answer then."""
    kept = Path(os.environ["MODEM_SPOOL"]) / ("sent-" + hashlib.sha256(key.encode()).hexdigest())
    if kept.exists():
        return 200, {"id": kept.read_text()}
    try:
        identity = inject(os.environ["MODEM_CONFIG"], to, text)
    except (subprocess.SubprocessError, OSError):
        return 503, {"error": "gammu-smsd-inject failed"}
    kept.write_text(identity)
    return 200, {"id": identity}


def main() -> int:
    """Serve until stopped; the first line says the port."""
    Path(os.environ["MODEM_SPOOL"]).mkdir(parents=True, exist_ok=True)
    server = ThreadingHTTPServer(("127.0.0.1", int(os.environ.get("MODEM_PORT", "0"))), Handler)
    print(server.server_address[1], flush=True)
    server.serve_forever()
    return 0


if __name__ == "__main__":
    sys.exit(main())
