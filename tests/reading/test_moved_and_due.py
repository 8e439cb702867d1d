"""Visits moved and kept, days by which it is to be done, controls held or moved, and names that are no Spanish."""

import pytest

from service.reading.model import Asked, Choice
from service.reading.reader import Reader


@pytest.mark.parametrize(
    "text",
    [
        "need my visit moved to monday",
        "take me off wednesday and put me on friday",
        "friday instead works better for the fridge",
        "cant make the 10am, got called in to work",
        "can the guy come monday instead of today",
        "el viernes en vez de hoy por favor",
    ],
)
def test_a_visit_that_is_to_be_another_time(reader: Reader, text: str) -> None:
    assert reader.read(text).intents == ("reschedule",)


@pytest.mark.parametrize(
    "text",
    [
        "i need the washer going before saturday, it wont spin",
        "ocupo el lavaplatos listo para el sabado, no saca el agua",
        "can somebody come before the 9th, dryer wont heat",
        "fix the oven light wed or thurs? its out",
    ],
)
def test_a_day_by_which_it_is_to_be_done_is_a_wish(reader: Reader, text: str) -> None:
    read = reader.read(text)
    assert {"report_problem", "book"} == {*read.intents}
    assert {"wish", "since"} & {*read.facts} == {"wish"}


@pytest.mark.parametrize("text", ["is anybody coming today? was told between 8 and 10", "still on for 4?"])
def test_who_asks_for_one_who_comes_asks_for_no_other(reader: Reader, text: str) -> None:
    read = reader.read(text)
    assert read.intents == ("ask_status",)
    assert "wish" not in read.facts


@pytest.mark.parametrize(
    ("text", "mended"),
    [
        ("washer leaked all week but its fixed now, thanks", True),
        ("el horno no calentaba pero ya quedo, gracias", True),
        ("the fridge was loud but its working now. dishwasher still leaks", False),
        ("it smelled of gas but its fixed now", False),
    ],
)
def test_a_fault_that_is_over_is_complained_of_no_more(reader: Reader, text: str, *, mended: bool) -> None:
    assert ("report_problem" not in reader.read(text).intents) == mended


@pytest.mark.parametrize(
    ("text", "tried"),
    [
        ("held the reset button 20 seconds, nothing. disposal still dead", ("other",)),
        ("le movi el boton del frio y nada, el refri sigue tibio", ("other",)),
        ("le apague la pastilla un rato y sigue marcando lo mismo la secadora", ("reset_breaker",)),
        ("apague la pastilla porque la secadora hace ruido", None),
        ("I pressed the start button and nothing, dishwasher is dead", None),
    ],
)
def test_a_control_held_or_moved_is_tried(reader: Reader, text: str, tried: tuple[str, ...] | None) -> None:
    assert reader.read(text).facts.get("tried") == tried


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Hi its Dolores from Camino Verde, wheres my tech at", "en"),
        ("La Lavadora No Sirve Y Tira Agua", "es"),
        ("mi washer no sirve and the dryer is dead too, please help", "mixed"),
    ],
)
def test_a_name_tells_no_language(reader: Reader, text: str, language: str) -> None:
    assert reader.read(text).language == language


@pytest.mark.parametrize(
    ("text", "payer"),
    [
        ("I own the house and rent it out, I pay. tenant says stove wont light", "landlord"),
        ("I rent and i pay for it, stove wont light", "tenant"),
        ("dropped the home warranty so id be paying out of pocket. disposal hums", "owner"),
    ],
)
def test_who_lets_a_house_pays_as_its_landlord(reader: Reader, text: str, payer: str) -> None:
    assert reader.read(text).facts.get("payer") == payer


def test_the_last_one_is_a_choice_whatever_follows(reader: Reader) -> None:
    choices = tuple(Choice(value, say) for value, say in (("hum", "A hum"), ("squeal", "A squeal"), ("bang", "A bang")))
    asked = Asked("symptom", appliance="dryer", choices=choices)
    answer = reader.read("the last one, sounds like rocks in there", asked=asked).answer
    assert answer is not None
    assert answer.index == 2
