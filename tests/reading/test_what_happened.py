"""What was tried, what came before, since when, how often: in wordings of nobody's list."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("scrubbed both grease screens and the hood still wont pull steam", "cleaned_filter"),
        ("rinsed out the lint screen, dryer takes two cycles", "cleaned_filter"),
        ("my brother blew out and cleared the duct, dryer still takes forever to dry", "cleaned_vent"),
        ("inspected the fill hoses, no kinks, washer wont fill", "checked_hose"),
        ("washer wont drain, the hose i checked and its not bent", "checked_hose"),
        ("oven is dead. not the breaker, i reset that twice", "reset_breaker"),
        ("toggled the gfci under the sink and the disposal is still dead", "reset_breaker"),
        ("fridge is dead, outlet tested fine", "checked_plug"),
        ("tried unplugging the dishwasher and the panel still blinks", "power_cycled"),
        ("rebooted the range and the display is still blank", "power_cycled"),
        ("hood light is out, swapped both bulbs, nothing", "other"),
        ("defrosted it by hand twice and the freezer keeps icing up", "other"),
        ("poured vinegar in and the dishwasher still stinks", "other"),
        ("burner wont heat, swapped it with the back one", "other"),
        ("washer shakes, i leveled the feet", "other"),
        ("tried a different detergent, clothes come out dirty", "other"),
        ("fridge water barely drips, i changed the filter", "other"),
        ("ya le lavé la malla a la campana y sigue sin jalar el humo", "cleaned_filter"),
        ("mi hijo le limpió el ducto a la secadora y tarda lo mismo en secar", "cleaned_vent"),
        ("ya revisamos la manguera y la lavadora no tira el agua", "checked_hose"),
        ("subí la pastilla tres veces y el horno sigue muerto", "reset_breaker"),
        ("la desenchufé media hora y la lavadora sigue con el código", "power_cycled"),
        ("ya les cambié los focos a la campana y no prenden", "other"),
        ("le eché bicarbonato y el triturador sigue apestando", "other"),
        ("ya nivelamos las patas y la lavadora sigue brincando", "other"),
    ],
)
def test_a_verb_and_a_thing_tell_what_was_tried_in_vain(reader: Reader, text: str, value: str) -> None:
    reading = reader.read(text)
    assert value in reading.facts.get("tried", ())
    assert "not_fixed" in reading.intents


@pytest.mark.parametrize(
    "text",
    [
        "the fridge drips since we changed the filter", "havent cleaned the vent, dryer wont heat",
        "your guy cleaned the filter and now it leaks", "how do i clean the filter on my dishwasher",
        "can you come and replace the belt on my dryer", "there was a flame in the oven, threw baking soda on it",
        "smoke from the dryer so i unplugged it", "tried calling you guys twice, the washer leaks",
        "tried to open the door and it wont budge, oven is locked", "every time i reset the breaker it trips again",
        "i emptied the food out of the freezer, its warm", "leaked all over, wiped it up",
        "need the vent cleaned, dryer is slow", "i changed my number, washer still leaks",
        "cuando limpio el filtro tira agua el lavaplatos", "quiero que revisen la manguera de la lavadora",
        "el técnico le cambió la banda y ahora truena", "no he limpiado el filtro del lavaplatos, huele feo",
        "olía a quemado y la desconecté", "le cambié la pila a la alarma, la estufa no prende",
    ],
)  # fmt: skip
def test_what_only_dates_is_planned_or_made_safe_was_not_tried(reader: Reader, text: str) -> None:
    assert not reader.read(text).facts.get("tried")


@pytest.mark.parametrize(
    "text",
    [
        "dishwasher wont drain since tues", "freezer has been warm going on four days", "dryer quit saturday night",
        "oven light has been out for ages", "its leaking, three days now", "ever since the move the washer walks",
        "worked fine til last weekend, now the range is dead", "noticed it around thanksgiving, fridge hums",
        "washer hasnt spun right in about two weeks", "started acting up the other day, ice maker i mean",
        "dryer died overnight", "no ice the last couple weeks", "wont cool after the lights went out last night",
        "la lavadora no exprime desde el martes", "ya lleva tres semanas sin enfriar el refri",
        "hace como un mes que gotea el lavaplatos", "empezó a tronar antier la secadora", "el horno anda asi desde navidad",
        "ya va pa dos semanas que no hace hielo", "se descompuso anoche la estufa", "desde que la movimos brinca la lavadora",
    ],
)  # fmt: skip
def test_when_it_began_is_heard(reader: Reader, text: str) -> None:
    assert reader.read(text).facts.get("since")


@pytest.mark.parametrize(
    "text",
    [
        "had this washer since 2015, it leaks", "since youre coming anyway look at the dryer too",
        "can you come tuesday, the washer leaks", "bought the fridge two weeks ago and it hums",
        "fridge wont start", "owned it for ten years", "ran it for 10 minutes, no heat",
        "been fine since. now the oven is dead",
        "waiting for two weeks on the part", "plumber fixed the leak last week, now the ice maker is slow",
        "ustedes me dieron cita para el jueves, no enfría el refri", "la compramos hace dos años",
        "desde la caja de la luz se apaga el horno", "me dijeron hace dos semanas que pedían la pieza",
    ],
)  # fmt: skip
def test_other_times_are_no_beginning(reader: Reader, text: str) -> None:
    assert not reader.read(text).facts.get("since")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("we had an outage sunday and now the range clock is blank", "power_outage"),
        ("se nos fue la luz y ya no prendió el refri", "power_outage"),
        ("lost power tuesday, fridge never came back on", "power_outage"),
        ("washer wont fill after the cold snap", "freeze"), ("no agarra agua la lavadora desde la helada", "freeze"),
        ("your man put a pump in it and it still wont drain", "repair"),
        ("vino su muchacho ayer y sigue igual la lavadora", "repair"),
        ("disposal leaks since some other outfit put it in", "installed"),
        ("me instalaron la lavadora nueva y tira agua", "installed"),
        ("nos cambiamos de casa y el refri ya no enfría", "moved"), ("shakes since the movers set it down", "moved"),
        ("dishwasher is dead since the new floor went in", "remodel"), ("no heat after the countertop guys left", "remodel"),
        ("slow to fill since they worked on our water line", "plumbing_work"),
        ("we crammed three blankets in it and now the washer wont spin", "overload"),
        ("metí dos cobijas a la lavadora y ya no exprime", "overload"), ("cayó un rayo y la estufa quedó muerta", "storm"),
    ],
)  # fmt: skip
def test_what_came_before_is_heard(reader: Reader, text: str, value: str) -> None:
    assert value in reader.read(text).facts.get("after", ())


@pytest.mark.parametrize(
    "text",
    [
        "was here when we moved in", "storm door is stuck so use the back, the oven wont heat",
        "the fridge is frozen solid", "fridge light flickers", "my brother in law fixed it",
        "the floor is wet by the washer", "se lo dejó mi prima cuando se mudó, no calienta el horno",
    ],
)  # fmt: skip
def test_nothing_came_before(reader: Reader, text: str) -> None:
    assert not reader.read(text).facts.get("after")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("trips the breaker whenever the dryer heats", "always"), ("bota la pastilla cada q prendo la secadora", "always"),
        ("tira agua cada vez que lavo", "always"), ("works when it feels like it, the microwave", "sometimes"),
        ("un día sí y otro no enfría el refri", "sometimes"), ("washer bangs only on big loads", "sometimes"),
        ("that hum gets louder every day", "worsening"), ("the dryer squeal is louder and louder", "worsening"),
        ("cada vez está peor el ruido de la lavadora", "worsening"), ("gotea peor que antes el lavaplatos", "worsening"),
        ("dryer sparked just the one time", "once"),
        ("fridge runs nonstop", None), ("i am here every day but wednesday, oven is dead", None),
        ("text me back whenever. the washer leaks", None), ("el refri trabaja sin parar", None),
        ("calienta igual que siempre pero la puerta no cierra", None),
    ],
)  # fmt: skip
def test_how_often_it_shows_is_heard(reader: Reader, text: str, value: str | None) -> None:
    assert reader.read(text).facts.get("pattern") == value
