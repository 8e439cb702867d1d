"""
Editions that were found sound, kept beside the rules so that the same files need not be read and checked again.

Kept as the edition's own JSON under a name made of all that decides it: what every rule file holds, the shop, and this
room's own code. Whatever cannot be read, does not fit its seal or cannot be written is passed over: then the files are read.
"""

from __future__ import annotations

import hashlib
import os
from contextlib import suppress
from functools import cache
from pathlib import Path

import pydantic

FOLDER = ".kept"
MOST = 8
"""Editions kept in one folder; the ones not written for longest go first."""


def kept_source(rules: Path, shop: str, digest: str) -> str | None:
    """The source of the edition of *shop* whose rule files come to *digest*; None if it is not kept whole."""
    try:
        seal, _, source = _file(rules, shop, digest).read_text("utf-8").partition("\n")
    except (OSError, UnicodeDecodeError):
        return None
    return source if seal == _sealed(source) else None


def keep(rules: Path, shop: str, digest: str, source: str) -> None:
    """Keep the *source* of a sound edition; nothing happens where the folder cannot be written."""
    file = _file(rules, shop, digest)
    with suppress(OSError):
        file.parent.mkdir(exist_ok=True)
        draft = file.with_suffix(f".{os.getpid()}")
        draft.write_text(f"{_sealed(source)}\n{source}", "utf-8")
        draft.replace(file)  # whole or not at all: another process may be reading
        for old in sorted(file.parent.glob("*.json"), key=lambda path: path.stat().st_mtime)[:-MOST]:
            old.unlink(missing_ok=True)


def _file(rules: Path, shop: str, digest: str) -> Path:
    name = hashlib.sha256(f"{digest} {shop} {_code()} {pydantic.VERSION}".encode()).hexdigest()
    return rules / FOLDER / f"{name}.json"


def _sealed(source: str) -> str:
    return hashlib.sha256(source.encode()).hexdigest()


@cache
def _code() -> str:
    """This room's code in one number: a rule that is checked otherwise is a rule that was not checked."""
    total = hashlib.sha256()
    room = Path(__file__).parent
    for path in sorted(room.rglob("*.py")):
        total.update(f"{path.relative_to(room)}\0".encode() + path.read_bytes())
    return total.hexdigest()
