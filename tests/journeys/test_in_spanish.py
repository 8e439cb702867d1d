"""Whole conversations in Spanish as it is texted: visits moved and called off, two machines, the water shut off, danger."""

from __future__ import annotations

from datetime import date, timedelta
from zoneinfo import ZoneInfo

import pytest

from tests.journeys.line import Line

ZONE = ZoneInfo("America/Denver")
TODAY = date(2026, 12, 1)


def offered(first: str = "mi lavadora no exprime, manden a alguien") -> Line:
    """A line on which windows stand open."""
    line = Line()
    line.text(first)
    line.text("123 Ivy ct 87110")
    line.talk({}, until="offer")
    return line


def booked() -> Line:
    """A line on which a visit stands today from 1 to 3."""
    line = offered()
    line.text("1")
    line.text("Rosa Baca")
    line.text("no")
    assert line.day_of_visit() == TODAY
    return line


def days(line: Line) -> set[date]:
    """The days on offer."""
    return {o.start.astimezone(ZONE).date() for o in line.ticket.offers}


# A visit that stands


@pytest.mark.parametrize(
    "words",
    [
        "ocupo cambiarla",
        "hoy no puedo",
        "se puede otro dia",
        "mejor la otra semana",
        "oiga hoy no voy a estar",
        "mejor el jueves",
    ],
)
def test_another_time_is_wanted(words: str) -> None:
    line = booked()
    line.text(words)
    assert line.state.asked is not None
    assert line.state.asked.kind == "offer"
    assert line.book.visit not in line.cancelled


@pytest.mark.parametrize(
    "words", ["siempre no", "cancelela", "oiga siempre no, mi cuñado la revisó", "no, siempre no, gracias"]
)
def test_it_is_called_off_after_a_yes(words: str) -> None:
    line = booked()
    line.text(words)
    assert line.state.asked is not None
    assert (line.state.asked.kind, line.state.asked.code) == ("confirm", "cancel")
    line.text("si por favor")
    assert len(line.cancelled) == 1


@pytest.mark.parametrize("words", ["mejor llámenme", "mejor llameme", "prefiero que me marquen"])
def test_a_call_is_wanted_and_nothing_is_closed(words: str) -> None:
    for line in (booked(), offered()):
        line.text(words)
        assert line.ticket.open
        assert line.alarms[-1].kind == "person"


@pytest.mark.parametrize("words", ["siempre no enfría", "siempre no se me quiere prender"])
def test_what_never_works_calls_nothing_off(words: str) -> None:
    line = booked()
    line.text(words)
    assert line.state.asked is None or line.state.asked.kind != "confirm"


def test_a_question_the_line_cannot_answer_goes_to_a_person_while_a_visit_stands() -> None:
    line = booked()
    assert line.text("les puedo dejar la troca estacionada en la entrada?")
    assert line.alarms[-1].kind == "person"


# Windows on offer


@pytest.mark.parametrize("words", ["mañana no puedo", "tomorrow i can't", "mañana tengo que salir"])
def test_a_day_that_will_not_do_closes_nothing_and_is_not_offered(words: str) -> None:
    line = offered()
    line.text(words)
    assert line.ticket.open
    assert days(line)
    assert TODAY + timedelta(days=1) not in days(line)


def test_days_ruled_out_one_after_another_stay_out() -> None:
    line = offered()
    for words in ("hoy no puedo", "mañana no", "el viernes tampoco"):
        line.text(words)
    assert days(line)
    assert not {TODAY, TODAY + timedelta(days=1), TODAY + timedelta(days=3)} & days(line)


def test_what_only_rules_a_day_out_leaves_the_week_that_was_asked_for() -> None:
    line = offered()
    line.text("mejor la otra semana")
    line.text("el lunes no")
    assert min(days(line)) == date(2026, 12, 8)


def test_a_day_ruled_out_and_then_asked_for_is_offered() -> None:
    line = offered()
    line.text("el jueves no")
    line.text("bueno, si puedo el jueves")
    assert days(line) == {date(2026, 12, 3)} or line.ticket.visit is not None


def test_thanks_for_the_one_window_are_asked_about_once_more() -> None:
    line = booked()
    line.text("ocupo cambiarla")
    line.text("el jueves en la mañana")
    assert line.text("gracias muy amable")
    line.text("si")
    assert line.day_of_visit() == date(2026, 12, 3)


def test_siempre_no_to_windows_ends_it() -> None:
    line = offered()
    line.text("siempre no")
    assert not line.ticket.open


# Two machines


