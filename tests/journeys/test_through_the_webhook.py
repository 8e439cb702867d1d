"""Journeys through the real signed webhook, the exchange, the outbox and a real carrier, on both databases."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import timedelta

import httpx2
import pytest

from service.storage.ledgers import consents
from service.storage.tables import messages, turns
from tests.conftest import Clock
from tests.journeys.served import ServedLine, demo_line, sign

ANSWERS = {
    "postal_code": "87106",
    "address": "12 Saltbush Ct",
    "name": "Ana Rael",
    "access": "no gate, a dog in the yard",
}


@pytest.fixture
def line(database_url: str, clock: Clock) -> Iterator[ServedLine]:
    with demo_line(database_url, clock) as opened:
        yield opened


def asked(line: ServedLine) -> dict[str, object]:
    """What the thread's last turn left open."""
    state = max(line.rows(turns), key=lambda row: (row.at, row.number)).step["state"]
    return state["asked"] or {}


def talk(line: ServedLine, until: str, answers: dict[str, str] | None = None) -> list[str]:
    """Answer whatever is asked (by kind or code, else "I don't know") until *until* is asked; the last replies."""
    told = ANSWERS | (answers or {})
    said: list[str] = []
    for _ in range(14):
        open_question = asked(line)
        kind, code = str(open_question.get("kind", "")), str(open_question.get("code", ""))
        if kind == until:
            return said
        if kind == "check_result":
            said = line.text("no, it did not help")
        else:
            said = line.text(told.get(code) or told.get(kind) or "i don't know")
    raise AssertionError(f"never asked for {until}; last: {said}")


def book(line: ServedLine) -> None:
    """Ask for somebody and take the first window."""
    line.text("can you just send someone")
    talk(line, "offer")
    line.text("1")
    assert len(line.visits) == 1
    assert line.ticket.stage == "arranged"


def test_a_vague_text_then_the_filter_then_it_works(line: ServedLine) -> None:
    first = line.text("my dishwasher is not working right")
    assert "Tarnwick" in first[0]
    assert "STOP" in first[0]
    line.text("water stays in the bottom and the dishes have grit on them")
    said = talk(line, "check_result", {"filter_cleaned": "never"})
    assert "CAUTION" in " ".join(said)
    line.text("did that, filter was packed with gunk. works fine now")

    assert (line.ticket.closed, line.visits) == ("settled_by_owner", [])


@pytest.mark.parametrize(
    ("first", "second", "third", "warning"),
    [
        (
            "dishwasher not workin properly",
            "2. it doesnt drain at all since they put in the new disposal",
            "called him, he forgot it. works now",
            "Never put a hand",
        ),
        (
            "el lavaplatos no desagua nada desde que pusieron el triturador nuevo",
            "87106",
            "ya lo quitaron, ya funciona",
            "triturador",
        ),
    ],
)
def test_a_new_disposal_then_the_plug_then_it_works(
    line: ServedLine, first: str, second: str, third: str, warning: str
) -> None:
    said = line.text(first)
    said += line.text(second)
    if asked(line).get("kind") != "check_result":
        said += talk(line, "check_result")
    assert warning in " ".join(said)
    line.text(third)

    assert line.ticket.closed == "settled_by_owner"
    assert line.ticket.state["cause_found"] == "knockout_plug_in"


def test_a_trickle_is_booked_moved_and_cancelled(line: ServedLine) -> None:
    line.text("dishwasher only trickles when it drains, 87106. cleaned the filter already")
    book(line)
    before = line.visits[0].start_at
    line.text("can we move it to friday")
    line.text("1")
    assert [v.start_at != before for v in line.visits] == [True]
    assert line.visits[0].start_at.astimezone().strftime("%a") in ("Fri", "Sat")
    line.text("please cancel the visit")
    if line.visits:
        line.text("yes")
    assert line.visits == []


@pytest.mark.parametrize(
    ("words", "first_word", "must_say"),
    [
        ("dishwasher stopped and there is a hot plastic smell and the plug looks brown", "WARNING", "breaker"),
        ("water is leaking from the dishwasher onto the outlet", "DANGER", ""),
        ("sale agua del lavaplatos y llega al enchufe", "PELIGRO", ""),
    ],
)
def test_danger_comes_first_alone_and_somebody_is_told(
    line: ServedLine, words: str, first_word: str, must_say: str
) -> None:
    said = line.text(words)
    assert said[0].startswith(first_word)
    assert must_say in said[0]
    assert "?" not in said[0]
    assert line.ticket.level == "now"
    assert [a.kind for a in line.alarms] == ["danger"]
    assert line.ticket.state["checks"] == {}


