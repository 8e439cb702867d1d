"""What people want by their words as a whole, beside the wordings that rules name."""

from __future__ import annotations

import pytest

from service.reading.aims.wanting import NOT_WANTED, WANTED, Wanted, Wanting
from service.reading.model import Asked
from service.reading.opinion.second_opinion import NOTHING, SecondOpinion, Taught
from service.reading.reader import Reader
from service.reading.words.matching import Hit
from service.reading.words.normalising import Words
from tests.reading.score import demo_reader

TAUGHT = [Taught(*one) for one in [
    ("please call the whole thing off", "cancel"), ("call it off please", "cancel"), ("call off the visit", "cancel"),
    ("let us call it off", "cancel"), ("what is this going to run me", "ask_price"), ("how much does it run", "ask_price"),
    ("what do i owe for this", "ask_price"), ("the washer will not drain", NOTHING), ("it runs and runs", NOTHING),
    ("water on the floor of the kitchen", NOTHING), ("the call light will not go off", NOTHING),
]]  # fmt: skip
INTENTS = ("ask_price", "cancel")


@pytest.fixture(scope="module")
def wanting() -> Wanting:
    return Wanting(SecondOpinion(TAUGHT), INTENTS)


@pytest.fixture(scope="module")
def reader() -> Reader:
    return demo_reader()


def words(reader: Reader, text: str) -> Words:
    return reader.hearer.normaliser.words(text).words


def test_the_words_as_a_whole_say_what_no_wording_does(wanting: Wanting, reader: Reader) -> None:
    wanted = wanting.weighed({}, words(reader, "so please call the visit off"), None)
    assert wanted.intents == ("cancel",)
    (note,) = wanted.notes
    assert note.startswith(f"{WANTED} cancel (weighed ")
    assert "“call" in note


def test_a_wording_that_the_words_speak_against_is_not_believed(wanting: Wanting, reader: Reader) -> None:
    worded = {"cancel": Hit(0, 1, None, 0, 0)}
    wanted = wanting.weighed(
        worded, words(reader, "the washer will not drain, water on the floor of the kitchen"), None
    )
    assert wanted.intents == ()
    assert wanted.notes == (f"{NOT_WANTED} cancel: so people say something else.",)


@pytest.mark.parametrize(
    ("text", "asked"),
    [("call it off", None), ("please call it off", Asked("age")), ("", None), ("never heard words before", None)],
)
def test_too_little_to_weigh_leaves_it_to_the_wordings(
    wanting: Wanting, reader: Reader, text: str, asked: Asked | None
) -> None:
    worded = {"ask_price": Hit(0, 1, None, 0, 0)}
    assert wanting.weighed(worded, words(reader, text), asked) == Wanted(worded)


def test_an_intent_is_worded_once(wanting: Wanting) -> None:
    hit = Hit(0, 1, None, 0, 0)
    wanted = Wanted({}, ("not_fixed", "book"))
    assert wanted.with_wording("not_fixed", hit).intents == ("not_fixed", "book")
    assert Wanted({"book": hit}).with_wording("book", hit).worded == {"book": hit}


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("the window was eight to ten and it is past eleven, where is your man", "ask_status"),
        ("turns out my nephew could mend the dryer so there is no need for you folks any more", "cancel"),
        ("wednesday got complicated on my end, the day after would suit me far better", "reschedule"),
        ("that compressor you put in, is it covered if it quits on me again", "ask_warranty"),
        ("what am i looking at money wise for a new door gasket on the freezer", "ask_price"),
        ("se me complico el martes, mejor el viernes si no hay problema", "reschedule"),
        ("ya la arreglo mi cuñado, no hace falta que manden a nadie, gracias", "cancel"),
        ("mas o menos de cuanto estariamos hablando por la bomba del lavatrastes", "ask_price"),
        ("y el muchacho a que hora cae mas o menos, es que tengo que salir", "ask_status"),
        ("this is Hank's tire shop, i think you folks have the wrong phone number", "wrong_number"),
    ],
)
def test_what_people_want_is_heard_in_words_of_their_own(reader: Reader, text: str, intent: str) -> None:
    assert intent in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "the cancel button on my oven does nothing when i push it",
        "my washer stops halfway and the price sticker is still on it",
        "el boton de cancelar del horno no jala",
        "it fills and drains, then the drum just sits there",
        "se llena y tira el agua pero la tina no da vueltas",
    ],
)
def test_what_only_sounds_like_it_is_a_complaint(reader: Reader, text: str) -> None:
    assert set(reader.read(text).intents) <= {"report_problem"}


@pytest.mark.parametrize(
    ("asked", "text", "ends"),
    [
        ("yes_no", "no gracias, ya la arregló mi cuñado", True),
        ("name", "ya no vengan, compramos otra", True),
        ("postal_code", "dont need you anymore, bought a new one", True),
        ("offer", "no thanks, i dont want that one", False),
        ("yes_no", "no it never stops, not even at night", False),
        ("symptom", "sorry, was busy. number 3 i guess", False),
    ],
)
def test_who_needs_nobody_any_more_is_heard_beside_a_question(
    reader: Reader, asked: str, text: str, ends: bool
) -> None:
    assert ("cancel" in reader.read(text, asked=Asked(asked, "washer")).intents) is ends