@pytest.mark.parametrize("words", ["la lavadora ya quedó", "ya jala la lavadora", "the washer works now"])
def test_only_the_machine_that_is_named_is_settled(words: str) -> None:
    line = Line()
    line.text("la secadora no calienta y la lavadora no exprime")
    line.text(words)
    closed = {t.appliance: t.closed for t in line.state.tickets}
    assert closed == {"dryer": None, "washer": "settled_by_owner"}
    assert line.state.asked is not None
    assert line.state.asked.ticket == line.ticket.key


def test_a_machine_nobody_complained_of_settles_nothing() -> None:
    line = Line()
    line.text("la secadora no calienta")
    line.text("la lavadora ya quedó")
    assert line.ticket.open


def test_the_visit_for_two_machines_stands_when_one_works() -> None:
    line = offered("la secadora no calienta y la lavadora no exprime, manden a alguien")
    line.text("1")
    line.text("la lavadora ya quedó")
    assert {t.appliance: t.open for t in line.state.tickets} == {"dryer": True, "washer": False}
    assert line.book.visit not in line.cancelled


@pytest.mark.parametrize(
    "words", ["se me descompusieron la lavadora y la secadora el mismo dia", "my washer and dryer both quit"]
)
def test_what_is_said_of_both_is_a_complaint_of_both_and_the_question_says_which(words: str) -> None:
    line = Line()
    line.text(words)
    assert {t.appliance for t in line.state.tickets if t.open} == {"washer", "dryer"}
    assert any(f"{name}: " in line.said for name in ("Lavadora", "Secadora", "Washer", "Dryer"))


def test_each_sign_goes_to_its_machine_though_one_was_asked_about() -> None:
    line = Line()
    line.text("se me descompusieron la lavadora y la secadora el mismo dia")
    line.text("la lavadora no exprime y la secadora no prende")
    held = {t.appliance: {c for c, said in t.symptoms.items() if said} for t in line.state.tickets}
    assert held == {"washer": {"no_spin"}, "dryer": {"dead"}}


# Said already


@pytest.mark.parametrize(
    ("words", "told"),
    [("ya le cerre la llave", False), ("i shut off the water", False), ("no le pude cerrar, no cerre la llave", True)],
)
def test_who_has_shut_the_water_off_is_not_told_to(words: str, told: bool) -> None:
    line = Line()
    line.text("mi lavaplatos tira agua al piso")
    line.text(words)
    line.text("12 Ivy ct 87110")
    line.talk({}, until="offer")
    line.text("1")
    assert ("llave de agua" in line.said or "water valve" in line.said) is told


def test_a_landmark_is_no_business() -> None:
    line = Line()
    line.text("mi refrigerador no enfria")
    line.text("vivo por donde esta la iglesia, enfrente del restaurante")
    assert line.ticket.open
    assert "use" not in line.ticket.facts
    line.text("es el refri del restaurante")
    assert line.ticket.facts.get("use") == "commercial"


def test_the_words_of_a_choice_are_no_complaint_of_their_own() -> None:
    line = Line()
    line.text("mi lavadora no exprime")
    line.text("un zumbido")
    assert {c for c, said in line.ticket.symptoms.items() if said} == {"no_spin"}


def test_who_goes_to_look_is_waited_for() -> None:
    line = Line()
    line.text("mi lavadora no exprime")
    standing = line.state.asked
    assert line.text("deje reviso") == ["Bueno. Me avisa qué pasa."]
    assert standing is not None
    assert line.state.asked is not None
    assert line.state.asked.code == standing.code


# Language


@pytest.mark.parametrize(
    "words",
    [
        "1423 Mesa St NE, Albuquerque NM 87110",
        "The Meadows Apartments 2300 Carwell Blvd NE #114, 87110",
        "87110",
        "Apt 4B back door",
        "Model WRS325",
        "505-555-0177",
    ],
)
def test_a_street_or_a_number_keeps_the_language(words: str) -> None:
    line = Line()
    line.text("la lavadora no exprime")
    line.text(words)
    assert line.state.language == "es"


def test_a_sentence_in_the_other_language_changes_it() -> None:
    line = Line()
    line.text("la lavadora no exprime")
    line.text("sorry, I meant the washer does not spin at all")
    assert line.state.language == "en"


# Danger


def test_a_gas_smell_is_followed_in_spanish_to_the_end() -> None:
    line = Line()
    line.text("oiga me huele a gas por la estufa desde en la mañana")
    line.text("ya abri las ventanas y le cerre la llave")
    assert "Salgan" in line.said, "what they did is not what the instruction asks for"
    line.text("estamos afuera todos y ya le marque a la compañia de gas")
    assert "Salgan" not in line.said
    line.text("dice el del gas que ya esta bien, que era un tubo de la estufa")
    assert "Salgan" not in line.said
    line.text("pero todavia huele a gas")
    assert line.said.startswith("PELIGRO: Salga ya"), "told as still so: the whole instruction again"
