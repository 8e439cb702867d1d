"""What was done against a fault in words that no list holds together, told by how it went: “put pads under it, nope”."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "tried"),
    [
        ("dryer squeals. sprayed the rollers with oil and it squeals just the same", "other"),
        ("freezer wont seal, rubbed vaseline on the gasket and its still popping open", "other"),
        ("dishwasher wont drain, bailed it out and ran it again, same thing", "other"),
        ("ice maker wont make ice. bent the arm back down, nothing", "other"),
        ("fridge wont cool, took everything out so the air could move and it didnt help", "other"),
        ("stove clicks nonstop, dried it out with a hair dryer, still clicking", "other"),
        ("washer off balance. took half the clothes out, same", "other"),
        ("hood light wont come on, put in a fresh bulb and no", "other"),
        ("compactor stuck. banged on the side w a hammer, nada", "other"),
        ("washer wont fill. opened and closed the taps, no change", "other"),
        ("new hoses new valve and the washer still wont fill", "other"),
        ("my husband bought one online and put it in and nope, range wont bake", "other"),
        ("dryer has a grinding sound. felt around in the drum and cant find anything", "other"),
        ("disposal rattles like theres a spoon in it but theres no spoon i looked", "other"),
        ("la lavadora brinca mucho, le metimos un carton abajo y sigue brincando", "other"),
        ("el refri no enfria, lo despegue de la pared y nada", "other"),
        ("el congelador no cierra, le unte vaselina al empaque y no jalo", "other"),
        ("mi marido le apreto los tornillos y sigue rechinando la lavadora", "other"),
        ("le puse mas jabon, menos jabon, y la ropa sale igual de sucia, lavadora", "other"),
        ("suena el triturador, ya le busque y no hay nada", "other"),
        ("turned off the breaker for 10 min, came back with the same code, washer", "reset_breaker"),
        ("oven clock is blank, popped the breaker for a min", "reset_breaker"),
        ("hood is dead. GFI in the cabinet, pushed it, no", "reset_breaker"),
        ("mi nieto le subió el suich y otra vez se cayo, la secadora me tumba la luz", "reset_breaker"),
        ("left it unplugged all night. freezer still beeps", "power_cycled"),
        ("we did the unplug trick. washer quits half way", "power_cycled"),
        ("lo deje desconectado toda la noche y sigue pitando el refri", "power_cycled"),
        ("plugged my drill in there and the drill works, fridge is dead", "checked_plug"),
        ("micro is dead. i tried a lamp in the same outlet and it lit", "checked_plug"),
        ("pulled the filter in the bottom, gunk came out, washer still wont drain", "cleaned_filter"),
        ("hood has no pull. mesh filters been thru the dishwasher", "cleaned_filter"),
        ("i cleaned all the lint out of the vent hose and the dryer is still slow", "cleaned_vent"),
    ],
)
def test_what_was_done_and_did_not_help(reader: Reader, text: str, tried: str) -> None:
    reading = reader.read(text)
    assert reading.facts.get("tried") == (tried,)
    assert "not_fixed" in reading.intents


@pytest.mark.parametrize(
    "text",
    [
        "i put the dishes in and it wont start",
        "put clothes in, hit start and nothing, washer",
        "the handle snapped off the oven and it still heats",
        "the ram came down on the bag and now its stuck down there, compactor",
        "i pushed my appointment back, the dryer still needs a look",
        "left you a message monday and still nothing, washer leaks",
        "put in a request online and still no one has called about my fridge",
        "we bought it in june and it still isnt right, the range",
        "took the day off for you guys and still waiting. dryer no heat",
        "i added soap like always and the dishwasher still wont start",
        "she put pizza in and the oven still isnt hot after an hour",
        "the tech tightened the belt and it still squeaks, washer",
        "the toaster is unplugged, the dishwasher wont start",
        "the part your man put in did not help, fridge is warm",
        "dryer shuts off, wait half an hour and it goes again",
        "el bebe vomitó por todo el refri ya limpié, se despegó la repisa",
        "saque la comida del refri y sigue sin enfriar",
        "meti la ropa y no arranca la lavadora",
        "le piqué a los botones y no responden, lavaplatos",
        "puse una cubeta y sigue goteando el refri",
        "dejé un mensaje y nada, la estufa no prende",
        "le puse la nariz y no huele a gas, la estufa no prende",
        "cambiamos el tanque de propano y la estufa no prende",
        "le di off y sigue calentando el horno",
    ],
)
def test_what_was_put_in_pressed_told_or_waited_for_was_not_tried(reader: Reader, text: str) -> None:
    assert "tried" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "fixed"),
    [
        ("dryer shuts off in 15 min, wait half an hour and it goes again", False),
        ("la secadora se apaga, espero media hora y jala otra vez", False),
        ("i waited an hour and the dryer works again, thanks", True),
    ],
)
def test_what_goes_again_after_a_rest_is_not_mended(reader: Reader, text: str, *, fixed: bool) -> None:
    assert ("fixed" in reader.read(text).intents) == fixed
