"""What else a text states, by wording and by shape."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("my washer is about 7 years old", "age_years", 7),
        ("bought it in 2019", "age_years", 7),
        ("la lavadora tiene como 5 años", "age_years", 5),
        ("bought this dryer 3 years ago", "age_years", 3),
        ("its brand new", "age_years", 0),
        ("model WF45T6000AW", "model", "WF45T6000AW"),
        ("serial number 0AB512345X", "serial", "0AB512345X"),
        ("it says error code F21", "code", "F21"),
        ("la lavadora marca F9 E1", "code", "F9 E1"),
        ("zip is 87110", "postal_code", "87110"),
        ("1423 Mesa St NE apt 4, Albuquerque", "address", "1423 Mesa St NE apt 4"),
        ("call my husband at 505-555-0142", "phone", "+15055550142"),
        ("write to Joe@Example.com", "email", "joe@example.com"),
        ("my name is Carla Ruiz", "name", "Carla Ruiz"),
        ("my landlord pays for it", "payer", "landlord"),
        ("gas dryer not heating", "fuel", "gas"),
        ("top load washer", "variant", "top_load"),
        ("it only leaks sometimes", "pattern", "sometimes"),
        ("leaking since yesterday", "since", "since yesterday"),
        ("my Tervane dishwasher leaks", "brand", "Tervane"),
    ],
)
def test_a_fact_is_found(reader: Reader, text: str, name: str, value: object) -> None:
    assert reader.read(text, this_year=2026).facts.get(name) == value


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("my 8 year old son broke it", "age_years"),
        ("gate code 4521", "code"),
        ("how do i clean the filter", "tried"),
        ("i smell gas", "fuel"),
        ("we have not reset the breaker", "tried"),
        ("takes 45 minutes", "age_years"),
        ("this is annoying", "name"),
        ("12345 problems with this thing", "postal_code"),
    ],
)
def test_what_only_looks_like_a_fact_is_none(reader: Reader, text: str, name: str) -> None:
    assert name not in reader.read(text, this_year=2026).facts


def test_a_year_of_purchase_without_this_year_is_left_alone(reader: Reader) -> None:
    assert "age_years" not in reader.read("bought it in 2019").facts


def test_what_was_tried_and_what_happened_are_kept_as_several(reader: Reader) -> None:
    facts = reader.read("cleaned the filter and checked the hose after the power outage", about="dishwasher").facts
    assert set(facts["tried"]) == {"cleaned_filter", "checked_hose"}
    assert facts["after"] == ("power_outage",)


def test_a_bare_number_is_the_age_only_when_asked(reader: Reader) -> None:
    assert reader.read("10", asked=Asked("age", "washer")).facts["age_years"] == 10
    assert "age_years" not in reader.read("10").facts


def test_a_streets_name_is_no_noise(reader: Reader) -> None:
    reading = reader.read("418 Cholla Wren Ln NE", about="dishwasher")
    assert reading.facts["address"] == "418 Cholla Wren Ln NE"
    assert reading.symptoms == ()
    assert reading.observations == ()


def test_five_digits_alone_are_a_zip_unless_the_plate_was_asked_for(reader: Reader) -> None:
    assert reader.read("80202", asked=Asked("observation", "dishwasher", "suds")).facts == {"postal_code": "80202"}
    assert "postal_code" not in reader.read("80202", asked=Asked("model", "dishwasher")).facts


def test_what_is_said_of_getting_in_is_kept_once(reader: Reader) -> None:
    reading = reader.read("the gate code is 0420, dog in the yard", asked=Asked("access", "dishwasher"))
    assert reading.facts["access"] == ("gate code is 0420, dog in the yard",)


@pytest.mark.parametrize("text", ["a nombre de Lupe", "put it under Lupe", "under Lupe"])
@pytest.mark.parametrize("kind", [None, "name", "offer", "address"])
def test_a_visit_is_put_under_a_name(reader: Reader, text: str, kind: str | None) -> None:
    assert reader.read(text, asked=Asked(kind) if kind else None).facts.get("name") == "Lupe"


@pytest.mark.parametrize("text", ["under the sink", "it leaks under the door", "under Washer"])
def test_what_lies_under_something_is_no_name(reader: Reader, text: str) -> None:
    assert "name" not in reader.read(text).facts


@pytest.mark.parametrize("text", ["501 Garrow SE apt 12", "501 Garrow SE"])
def test_a_quarter_in_capitals_is_part_of_an_address_and_no_spanish(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert reading.facts.get("address") == text
    assert reading.language != "es"


def test_spanish_in_capitals_is_no_address(reader: Reader) -> None:
    reading = reader.read("TIENE 20 DIAS SE APAGA SOLA")
    assert (reading.language, "address" in reading.facts) == ("es", False)


@pytest.mark.parametrize("kind", ["offer", "postal_code", "access"])
@pytest.mark.parametrize("text", ["Dana Reyes", "Lupita Archuleta.", "Teodoro B. Chavez"])
def test_a_name_alone_is_kept_whatever_is_asked(reader: Reader, text: str, kind: str) -> None:
    asked = Asked(kind, "washer", offers=("Tue 8-12", "Wed 1-3"))
    assert reader.read(text, asked=asked, about="washer").facts.get("name") == text.rstrip(".")


@pytest.mark.parametrize("text", ["Thursday Morning", "Ok Thanks", "Gas Range", "Water Heater", "Front Door"])
def test_two_words_with_capitals_are_not_always_a_name(reader: Reader, text: str) -> None:
    asked = Asked("offer", "washer", offers=("Tue 8-12", "Wed 1-3"))
    assert "name" not in reader.read(text, asked=asked, about="washer").facts


def test_a_late_answer_to_an_earlier_question_is_kept(reader: Reader) -> None:
    assert reader.read("electric", asked=Asked("postal_code", "dryer"), about="dryer").facts == {"fuel": "electric"}


def test_one_word_answers_no_question_but_the_one_asked(reader: Reader) -> None:
    assert reader.read("front", asked=Asked("yes_no", "washer", "leak"), about="washer").observations == ()


@pytest.mark.parametrize(
    "text",
    [
        "1200 Invented Rd NE, Dana Reyes",
        "Dana Reyes 1200 Invented Rd NE 87106",
        "Dana Reyes, 1200 Invented Rd NE 87106",
    ],
)
def test_a_name_beside_the_address_is_kept(reader: Reader, text: str) -> None:
    facts = reader.read(text, asked=Asked("address", "washer"), about="washer").facts
    assert facts.get("name") == "Dana Reyes"
    assert str(facts["address"]).startswith("1200 Invented Rd NE")


def test_an_address_alone_names_nobody(reader: Reader) -> None:
    facts = reader.read("4410 Sombra Azul Ct 87112", asked=Asked("address", "washer"), about="washer").facts
    assert "name" not in facts
