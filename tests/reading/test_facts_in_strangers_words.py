"""Names, places, makers and what happened, in the words of people who never read our rules."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Good afternoon, Delphine Archuleta, 1409 Mesquite Run, 87114. Dryer squeals", "Delphine Archuleta"),
        ("Tengo una fuga. Beatriz Luján, 4410 Camino Real NW", "Beatriz Luján"),
        ("no enfria el refri. Wendell Tafoya, codigo postal 87107", "Wendell Tafoya"),
        ("oven dead, same as before. Mrs Belarde at 12 Alder Ct", "Belarde"),
        ("Cooks fine, door is loose. Dr. Wen's, 88 Palo Largo", "Wen"),
        ("buen dia les escribe Fidela Griego, la lavadora no exprime", "Fidela Griego"),
        ("hey its marcus apt 6, any news of my part", "marcus"), ("put me back on for friday? Odalys R.", "Odalys R"),
        ("mi mama no textea. soy su hija Yesenia", "Yesenia"), ("this is the tenant Marcus, dryer no heat", "Marcus"),
        ("lives at 19 Juniper Ct, washer. ask for Griselda", "Griselda"), ("call me Beto, my fridge is warm", "Beto"),
        ("me dicen Chuy, la lavadora no exprime", "Chuy"), ("hi its the Hendersons, washer leaking", "Hendersons"),
    ],
)  # fmt: skip
def test_a_name_stands_where_nothing_introduces_it(reader: Reader, text: str, name: str) -> None:
    assert reader.read(text).facts.get("name") == name


@pytest.mark.parametrize(
    "text",
    [
        "soy guitarrista y no puedo lavar, la lavadora no sirve", "Realtor here, the fridge at my listing is warm",
        "ask for parts, the dryer needs one", "call me Monday about my washer", "the dials go by themselves, washer",
        "im the wife and its leaking, the washer", "soy la vecina, su refri no jala",
        "The fridge at Mesa Dental, 40 Frontage Rd is warm",
    ],
)  # fmt: skip
def test_trades_roles_and_shops_are_no_names(reader: Reader, text: str) -> None:
    assert "name" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "address"),
    [
        ("compactador ruidoso. pasen al 215 Loma Parda", "215 Loma Parda"),
        ("la de 77 Placita Seca ay no, otra vez la lavadora", "77 Placita Seca"),
        ("im in the red casita behind 92 Yarrow, washer dead", "92 Yarrow"),
        ("We live at 512 Chamisa. dryer dead", "512 Chamisa"),
        ("nobody lives at 118 Greasewood, house sold", "118 Greasewood"),
        ("mobile home pk, space 31, washer wont spin", "mobile home pk, space 31"),
        ("vivo en el 40 rincon alegre, la lavadora no jala", "40 rincon alegre"),
    ],
)  # fmt: skip
def test_streets_without_a_kind(reader: Reader, text: str, address: str) -> None:
    assert reader.read(text).facts.get("address") == address


@pytest.mark.parametrize(
    "text",
    [
        "oven is set to 350 Bake, still cold", "fridge set to 40 Fahrenheit, milk still warm",
        "the freezer is at 20 Below, all good", "tengo 3 mesas rotas y la estufa no prende",
        "can you come at 10 Monday, washer", "a 25 Cubic Foot fridge, warm",
    ],
)  # fmt: skip
def test_degrees_hours_and_sizes_are_no_streets(reader: Reader, text: str) -> None:
    assert "address" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("no wait not that one. 87106, i mean 87112", "postal_code", "87112"),
        ("el 87121 perdon 87105", "postal_code", "87105"),
        ("no enfria. 3319 Calle del Halcon 87121", "postal_code", "87121"),
        ("5055550142? no es 505-555-0148", "phone", "+15055550148"),
        ("505-555-0142 or my wife 505-555-0143", "phone", "+15055550142"),
    ],
)
def test_the_number_that_is_meant(reader: Reader, text: str, name: str, value: str) -> None:
    assert reader.read(text).facts.get(name) == value


@pytest.mark.parametrize(
    ("text", "brand"),
    [
        ("mi Brandelle de trastes no desagua", "Brandelle"), ("al Kestrino de pared le sale F3", "Kestrino"),
        ("la parrilla de mi marwick de dos puertas se oxido, refri", "marwick"),
        ("destape el cajon de mi Ostrel con un alfiler, lavadora", "Ostrel"),
        ("my Wexcombe is leaking all over, its the washer", "Wexcombe"),
        ("refrigerator, says Vandermoor on it, wont quit running", "Vandermoor"),
        ("both Gellner, the washer and dryer, both dead", "Gellner"),
        ("my compactor, its a Halden & Pike about 20 yrs old", "Halden & Pike"),
        ("washer wont spin. top load, Corrigan, bought used", "Corrigan"),
        ("la maquina de hielo pelgrane no contesta", "pelgrane"), ("es ostrand el refri y no enfria", "ostrand"),
        ("its a pelgrove 3 yrs old and wont spin, washer", "pelgrove"), ("some kinda Wexford thing, washer", "Wexford"),
        ("la Ternova se queda en remojo, es lavadora", "Ternova"),
    ],
)  # fmt: skip
def test_a_maker_behind_mine_says_and_all(reader: Reader, text: str, brand: str) -> None:
    assert reader.read(text).facts.get("brand") == brand


@pytest.mark.parametrize(
    "text",
    [
        "Firehouse dryer takes three rounds", "milkhouse freezer frosts over bad", "la Lupita no esta, la lavadora no sirve",
        "burnt popcorn, anyhow microwave door is loose", "mi nombre es Saturnino Apodaca. La secadora no prende",
        "hey it's Brianna the washer is smelling", "my dryer WX-220 quit", "i brought my Schnauzer, the washer is leaking",
        "we run a lodge out on the Loma and the dryer stopped",
    ],
)  # fmt: skip
def test_places_people_and_animals_are_no_makers(reader: Reader, text: str) -> None:
    assert "brand" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("el ventilador del enfriador de vinos BC-44 no gira", "model", "BC-44"),
        ("the wine cooler (DRK-9) jumps around", "model", "DRK-9"), ("LE on the washer display", "code", "LE"),
        ("the freezer panel says dE though", "code", "DE"),
        ("the fridge gets warmer each day", "pattern", "worsening"),
        ("cada semana tarda más la secadora", "pattern", "worsening"),
        ("siempre a los veinte minutos se para la lavadora", "pattern", "always"),
        ("quit on me three times this week, the washer", "pattern", "sometimes"),
        ("the microwave that i have, el micro que tengo en la mesa, no calienta", "variant", "countertop"),
        ("the dryer hose goes out the window, no heat", "variant", "vented"),
        ("mi parrilla es de las de inducción y no prende", "fuel", "induction"),
    ],
)  # fmt: skip
def test_numbers_habits_and_kinds(reader: Reader, text: str, name: str, value: str) -> None:
    assert reader.read(text).facts.get(name) == value


@pytest.mark.parametrize(
    "text",
    [
        "washer tub has about 6 in of water in it all the time",
        "i run it twice a week, the washer. it leaks",
        "our co alarm went off twice this week",
    ],
)
def test_no_habit_of_the_fault(reader: Reader, text: str) -> None:
    assert "pattern" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "since"),
    [
        ("compactor quits half way. been doing it a couple weeks", "been doing it a couple weeks"),
        ("last few days the dryer squeals", "last few days"),
        ("oven cleaned itself, has not started since", "has not started since"),
        ("rechina el lavaplatos. empezo el jueves", "el jueves"),
        ("no calienta la secadora desde las fiestas", "desde las fiestas"),
        ("mi estufa no prende desde Thanksgiving", "desde Thanksgiving"),
        ("tercera semana con el congelador tibio", "tercera semana con"),
    ],
)  # fmt: skip
def test_since_when(reader: Reader, text: str, since: str) -> None:
    assert reader.read(text).facts.get("since") == since


@pytest.mark.parametrize(
    "text",
    [
        "elk camp starts friday. dryer wont turn on", "llevo dos semanas esperando y la lavadora sin exprimir",
        "is it ok to keep using the oven til thursday? bake is dead", "vengan desde las 9, la lavadora no sirve",
        "washer is slow. Not at home till the 19th", "moved in 3 wks ago: dishwasher wont drain",
    ],
)  # fmt: skip
def test_a_day_that_no_trouble_began_on(reader: Reader, text: str) -> None:
    assert "since" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("we moved in about 2 months ago and the dishwasher wont drain", "moved"),
        ("nos mudamos a un departamento y la secadora no calienta", "moved"),
        ("lo cambiaron de cuarto y ahora el refri zumba", "moved"),
        ("the range was just put in last week and the oven wont heat", "installed"),
        ("apenas la instalaron y ya tira agua la lavadora", "installed"),
        ("the whole block lost power and now the oven clock is dead", "power_outage"),
        ("nos limpiaron el drenaje y ahora el triturador regresa agua", "plumbing_work"),
        ("vinieron a arreglarla y sigue sin exprimir la lavadora", "repair"),
        ("cambiaron la tarjeta y el horno otra vez no prende", "repair"),
    ],
)
def test_what_happened_before(reader: Reader, text: str, after: str) -> None:
    assert after in reader.read(text).facts.get("after", ())


@pytest.mark.parametrize(
    ("text", "tried"),
    [
        ("i soaked the filters in degreaser, hood still no pull", "cleaned_filter"),
        ("la manguera no estaba doblada y no entra agua a la lavadora", "checked_hose"),
        ("made sure the hose wasnt pinched, washer still wont fill", "checked_hose"),
        ("se bota el breaker, lo vuelvo a subir y otra vez, la lavadora", "reset_breaker"),
        ("le di vuelta con la llavecita y no se destraba el triturador", "other"),
        ("lemon peels & ice did zip, disposal stinks", "other"),
        ("disposal drains slow. ran it with hot water, no better", "ran_disposal"),
    ],
)
def test_what_was_tried(reader: Reader, text: str, tried: str) -> None:
    assert tried in reader.read(text).facts.get("tried", ())


@pytest.mark.parametrize(
    "text",
    [
        "oven wont turn off!! i flipped the breaker to kill it", "no matter how many times I press it bake wont start, oven",
        "washer drained the tub fine but wont spin",
    ],
)  # fmt: skip
def test_nothing_was_tried(reader: Reader, text: str) -> None:
    assert "tried" not in reader.read(text).facts


@pytest.mark.parametrize(
    "text",
    [
        "tengo gemelos de dos meses y el refri no enfria", "my niece is 3 weeks old and the fridge is warm",
        "race car down the disposal, the 5 yr old confessed", "45 yrs pipefitter and i cant fix this stove",
        "llevo 20 años de cocinera y esta estufa no prende", "scorch marks from the 2016 owner, dryer bulb is out",
    ],
)  # fmt: skip
def test_ages_of_people_are_none_of_the_machine(reader: Reader, text: str) -> None:
    assert "age_years" not in reader.read(text, this_year=2026).facts


@pytest.mark.parametrize(
    "text",
    [
        "se me pega la corriente si toco la puerta descalza, refri", "is he gonna be there at 9 or closer to 11",
        "el abanico del refri no gira, lo vi con la puerta abierta", "do you have a lockbox guy",
    ],
)  # fmt: skip
def test_no_way_in(reader: Reader, text: str) -> None:
    assert "access" not in reader.read(text).facts


def test_a_gate_to_be_shut_is_a_way_in(reader: Reader) -> None:
    assert reader.read("please shut the gate behind you, the dog gets out").facts.get("access")
