"""What a text says in passing: refuses no window, ends no visit, wants no texts, breaks no breaker."""

from __future__ import annotations

import pytest

from service.reading.model import Asked, Choice
from service.reading.reader import Reader

OFFER = Asked("offer", "dishwasher", None, (), ("Mon 30 Nov, 1-3 pm", "Tue 1 Dec, 8-10 am", "Tue 1 Dec, 1-3 pm"))


@pytest.mark.parametrize(
    "text",
    [
        "oiga y el tecnico habla español?", "y si ya no quiero me cobran?", "y si no la arreglan me cobran?",
        "toquen fuerte que no oigo el timbre", "no hay codigo, es casa sola",
    ],
)  # fmt: skip
def test_no_window_is_refused_by_it(reader: Reader, text: str) -> None:
    reading = reader.read(text, asked=OFFER, about="dishwasher")
    assert reading.answer is None
    assert "cancel" not in reading.intents


@pytest.mark.parametrize(
    "text",
    [
        "no",
        "sorry no",
        "pues la verdad no",
        "no, none of those",
        "no puedo esos dias",
        "can't do any of those",
        "no gracias, ya no",
    ],
)
def test_a_plain_no_refuses_them(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=OFFER, about="dishwasher").answer
    assert answer is not None
    assert answer.kind in ("none", "declined")


@pytest.mark.parametrize("text", ["whichever is later", "the later", "la mas tarde"])
def test_the_later_is_the_last_that_was_shown(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=OFFER, about="dishwasher").answer
    assert answer is not None
    assert (answer.kind, answer.index) == ("choice", 2)


def test_the_later_is_no_sound(reader: Reader) -> None:
    asked = Asked(
        "observation", "dishwasher", "drain_sound", (Choice("runs", "Runs as always"), Choice("grind", "Grinding"))
    )
    answer = reader.read("the later", asked=asked, about="dishwasher").answer
    assert answer is None or answer.kind != "choice"


@pytest.mark.parametrize("text", ["mejor diganle que no venga", "no vengan siempre", "siempre no gracias"])
def test_a_visit_is_called_off(reader: Reader, text: str) -> None:
    assert "cancel" in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "nvm still frosty", "nvm just keep it as is", "Ya no manda agua el refri por la puerta, ni un chorrito",
        "no me manden tantos mensajes, con uno basta",
    ],
)  # fmt: skip
def test_none_is_called_off(reader: Reader, text: str) -> None:
    assert "cancel" not in reader.read(text).intents


@pytest.mark.parametrize("text", ["dishwasher wont start send someone 12 Larkmoor SE", "microwave wont start text me"])
def test_what_will_not_start_starts_no_texts(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert "opt_in" not in reading.intents
    assert [found.code for found in reading.symptoms] == ["no_start"]


def test_fewer_texts_are_no_end_of_them(reader: Reader) -> None:
    assert reader.consent("ya no me manden tantos mensajes por favor") is None


@pytest.mark.parametrize("text", ["cleaned vent, worked!!", "ok did that. worked!", "reseated filter. worked!"])
def test_a_statement_of_joy_says_that_it_is_mended(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert "fixed" in reading.intents
    assert reading.symptoms == ()


def test_one_that_is_taken_back_says_nothing_of_the_kind(reader: Reader) -> None:
    assert "fixed" not in reader.read("ok did that. worked! then it quit again").intents


@pytest.mark.parametrize(
    "text", ["washer has a shocking amount of suds", "my brother got shocked when i told him the cost lol"]
)
def test_no_shock_is_one(reader: Reader, text: str) -> None:
    assert reader.read(text).hazards == ()


@pytest.mark.parametrize("text", ["my brother got shocked when he touched it", "the washer gave me a shock"])
def test_a_shock_is_one(reader: Reader, text: str) -> None:
    assert [found.code for found in reader.read(text).hazards] == ["shock"]


def test_a_hiss_at_a_gas_hose_is_gas(reader: Reader) -> None:
    assert [h.code for h in reader.read("se oye como silbido en la estufa de gas").hazards] == ["gas_smell"]


def test_a_yes_to_somebody_sent_answers_no_question_of_the_machine(reader: Reader) -> None:
    asked = Asked("yes_no", "refrigerator", "leak")
    answer = reader.read("yea send someone", asked=asked, about="refrigerator").answer
    assert answer is None or answer.kind == "declined"
    answer = reader.read("yes and send someone", asked=asked, about="refrigerator").answer
    assert answer is not None
    assert answer.kind == "yes"


def test_a_street_makes_no_spanish_text_a_mixed_one(reader: Reader) -> None:
    assert reader.read("el refri no enfria 1412 mirasol dr sw").language == "es"


def test_a_warranty_that_lasts_is_no_oven_that_takes_long(reader: Reader) -> None:
    assert reader.read("cuanto dura la garantia?").symptoms == ()
    assert [found.code for found in reader.read("el horno dura mucho en calentar").symptoms] == ["temp_off"]


@pytest.mark.parametrize(("text", "dates"), [("el 15 en la tarde", 15), ("el 15", 15), ("no, el 21 por la mañana", 21)])
def test_a_day_of_the_month_that_opens_a_text_is_one(reader: Reader, text: str, dates: int) -> None:
    reading = reader.read(text, asked=OFFER, about="dishwasher")
    assert reading.wish is not None
    assert {day for _, day in reading.wish.dates} == {dates}
    assert reading.answer is None or reading.answer.kind != "choice"


def test_what_opens_with_a_small_number_takes_a_choice(reader: Reader) -> None:
    answer = reader.read("el 2", asked=OFFER, about="dishwasher").answer
    assert answer is not None
    assert (answer.kind, answer.index) == ("choice", 1)


@pytest.mark.parametrize(
    ("text", "address"),
    [("ay perdon la direccion es 350 Mirasol no 305", "350 Mirasol"), ("its 44 Larkmoor Ct not 40", "44 Larkmoor Ct")],
)
def test_the_number_that_it_is_not_is_left_out_of_an_address(reader: Reader, text: str, address: str) -> None:
    assert reader.read(text).facts["address"] == address


def test_what_a_display_says_is_no_street(reader: Reader) -> None:
    assert "address" not in reader.read("temp says 10", asked=Asked("address")).facts


def test_a_day_put_for_another_moves_the_visit_beside_an_open_question(reader: Reader) -> None:
    reading = reader.read("actually make it tuesday same time", asked=Asked("access", "dishwasher"), about="dishwasher")
    assert "reschedule" in reading.intents
