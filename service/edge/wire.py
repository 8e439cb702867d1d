"""
What goes out over HTTP and what comes back, as values; ``network.py`` carries them.

What is told apart matters for every text: a request of which no byte can have arrived (NotReached), and one of which
nobody can know whether it was taken (NoAnswer).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from urllib3.exceptions import LocationParseError
from urllib3.util import parse_url

MOST_ANSWER = 1024 * 1024
"""Bytes of an answer that are read, unpacked; no gateway needs more to say what became of a text."""

OWN_PORTS = {"http": 80, "https": 443}
_STRAY = re.compile(r"%(?![0-9A-Fa-f]{2})")


class NoAddress(Exception):
    """What was given for an address is none."""


class NotReached(Exception):
    """It failed before a byte of the request could have arrived; the message is the failure's name."""


class NoAnswer(Exception):
    """It failed when the request may have arrived: nobody can know; the message is the failure's name."""


@dataclass(frozen=True, slots=True)
class Address:
    """
    An address as it goes over the wire.

    host: an IPv6 one in brackets. port: None for the scheme's own. target: path and query. user: "name:password" or "".
    """

    scheme: str
    host: str
    port: int | None
    target: str
    user: str = ""

    @property
    def site(self) -> str:
        """Host, and the port where it is not the scheme's own."""
        return self.host if self.port is None else f"{self.host}:{self.port}"

    @property
    def url(self) -> str:
        """The whole of it, without a user."""
        return f"{self.scheme}://{self.site}{self.target}"

    @property
    def path(self) -> str:
        """The path alone."""
        return self.target.partition("?")[0]

    @property
    def query(self) -> str:
        """The query alone, without its question mark."""
        return self.target.partition("?")[2]


def address_of(url: str) -> Address:
    """*url* as it will go over the wire: what must be percent-coded is, once. Raises NoAddress."""
    try:
        # One stray sign would have the library code all the others a second time.
        found = parse_url(_STRAY.sub("%25", url))
    except LocationParseError as wrong:
        raise NoAddress(str(wrong)) from wrong
    scheme, host = found.scheme or "", found.host or ""
    if scheme in OWN_PORTS and not host:
        raise NoAddress("it names no host")
    port = None if found.port == OWN_PORTS.get(scheme) else found.port
    return Address(scheme, host, port, found.request_uri, found.auth_decoded_joined or "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """
    What is asked.

    headers: names in lower case, each once; what HTTP itself needs is added. timeout_s: until the end of the answer.
    most: bytes of the answer's body that are wanted. at: the IP address to connect to, the certificate being the host's
    all the same; else the host is looked up. unpack: whether a packed body is wanted unpacked.
    """

    method: str
    address: Address
    headers: tuple[tuple[bytes, bytes], ...] = ()
    body: bytes | None = None
    timeout_s: float
    most: int = MOST_ANSWER
    at: str | None = None
    unpack: bool = True


@dataclass(frozen=True, slots=True)
class Answer:
    """What was answered. headers: by lower-case name. body: with one byte more than was wanted at most, if there was more."""

    status: int
    headers: Mapping[str, str]
    body: bytes


class Ask(Protocol):
    """Whatever gives the answer to a request: the network, or a test's gateway. Raises NotReached and NoAnswer."""

    def __call__(self, request: Request, /) -> Answer:
        """The answer."""
