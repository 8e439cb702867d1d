"""Whether a make is worked on; a machine named in another's place; from when somebody is home; a name is no way in."""

from __future__ import annotations

from datetime import time

import pytest

from tests.journeys.line import Line, told


@pytest.mark.parametrize(
    ("texts", "says"),
    [
        (("do you work on Tervane washers",), "Yes, we work on Tervane."),
        (("my fridge is warm", "do you guys work on ondalux?"), "Yes, we work on Ondalux."),
        (("mi lavadora no prende", "trabajan Coolridge?"), "Claro, trabajamos con Coolridge."),
        (("do you guys service Grellford dishwashers?",), "The office answers that"),
        (("mi lavadora no prende", "arreglan lavadoras Quandry?"), "Eso lo contesta la oficina"),
    ],
)
def test_whether_a_make_is_worked_on_is_answered_from_the_shops_list_or_left_to_the_office(
    texts: tuple[str, ...], says: str
) -> None:
    line = told(*texts)
    assert says in line.said
    assert line.state.asked is not None
    assert line.ticket.open


def test_a_make_on_no_list_is_noted_for_the_office() -> None:
    assert "Grellford" in (told("do you guys service Grellford dishwashers?").ticket.needs_person or "")


@pytest.mark.parametrize("text", ["do you guys work on Zephrine", "its a Zephrine"])
def test_a_make_the_shop_refuses_is_turned_away_without_thanks_and_with_where_to_turn(text: str) -> None:
    line = told("my fridge is warm", text)
    assert line.said.startswith("We don't work on Zephrine. The maker's own service line")
    assert line.ticket.closed == "not_ours"


@pytest.mark.parametrize(
    ("texts", "machine"),
    [
        (("stove burner wont light", "actually its the cooktop"), "cooktop"),
        (("my washer leaks", "nvm its the disposal"), "disposal"),
        (("my washer leaks", "never mind its the dishwasher"), "dishwasher"),
    ],
)
def test_a_machine_named_in_anothers_place_takes_its_complaint(texts: tuple[str, ...], machine: str) -> None:
    line = told(*texts)
    assert [(t.appliance, t.open) for t in line.state.tickets] == [(machine, True)]


@pytest.mark.parametrize("text", ["nvm", "never mind", "nevermind its too expensive"])
def test_never_mind_without_another_machine_calls_it_off(text: str) -> None:
    assert not told("my washer leaks", text).ticket.open


@pytest.mark.parametrize(
    ("texts", "start", "end"),
    [
        (("washer wont drain", "im only free after 5"), time(17), None),
        (("washer wont drain", "i work til 5"), time(17), None),
        (("la lavadora no exprime", "salgo a las 5"), time(17), None),
        (("la lavadora no exprime", "el martes a medio dia"), time(12), None),
    ],
)
def test_from_when_somebody_is_home_is_kept_beside_a_question(
    texts: tuple[str, ...], start: time | None, end: time | None
) -> None:
    line: Line = told(*texts)
    assert line.ticket.wish is not None
    assert (line.ticket.wish.start, line.ticket.wish.end) == (start, end)
    assert line.ticket.observations == {}


def test_a_name_told_once_more_is_no_way_in() -> None:
    line = told("washer wont spin 87110, send someone", "nothing", "12 Sorrel St NE", "1", "Maria Lujan")
    assert line.state.asked is not None
    assert line.state.asked.kind == "access"
    line.text("Maria Lujan")
    assert line.state.contact.access == ()
    line.text("gate code is 0420, dog in the yard")
    assert line.state.contact.access == ("gate code is 0420, dog in the yard",)
