"""Who asks, who complains, who is content: what a text wants where no wording says it, and what such words must not be."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader

ASKS = [
    "would a gas dryer fit in a closet", "do you guys carry water filters", "do yall work on pool heaters by chance",
    "my aunt is buying a stove, is induction hard to cook on?", "who cleans ducts around here, you or a roofer",
    "quick question, can a fridge stay on its side in the truck", "just curious does leaving it unplugged hurt anything",
    "is that something your people handle", "how hot is too hot for a dryer top? just curious, works great",
    "ustedes limpian ductos tambien?", "tengo una duda, se puede poner la estufa junto al refri",
    "como se le hace para quitar el sarro",
    "mi vecina pregunta, le conviene de gas o electrica?", "era nomas pa preguntar si venden filtros",
    "cada cuanto se le cambia el filtro al refri?", "no hay falla, es normal que la secadora este tibia por arriba? jala bien",
]  # fmt: skip
COMPLAINS = [
    "Our dishwasher is moody lately", "the cooktop is just a slab of glass now", "la lavadora anda medio loca",
    "thermometer in the fridge says 58, ice cream is hard", "el horno ni tibio",
    "that washer is a drum solo these days", "la secadora ya dio lo que iba a dar",
    "new belt or not the dryer still wont tumble",
]  # fmt: skip
CONTENT = [
    "thanks again, the range cooks perfect now", "you guys are the best, washer runs like new",
    "gracias, el refri quedo muy bien", "muchas gracias oiga la estufa quedo como nueva",
]  # fmt: skip
SOUND = [
    "can somebody hook up my new gas range friday", "need a yearly maintenance visit for the dryer, nothing wrong with it",
    "can you come clean my dryer vent", "quiero que me instalen el lavaplatos nuevo",
    "pueden venir a darle mantenimiento al refri, no tiene nada malo", "just a tune up on the washer please, come any day",
]  # fmt: skip


@pytest.mark.parametrize("text", ASKS)
def test_a_question_about_no_fault_asks_for_help(reader: Reader, text: str) -> None:
    assert set(reader.read(text).intents) == {"ask_help"}


@pytest.mark.parametrize("text", COMPLAINS)
def test_a_machine_spoken_of_without_a_question_is_complained_of(reader: Reader, text: str) -> None:
    assert "report_problem" in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "hi its Nadine, the lady with the chest freezer", "forgot to say the washer is in the basement",
        "if the dryer quits once more im done with it", "email the bill for the oven to my son", "sorry i meant the dishwasher",
    ],
)  # fmt: skip
def test_a_machine_only_mentioned_is_not_complained_of(reader: Reader, text: str) -> None:
    assert "report_problem" not in reader.read(text).intents


@pytest.mark.parametrize("text", CONTENT)
def test_thanks_for_a_machine_that_is_good_says_that_it_is_mended(reader: Reader, text: str) -> None:
    assert "fixed" in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "thanks for coming but the washer just sits there", "thanks for nothing, the dryer is the same old brick",
        "gracias pero la secadora ni tibia", "the cooktop half is perfect thanks for asking, the oven is not",
    ],
)  # fmt: skip
def test_thanks_beside_a_grumble_end_nothing(reader: Reader, text: str) -> None:
    assert "fixed" not in reader.read(text).intents


@pytest.mark.parametrize("text", SOUND)
def test_work_on_a_sound_machine_is_no_complaint(reader: Reader, text: str) -> None:
    assert "book" in reader.read(text).intents
    assert "report_problem" not in reader.read(text).intents


@pytest.mark.parametrize(
    ("text", "wants", "lacks"),
    [
        ("washer wont spin, we got married 6/12 and it never quit before", "report_problem", "book"),
        ("dryer is dead, tamales are due friday", "report_problem", "book"),
        ("no prende el horno y el viernes llega mi suegra", "report_problem", "book"),
        ("dryer is dead, friday is good for us", "book", "cancel"),
        ("no prende el horno, el viernes si pueden", "book", "cancel"),
        ("no vengan hoy, otro dia mejor", "reschedule", "cancel"),
        ("please dont cancel me, i just need a later day", "reschedule", "cancel"),
        ("how much for somebody to come look", "ask_price", "book"),
        ("can you come later in the day instead", "reschedule", "book"),
        ("the rack wont come out of my dishwasher", "report_problem", "cancel"),
        ("i always forget it is running, fridge is loud", "report_problem", "cancel"),
        ("warranty card says 2023. dishwasher door wont latch", "report_problem", "ask_warranty"),
        ("la garantia era de 12 meses y ya no enfria el refri", "report_problem", "ask_warranty"),
        ("is the washer under warranty? it wont drain", "ask_warranty", "book"),
        ("quien paga, la garantia o yo", "ask_warranty", "book"),
        ("smoke is still coming off the back of the fridge", "report_problem", "ask_status"),
        ("is he still coming today", "ask_status", "book"),
        ("sigue en pie lo del jueves?", "ask_status", "book"),
        ("who do i complain to about your driver", "talk_to_person", "ask_help"),
        ("sink stinks no matter how many lemons i grind in the disposal", "not_fixed", "ask_help"),
        ("folks call me Red, the dryer squeals", "report_problem", "talk_to_person"),
        ("got any coupons for first timers", "ask_price", "report_problem"),
        ("hay algun descuento para gente mayor", "ask_price", "report_problem"),
    ],
)  # fmt: skip
def test_words_of_one_wish_are_not_taken_for_another(reader: Reader, text: str, wants: str, lacks: str) -> None:
    heard = reader.read(text).intents
    assert wants in heard
    assert lacks not in heard


@pytest.mark.parametrize(
    ("text", "volunteers"),
    [
        ("did that, still wont drain", False),
        ("ya lo hice y sigue igual de muerta", False),
        ("no change, and now it leaks too", True),
        ("sigue igual y ahora tira agua", True),
    ],
)
def test_the_fault_still_there_after_a_check_is_not_volunteered(reader: Reader, text: str, volunteers: bool) -> None:
    heard = reader.read(text, asked=Asked("check_result", "washer")).intents
    assert "not_fixed" in heard
    assert ("report_problem" in heard) is volunteers


@pytest.mark.parametrize(
    ("text", "wants"),
    [
        ("put me back on the text list please", "in"), ("turn the messages back on", "in"),
        ("i sent stop by mistake, start texting me again", "in"), ("didnt mean to unsubscribe", "in"),
        ("quiero que me manden los mensajes otra vez", "in"), ("puse alto sin querer", "in"),
        ("reactiven mis mensajes por favor", "in"), ("vuelvanme a mandar los textos", "in"),
        ("do not text this number again", "out"), ("never put me back on that list, stop texting me", "out"),
        ("dejen de estar molestando con sus mensajes", "out"), ("no me manden mensajes otra vez", "out"),
        ("id rather not text that, call me", None), ("i hit stop on the washer and it kept going", None),
        ("no quiero textear eso, yo le digo", None), ("put the rack back on the list of things to fix", None),
    ],
)  # fmt: skip
def test_who_wants_texts_again_and_who_none(reader: Reader, text: str, wants: str | None) -> None:
    assert reader.consent(text) == wants


@pytest.mark.parametrize(
    ("text", "in_vain"),
    [
        ("cleaned the filter, dishwasher wont drain", True),
        ("ya limpie el filtro y el lavaplatos no tira el agua", True),
        ("reset the breaker on the dryer, it wont heat", True),
        ("put a new battery in the hall alarm so it hushed. the dishwasher wont drain", False),
        ("le puse pila nueva a la alarma. el lavaplatos no tira el agua", False),
        ("somebody spilled juice by the freezer and i wiped it. the freezer runs all day long", False),
        ("se me cayo la leche frente al refri, ya limpie. el refri no enfria", False),
        ("the washer thumps ever since i leveled it", False),
        ("desde que limpie el ducto la secadora no calienta", False),
    ],
)
def test_what_the_fault_came_after_was_not_done_in_vain(reader: Reader, text: str, in_vain: bool) -> None:
    assert ("not_fixed" in reader.read(text).intents) is in_vain


@pytest.mark.parametrize(
    ("text", "lists"),
    [("no thats the toaster", False), ("gas is only for the water heater", False), ("my furnace quit", True)],
)
def test_what_we_do_not_repair_is_listed_only_where_it_is_the_matter(reader: Reader, text: str, lists: bool) -> None:
    asked = None if lists else Asked("yes_no", "dryer", "smoke")
    assert ("other" in reader.read(text, asked=asked).appliances) is lists


@pytest.mark.parametrize(
    ("text", "machine", "code"),
    [
        ("la lavadora no exprime, puede ser en la tarde?", "washer", "no_spin"),
        ("lavadora no exprime, puede ser el sabado?", "washer", "no_spin"),
        ("washer wont spin, could it be saturday?", "washer", "no_spin"),
        ("fridge is warm could it be the compressor?", "refrigerator", "not_cooling"),
        ("la lavadora no exprime, puede ser la bomba?", "washer", "no_spin"),
        ("dishwasher wont drain, podría ser el filtro?", "dishwasher", "no_drain"),
    ],
)
def test_what_is_told_before_a_guess_or_a_time_is_told(reader: Reader, text: str, machine: str, code: str) -> None:
    assert (machine, code) in {(s.appliance, s.code) for s in reader.read(text).symptoms}


@pytest.mark.parametrize(
    "text",
    [
        "could it be the pump if it wont drain?",
        "if the fridge is warm could it be the compressor?",
        "puede ser que no exprima por la tarde?",
        "if it leaks would it be dangerous?",
    ],
)
def test_what_is_only_supposed_is_not(reader: Reader, text: str) -> None:
    assert reader.read(text).symptoms == ()
