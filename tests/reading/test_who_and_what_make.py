"""Names in small letters, first names that are words, makers nobody listed, units told before the house."""

from __future__ import annotations

import pytest

from service.reading.model import Asked, Choice
from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("ramona gallegos", "ramona gallegos"), ("rosa", "rosa"), ("dolores", "dolores"), ("a nombre de ramona", "ramona"),
        ("its for my mom, dolores baca", "dolores baca"), ("put it in my husbands name, frank chavez", "frank chavez"),
        ("es para mi mamá, dolores baca", "dolores baca"), ("para mi esposo, luis", "luis"), ("will brown", "will brown"),
        ("yes its donna", "donna"), ("ask for walter", "walter"), ("la señora ortiz", "ortiz"),
        ("maria de la cruz", "maria de la cruz"),
        ("Darlene Ortega. one more thing, it also hums", "Darlene Ortega"), ("eufemia please", "eufemia"),
    ],
)  # fmt: skip
def test_a_name_that_was_asked_for_is_kept_however_it_is_written(reader: Reader, text: str, name: str) -> None:
    reading = reader.read(text, asked=Asked("name", "washer"), about="washer")
    assert (reading.facts.get("name"), reading.answer and reading.answer.kind) == (name, "value")


@pytest.mark.parametrize(
    "text",
    [
        "why do you need it", "Later", "nothing", "idk", "monday", "para que", "ok thanks", "not telling u", "Washer",
        "what for",
        "my wife", "mi esposa", "how much", "cuanto cuesta", "cancel it", "can you come earlier", "Later. im busy", "tomorow",
    ],
)  # fmt: skip
def test_what_is_no_name_is_none_though_one_was_asked_for(reader: Reader, text: str) -> None:
    assert "name" not in reader.read(text, asked=Asked("name", "washer"), about="washer").facts


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("this is rosa, my dryer stopped heating", "rosa"), ("soy Beto y mi lavadora no exprime", "Beto"),
        ("hi its ana, washer leaks", "ana"), ("hola soy lupe, mi refri no enfria", "lupe"),
        ("hey its robert uh the dryer", "robert"),
        ("Hi this is Dolores in 87107. my range hood rattles", "Dolores"), ("its mrs armijo about the dryer", "armijo"),
        ("habla socorro, la estufa no prende", "socorro"), ("this is grace and my fridge is warm", "grace"),
    ],
)  # fmt: skip
def test_a_first_name_told_early_is_kept(reader: Reader, text: str, name: str) -> None:
    assert reader.read(text).facts.get("name") == name


@pytest.mark.parametrize(
    "text",
    [
        "its will not start", "its rose gold, the washer", "its pearl white", "its chip broke off", "im sick of this",
        "this is annoying",
        "its probly nothing but it hums", "soy rentera y la lavadora tira agua", "it's dead",
    ],
)  # fmt: skip
def test_words_that_are_names_too_are_none_in_a_sentence(reader: Reader, text: str) -> None:
    assert "name" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "brand"),
    [
        ("es Tolvana", "Tolvana"), ("its a Quandry", "Quandry"), ("quandry i think", "quandry"),
        ("dice Brisela en la puerta", "Brisela"), ("it says tolvana on the door", "tolvana"),
        ("creo que es brisela pero no se", "brisela"), ("its a burnet", "burnet"),
    ],
)  # fmt: skip
def test_a_maker_nobody_listed_is_kept_when_it_was_asked_for(reader: Reader, text: str, brand: str) -> None:
    reading = reader.read(text, asked=Asked("brand", "washer"), about="washer")
    assert (reading.facts.get("brand"), reading.answer and reading.answer.kind) == (brand, "value")


@pytest.mark.parametrize(
    "text",
    ["no idea", "the label is gone", "ni idea no le hayo la marca", "not sure let me look", "no trae marca", "later"],
)
def test_no_maker_told_is_none(reader: Reader, text: str) -> None:
    assert "brand" not in reader.read(text, asked=Asked("brand", "washer"), about="washer").facts


@pytest.mark.parametrize(
    ("text", "brand"),
    [
        ("range is a norvane", "norvane"), ("the compactor says Norvane, my finger got pinched", "Norvane"),
        ("is this covered under my norvane warranty", "norvane"), ("larkspur model 795.51022 not cooling", "larkspur"),
        ("mi lavavajillas larkspur no arranca", "larkspur"), ("my washer is a mess", None), ("la secadora kemo mi ropa", None),
        ("is it under warranty", None), ("ps el micro ya no alumbra", None),
    ],
)  # fmt: skip
def test_a_maker_beside_its_machine(reader: Reader, text: str, brand: str | None) -> None:
    assert reader.read(text).facts.get("brand") == brand


