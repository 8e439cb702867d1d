"""A question answers nothing: it is neither a yes nor one of the choices."""

from __future__ import annotations

import pytest

from service.reading.bulk import LineMistaken, read_line
from service.reading.model import Asked, Choice
from service.reading.reader import Reader

SOUND = Asked(
    "observation", appliance="washer", code="spin_sound", choices=(Choice("runs", "Motor runs"), Choice("hum", "A hum"))
)


@pytest.mark.parametrize(
    "text",
    [
        "do you work on that brand", "what do you mean", "why does that matter", "why do you need my address",
        "how do i check that", "when can you come", "qué día pueden venir", "por qué quiere saber", "tienen garantía",
    ],
)  # fmt: skip
@pytest.mark.parametrize("asked", [Asked("yes_no", appliance="washer", code="suds"), SOUND])
def test_a_question_is_no_yes_and_no_choice(reader: Reader, text: str, asked: Asked) -> None:
    answer = reader.read(text, asked=asked, about="washer").answer
    assert answer is None or answer.kind in ("no", "dont_know", "declined"), answer


@pytest.mark.parametrize("text", ["yes, why do you ask", "when it spins, yes", "sí, por qué"])
def test_a_yes_beside_a_question_is_a_yes(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=Asked("yes_no", appliance="washer", code="suds"), about="washer").answer
    assert answer is not None
    assert answer.kind == "yes"


@pytest.mark.parametrize("text", ["can you fix it or not", "do you fix furnaces?", "can somebody fix it today"])
def test_asking_for_a_repair_is_no_news_that_it_is_repaired(reader: Reader, text: str) -> None:
    assert "fixed" not in reader.read(text, about="dryer").intents


@pytest.mark.parametrize("text", ["my husband fixed it", "its fixed now", "fixed it, thanks"])
def test_a_repair_that_is_done_is_news(reader: Reader, text: str) -> None:
    assert "fixed" in reader.read(text, about="dryer").intents


RESULT = Asked("check_result", appliance="dryer", code="vent_check")


@pytest.mark.parametrize(
    "text",
    [
        "ok so what time do you come",
        "and is it ok to run it?",
        "that definitely matters?",
        "is it fixed?",
        "did it work?",
    ],
)
def test_a_question_never_settles_a_check(reader: Reader, text: str) -> None:
    reading = reader.read(text, asked=RESULT, about="dryer")
    assert reading.answer is None
    assert "fixed" not in reading.intents


@pytest.mark.parametrize("text", ["can you come anytime?", "could any of you come"])
def test_asking_when_somebody_could_come_takes_no_window(reader: Reader, text: str) -> None:
    asked = Asked("offer", "dryer", offers=("Thu 26 Nov, 8 to 10 am", "Thu 26 Nov, 1 to 3 pm"))
    assert reader.read(text, asked=asked, about="dryer").answer is None


BEGAN = (
    Choice("slow", "Little by little"),
    Choice("sudden", "From one day to the next"),
    Choice("moved", "Since we moved"),
)
SIDES = (Choice("front", "At the front"), Choice("back", "At the back"))


@pytest.mark.parametrize(
    "text", ["que dia pueden venir", "what day was it you said", "where is the front desk of yours"]
)
def test_the_small_words_of_a_question_pick_no_choice(reader: Reader, text: str) -> None:
    for choices in (BEGAN, SIDES):
        asked = Asked("observation", "dryer", "how_began", choices)
        answer = reader.read(text, asked=asked, about="dryer").answer
        assert answer is None or answer.kind != "choice"


@pytest.mark.parametrize(("text", "value"), [("front, why?", "front"), ("the back?", "back"), ("why? back", "back")])
def test_a_choice_stated_beside_a_question_is_taken(reader: Reader, text: str, value: str) -> None:
    answer = reader.read(text, asked=Asked("observation", "washer", "leak_where", SIDES), about="washer").answer
    assert answer is not None
    assert (answer.kind, answer.value) == ("choice", value)


@pytest.mark.parametrize(
    ("text", "value"), [("the washer first", "washer"), ("primero la secadora", "dryer"), ("first", "dryer")]
)
def test_the_choice_that_is_named_goes_before_the_place_it_has(reader: Reader, text: str, value: str) -> None:
    machines = (Choice("dryer", "Dryer / secadora"), Choice("washer", "Washer / lavadora"))
    answer = reader.read(text, asked=Asked("appliance", choices=machines)).answer
    assert answer is not None
    assert answer.value == value


@pytest.mark.parametrize(
    ("text", "taken"), [("the vent was cleaned last month", False), ("it has no vent at all", True)]
)
def test_a_choice_that_denies_is_taken_by_a_denial_alone(reader: Reader, text: str, taken: bool) -> None:
    choices = (Choice("strong", "Strong"), Choice("weak", "Weak"), Choice("ventless", "No vent on this dryer"))
    answer = reader.read(text, asked=Asked("observation", "dryer", "air_outside", choices), about="dryer").answer
    assert (answer is not None and answer.value == "ventless") is taken


