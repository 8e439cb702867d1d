"""What a password must be, and how it is kept and compared. Rules: sources X1, X2, X3."""

from __future__ import annotations

import threading
import unicodedata
from functools import cached_property
from importlib import resources

from pwdlib import PasswordHash
from pwdlib.hashers.argon2 import Argon2Hasher

SHORTEST = 15
"""Characters, as the only factor. Source X2."""
LONGEST = 256
"""More than the 64 that must be possible (X2), few enough that hashing one stays cheap."""

_AT_ONCE = threading.Semaphore(2)  # a hash takes 64 MiB and 0.1 s: a flood of sign-ins must not take the machine


class PasswordRefused(ValueError):
    """The password may not be used; the message says why in words for the person who chose it."""


class Passwords:
    """Hashes and compares. The cost is Argon2id's default of its library, above source X1; tests may lower it."""

    def __init__(self, *, memory_kib: int = 65_536, passes: int = 3, lanes: int = 4) -> None:
        self._hash = PasswordHash((Argon2Hasher(memory_cost=memory_kib, time_cost=passes, parallelism=lanes),))

    @cached_property
    def _nobody(self) -> str:
        return self._hash.hash("nobody has this password")

    def hash(self, password: str) -> str:
        """A salted hash to keep. Check it with ``refuse_weak`` first."""
        with _AT_ONCE:
            return self._hash.hash(_normal(password))

    def matches(self, password: str, kept: str | None) -> bool:
        """True if *password* is the one behind *kept*; None (no such user) takes as long and is False."""
        with _AT_ONCE:
            nobody = self._nobody  # made at the first sign-in, whoever it is: who waits longer learns nothing from it
            right = self._hash.verify(_normal(password[:LONGEST]), kept or nobody)
        return right and kept is not None


def refuse_weak(password: str, *words: str) -> None:
    """
    Raise PasswordRefused unless the password may be used: long enough, not a listed common one, not made of a short
    piece again and again, and not just one of *words* (login, name, shop). No rule about kinds of characters.
    """
    text = _normal(password)
    if len(text) < SHORTEST:
        raise PasswordRefused(f"Use {SHORTEST} characters or more; four or five words make a good one.")
    if len(text) > LONGEST:
        raise PasswordRefused(f"Use {LONGEST} characters or fewer.")
    bare = "".join(c for c in text.casefold() if c.isalnum())
    if bare in _common() or _repeats(bare) or _runs(bare):
        raise PasswordRefused("This one is easy to guess. Choose words that nobody would put together.")
    for word in words:
        plain = "".join(c for c in word.casefold() if c.isalnum())
        if len(plain) > 3 and bare.replace(plain, "", 1).strip("0123456789") == "":
            raise PasswordRefused("Do not build it from the login, the name or the shop.")


def _normal(password: str) -> str:
    return unicodedata.normalize("NFKC", password)


def _common() -> frozenset[str]:
    text = resources.files("service.access").joinpath("common_passwords.txt").read_text(encoding="utf-8")
    return frozenset(line.strip() for line in text.splitlines() if line.strip() and not line.startswith("#"))


def _repeats(text: str) -> bool:
    """A piece of at most a third of it, again and again."""
    return any(text == (text[:size] * len(text))[: len(text)] for size in range(1, len(text) // 3 + 1))


def _runs(text: str) -> bool:
    """Nothing but walks along the alphabet, the digits or a keyboard row, either way and round again."""
    rows = ("abcdefghijklmnopqrstuvwxyz", "1234567890", "0123456789", "qwertyuiop", "asdfghjkl", "zxcvbnm")
    walks = [way for row in rows for way in (row * 4, row[::-1] * 4)]
    left = text
    while left:
        size = max((n for n in range(4, len(left) + 1) if any(left[:n] in walk for walk in walks)), default=0)
        if not size:
            return False
        left = left[size:]
    return True
