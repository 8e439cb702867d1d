"""A host on loopback that does with a connection whatever a test wants, byte by byte; certificates for it."""

from __future__ import annotations

import re
import socket
import ssl
import subprocess
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from service.edge.wire import Request, address_of

OK = b"HTTP/1.1 200 OK\r\ncontent-length: 2\r\n\r\nOK"


@dataclass
class Host:
    """Where it is, and what came: the whole of each request, and how many connections they came by."""

    port: int
    scheme: str = "http"
    requests: list[bytes] = field(default_factory=list)
    connections: int = 0

    def request(self, target: str = "/", timeout_s: float = 5, name: str = "127.0.0.1") -> Request:
        """A plain request to it."""
        return Request(
            method="GET", address=address_of(f"{self.scheme}://{name}:{self.port}{target}"), timeout_s=timeout_s
        )


Serve = Callable[[socket.socket, Host], None]
"""What is done with one connection."""


def heard(sock: socket.socket, host: Host) -> bool:
    """Whether another request came; it is noted."""
    got = b""
    while b"\r\n\r\n" not in got:
        piece = sock.recv(65536)
        if not piece:
            return False
        got += piece
    length = re.search(rb"(?i)\r\ncontent-length: *(\d+)", got)
    missing = int(length[1]) - len(got.partition(b"\r\n\r\n")[2]) if length else 0
    while missing > 0:
        piece = sock.recv(missing)
        got, missing = got + piece, missing - len(piece)
    host.requests.append(got)
    return True


def saying(answer: bytes, *, hang_up: bool = False) -> Serve:
    """Give *answer* to each request; *hang_up*: and end the connection after the first."""

    def serve(sock: socket.socket, host: Host) -> None:
        while heard(sock, host):
            sock.sendall(answer)
            if hang_up:
                return

    return serve


@contextmanager
def raw_host(serve: Serve, trust: ssl.SSLContext | None = None) -> Iterator[Host]:
    """A host that does *serve* with every connection; *trust*: its certificate."""
    listening = socket.create_server(("127.0.0.1", 0))
    host = Host(listening.getsockname()[1], "https" if trust else "http")
    kept: list[socket.socket] = []

    def one(sock: socket.socket) -> None:
        with suppress(OSError):
            if trust:
                sock = trust.wrap_socket(sock, server_side=True)
                kept.append(sock)
            serve(sock, host)
        sock.close()

    def accept() -> None:
        with suppress(OSError):
            while True:
                sock, _ = listening.accept()
                host.connections += 1
                kept.append(sock)
                threading.Thread(target=one, args=(sock,), daemon=True).start()

    thread = threading.Thread(target=accept, daemon=True)
    thread.start()
    try:
        yield host
    finally:
        listening.shutdown(socket.SHUT_RDWR)
        listening.close()
        thread.join(5)
        for sock in kept:
            with suppress(OSError):
                sock.shutdown(socket.SHUT_RDWR)
            sock.close()


def certificate(folder: Path, *names: str) -> tuple[ssl.SSLContext, ssl.SSLContext]:
    """A host's side with a new certificate of its own for *names*, and a client's that trusts nothing else."""
    key, cert = folder / "key.pem", folder / "cert.pem"
    kinds = ",".join(f"IP:{name}" if name[0].isdigit() else f"DNS:{name}" for name in names)
    command = ["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"]
    command += ["-subj", "/CN=for tests", "-addext", f"subjectAltName={kinds}", "-days", "2"]
    subprocess.run([*command, "-keyout", key, "-out", cert], check=True, capture_output=True)
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(cert, key)
    return server, ssl.create_default_context(cafile=str(cert))
