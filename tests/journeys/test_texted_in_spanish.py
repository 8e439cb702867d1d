"""Short hurried Spanish without accents: a visit wanted in a word, what was done or seen told beside the question."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line, told


def asked(line: Line) -> tuple[str, str | None] | None:
    """What stands open."""
    return None if line.state.asked is None else (line.state.asked.kind, line.state.asked.code)


@pytest.mark.parametrize(
    "words",
    [
        "vengan", "vengan pues", "si vengan", "ok vengan", "pos vengan", "mandenlo", "si mandelo por favor",
        "ta bien vengan pero en la tarde", "vengan el viernes despues de las 3", "el sabado pueden", "mejor vengan mañana",
    ],
)  # fmt: skip
def test_a_visit_is_wanted_in_a_word_or_two(words: str) -> None:
    line = told("el lavaplatos no saca el agua", "no se", "87110", words)
    assert "entiendo" not in line.said
    assert line.ticket.just_send or asked(line) == ("address", None)


@pytest.mark.parametrize("words", ["no vengan", "ya no vengan", "no quiero que vengan"])
def test_no_visit_is_wanted(words: str) -> None:
    line = told("el lavaplatos no saca el agua", "no se", "87110", words)
    assert asked(line) is None or asked(line) != ("address", None)


@pytest.mark.parametrize("where", ["calle 4 numero 1212", "calle 12 #814", "avenida 3 515", "12th st numero 814"])
def test_a_street_with_a_number_for_its_name(where: str) -> None:
    line = told("la lavadora no exprime", "87105", "manden a alguien", where)
    line.talk({}, until="offer")
    assert line.state.contact.address == where


@pytest.mark.parametrize("words", ["ok voy a ver", "ok deje checo", "bueno voy a revisar"])
def test_who_goes_to_look_has_answered_nothing(words: str) -> None:
    line = told("el fridge esta tirando agua abajo", "87104", "en frente", words)
    assert "entiendo" not in line.said
    assert asked(line) == ("observation", "frost_where")


@pytest.mark.parametrize(
    "words", ["ya le baje el breaker y le subi y nada", "ya baje la pastilla", "le baje al breaker"]
)
def test_a_breaker_they_lowered_does_not_trip(words: str) -> None:
    line = told("el dryer ya no prende", "87106", words)
    assert "trips_breaker" not in line.ticket.symptoms
    assert line.ticket.observations.get("breaker_tripped") != "yes"


@pytest.mark.parametrize("words", ["se baja el breaker", "me baja la pastilla", "se bajo el breaker otra vez"])
def test_a_breaker_that_trips(words: str) -> None:
    assert "trips_breaker" in told("el dryer ya no prende", "87106", words).ticket.symptoms


@pytest.mark.parametrize(
    ("first", "words", "code", "value"),
    [
        ("la estufa no prende un quemador, es de gas", "si hace clic", "click_heard", "clicks"),
        ("el abanico de la estufa no jala", "si prende la luz", "lamp_works", "yes"),
        ("mi refri no enfria nada", "no hace ruido", "compressor_sound", "silent"),
        ("mi refri no enfria nada", "no hace ruido raro", "compressor_sound", "hum"),
    ],
)
def test_what_is_seen_is_kept_and_is_no_other_fault(first: str, words: str, code: str, value: str) -> None:
    line = told(first, "87110")
    before = dict(line.ticket.symptoms)
    line.text(words)
    assert line.ticket.observations[code] == value
    assert {c for c, so in line.ticket.symptoms.items() if so} == {c for c, so in before.items() if so}


def test_water_that_reaches_the_machine_is_no_leak() -> None:
    line = told("mi refri no hace hielo", "87110", "si le llega agua")
    assert not line.ticket.symptoms.get("leak")


def test_whenever_is_no_question_about_a_visit() -> None:
    line = told("la lavadora no exprime", "87105", "manden a alguien", "cuando sea")
    assert "visita apartada" not in line.said


@pytest.mark.parametrize(("words", "closed"), [("si", False), ("ya enfria, gracias", True)])
def test_a_mere_yes_before_a_check_can_have_helped_closes_nothing(words: str, *, closed: bool) -> None:
    line = told("mi congelador se descongelo todo", "87110", "quien me puede ayudar ahorita")
    assert asked(line) == ("check_result", "shut_it")
    line.text(words)
    assert (line.ticket.closed is not None) is closed
    if not closed:
        line.wait(hours=7)
        line.text("si")
    assert line.ticket.closed == "settled_by_owner"


@pytest.mark.parametrize("street", ["9000 candelara ne", "500 menaro ne", "1410 cancela ct nw"])
def test_the_name_of_a_street_calls_nothing_off(street: str) -> None:
    line = told("mi lavadora no exprime", "87112", "manden a alguien", street)
    assert line.ticket.open
    assert asked(line) == ("offer", None)


@pytest.mark.parametrize("words", ["pasado mañana", "mejor pasado mañana", "pasado manana si pueden"])
def test_the_day_after_tomorrow_is_not_tomorrow(words: str) -> None:
    line = told("mi lavadora no exprime", "87112", "manden a alguien", "9000 candelara ne", words)
    assert line.ticket.visit is None
    assert {o.start.day for o in line.ticket.offers} == {3}


def test_another_day_is_taken_when_it_is_asked_again_whether_to_come() -> None:
    line = told("la lavadora tira agua", "87102", "vengan", "1919 sorrel se apt 2", "lunes")
    line.wait(days=1)
    line.text("oiga me equivoque es el martes")
    assert {o.start.day for o in line.ticket.offers} == {8}


@pytest.mark.parametrize("words", ["y cual es ese", "¿qué es un candado?"])
def test_what_is_not_understood_is_left_and_asked_no_more(words: str) -> None:
    line = told("el microondas no calienta pero si da vueltas", "87114", "no se")
    before = asked(line)
    line.text(words)
    assert "entiendo" not in line.said
    assert asked(line) not in (None, before)


def test_what_a_check_speaks_of_is_asked() -> None:
    line = told("el dish washer no lava bien los trastes", "todos", "87112", "no")
    assert line.state.asked is not None
    assert line.state.asked.kind == "check_result"
    line.text("que es el sprayer")
    assert "Si tiene dudas" in line.said


@pytest.mark.parametrize("words", ["si dos veces", "si otra vez", "sí, de nuevo"])
def test_a_breaker_that_tripped_again_is_no_repair(words: str) -> None:
    line = told("mi secadora avienta el breaker", "87112")
    assert asked(line) == ("check_result", "reset_double_breaker")
    line.text(words)
    assert line.ticket.open


@pytest.mark.parametrize("words", ["manden a alguien urgente", "no sirvio", "siempre si vengan"])
def test_a_visit_after_all_is_for_the_complaint_that_was_settled(words: str) -> None:
    line = told("mi secadora avienta el breaker", "87112", "ya prende, gracias")
    assert line.ticket.closed == "settled_by_owner"
    line.text(words)
    assert (line.ticket.appliance, line.ticket.symptoms) == ("dryer", {"trips_breaker": True})
    assert asked(line) != ("appliance", None)


def test_a_day_told_of_one_machine_is_the_day_for_both() -> None:
    line = told("la estufa electrica no calienta y la lavadora gotea", "87102", "viernes")
    line.text("1003 2nd st sw")
    line.talk({}, until="offer")
    assert {o.start.day for o in line.ticket.offers} == {4}


@pytest.mark.parametrize("words", ["cualquier dia", "a cualquier hora", "la que sea", "cuando sea"])
def test_any_window_will_do(words: str) -> None:
    line = told("mi lavadora no exprime", "87112", "manden a alguien", "9000 candelara ne", words)
    assert line.ticket.visit is not None


def test_a_window_left_as_it_is_stays() -> None:
    line = told("mi lavadora no exprime", "87112", "manden a alguien", "9000 candelara ne", "1", "Rosario Baca", "no")
    visit = line.ticket.visit
    line.text("puede ser a las 3")
    line.text("no mejor dejela asi")
    assert line.ticket.visit == visit
    assert asked(line) is None


def test_the_burners_are_the_stove_s_top() -> None:
    line = told("mi estufa de gas no prende de arriba")
    assert line.ticket.symptoms == {"burner_dead": True}


@pytest.mark.parametrize("words", ["ya le quite ropa y sigue", "ya lo limpie bien pero sigue"])
def test_what_was_done_and_goes_on_is_no_repair(words: str) -> None:
    line = told("la lavadora brinca mucho", "87106")
    assert asked(line) == ("check_result", "spread_load")
    line.text(words)
    assert line.ticket.checks["spread_load"] == "not_fixed"
