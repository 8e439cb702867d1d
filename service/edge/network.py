"""
HTTP, as far as gateways and pictures need it: the one module that opens connections to others.

Nothing is asked twice and no redirect is followed: that is for the caller, who knows what it would mean.
"""

from __future__ import annotations

import io
import re
import socket
import ssl
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from http.client import HTTPException, HTTPResponse
from types import TracebackType
from typing import Any
from urllib.request import getproxies, proxy_bypass

from urllib3 import HTTPConnectionPool, HTTPSConnectionPool, PoolManager, ProxyManager, Retry, Timeout, make_headers
from urllib3.connection import HTTPConnection, HTTPSConnection
from urllib3.exceptions import ClosedPoolError, HTTPError, NewConnectionError
from urllib3.response import BaseHTTPResponse
from urllib3.util import parse_url

from service import __version__
from service.edge.wire import OWN_PORTS, Address, Answer, NoAnswer, NotReached, Request

KEPT_S = 5.0
"""A connection that rested for longer is not used again: what the gateway had closed unseen would leave a text's fate open."""

GATEWAYS = 100
"""Hosts whose connections are kept at the same time."""

USUAL_HEADERS = {"accept": "*/*", "user-agent": f"plainfault/{__version__}"}
_ONCE = Retry(total=False, redirect=False)
_HEADER_NAME = re.compile(rb"[!#$%&'*+.^_`|~0-9A-Za-z-]+")
_NO_HEADER_VALUE = re.compile(rb"[\0\r\n]")


class Network:
    """
    Answers requests. Use as a context; any number of threads may ask at the same time.

    side_by_side: connections to one host that are kept. proxies: as in the environment by default; an empty one for none.
    """

    def __init__(
        self, *, side_by_side: int = 1, trust: ssl.SSLContext | None = None, proxies: Mapping[str, str] | None = None
    ) -> None:
        self._trust = trust or system_trust()
        proxies = getproxies() if proxies is None else proxies
        pools: dict[str, Any] = {"num_pools": GATEWAYS, "maxsize": side_by_side, "ssl_context": self._trust}
        self._direct = _keeping(PoolManager(**pools))
        ways = {scheme: proxies.get(scheme) or proxies.get("all") for scheme in OWN_PORTS}
        self._through = {scheme: _keeping(_proxy(way, pools)) for scheme, way in ways.items() if way}

    def __call__(self, request: Request, /) -> Answer:
        """The answer. Raises NotReached and NoAnswer."""
        address = request.address
        if address.scheme not in OWN_PORTS:
            raise NotReached("UnknownScheme")
        if not all(_HEADER_NAME.fullmatch(name) and not _NO_HEADER_VALUE.search(to) for name, to in request.headers):
            raise NotReached("IllegalHeader")
        if request.at is None:
            return _asked(self._pool(address), request, self._target(address))
        pool = self._pool_at(request.at, address)
        try:
            return _asked(pool, request, address.target)
        finally:
            pool.close()

    def _pool_at(self, at: str, address: Address) -> HTTPConnectionPool:
        """For one request to the host of *address* at the IP address *at*; its certificate must be that host's."""
        at = f"[{at}]" if ":" in at else at
        if address.scheme == "http":
            return _PlainPool(at, address.port)
        return _SecurePool(at, address.port, ssl_context=self._trust, server_hostname=address.host.strip("[]"))

    def _pool(self, address: Address) -> HTTPConnectionPool:
        pools = self._through[address.scheme] if self._by_proxy(address) else self._direct
        return pools.connection_from_host(address.host, address.port, address.scheme)

    def _target(self, address: Address) -> str:
        """A proxy is told the whole address, but for HTTPS, which goes through it unseen."""
        return address.url if address.scheme == "http" and self._by_proxy(address) else address.target

    def _by_proxy(self, address: Address) -> bool:
        return address.scheme in self._through and not proxy_bypass(address.site)

    def close(self) -> None:
        """Close what is kept."""
        for pools in (self._direct, *self._through.values()):
            pools.clear()

    def __enter__(self) -> Network:
        return self

    def __exit__(self, kind: type[BaseException] | None, wrong: BaseException | None, at: TracebackType | None) -> None:
        self.close()


@cache
def system_trust() -> ssl.SSLContext:
    """The authorities that the system trusts; it takes a moment to read them."""
    return ssl.create_default_context()