SOUND = (Choice("hum", "Un zumbido"), Choice("clicks", "Clics"), Choice("none", "Nada"))
SOUND_EN = (Choice("hum", "A hum"), Choice("clicks", "Clicks"), Choice("none", "Nothing"))
FROST = (
    Choice("walls", "Grueso en paredes o parrillas"), Choice("back", "Pared de atrás (vertical)"), Choice("none", "No hay"),
)  # fmt: skip


@pytest.mark.parametrize(
    ("text", "choices", "value"),
    [
        ("nada", SOUND, "none"),
        ("no, nada", SOUND, "none"),
        ("nothing", SOUND, "none"),
        ("nothing", SOUND_EN, "none"),
        ("nada", SOUND_EN, "none"),
        ("no hay", FROST, "none"),
        ("en las paredes", FROST, "walls"),
        ("en la pared de atrás", FROST, "back"),
    ],
)
def test_a_choice_is_taken_by_all_its_words_or_their_very_form(
    reader: Reader, text: str, choices: tuple[Choice, ...], value: str
) -> None:
    answer = reader.read(text, asked=Asked("observation", "washer", "drive_sound", choices), about="washer").answer
    assert answer is not None
    assert answer.value == value


@pytest.mark.parametrize("text", ["nada de eso", "no", "no clicks"])
def test_a_denial_that_says_more_or_less_takes_no_choice(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=Asked("observation", "washer", "drive_sound", SOUND_EN), about="washer").answer
    assert answer is None or answer.kind != "choice"


@pytest.mark.parametrize("text", ["ya le cerre la llave", "i shut the water valve", "ya está cerrada la llave"])
def test_what_was_shut_names_no_place(reader: Reader, text: str) -> None:
    choices = (Choice("door", "Por la puerta"), Choice("tap", "De la tapita junto a la llave / by the water valve"))
    answer = reader.read(
        text, asked=Asked("observation", "dishwasher", "leak_where", choices), about="dishwasher"
    ).answer
    assert answer is None or answer.kind != "choice"


@pytest.mark.parametrize("text", ["87112, 11200 Lomas ne", "zip 87112 11200 Lomas ne"])
def test_a_zip_told_before_the_street_is_no_part_of_it(reader: Reader, text: str) -> None:
    facts = reader.read(text, asked=Asked("address", code="zip")).facts
    assert (facts.get("address"), facts.get("postal_code")) == ("11200 Lomas ne", "87112")


@pytest.mark.parametrize("text", ["i will call you back", "gotta go, will text u tonight", "luego le llamo"])
def test_who_will_call_later_answers_nothing(reader: Reader, text: str) -> None:
    reading = reader.read(text, asked=Asked("yes_no", "dryer", "no_heat"), about="dryer")
    assert (reading.answer, reading.intents) == (None, ("thanks",))


def test_who_asks_how_has_not_refused_the_check(reader: Reader) -> None:
    reading = reader.read("i didnt check breaker how do i do that", asked=RESULT, about="dryer")
    assert (reading.answer, reading.intents) == (None, ("ask_help",))


@pytest.mark.parametrize("text", ["yes send someone", "yeah just send somebody", "ok send someone"])
def test_a_yes_to_a_danger_counts_however_it_is_said(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=Asked(kind="yes_no", code="gas_smell"), about="range").answer
    assert answer is not None
    assert answer.kind == "yes"


def test_an_impatient_yes_before_a_visit_is_none_to_a_symptom(reader: Reader) -> None:
    answer = reader.read("yeah just send somebody", asked=Asked(kind="yes_no", code="leak"), about="washer").answer
    assert answer is None or answer.kind == "declined"


@pytest.mark.parametrize(
    ("text", "raised"),
    [
        ("a little maybe, cant really tell w my cold", True),
        ("not sure", True),
        ("quien sabe", True),
        ("no maybe its the neighbors", False),
        ("no", False),
    ],
)
def test_who_cannot_say_that_a_danger_is_not_there_is_taken_at_it(reader: Reader, text: str, raised: bool) -> None:
    about = {"appliance": "dryer", "code": "burning_smell"}
    line = read_line(reader, {"id": "1", "text": text, "asked": "yes_no", "about": about})
    assert [h["code"] for h in line["hazards"]] == (["burning_smell"] if raised else [])


@pytest.mark.parametrize("text", ["just send someone", "just come please", "solo manden a alguien por favor"])
def test_a_small_word_of_a_choice_does_not_take_it(reader: Reader, text: str) -> None:
    choices = (Choice("hot", "Hot"), Choice("warm", "Just warm"), Choice("cold", "Cold"))
    answer = reader.read(text, asked=Asked("observation", "dryer", "feels_hot", choices), about="dryer").answer
    assert answer is None or answer.kind != "choice"
    taken = reader.read("just warm", asked=Asked("observation", "dryer", "feels_hot", choices), about="dryer").answer
    assert taken is not None
    assert taken.value == "warm"


def test_a_text_without_words_takes_the_conversations_language(reader: Reader) -> None:
    line = {"id": "1", "text": "87106", "asked": "postal_code"}
    assert read_line(reader, line)["language"] == "en"
    assert read_line(reader, line | {"language": "es"})["language"] == "es"
    assert read_line(reader, line | {"text": "the 87106", "language": "es"})["language"] == "en"
    with pytest.raises(LineMistaken, match="language"):
        read_line(reader, line | {"language": "fr"})
