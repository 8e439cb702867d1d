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
from urllib.parse import urljoin, urlsplit

import httpx

MOST_BYTES = 5 * 1024 * 1024
"""The largest picture taken: what carriers let through is smaller."""

MOST_REDIRECTS = 3
TIMEOUT_S = 10.0
"""For the whole fetch, and for each wait in it, seconds."""

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


def fetch(
    url: str, *, resolve: Resolve = addresses_of, transport: httpx.BaseTransport | None = None, most: int = MOST_BYTES
) -> Picture:
    """
    The picture at *url*. Raises NotFetched for anything that is not plainly a picture on the internet.

    *most* is in bytes. *resolve* and *transport* are how names and connections are made.
    """
    ends = time.monotonic() + TIMEOUT_S
    with httpx.Client(transport=transport, trust_env=False, timeout=TIMEOUT_S, follow_redirects=False) as client:
        for _ in range(MOST_REDIRECTS + 1):
            request = _request(client, url, resolve)
            try:
                response = client.send(request, stream=True)
                try:
                    if not response.is_redirect:
                        return _picture(response, most, ends)
                    url = urljoin(url, response.headers.get("location", ""))
                finally:
                    response.close()
            except httpx.HTTPError as wrong:
                raise NotFetched(f"the link could not be followed: {type(wrong).__name__}") from wrong
            if time.monotonic() > ends:
                raise NotFetched("the link took too long")
    raise NotFetched("the link leads on too often")


def _request(client: httpx.Client, url: str, resolve: Resolve) -> httpx.Request:
    """The request for *url* at an address that was looked at, so that a name cannot change its mind between."""
    try:
        parts = urlsplit(url)
        host, port = parts.hostname or "", parts.port or 443
    except ValueError as wrong:
        raise NotFetched("the link is no address") from wrong
    if parts.scheme != "https" or not host or parts.username is not None:
        raise NotFetched("the link is not plain https")
    addresses = resolve(host, port)
    if not addresses or not all(is_public(address) for address in addresses):
        raise NotFetched("the link leads to an address that is not on the internet")
    literal = f"[{addresses[0]}]" if ":" in addresses[0] else addresses[0]
    target = f"https://{literal}:{port}{parts.path or '/'}" + (f"?{parts.query}" if parts.query else "")
    headers = {"host": host if port == 443 else f"{host}:{port}", "accept": "image/*", "accept-encoding": "identity"}
    return client.build_request("GET", target, headers=headers, extensions={"sni_hostname": host})


def _picture(response: httpx.Response, most: int, ends: float) -> Picture:
    if response.status_code != 200:
        raise NotFetched(f"the link answered {response.status_code}")
    said = response.headers.get("content-length", "")
    if said.isdigit() and int(said) > most:
        raise NotFetched("the picture is too large")
    packed = response.headers.get("content-encoding", "identity") != "identity"
    if packed:  # small on the way, without end when unpacked
        raise NotFetched("what the link gives is packed")
    content = bytearray()
    for piece in response.iter_bytes():
        content += piece
        if len(content) > most:
            raise NotFetched("the picture is too large")
        if time.monotonic() > ends:
            raise NotFetched("the link took too long")
    kind = _kind(bytes(content[:16]))
    if kind is None:
        raise NotFetched("what the link gives is not a picture")
    return Picture(bytes(content), kind)


def _kind(start: bytes) -> str | None:
    if start[:4] == b"RIFF" and start[8:12] == b"WEBP":
        return "image/webp"
    if start[4:12] in (b"ftypheic", b"ftypheix", b"ftypmif1"):
        return "image/heic"
    return next((kind for sign, kind in _SIGNS.items() if start.startswith(sign)), None)