def _asked(pool: HTTPConnectionPool, request: Request, target: str) -> Answer:
    headers = USUAL_HEADERS | {name.decode(): value.decode("latin-1") for name, value in request.headers}
    if request.at is not None:
        headers["host"] = request.address.site
    try:
        response = pool.urlopen(
            request.method, target, request.body, headers, _ONCE, redirect=False, assert_same_host=False,
            timeout=Timeout(total=request.timeout_s), preload_content=False,
        )  # fmt: skip
        try:
            body = _read(response, request)
        finally:
            response.close()  # the connection was given back where all has been read; else it is of no use
    except ClosedPoolError as wrong:
        raise NotReached(_name(wrong)) from wrong
    except HTTPError as wrong:
        raise NoAnswer(_name(wrong)) from wrong
    if response.status < 200:  # an announcement; the answer itself may be anything
        raise NoAnswer(f"Only{response.status}")
    return Answer(response.status, {name.lower(): _told(value) for name, value in response.headers.itermerged()}, body)


def _read(response: BaseHTTPResponse, request: Request) -> bytes:
    body = bytearray()
    while piece := response.read(request.most + 1 - len(body), decode_content=request.unpack):
        body += piece
        if len(body) > request.most:
            break
    return bytes(body)


def _told(value: str) -> str:
    """A header's value, of which the library takes every byte for a sign of Latin-1."""
    try:
        return value.encode("latin-1").decode()
    except UnicodeError:
        return value


def _name(wrong: BaseException) -> str:
    """What went wrong in one word: the system's own failure where the library only wraps it."""
    inner = next((part for part in wrong.args if isinstance(part, OSError | HTTPException)), wrong)
    if type(inner) is NewConnectionError and inner.__cause__ is not None:
        inner = inner.__cause__
    return type(inner).__name__


def _proxy(url: str, pools: Mapping[str, Any]) -> ProxyManager:
    url = url if "://" in url else f"http://{url}"
    user = parse_url(url).auth_decoded_joined
    return ProxyManager(url, proxy_headers=make_headers(proxy_basic_auth=user) if user else None, **pools)


def _keeping(pools: PoolManager) -> PoolManager:
    pools.pool_classes_by_scheme = {"http": _PlainPool, "https": _SecurePool}
    return pools


@contextmanager
def _before_a_byte() -> Iterator[None]:
    """For what happens until host, proxy and certificate are as they should be: of the request nothing has gone out."""
    try:
        yield
    except (HTTPError, HTTPException, OSError, ValueError) as wrong:
        raise NotReached(_name(wrong)) from wrong


class _InTime(io.RawIOBase):
    """Reads what comes until a moment: the socket's own timeout would begin anew with every byte."""

    def __init__(self, inner: io.RawIOBase, sock: socket.socket) -> None:
        self._inner, self._sock = inner, sock
        self._ends = time.monotonic() + (sock.gettimeout() or 0.0)

    def readable(self) -> bool:
        return True

    def readinto(self, into: Any, /) -> int | None:
        left = self._ends - time.monotonic()
        if left <= 0:
            raise TimeoutError("timed out")
        self._sock.settimeout(left)
        return self._inner.readinto(into)

    def close(self) -> None:
        self._inner.close()
        super().close()


class _AnswerInTime(HTTPResponse):
    """An answer that has come as a whole, headers too, by the time that the socket would wait for its first byte."""

    def __init__(self, sock: socket.socket, *more: Any, **named: Any) -> None:
        super().__init__(sock, *more, **named)
        self.fp = io.BufferedReader(_InTime(self.fp.detach(), sock))


class _Plain(HTTPConnection):
    """A connection that says when nothing has gone out, and is not used again after a rest."""

    response_class = _AnswerInTime
    _used_at = 0.0

    def connect(self) -> None:
        with _before_a_byte():
            super().connect()

    def getresponse(self) -> Any:
        self._used_at = time.monotonic()
        return super().getresponse()

    @property
    def is_connected(self) -> bool:
        return time.monotonic() - self._used_at < KEPT_S and super().is_connected


class _Secure(_Plain, HTTPSConnection):
    pass


class _PlainPool(HTTPConnectionPool):
    ConnectionCls = _Plain


class _SecurePool(HTTPSConnectionPool):
    ConnectionCls = _Secure
