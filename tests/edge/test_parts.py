"""Long texts in pieces, through the hooks and the real exchange: one text and one turn, whatever order they come in."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from typing import Any

import pytest
from sqlalchemy import Engine, select

from service.edge.profile import Profile
from service.edge.worker import tick
from service.storage import desk
from service.storage.engine import reading
from service.storage.tables import messages, threads, turns
from tests.conftest import Clock
from tests.edge.conftest import CUSTOMER, Carrier
from tests.edge.hooked import Hooked, gateway, hooked

OTHER = "+15055550143"
PIECES = [
    "My dishwasher leaves water in the bottom after every cycle and I have already cleaned the fil",
    "ter twice, it is the one under the kitchen window, and the noise it makes when it tries to dr",
    "ain has become much louder since Monday",
]
WHOLE = "".join(PIECES)
PARTS = {"parts": {"reference": "header:x-ref", "number": "query:n", "of": "body:of"}}

Start = Callable[..., Hooked]


@pytest.fixture
def start(engine: Engine, clock: Clock, carrier: Carrier) -> Iterator[Start]:
    """Starts a line; a second time, one that comes after the first."""
    with ExitStack() as lines:

        def begin(profile: Profile | None = None, rest_s: float = 0) -> Hooked:
            return lines.enter_context(hooked(engine, clock, profile or gateway(PARTS), carrier.url, rest_s))

        yield begin


def deliver(
    line: Hooked, number: int, text: str, identity: str | None = None, *, ref: str = "7", of: int = 3, **more: Any
) -> str:
    """One piece; what it was answered."""
    document = {"from": CUSTOMER, "text": text, "id": identity or f"{ref}-{number}", "of": of} | more
    answer = line.post(document, f"?n={number}", headers={"x-ref": ref})
    assert answer.status_code == 200, answer.text
    return str(answer.text)


@pytest.mark.parametrize("order", list(itertools.permutations((1, 2, 3))))
def test_pieces_are_one_text_and_one_turn_in_any_order_and_repeated(
    start: Start, clock: Clock, order: tuple[int, ...]
) -> None:
    line = start()
    for place, number in enumerate(order):
        assert line.read() == []
        deliver(line, number, PIECES[number - 1])
        assert len(line.kept()) == place + 1, "a piece is stored as it comes"
        deliver(line, number, PIECES[number - 1])
        deliver(line, number, PIECES[number - 1], f"again-{number}")
        clock.forward(seconds=5)
        tick(line.deps)
    assert line.read() == [[WHOLE]]
    clock.forward(minutes=2)
    tick(line.deps)
    assert line.read() == [[WHOLE]]
    assert sorted(line.kept()) == sorted(PIECES)


def test_pieces_survive_a_process_that_dies_between_them(start: Start, clock: Clock) -> None:
    deliver(start(), 2, PIECES[1])
    deliver(start(), 1, PIECES[0])
    clock.forward(seconds=31)
    line = start()
    tick(line.deps)
    assert line.read() == [["".join(PIECES[:2]) + " […]"]]


def test_a_piece_that_stays_away_is_not_waited_for_longer_than_thirty_seconds(start: Start, clock: Clock) -> None:
    line = start()
    deliver(line, 1, PIECES[0])
    clock.forward(seconds=20)
    deliver(line, 3, PIECES[2])
    clock.forward(seconds=29)
    tick(line.deps)
    assert line.read() == [], "the second piece began the waiting anew"
    clock.forward(seconds=2)
    tick(line.deps)
    assert line.read() == [[f"{PIECES[0]} […] {PIECES[2]}"]]
    deliver(line, 2, PIECES[1])
    assert line.read()[1:] == [[f"[…] {PIECES[1]}"]], "late, it is read as it is, and nothing more is waited for"


def test_the_profile_says_how_long_a_piece_is_waited_for(start: Start, clock: Clock) -> None:
    line = start(gateway({"parts": PARTS["parts"] | {"wait_s": 90}}))
    deliver(line, 1, PIECES[0])
    clock.forward(seconds=89)
    tick(line.deps)
    assert line.read() == []
    clock.forward(seconds=2)
    tick(line.deps)
    assert line.read() == [[f"{PIECES[0]} […]"]]


def test_other_texts_do_not_wait_for_a_piece_nor_take_it_with_them(start: Start, clock: Clock) -> None:
    line = start()
    deliver(line, 1, PIECES[0])
    line.post({"from": CUSTOMER, "text": "washer leaks too", "id": "w"})
    clock.forward(seconds=1)
    deliver(line, 1, "somebody else's, with the same reference ", "o1", of=2, **{"from": OTHER})
    deliver(line, 2, "and a dryer that squeaks", "o2", of=2, **{"from": OTHER})
    assert line.read() == [["washer leaks too"], ["somebody else's, with the same reference and a dryer that squeaks"]]
    deliver(line, 2, PIECES[1])
    deliver(line, 3, PIECES[2])
    assert line.read()[2:] == [[WHOLE]]


def test_two_long_texts_at_once_do_not_mix_even_with_one_reference(start: Start, clock: Clock) -> None:
    line = start()
    deliver(line, 1, "first one, ", "a1", of=2)
    deliver(line, 1, "second, ", "b1", of=2, ref="8")
    deliver(line, 2, "its end", "a2", of=2)
    deliver(line, 2, "of the same", "b2", of=2, ref="8")
    deliver(line, 1, "third, counted anew, ", "c1", of=2)
    deliver(line, 2, "so it is", "c2", of=2)
    assert line.read() == [["first one, its end"], ["second, of the same"], ["third, counted anew, so it is"]]


@pytest.mark.parametrize("rest_s", [0, 4])
def test_a_piece_that_tells_a_danger_is_answered_at_once(start: Start, clock: Clock, rest_s: float) -> None:
    line = start(rest_s=rest_s)
    deliver(line, 2, "the kitchen and I smell gas, it is ")
    assert line.read() == [["[…] the kitchen and I smell gas, it is "]]
    assert line.replies()[0][0] == "danger"
    deliver(line, 1, "Hello, I am standing in ")
    deliver(line, 3, "quite strong near the range")
    clock.forward(seconds=9)
    tick(line.deps)
    assert len(line.read()) == 2
    assert line.read()[1] == ["Hello, I am standing in  […] quite strong near the range"]


def test_a_danger_that_two_pieces_tell_together_does_not_wait_for_the_third(start: Start) -> None:
    line = start()
    deliver(line, 1, "i think somebody left the g")
    assert line.read() == []
    deliver(line, 2, "as on in the kitchen, and ")
    assert line.read() == [["i think somebody left the gas on in the kitchen, and  […]"]]
    assert line.replies()[0][0] == "danger"


def test_a_piece_that_happens_to_be_a_stop_word_is_no_opt_out(start: Start, engine: Engine) -> None:
    line = start()
    deliver(line, 1, "the washer drum keeps turning and it never comes to a ", of=2)
    deliver(line, 2, "stop", of=2)
    assert len(line.read()) == 1
    with reading(engine) as connection:
        assert connection.execute(select(threads.c.consent)).scalar_one() == "in"


@pytest.mark.parametrize(("number", "of"), [(2, 2), (1, 2), (3, 3), (0, 2), (254, 255)])
@pytest.mark.parametrize("word", ["stop", "STOP!", "Cancel", "unsubscribe", "alto", "start"])
def test_a_piece_whose_others_never_come_is_no_word_of_consent(
    start: Start, engine: Engine, clock: Clock, number: int, of: int, word: str
) -> None:
    """Whether it ends a long text or begins one: nobody knows what stood beside it."""
    line = start(rest_s=4)
    deliver(line, number, word, of=of)
    clock.forward(seconds=31)
    tick(line.deps)
    assert len(line.read()) == 1
    assert word in line.read()[0][0]
    with reading(engine) as connection:
        assert connection.execute(select(threads.c.consent)).scalar_one() == "in"


def test_the_rest_of_a_text_whose_danger_was_read_before_is_no_word_of_consent(start: Start, engine: Engine) -> None:
    line = start()
    deliver(line, 1, "I smell gas and the ringing will not ", of=2)
    deliver(line, 2, "stop", of=2)
    assert line.read() == [["I smell gas and the ringing will not  […]"], ["[…] stop"]]
    with reading(engine) as connection:
        assert connection.execute(select(threads.c.consent)).scalar_one() == "in"


def test_a_stop_word_that_is_a_text_or_a_wish_in_pieces_that_is_told_in_full_counts(
    start: Start, engine: Engine, clock: Clock
) -> None:
    line = start()
    deliver(line, 2, "please stop sending me these text messages", of=2)
    clock.forward(seconds=31)
    tick(line.deps)
    with reading(engine) as connection:
        assert connection.execute(select(threads.c.consent)).scalar_one() == "out", "said of messages, it needs no more"
    line.post({"from": CUSTOMER, "text": "start", "id": "w"})
    deliver(line, 1, "st", of=2, ref="8")
    deliver(line, 2, "op", of=2, ref="8")
    with reading(engine) as connection:
        assert connection.execute(select(threads.c.consent)).scalar_one() == "out"


def test_a_whole_text_rests_as_every_text_does(start: Start, clock: Clock) -> None:
    line = start(rest_s=4)
    for number in (3, 1, 2):
        deliver(line, number, PIECES[number - 1])
    assert line.read() == []
    clock.forward(seconds=1)
    line.post({"from": CUSTOMER, "text": "since monday", "id": "w"})
    clock.forward(seconds=5)
    tick(line.deps)
    assert line.read() == [[WHOLE, "since monday"]]


def test_the_piece_that_makes_the_text_whole_carries_the_answer(start: Start, clock: Clock) -> None:
    line = start(gateway(PARTS | {"answer": {"kind": "reply", "template": "{id}: {reply}"}}), rest_s=4)
    assert deliver(line, 1, PIECES[0]) == ""
    assert deliver(line, 3, PIECES[2]) == ""
    said = deliver(line, 2, PIECES[1])
    assert said.startswith("7-2: ")
    assert len(said) > 20
    assert deliver(line, 2, PIECES[1]) == said
    assert deliver(line, 1, PIECES[0]) == ""
    assert line.read() == [[WHOLE]]


def test_pieces_may_have_one_id_between_them_and_be_counted_from_nought(start: Start) -> None:
    line = start()
    for number in (2, 0, 1, 0):
        deliver(line, number, PIECES[number], "the same")
    assert line.read() == [[WHOLE]]


@pytest.mark.parametrize(
    ("number", "of", "ref"), [("", 3, "7"), ("x", 3, "7"), ("4", 3, "7"), ("1", 999, "7"), ("1", 3, "")]
)
def test_numbers_that_make_no_sense_lose_nothing_and_are_logged(
    start: Start, number: str, of: int, ref: str, caplog: pytest.LogCaptureFixture
) -> None:
    line = start()
    document = {"from": CUSTOMER, "text": "it leaks", "id": "m", "of": of}
    assert line.post(document, f"?n={number}", headers={"x-ref": ref}).status_code == 200
    assert line.read() == [["it leaks"]]
    assert "make no sense" in caplog.text
    assert "it leaks" not in caplog.text


def test_a_text_of_one_piece_or_none_is_a_text(start: Start, caplog: pytest.LogCaptureFixture) -> None:
    line = start()
    line.post({"from": CUSTOMER, "text": "it leaks", "id": "m1"})
    deliver(line, 1, "since monday", of=1)
    assert line.read() == [["it leaks"], ["since monday"]]
    assert "make no sense" not in caplog.text


def test_a_card_number_across_two_pieces_is_not_kept(start: Start, engine: Engine) -> None:
    line = start()
    deliver(line, 2, "1111 1111 is my card, the dryer is cold", of=2)
    deliver(line, 1, "please charge 4111 1111 ", of=2)
    assert line.read() == [["please charge •••• •••• •••• 1111 is my card, the dryer is cold"]]
    with reading(engine) as connection:
        rows = connection.execute(select(messages.c.text)).scalars().all()
        assert not [text for text in rows if "4111" in text or "1111 1111" in text]
        assert "4111" not in str(connection.execute(select(turns.c.events, turns.c.step)).all())


def test_a_long_text_counts_once_against_a_flood(start: Start, clock: Clock) -> None:
    line = start()
    for ref in range(25):
        for number in (1, 2, 3):
            deliver(line, number, f"part {number} of text {ref} ", ref=str(ref))
    assert len(line.read()) == 25
    for ref in range(25, 40):
        for number in (1, 2, 3):
            deliver(line, number, f"part {number} of text {ref} ", ref=str(ref))
    assert len(line.read()) == 30
    for number, words in enumerate(("now listen, I sm", "ell gas, and ", "I am scared"), 1):
        deliver(line, number, words, ref="60")
    assert any("smell gas" in text for texts in line.read() for text in texts), "a danger is always heard"


def test_the_desk_reads_the_pieces_as_one_text(start: Start, engine: Engine) -> None:
    line = start()
    for number in (3, 1):
        deliver(line, number, PIECES[number - 1])
    with reading(engine) as connection:
        thread = connection.execute(select(threads.c.id)).scalar_one()
        assert {row.parts for row in desk.heard(connection, "demo", thread)} == {3}
    deliver(line, 2, PIECES[1])
    with reading(engine) as connection:
        rows = desk.heard(connection, "demo", thread)
    assert [(row.part, row.text) for row in sorted(rows, key=lambda row: row.part or 0)] == list(enumerate(PIECES, 1))
    assert len({(row.whole, row.turn) for row in rows}) == 1