def test_three_quick_texts_are_one_turn(line: ServedLine) -> None:
    line.text("hi", "its the dishwasher", "water stays in it after the cycle")
    assert len(line.rows(turns)) == 1
    assert line.ticket.appliance == "dishwasher"


def test_a_repeated_delivery_has_no_second_effect(line: ServedLine) -> None:
    for _ in range(3):
        assert line.post("my dishwasher leaks", identity="msg_again").status_code == 200
    line.settle(seconds=20)
    inbound = [row for row in line.rows(messages) if row.direction == "in"]
    assert (len(inbound), len(line.rows(turns))) == (1, 1)


def test_texts_delivered_out_of_order_are_read_in_the_senders_order(line: ServedLine, clock: Clock) -> None:
    now = clock()
    line.post("and water stays in it", identity="msg_b", sent_at=now.isoformat())
    line.post("its my dishwasher", identity="msg_a", sent_at=(now - timedelta(seconds=3)).isoformat())
    line.settle(seconds=20)
    (turn,) = line.rows(turns)
    assert [event["text"] for event in turn.events] == ["its my dishwasher", "and water stays in it"]


def test_what_is_not_signed_fresh_and_whole_is_refused(line: ServedLine, clock: Clock) -> None:
    body = json.dumps({"from": line.number, "to": "+15055550100", "text": "hello"}).encode()
    moment = int(clock().timestamp())

    def answer(raw: bytes, at: int, signature: str) -> int:
        headers = {
            "content-type": "application/json", "webhook-id": "m", "webhook-timestamp": str(at),
            "webhook-signature": signature,
        }  # fmt: skip
        got = httpx2.post(f"{line.url}/hooks/demo/standard", content=raw, headers=headers, trust_env=False)
        assert got.headers["content-type"] == "application/problem+json"
        return got.status_code

    assert answer(body, moment, sign("m", moment, b"other")) == 401
    assert answer(body, moment - 301, sign("m", moment - 301, body)) == 401
    assert answer(b"{", moment, sign("m", moment, b"{")) == 422
    assert line.rows(messages) == []


def test_a_zip_outside_is_told_by_the_second_question(line: ServedLine) -> None:
    line.text("dishwasher leaks from the door")
    if asked(line).get("kind") != "postal_code":
        line.text("i don't know")
    said = line.text("80202")
    assert line.ticket.closed == "out_of_area"
    assert "?" not in " ".join(said)


def test_stop_then_silence_then_start(line: ServedLine) -> None:
    line.text("my dishwasher leaks")
    assert len(line.text("STOP")) == 1
    assert line.text("hello?") == []
    assert line.text("stop") == []
    assert len(line.text("START")) >= 1
    assert [row.change for row in line.rows(consents)] == ["out", "in"]


def test_a_person_asked_for_is_called(line: ServedLine) -> None:
    said = line.text("can I talk to a real person about my dishwasher")
    assert [a.kind for a in line.alarms] == ["person"]
    assert "reads this" in " ".join(said)


def test_what_cannot_be_read_is_answered_kindly_and_then_by_a_person(line: ServedLine) -> None:
    assert len(line.text("asdf qwer zxcv")) == 1
    line.text("\U0001f937\U0001f937")
    line.text("qqqq zzzz")
    assert "person" in [a.kind for a in line.alarms]


def test_a_picture_without_words_and_a_very_long_text_are_answered(line: ServedLine) -> None:
    assert len(line.text("", media=["https://pictures.example/1.jpg"])) == 1
    long = ("my dishwasher leaks and the kitchen floor is wet and i do not know what to do about it " * 20)[:1600]
    assert len(line.text(long)) >= 1
    assert line.ticket.state["symptoms"].get("leak") is True


def test_silence_is_nudged_once_then_closed_and_they_may_come_back(line: ServedLine) -> None:
    line.text("my dishwasher leaks from the door, 87106")
    assert len(line.settle(hours=24)) == 1
    assert line.settle(days=9) == []
    assert line.ticket.closed == "gone_quiet"
    line.settle(days=25)
    said = line.text("hi, the dishwasher leaks again")
    assert said
    assert "still working" not in " ".join(said).lower()
    assert len({row.number for row in [line.ticket]}) == 1
    assert line.ticket.closed is None
