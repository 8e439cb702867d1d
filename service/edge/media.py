"""
A picture a customer sent, fetched from the carrier's link: only from public addresses, only pictures, never too much.

A link is written by whoever delivers, and a gateway may be deceived, so it is treated as a stranger's: HTTPS alone, each
address that a name has must be public, the connection goes to the very address that was looked at, and every redirect is
looked at anew. Nothing is believed of the type but the first bytes of the file.
"""

from __future__ import annotations

import ipaddress
import socket
import time
from collections.abc import Callable
from dataclasses import dataclass
from urllib.parse import urljoin

from service.edge.network import Network
from service.edge.wire import Answer, Ask, NoAddress, NoAnswer, NotReached, Request, address_of

MOST_BYTES = 5 * 1024 * 1024
"""The largest picture taken: what carriers let through is smaller."""

REDIRECTS = (301, 302, 303, 307, 308)
MOST_REDIRECTS = 3
TIMEOUT_S = 10.0
"""For the whole fetch, seconds."""

_SIGNS = {
    b"\xff\xd8\xff": "image/jpeg",
    b"\x89PNG\r\n\x1a\n": "image/png",
    b"GIF87a": "image/gif",
    b"GIF89a": "image/gif",
}

Resolve = Callable[[str, int], tuple[str, ...]]
"""A name and a port to its addresses."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as fetched; kind: its media type by its own first bytes."""

    content: bytes
    kind: str


class NotFetched(Exception):
    """The picture was not taken; the message says why, without the link."""


def addresses_of(name: str, port: int) -> tuple[str, ...]:
    """All addresses that *name* has now."""
    try:
        found = socket.getaddrinfo(name, port, type=socket.SOCK_STREAM)
    except (OSError, UnicodeError) as wrong:
        raise NotFetched("the link's host has no address") from wrong
    return tuple(dict.fromkeys(str(entry[4][0]) for entry in found))


def is_public(address: str) -> bool:
    """Whether *address* belongs to the internet at large: not loopback, private, link-local, shared, reserved or mapped."""
    try:
        ip = ipaddress.ip_address(address.split("%", 1)[0])
    except ValueError:
        return False
    if isinstance(ip, ipaddress.IPv6Address):
        inner = ip.ipv4_mapped or ip.sixtofour or (ip.teredo[1] if ip.teredo else None)
        if inner is not None:
            return is_public(str(inner))
        if ip in ipaddress.ip_network("64:ff9b::/96"):  # an IPv4 address behind a translator
            return is_public(str(ipaddress.IPv4Address(int(ip) & 0xFFFFFFFF)))
    return ip.is_global and not ip.is_multicast


def fetch(url: str, *, resolve: Resolve = addresses_of, ask: Ask | None = None, most: int = MOST_BYTES) -> Picture:
    """
    The picture at *url*. Raises NotFetched for anything that is not plainly a picture on the internet.

    *most* is in bytes. *resolve* and *ask* are how names are looked up and requests are answered.
    """
    if ask is None:
        with Network(proxies={}) as network:  # a proxy would look the name up once more
            return fetch(url, resolve=resolve, ask=network, most=most)
    ends = time.monotonic() + TIMEOUT_S
    for _ in range(MOST_REDIRECTS + 1):
        request = _request(url, resolve, most, ends)
        try:
            answer = ask(request)
        except (NotReached, NoAnswer) as wrong:
            raise NotFetched(f"the link could not be followed: {wrong}") from wrong
        if answer.status not in REDIRECTS or "location" not in answer.headers:
            return _picture(answer, most)
        url = urljoin(request.address.url, answer.headers["location"])
    raise NotFetched("the link leads on too often")


def _request(url: str, resolve: Resolve, most: int, ends: float) -> Request:
    """The request for *url* at an address that was looked at, so that a name cannot change its mind between."""
    try:
        address = address_of(url)
    except NoAddress as wrong:
        raise NotFetched("the link is no address") from wrong
    if address.scheme != "https" or address.user:
        raise NotFetched("the link is not plain https")
    addresses = resolve(address.host.strip("[]"), address.port or 443)
    if not addresses or not all(is_public(found) for found in addresses):
        raise NotFetched("the link leads to an address that is not on the internet")
    left_s = ends - time.monotonic()
    if left_s <= 0:
        raise NotFetched("the link took too long")
    headers = ((b"accept", b"image/*"), (b"accept-encoding", b"identity"))
    # What is packed is small on the way and without end when unpacked, so nothing is.
    return Request(
        method="GET", address=address, headers=headers, timeout_s=left_s, most=most, at=addresses[0], unpack=False
    )


def _picture(answer: Answer, most: int) -> Picture:
    if answer.status != 200:
        raise NotFetched(f"the link answered {answer.status}")
    if len(answer.body) > most:
        raise NotFetched("the picture is too large")
    if answer.headers.get("content-encoding", "identity") != "identity":
        raise NotFetched("what the link gives is packed")
    kind = _kind(answer.body[:16])
    if kind is None:
        raise NotFetched("what the link gives is not a picture")
    return Picture(answer.body, kind)


def _kind(start: bytes) -> str | None:
    if start[:4] == b"RIFF" and start[8:12] == b"WEBP":
        return "image/webp"
    if start[4:12] in (b"ftypheic", b"ftypheix", b"ftypmif1"):
        return "image/heic"
    return next((kind for sign, kind in _SIGNS.items() if start.startswith(sign)), None)
