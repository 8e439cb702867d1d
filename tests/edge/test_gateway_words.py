"""What a gateway says when it does not take a text, and signs its charset lacks: kept for people, nobody's words in the log."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import Any
from urllib.parse import parse_qs, quote

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.edge.calling import MOST_SAID, first_words
from service.edge.deps import Deps
from service.edge.network import Network
from service.edge.outbox import send_due
from tests.conftest import Clock
from tests.edge.conftest import CUSTOMER, Carrier, Line, json_gateway
from tests.edge.test_odd_sends import made

MakeDeps = Callable[..., Deps]
EURO = "the visit is 89 €"
PAGE = b"<!DOCTYPE html>\n<html><head><title>x</title><style>p {a: b}</style></head><body><p>Account&nbsp;on hold.</p><br/> Pay"


@pytest.fixture
def line(make_deps: MakeDeps) -> Line:
    return Line(make_deps(json_gateway())).begin()


@pytest.mark.parametrize(
    ("status", "kind", "body", "reason"),
    [
        (400, "text/plain", b"ERR 7: bad\r\n\tnumber\x00", "answered 400: ERR 7: bad number"),
        (403, "text/html", PAGE, "answered 403: Account on hold. Pay"),
        (422, "application/json", b'{"code": 7}', 'answered 422: {"code": 7}'),
        (400, "text/plain; charset=latin-1", b"n\xfamero malo", "answered 400: número malo"),
        (400, "text/plain; charset=none-such", b"\xff bad", "answered 400: \N{REPLACEMENT CHARACTER} bad"),
        (404, "text/plain", b"", "answered 404"),
        (400, "text/plain", b"x" * 9000, "answered 400: " + "x" * MOST_SAID),
    ],
)  # fmt: skip
def test_a_refusal_is_kept_in_the_gateways_own_words_and_logged_without_the_customers(
    line: Line, network: Network, carrier: Carrier, caplog: pytest.LogCaptureFixture,
    status: int, kind: str, body: bytes, reason: str,
) -> None:  # fmt: skip
    caplog.set_level(logging.INFO)
    key = line.write("my gate code is marigold")
    carrier.answers = [(status, {"content-type": kind}, body)]
    send_due(line.deps, network)
    row = line.row("my gate code is marigold")
    assert (row.status, row.reason) == ("failed", reason)
    (record,) = [record for record in caplog.records if record.name == "plainfault.sender"]
    told = vars(record)
    assert (told["gateway"], told["key"], told["status"]) == ("plain", key, status)
    assert not any(word in str(told) for word in ("marigold", CUSTOMER, CUSTOMER[2:], "ERR 7"))


def test_a_refusal_told_in_the_body_of_a_200_is_kept_too(
    make_deps: MakeDeps, network: Network, carrier: Carrier
) -> None:
    send = json_gateway().send
    assert send is not None
    rule = send.model_dump(exclude_none=True) | {"success": {"at": "body", "equals": ["^OK"]}}
    line = Line(make_deps(json_gateway(send=rule))).begin()
    line.write("one")
    carrier.answers = [(200, {}, b"ERR 7: bad number")]
    send_due(line.deps, network)
    assert line.row("one").reason == "its answer says that it did not take the text: ERR 7: bad number"


def test_what_a_busy_gateway_says_is_kept_while_the_text_waits(
    line: Line, network: Network, carrier: Carrier, clock: Clock
) -> None:
    line.write("one")
    carrier.usual = (503, {}, b"down until six " * 40)
    send_due(line.deps, network)
    row = line.row("one")
    assert row.status == "waiting"
    assert row.reason.startswith("answered 503: down until six")
    assert len(row.reason) <= 200


def test_a_secret_that_the_gateway_says_back_is_not_kept(line: Line, network: Network, carrier: Carrier) -> None:
    line.write("one")
    carrier.answers = [(401, {}, f"no such url {carrier.url}/send nor {quote(carrier.url, safe='')}".encode())]
    send_due(line.deps, network)
    assert line.row("one").reason == "answered 401: no such url (secret)/send nor (secret)"


@given(
    body=st.binary(max_size=300) | st.text("<>!htmlscripDOCTYPE/ &;\x00", max_size=60).map(str.encode),
    kind=st.text(max_size=30),
)
def test_whatever_is_answered_its_words_are_one_short_printable_line(body: bytes, kind: str) -> None:
    said = first_words(body, kind, ["key one", ""])
    assert len(said) <= MOST_SAID
    assert said.isprintable()


CODED: dict[str, Any] = {
    "body": "form", "fields": {"t": "{text}", "c": "{coding}"},
    "seven_bit": {"charset": "latin-1", "code": "0"}, "beyond": {"charset": "utf-16-be", "code": "8"},
}  # fmt: skip


def fields(words: str, **send: Any) -> tuple[str, str]:
    """The text and its coding as the gateway reads them."""
    request = made(words, **(CODED | send))
    code = parse_qs(request.body.decode())["c"][0]
    charset = {"0": "latin-1", "8": "utf-16-be", "9": "ascii"}[code]
    return parse_qs(request.body.decode(), encoding=charset)["t"][0], code


@pytest.mark.parametrize("words", [EURO, "10 Δ more", "[{~}] ~ ñ"])
def test_a_7_bit_text_that_its_charset_cannot_hold_goes_the_way_beyond(words: str) -> None:
    """The euro sign and the Greek capitals are of the 7-bit alphabet (3GPP TS 23.038, 6.2.1), and not of Latin-1."""
    assert fields(words) == (words, "0" if words.isascii() or "ñ" in words else "8")


def test_a_text_that_no_charset_holds_is_sent_with_marks_and_the_log_says_so(caplog: pytest.LogCaptureFixture) -> None:
    assert fields(EURO, beyond={"charset": "ascii", "code": "9"}) == ("the visit is 89 ?", "0")
    assert fields("\N{DROPLET}", beyond={"charset": "ascii", "code": "9"}) == ("?", "9")
    told = [vars(record) for record in caplog.records]
    assert [(one["gateway"], one["key"]) for one in told] == [("mine", "t1.1:1")] * 2
    assert not any("89" in str(one["msg"]) for one in told)


def test_a_text_in_the_characters_of_its_document_needs_no_other_way() -> None:
    request = made(EURO, fields={"t": "{text}", "c": "{coding}"}, seven_bit={"code": "0"}, beyond={"code": "8"})
    assert request.body.decode() == f'{{"t": "{EURO}", "c": "0"}}'