@pytest.mark.parametrize("text", ["theres a swirl in the washer when it drains", "it makes a swirl then nothing"])
def test_a_plain_word_is_not_spelled_apart_into_a_leak(reader: Reader, text: str) -> None:
    reading = reader.read(text, about="washer")
    assert "leak" not in {found.code for found in reading.symptoms}


@pytest.mark.parametrize(
    ("text", "address"),
    [
        ("55 arenal sw", "55 arenal sw"), ("5 Ivy ct", "5 Ivy ct"), ("apt 4 120 corrales", "120 corrales apt 4"),
        ("apt 4, 120 corrales st nw", "120 corrales st nw apt 4"), ("depto 3 1200 calle luna", "1200 calle luna depto 3"),
        ("#7 410 mesa", "410 mesa #7"), ("apt 4", None), ("apt 4 please call 5 pm", None), ("1 is fine", None),
    ],
)  # fmt: skip
def test_an_address_in_the_forms_people_type_it(reader: Reader, text: str, address: str | None) -> None:
    assert reader.read(text, asked=Asked("address", "washer"), about="washer").facts.get("address") == address


@pytest.mark.parametrize(
    ("text", "address"),
    [
        ("55 arenal sw 87105, washer leaks", "55 arenal sw"), ("2210 lead se", "2210 lead se"),
        ("son 3 cargas y la secadora se", None), ("tiene 20 grados y se", None),
    ],
)  # fmt: skip
def test_a_quarter_in_small_letters_unasked(reader: Reader, text: str, address: str | None) -> None:
    assert reader.read(text).facts.get("address") == address


_HEARD = (Choice("runs", "Motor runs"), Choice("hums", "A hum"), Choice("silent", "Nothing"))
_WHERE = (Choice("top", "Top rack"), Choice("bottom", "Bottom rack"))


@pytest.mark.parametrize(
    ("text", "choices", "answer"),
    [
        ("nothing", _HEARD, ("choice", "silent")), ("nothing at all", _HEARD, ("choice", "silent")),
        ("i hear nothing", _HEARD, ("choice", "silent")), ("none of those", _HEARD, ("none", None)),
        ("nothing", _WHERE, ("none", None)), ("ninguna", _WHERE, ("none", None)), ("none of those", _WHERE, ("none", None)),
        ("no", _WHERE, ("no", None)), ("nothing but the top rack", _WHERE, ("choice", "top")),
    ],
)  # fmt: skip
def test_nothing_takes_the_choice_that_says_so_or_none(
    reader: Reader, text: str, choices: tuple[Choice, ...], answer: tuple[str, str | None] | None
) -> None:
    found = reader.read(text, asked=Asked("observation", "dishwasher", "x", choices), about="dishwasher").answer
    assert (found and (found.kind, found.value)) == answer


@pytest.mark.parametrize(
    "text",
    [
        "im like 20 yrs old maybe buy new",
        "its 20 years old maybe i should just get a new one",
        "tiene 20 años, a lo mejor compro otra",
    ],
)
def test_an_age_and_a_thought_of_buying_are_no_yes(reader: Reader, text: str) -> None:
    reading = reader.read(text, asked=Asked("yes_no", "washer", "leak"), about="washer")
    assert (reading.facts.get("age_years"), reading.answer) == (20, None)


@pytest.mark.parametrize("text", ["my landlord pays, his name is Frank Chavez", "call the tenant, her name is rosa"])
def test_somebody_elses_name_is_not_the_customers(reader: Reader, text: str) -> None:
    assert "name" not in reader.read(text).facts
    assert "name" in reader.read(text, asked=Asked("name", "washer")).facts


def test_a_name_tells_nothing_of_a_machine(reader: Reader) -> None:
    assert reader.read("Dana Reyes").symptoms == ()


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("wont spin, its full of water", None), ("it doesnt drain either", None), ("no arranca y tiene agua", None),
        ("wont work for me", "none"), ("no, its leaking bad", "none"), ("any time works, its leaking bad", "either"),
    ],
)  # fmt: skip
def test_what_a_machine_does_not_do_is_no_answer_to_windows(reader: Reader, text: str, kind: str | None) -> None:
    asked = Asked("offer", "washer", offers=("Tue 1 Dec, 8 to 10 am", "Wed 2 Dec, 1 to 3 pm"))
    answer = reader.read(text, asked=asked, about="washer").answer
    assert (answer and answer.kind) == kind


@pytest.mark.parametrize(
    ("text", "wish"),
    [("hmm thursday morning would be lovely", "thursday morning"), ("friday would be perfect", "friday"),
     ("el martes estaria bien", "martes")],
)  # fmt: skip
def test_a_time_praised_is_still_a_wish(reader: Reader, text: str, wish: str) -> None:
    assert reader.read(text, asked=Asked("yes_no", "dryer", "no_turn"), about="dryer").facts.get("wish") == wish
