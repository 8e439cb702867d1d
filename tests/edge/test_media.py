"""Pictures by link: what is taken, and everything that must not be followed."""

from __future__ import annotations

import socket
import threading
from collections.abc import Callable, Iterator

import pytest

from service.edge.media import NotFetched, addresses_of, fetch, is_public
from service.edge.wire import Answer, Ask, Request

JPEG = b"\xff\xd8\xff\xe0" + b"x" * 100
PUBLIC = "93.184.216.34"


def public(name: str, port: int) -> tuple[str, ...]:
    return (PUBLIC,)


def served(*answers: Answer) -> tuple[Ask, list[Request]]:
    seen: list[Request] = []
    left = list(answers)

    def handle(request: Request) -> Answer:
        seen.append(request)
        return left.pop(0)

    return handle, seen


def moved(to: str) -> Answer:
    return Answer(302, {"location": to}, b"")


def test_a_picture_is_fetched_from_the_address_that_was_looked_at() -> None:
    ask, seen = served(Answer(200, {"content-type": "text/html"}, JPEG))
    picture = fetch("https://pictures.example/a/1?s=2", resolve=public, ask=ask)
    assert (picture.kind, picture.content) == ("image/jpeg", JPEG)
    assert seen[0].at == PUBLIC
    assert seen[0].address.url == "https://pictures.example/a/1?s=2"


@pytest.mark.parametrize(
    "address",
    [
        "127.0.0.1", "10.1.2.3", "172.16.0.1", "192.168.1.1", "169.254.169.254", "100.64.0.1", "0.0.0.0", "224.0.0.1",
        "255.255.255.255", "::1", "::", "fe80::1%eth0", "fd00::1", "::ffff:127.0.0.1", "64:ff9b::a00:1", "2002:7f00:1::",
        "nonsense",
    ],
)  # fmt: skip
def test_no_address_of_ours_or_nobodys_is_public(address: str) -> None:
    assert not is_public(address)


@pytest.mark.parametrize("address", [PUBLIC, "2606:2800:220:1:248:1893:25c8:1946"])
def test_addresses_of_the_internet_are_public(address: str) -> None:
    assert is_public(address)


def test_one_private_address_among_public_ones_is_enough_to_refuse() -> None:
    ask, seen = served()
    with pytest.raises(NotFetched, match="not on the internet"):
        fetch("https://two.example/", resolve=lambda *_: (PUBLIC, "10.0.0.1"), ask=ask)
    assert not seen


def test_a_name_that_turns_private_on_the_way_is_refused() -> None:
    ask, seen = served(moved("/next"))
    turns = iter([(PUBLIC,), ("127.0.0.1",)])
    with pytest.raises(NotFetched, match="not on the internet"):
        fetch("https://turncoat.example/", resolve=lambda *_: next(turns), ask=ask)
    assert len(seen) == 1


@pytest.mark.parametrize(
    "to", ["http://pictures.example/", "file:///etc/passwd", "https://127.0.0.1/", "https://[::1]/", "gopher://x/"]
)
def test_a_redirect_is_looked_at_like_a_link(to: str) -> None:
    def resolve(name: str, port: int) -> tuple[str, ...]:
        return (PUBLIC,) if name.endswith(".example") else addresses_of(name, port)

    ask, seen = served(moved(to))
    with pytest.raises(NotFetched):
        fetch("https://pictures.example/", resolve=resolve, ask=ask)
    assert len(seen) == 1


@pytest.mark.parametrize(
    "url",
    ["http://a.example/", "ftp://a.example/", "https://", "https://u:p@a.example/", "https://a.example:x/", "phone:1"],
)
def test_only_plain_https_is_followed(url: str) -> None:
    ask, seen = served()
    with pytest.raises(NotFetched):
        fetch(url, resolve=public, ask=ask)
    assert not seen


def test_redirects_end() -> None:
    ask, seen = served(*[moved("/again")] * 9)
    with pytest.raises(NotFetched, match="too often"):
        fetch("https://a.example/", resolve=public, ask=ask)
    assert len(seen) == 4


@pytest.mark.parametrize(
    ("answer", "why"),
    [
        (Answer(200, {}, b"<html><script>"), "not a picture"),
        (Answer(200, {"content-type": "image/svg+xml"}, b"<svg onload=x>"), "not a picture"),
        (Answer(200, {}, JPEG * 100), "too large"),
        (Answer(200, {"content-encoding": "gzip"}, JPEG), "packed"),
        (Answer(404, {}, JPEG), "404"),
    ],
)
def test_what_is_no_picture_or_too_much_is_left(answer: Answer, why: str) -> None:
    ask, _ = served(answer)
    with pytest.raises(NotFetched, match=why):
        fetch("https://a.example/", resolve=public, ask=ask, most=2000)


@pytest.fixture
def silent() -> Iterator[int]:
    """A port that takes connections and never says anything."""
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        listening.listen()
        kept: list[socket.socket] = []

        def take() -> None:
            try:
                while True:
                    kept.append(listening.accept()[0])
            except OSError:
                return

        thread = threading.Thread(target=take, daemon=True)
        thread.start()
        yield listening.getsockname()[1]
        listening.shutdown(socket.SHUT_RDWR)
        thread.join(5)
        for one in kept:
            one.close()


def test_a_host_that_never_answers_is_given_up(silent: int, monkeypatch: pytest.MonkeyPatch) -> None:
    yes: Callable[[str], bool] = lambda address: True  # noqa: E731 - the only host of this test is here
    monkeypatch.setattr("service.edge.media.is_public", yes)
    monkeypatch.setattr("service.edge.media.TIMEOUT_S", 0.2)
    with pytest.raises(NotFetched, match="could not be followed"):
        fetch(f"https://a.example:{silent}/", resolve=lambda *_: ("127.0.0.1",))
