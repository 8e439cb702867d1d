"""What was tried and helped for a while only, at the breaker, or by helpers; what works beside it; "i" for "y"."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "tried"),
    [
        ("wine fridge fan rattles. I propped a cork against the panel and that helped for a day.", "other"),
        (
            "compactor wont stay shut. i cleaned crumbs out of the track. worked for two cycles then back to popping",
            "other",
        ),
        ("se hace escarcha en el congelador, se la quite con agua tibia y al tercer dia otra vez igual", "other"),
        ("mi secadora no calienta le cambie el disco y aguanto dos dias", "other"),
        ("el lavatrastes saca mucha espuma ya lo corri tres veces sin nada y todavia sale espuma", "other"),
        ("la hornilla calienta poquito nomas tibio cambie el disco por uno nuevo y quedo igual", "other"),
        ("la puerta del micro no cierra le cambio el gancho mi sobrino y quedo peor", "other"),
        ("la maquina de hielo hace ruido ya la volvi a nivelar y sigue igual", "other"),
        ("el compactador no baja, le saque la bolsa por si era eso y hace lo mismo", "other"),
        ("el triturador zumba, ya lo saque con pinsas i sige zumbando", "other"),
        ("la secadora no calienta mi esposo ya subio y bajo el braker y nada", "reset_breaker"),
        ("la pantalla de mi estufa dice F9, la apagué del breaker y vuelve a salir", "reset_breaker"),
        ("a la parrilla se le bloquean los botones, la desconecté del breaker diez minutos y sigue", "reset_breaker"),
        ("dryer trips the breaker. we reset it and it trips again", "reset_breaker"),
        (
            "microwave fan wont shut off. i pulled power at the breaker and it was good for a day then right back",
            "reset_breaker",
        ),
        ("la lavadora no prende la apague media hora y la prendi y otra vez lo mismo", "power_cycled"),
        ("el congelador suena la carne esta dura lo desconectamos y lo nivelamos y es lo mismo", "power_cycled"),
        ("el refri no enfria le quitamos el enchufe y lo pusimos otra vez y nada", "power_cycled"),
        ("microwave trips the breaker. tried it on a different outlet and that breaker went too", "checked_plug"),
    ],
)
def test_what_helped_for_a_while_or_not_at_all_was_tried(reader: Reader, text: str, tried: str) -> None:
    """A run-on "no" before it, a short relief and who did it take nothing from what was done."""
    reading = reader.read(text)
    assert tried in reading.facts["tried"]
    assert "not_fixed" in reading.intents


@pytest.mark.parametrize(
    "text",
    [
        "la secadora no calienta, quiero que cambie la banda",
        "necesito que alguien limpie la secadora, no calienta",
        "la lavadora no prende y no la he apagado",
        "fridge is warm, it ran good for ten years",
        "freezer died, the meat was good for about a day",
    ],
)
def test_what_is_wanted_or_lasted_is_not_tried(reader: Reader, text: str) -> None:
    """What somebody shall do, and how long a machine or its food lasted, was nobody's attempt."""
    assert "tried" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("el compactador d vasura no baja, zumba i ya, le saque la bolsa i ase lo mismo", "es"),
        ("los cubitos salen huecos i chikitos, ya le puse limpiador i siguen iwales", "es"),
        ("la lavadora no exprime i think its the lid switch", "mixed"),
        ("the lavadora leaks and i cleaned el filtro", "mixed"),
    ],
)
def test_an_and_of_one_letter_is_no_english(reader: Reader, text: str, language: str) -> None:
    """“i” between Spanish words is “y”."""
    assert reader.read(text).language == language


@pytest.mark.parametrize(
    ("text", "works"),
    [
        ("si hace hielo pero no da agua el refri", "no_ice"),
        ("congelador si enfria nomas hace mucho ruido", "not_cooling"),
        ("the fridge is cold just no ice", "not_cooling"),
    ],
)
def test_what_works_beside_what_only_fails(reader: Reader, text: str, works: str) -> None:
    """“sí”, first and without its accent, supposes nothing; “just” and “nomás” turn like a “but”."""
    assert works in [denied.code for denied in reader.read(text).denied]


@pytest.mark.parametrize(
    "text",
    [
        "the dryer spins just for a minute",
        "la lavadora llena nomas un poquito",
        "si la prendo pero no calienta que hago",
    ],
)
def test_a_limit_is_no_turn(reader: Reader, text: str) -> None:
    """How long or how little it does so tells of no working function."""
    assert not reader.read(text).denied


@pytest.mark.parametrize(
    ("text", "payer"),
    [
        ("el microondas no prende esto lo va a pagar el seguro de la casa", "insurance"),
        ("mi horno no gira el abanico estamos pagando nosotros", "owner"),
        ("la estufa no calienta soy inquilino pero el dueño don Rafa es el que va a pagar", "landlord"),
    ],
)
def test_who_pays_stands_behind_the_verb(reader: Reader, text: str, payer: str) -> None:
    """Spanish puts who pays last as well as first."""
    assert reader.read(text).facts["payer"] == payer
