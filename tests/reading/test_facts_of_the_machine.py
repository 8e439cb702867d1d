"""What machine it is: its age in many forms, makers nobody listed, numbers, codes as displays show them, fuel and kind."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "age"),
    [
        ("its a 2015 dryer", 11), ("fridge from '09", 17), ("came with the house 2011, washer", 15),
        ("purchased march 2019 the range", 7), ("oven's 12", 12), ("dryer is 9 and squeals", 9),
        ("la lavadora tiene 7, no exprime", 7), ("el horno lo pusieron en 2016", 10),
        ("la estufa ya tiene treinta y cinco años", 35), ("washer is sixteen years old no wait eighteen", 18),
        ("la secadora tiene 5 años, digo, 6", 6), ("half a year old washer stopped", 0.5),
        ("compramos el refri hace año y medio", 1.5), ("it must be a good twenty five years", 25),
        ("8 yrs of service on this range", 8), ("freezer's ancient, like 25", 25), ("stove older than me and im 40", 40),
        ("got it used 3 yrs back, dryer", 3), ("washer - 10+ years", 10), ("dryer 2-3 years old", 2.5),
        ("fridge, 18 months old", 1.5), ("our ten year old dryer squeals", 10), ("ya lleva 8 años con nosotros la lavadora", 8),
        ("bought in nineteen ninety five, range", 31), ("I've had this washer for 11 years", 11),
        ("tenemos la secadora desde 2012", 14), ("dryer bought about six months ago", 0.5),
    ],
)  # fmt: skip
def test_an_age_is_heard_however_it_is_told(reader: Reader, text: str, age: float) -> None:
    assert reader.read(text, this_year=2026).facts.get("age_years") == age


@pytest.mark.parametrize(
    "text",
    [
        "my 3 yr old shoved a toy in the disposal", "we've lived here 12 years and the washer leaks",
        "5 year warranty on the fridge?", "washer has leaked for 2 years", "im 80 years old and my dryer quit",
        "mi mama tiene 84 años y no enfria el refri", "new pump put in 2 years ago on the washer, leaks again",
        "washer making noise 3 months", "fridge is 50 degrees", "oven is 12 degrees off",
        "hace 2 años que no enfria bien el congelador", "the house is 40 years old, dishwasher leaks",
        "neighbor got a new one 4 years ago", "customer of yours for 15 years, dryer dead",
        "hose is 10 years old on the washer",
        "you fixed it in 2021 and its leaking again washer", "tengo 3 años rentando aqui, la estufa no prende",
        "apt built in 1998, range dead", "first time in ten years the dryer quit", "2019 Mesa St, washer leaks",
        "la lavadora lleva 2 semanas sin jalar", "brand new rug is soaked, dishwasher leaks",
    ],
)  # fmt: skip
def test_years_of_something_else_are_no_age(reader: Reader, text: str) -> None:
    assert "age_years" not in reader.read(text, this_year=2026).facts


@pytest.mark.parametrize(
    ("text", "brand"),
    [
        ("Washer is dead. Kestrin, 9 yrs", "Kestrin"), ("dryer no heat, Pellmark PD-220", "Pellmark"),
        ("tag says Oakhaven. washer wont spin", "Oakhaven"), ("mfr Zolvane, dishwasher leaks", "Zolvane"),
        ("kestrin is the make, dryer", "kestrin"), ("its a little Dovecote wine cooler, hums", "Dovecote"),
        ("30in Pellmark range", "Pellmark"), ("name on it is Kestrin, fridge warm", "Kestrin"),
        ("mi horno empotrado varnholt no prende", "varnholt"), ("refri Varnholt de 5 años no enfria", "Varnholt"),
        ("dice Oakhaven en la puerta, la lavadora no exprime", "Oakhaven"), ("front loader, Nordella, 7 yrs", "Nordella"),
        ("range hood, fan dead, Tamerlane", "Tamerlane"), ("fabricante Kestrin, lavadora", "Kestrin"),
        ("gas Pellmark range, Corvine Rd", "Pellmark"), ("mine's a Varnholt, the washer", "Varnholt"),
    ],
)  # fmt: skip
def test_a_maker_nobody_listed_is_known_by_where_it_stands(reader: Reader, text: str, brand: str) -> None:
    assert reader.read(text).facts.get("brand") == brand


@pytest.mark.parametrize(
    ("text", "brand"),
    [
        ("not Kestrin, Varnholt", "Varnholt"), ("Kestrin? no wait thats the dryer. Pellmark", "Pellmark"),
        ("v a r n h o l t", "varnholt"), ("sabe, pero mi hija dice que Kestrin", "Kestrin"), ("creo que kestrin", "kestrin"),
        ("It says Kestrin on the front. The old one was a Varnholt.", "Kestrin"), ("la etiqueta ya ni se lee", None),
    ],
)  # fmt: skip
def test_the_maker_that_was_asked_for(reader: Reader, text: str, brand: str | None) -> None:
    assert reader.read(text, asked=Asked("brand", "washer"), about="washer").facts.get("brand") == brand


@pytest.mark.parametrize(
    "text",
    [
        "Hi, this is Okafor, my washer leaks", "washer leaks. Thanks, Delphine", "Mr. Abeyta here, dryer squeals",
        "washer leak, 1190 Sagewheel Dr, Corrales", "my washer in Corrales leaks", "im at Pinewood Manor, unit 4, washer dead",
        "washer goes clunkity, then stops", "dryer smells skunky, weirdly", "mi lavadora tiembla feisimo",
        "la estufa horita no prende", "el refri de mi comadre Ofelia no enfria", "we make cornbread in the oven and its slow",
    ],
)  # fmt: skip
def test_names_places_and_odd_words_are_no_makers(reader: Reader, text: str) -> None:
    assert "brand" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("compactor. Kestrin TC15. hums", "model", "TC15"), ("elec slide in range, Pellmark DR-30E", "model", "DR-30E"),
        ("microwave dead. Serial off the door frame: QZ-5501183", "serial", "QZ-5501183"),
        ("washer error dL wont open", "code", "DL"), ('dryer stops with "CL" on the screen', "code", "CL"),
        ("fridge blinking 22 E", "code", "22 E"), ("dishwasher says LOC and wont start", "code", "LOC"),
        ("la lavadora marca Er 5", "code", "ER 5"), ("aparece dE2 en la lavadora", "code", "DE2"),
        ("dice d80 en la pantalla de la secadora", "code", "D80"), ("me sale 'OE' en la lavadora", "code", "OE"),
        ("the stove clock says F dash one zero", "code", "F-10"), ("oven shows F3 E1", "code", "F3 E1"),
    ],
)  # fmt: skip
def test_numbers_and_codes_as_they_are_shown(reader: Reader, text: str, name: str, value: str) -> None:
    assert reader.read(text).facts.get(name) == value


@pytest.mark.parametrize(
    "text",
    [
        "husband says NO to a new washer", "mi freezer marca 20 y debe marcar 0", "the display says OFF on my oven",
        "GFCI trips when washer runs", "washer is in unit 22 E, leaks", "says OK but nothing, dryer",
        "oven shows 350 but its cold",
    ],
)  # fmt: skip
def test_words_and_temperatures_are_no_codes(reader: Reader, text: str) -> None:
    assert "code" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "fuel"),
    [
        ("dryer wont heat, its gas", "gas"), ("Dryer. Electric. No heat", "electric"), ("stove clicks, gas i believe", "gas"),
        ("range (electric) tripping", "electric"), ("la estufa no prende, de gas", "gas"), ("oven wont bake, elec", "electric"),
        ("cooktop the induction kind wont find the pan", "induction"), ("horno, electrico, no prende", "electric"),
        ("i smell it by the stove, gas", None), ("the stove is fine but my electric bill is high", None),
        ("freezer dead, we are the old propane place", None), ("dishwasher dead. electric checked", None),
    ],
)  # fmt: skip
def test_a_fuel_whose_word_stands_apart(reader: Reader, text: str, fuel: str | None) -> None:
    assert reader.read(text).facts.get("fuel") == fuel


@pytest.mark.parametrize(
    ("text", "fuel"),
    [("240 plug", "electric"), ("the flame kind", "gas"), ("no gas here, electric", "electric"), ("not electric, gas", "gas"),
     ("de lumbre", "gas"), ("con clavija de 220", "electric"), ("idk", None)],
)  # fmt: skip
def test_the_fuel_that_was_asked_for(reader: Reader, text: str, fuel: str | None) -> None:
    assert reader.read(text, asked=Asked("fuel", "range"), about="range").facts.get("fuel") == fuel


@pytest.mark.parametrize(
    ("text", "variant"),
    [
        ("lavadora de las que abren por enfrente", "front_load"), ("agitator type washer", "top_load"),
        ("micro over the stove dead", "over_the_range"), ("microwave drawer stuck", "built_in"), ("vented gas dryer", "vented"),
        ("come to the side door, the front one sticks, fridge warm", None), ("i cleaned the vent to the roof, dryer", None),
    ],
)  # fmt: skip
def test_a_kind_is_only_of_the_machine_that_has_it(reader: Reader, text: str, variant: str | None) -> None:
    assert reader.read(text).facts.get("variant") == variant
