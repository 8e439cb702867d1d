"""Facts and questions in fragments or in one breath: makers in capitals, bare ages, how long, a price asked in a word."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "brand", "age"),
    [
        ("washer wont spin its maybe nine years old Tolmere and i rent", "Tolmere", 9),
        ("wine cooler stays warm two year old Corvenne any evening works", "Corvenne", 2),
        ("hood lights went out and nothing Halmere two years old come around back", "Halmere", 2),
        ("la lavadora no exprime desde el lunes Norvelle de 9 años y es de gas el boiler", "Norvelle", 9),
        ("el lavaplatos no tira es Briselle como de 5 años vivo aqui cerca", "Briselle", 5),
        ("washer walks all over front load Aldenvale i think the shocks are gone", "Aldenvale", None),
        ("a la campana le zumba el motor. Es Ostmere la puso mi suegro", "Ostmere", None),
        ("Dryer squeals. Still squeals. Wexmere, 8. Key under the pot.", "Wexmere", 8),
        ("Compactor. Dead. Aldenvale, 6.", "Aldenvale", 6),
        ("fan still dead in the wall oven. Montivale 3 yrs home warranty claim is open", "Montivale", 3),
    ],
)  # fmt: skip
def test_a_maker_stands_in_capitals(reader: Reader, text: str, brand: str, age: int | None) -> None:
    facts = reader.read(text).facts
    assert (facts.get("brand"), facts.get("age_years")) == (brand, age)


@pytest.mark.parametrize(
    "text",
    [
        "my 5 year old Zayden broke the dishwasher door",
        "washer leaks Zaydena will let you in",
        "washer leaks tell Xiomarita i called",
        "le prendi una veladora a San Judas pa que jale el refri pero no enfria",
        "Es Zaydena la que llama, la lavadora no sirve",
        "dryer wont heat we live behind Quenbyville on the hill",
    ],
)
def test_who_or_where_is_no_maker(reader: Reader, text: str) -> None:
    assert "brand" not in reader.read(text).facts


def test_it_is_so_many_is_an_age_where_it_is_no_temperature(reader: Reader) -> None:
    assert reader.read("Hood rattles. Louder every week. It's 15. Bearing maybe?").facts.get("age_years") == 15
    assert "age_years" not in reader.read("Fridge runs warm. It's 15. Milk is bad.").facts
    assert "age_years" not in reader.read("Range, Tolmere, 5 burner. The light is out.").facts


@pytest.mark.parametrize(
    ("text", "since"),
    [
        ("Gas cooktop. Clicks by itself. Still does it. 3 days. Any day.", "3 days"),
        ("Dishwasher. Plates still soaked. Two weeks. Heater?", "Two weeks"),
        ("Freezer. Ice all over. About 2 months. Price on a gasket?", "About 2 months"),
        ("Wine cooler door sags. No help. Month or so. Thurs or Fri.", "Month or so"),
        ("Congelador. Nunca descansa y no enfria. Un mes asi. Sale caro?", "Un mes asi"),
        ("Maquina de hielo. Igual. Tres semanas. Calle Lirio.", "Tres semanas"),
        ("Horno de pared. Foco nuevo y nada. Hace dias.", "Hace dias"),
        ("Nos cambiamos en mayo. De ahi pa ca la lavadora truena y brinca.", "De ahi pa ca"),
        ("fridge side went warm thursday night milk is sour", "thursday night"),
        ("Oven won't heat. Ran self clean, dead oven Sunday.", "Sunday"),
        ("i defrosted the freezer twice it comes right back started in august", "in august"),
        ("microwave wont heat been this way about a week i figure its the tube", "this way about a week"),
        ("Plumber changed the shutoff Tuesday, been that way after. no ice", "Tuesday"),
        ("la estufa se queda roja aunque la baje. Desde cuaresma esta asi", "Desde cuaresma"),
        ("Double wall oven. No clock, no beep. Lightning Sunday. Dead Monday. I'm retired so any day.", "Monday"),
        ("disposal died wednesday not a sound and i work nights so before ten am is best", "wednesday"),
    ],
)  # fmt: skip
def test_how_long_is_told_in_a_fragment(reader: Reader, text: str, since: str) -> None:
    assert reader.read(text).facts.get("since") == since


@pytest.mark.parametrize(
    "text",
    [
        "I have a new baby. 3 weeks. The fridge is warm",
        "Washer leaks. Puppy here. 8 weeks. He bites",
        "fridge is dead. monday works",
        "fridge dead monday please",
        "Dryer quit. Can I get someone in two weeks?",
        "my fridge freezes the lettuce. Turned it to the warmest setting a week ago and still frozen",
        "la secadora tarda dos horas, el muchacho limpio el ducto desde el techo",
        "freezer thaws turned it colder two days ago and no change",
    ],
)
def test_what_lasts_otherwise_is_no_beginning(reader: Reader, text: str) -> None:
    assert "since" not in reader.read(text).facts


def test_the_day_it_began_is_none_of_the_wish(reader: Reader) -> None:
    read = reader.read("disposal died wednesday not a sound and i work nights so before ten am is best")
    assert read.facts.get("wish") == "before ten am"


@pytest.mark.parametrize(
    "text",
    [
        "Enfriador de vinos. Frio no. Apagado y prendido dos veces. Sigue tibio. Desde el lunes. Precio?",
        "Refri. Enfria bien. Hielo no. Lo desconecte una hora. Igual. Que costo tiene?",
        "Congelador. Nunca descansa. Un mes asi. Sale caro?",
        "Dishwasher. Drains. Dishes still soaked. Two weeks. Heater? Ballpark?",
        "light in the oven is out is that a cheap fix or no",
        "wall oven runs cold is it even worth what you would charge me",
        "washer quit on me yesterday what would you charge me",
    ],
)
def test_a_price_is_asked_in_passing(reader: Reader, text: str) -> None:
    assert "ask_price" in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "my washer wont drain and we have a home warranty that should pay",
        "the stove says E2 and the maker has it under warranty till october",
        "no agarran los botones de la estufa the home warranty paga",
        "refri no enfria 4 años tiene, en garantia ya no esta",
    ],
)
def test_a_warranty_that_pays_is_no_question(reader: Reader, text: str) -> None:
    assert "ask_warranty" not in reader.read(text).intents


def test_a_warranty_is_asked_about(reader: Reader) -> None:
    for text in ("is it still under warranty? fridge is warm", "my dryer is under warranty right? no heat"):
        assert "ask_warranty" in reader.read(text).intents
