"""Answers that are none quite: later than offered, a part of a larger machine, a price, none of the list."""

from __future__ import annotations

from datetime import datetime

import pytest

from tests.journeys.line import Line, told


def offered(line: Line) -> tuple[datetime, ...]:
    ticket = line.state.in_focus
    assert ticket is not None
    return tuple(o.start for o in ticket.offers)


ARRANGED = ("my dryer wont heat just send someone", "87106", "55 arenal sw")


@pytest.mark.parametrize(
    "text", ["later", "something later please", "anything later?", "más tarde", "más adelante por favor"]
)
def test_later_while_windows_stand_offers_days_behind_them(text: str) -> None:
    line = told(*ARRANGED)
    first = offered(line)
    line.text(text)
    assert offered(line)
    assert min(offered(line)) > max(first)


def test_later_in_the_day_offers_later_hours() -> None:
    line = told(*ARRANGED)
    hour = max(start.time() for start in offered(line))
    line.text("later in the day")
    assert min(start.time() for start in offered(line)) > hour


@pytest.mark.parametrize(
    ("text", "says"),
    [("anything sooner?", "the soonest"), ("nothing earlier?", "the soonest"), ("sooner", "the soonest")],
)
def test_sooner_is_told_that_there_is_none(text: str, says: str) -> None:
    assert says in told(*ARRANGED).text(text)[0]


@pytest.mark.parametrize("text", ["ill call later", "not now"])
def test_putting_it_off_is_no_wish_for_later_windows(text: str) -> None:
    line = told(*ARRANGED)
    first = offered(line)
    line.text(text)
    assert offered(line) == first


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("ice maker quit", "the one in my fridge"), ("my ice maker isnt making ice", "1"), ("icemaker dead", "idk"),
        ("el ice maker no hace hielo", "el del refri"),
    ],
)  # fmt: skip
def test_an_ice_maker_may_be_the_refrigerators(text: str, answer: str) -> None:
    line = told(text)
    assert "\n1 " in line.said
    line.text(answer)
    ticket = line.state.in_focus
    assert ticket
    assert (ticket.appliance, ticket.open) == ("refrigerator", True)
    assert "Corrected" not in line.said


def test_what_was_wrong_with_the_ice_maker_goes_to_the_refrigerator() -> None:
    line = told("ice maker quit making ice", "in the fridge")
    ticket = line.state.in_focus
    assert ticket
    assert ticket.symptoms.get("no_ice") is True


@pytest.mark.parametrize(
    "texts",
    [
        ("ice maker quit", "2"),
        ("ice maker quit", "its a stand alone"),
        ("countertop ice maker leaks",),
        ("ice machine quit",),
    ],
)
def test_a_stand_alone_ice_maker_is_turned_away(texts: tuple[str, ...]) -> None:
    line = told(*texts)
    assert "We don't work on stand-alone ice makers" in line.said
    assert not [t for t in line.state.tickets if t.open]


@pytest.mark.parametrize(
    ("danger", "price", "core", "fee"),
    [
        ("dryer sparks and smells burnt", "how much is it", "WARNING", "$"),
        ("la secadora echa chispas", "cuanto cobran", "ADVERTENCIA", "$"),
        ("dryer sparks and smells burnt", "when can u come", "WARNING", "office reads"),
    ],
)
def test_a_price_for_an_answer_to_the_danger_question_and_it_is_asked_again(
    danger: str, price: str, core: str, fee: str
) -> None:
    line = told(danger, "ok", price)
    assert core in line.said
    assert fee in line.said
    assert "?" in line.said
    line.text("yes its off")
    assert "Thank you" in line.said or "Gracias" in line.said


def test_a_price_at_once_after_a_danger_is_told_behind_its_core_and_before_the_question() -> None:
    line = told("dryer sparks and smells burnt", "how much")
    assert line.said.startswith("WARNING")
    assert line.said.index("$") < line.said.index("?")


@pytest.mark.parametrize("text", ["none of those", "nothing like that, none of them", "neither"])
def test_none_of_the_list_ends_the_question(text: str) -> None:
    line = told("fridge is making noise", text)
    assert "could not make that out" not in line.said
    assert "ZIP" in line.said


@pytest.mark.parametrize(
    "text", ["swamp cooler is leaking", "do you fix boilers", "water heater is out", "mi cooler de techo no enfria"]
)
def test_what_the_shop_does_not_serve_is_told_so(text: str) -> None:
    assert any(words in told(text).said for words in ("That is not something we repair", "Eso no lo reparamos"))


def test_a_complaint_while_windows_stand_is_no_refusal_of_them() -> None:
    line = told("washer", "87110", "1200 Invented Rd NE", "tomorrow afternoon")
    for _ in range(4):
        if line.state.asked and line.state.asked.kind == "offer":
            break
        line.text("i dont know")
    standing = offered(line)
    line.text("wont spin, its full of water")
    assert offered(line) == standing
    ticket = line.state.in_focus
    assert ticket
    assert ticket.symptoms.get("no_spin") is True


def test_who_answers_out_of_order_hears_that_it_is_noted_and_is_never_left_in_silence() -> None:
    line = told("87110")
    for text in ("1200 Invented Rd NE", "tomorrow afternoon", "gate code is 4412"):
        said = line.text(text)
        assert said
        assert "could not make that out" not in said[0]
    assert told("87110", "1200 Invented Rd NE").said.startswith("Got the address")


def test_just_send_someone_is_no_refusal_of_the_address() -> None:
    line = told("dishwasher full of water need someone asap", "87108", "no", "just send someone")
    assert "street" in line.said


def test_a_misread_text_is_forgotten_when_the_next_one_is_answered() -> None:
    line = told(*ARRANGED)
    line.text("blorp grumf")
    line.text("1")
    line.text("zzqx vrrp")
    assert line.state.misread <= 1
