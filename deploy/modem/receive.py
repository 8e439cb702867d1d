#!/usr/bin/env python3
"""
RunOnReceive of gammu-smsd: hands each text to the line, signed by the Standard Webhooks specification.

Settings from the environment: MODEM_HOOK (http://127.0.0.1:8000/hooks/SHOP/standard), MODEM_SIGNING (whsec_...),
MODEM_NUMBER (the modem's own number), MODEM_SPOOL (a folder of this program's own). A text is on disk before it is
delivered; what could not be delivered goes first next time, or when this is run without arguments (from cron, say).
"""

from __future__ import annotations

import base64
import fcntl
import hashlib
import hmac
import json
import os
import re
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

ATTEMPTS = 4
TIMEOUT_S = 20


def text_received(environment: dict[str, str]) -> str:
    """The whole text: gammu joins the parts it knows to belong together, else they stand one by one."""
    joined = {int(m[1]): text for name, text in environment.items() if (m := re.fullmatch(r"DECODED_(\d+)_TEXT", name))}
    if joined:
        return "".join(joined[n] for n in sorted(joined))
    return "".join(environment.get(f"SMS_{n}_TEXT", "") for n in range(1, int(environment["SMS_MESSAGES"]) + 1))


def spool(folder: Path, environment: dict[str, str], inbox_file: str) -> None:
    """Write the text to disk for good. The name of gammu's inbox file is the only id there is."""
    document = {
        "from": environment["SMS_1_NUMBER"],
        "to": environment["MODEM_NUMBER"],
        "text": text_received(environment),
    }
    name = Path(inbox_file).stem
    unfinished = folder / f"{name}.part"
    with unfinished.open("w", encoding="utf-8", errors="replace") as file:
        json.dump(document, file)
        file.flush()
        os.fsync(file.fileno())
    unfinished.rename(folder / f"{name}.json")


def deliver(hook: str, secret: str, path: Path) -> bool:
    """One text to the line; True when the line has it. A refusal that no repeat can mend is set aside."""
    body = path.read_bytes()
    for attempt in range(ATTEMPTS):
        status = post(hook, secret, path.stem, body)
        if 200 <= status < 300:
            path.unlink()
            return True
        if status in (401, 404, 413, 422):
            print(f"{path.name}: the line answered {status}; kept as it is", file=sys.stderr)
            path.rename(path.with_suffix(".refused"))
            return True
        time.sleep(min(30, 2**attempt) if attempt + 1 < ATTEMPTS else 0)
    return False


def post(hook: str, secret: str, identity: str, body: bytes) -> int:
    """The status of one delivery; 0 when there was no answer."""
    at = int(time.time())
    key = base64.b64decode(secret.removeprefix("whsec_"))
    digest = hmac.new(key, f"{identity}.{at}.".encode() + body, hashlib.sha256).digest()
    headers = {
        "content-type": "application/json",
        "webhook-id": identity,
        "webhook-timestamp": str(at),
        "webhook-signature": "v1," + base64.b64encode(digest).decode(),
    }
    request = urllib.request.Request(hook, data=body, headers=headers, method="POST")  # noqa: S310 - an address of ours
    try:
        with urllib.request.urlopen(request, timeout=TIMEOUT_S) as answer:  # noqa: S310
            return int(answer.status)
    except urllib.error.HTTPError as refused:
        return refused.code
    except OSError:
        return 0


def main() -> int:
    """Spool what came, then deliver everything in order, one program at a time."""
    environment = dict(os.environ)
    folder = Path(environment["MODEM_SPOOL"])
    folder.mkdir(parents=True, exist_ok=True)
    if len(sys.argv) > 1:
        spool(folder, environment, sys.argv[1])
    with (folder / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        for path in sorted(folder.glob("*.json")):
            if not deliver(environment["MODEM_HOOK"], environment["MODEM_SIGNING"], path):
                return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
