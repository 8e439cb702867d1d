"""What Spanish-speaking customers tell in fragments: “luz si, calor no”, “no brinca, exprime”, halves of a refrigerator."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "code", "denied"),
    [
        ("micro: luz si, calor no", "no_heat", {"light_out"}),
        ("secadora: gira si, calor nada", "no_heat", {"no_tumble"}),
        ("sin calor la secadora, vueltas si", "no_heat", {"no_tumble"}),
        ("secadora no da vueltas, calor si", "no_tumble", {"no_heat"}),
        ("campana sin aire, luz si", "fan_dead", {"light_out"}),
        ("estufa: hornilla no, perilla rota, horno si", "burner_dead", {"no_heat"}),
        ("congelador nada de frio, foco si", "not_cooling", {"light_out"}),
        ("sin hielo el refri, frio si, charco no", "no_ice", {"not_cooling", "leak"}),
        ("lavadora ruido no, agua en el piso si", "leak", {"noise"}),
        ("refri no enfria. ruidos no. olor no", "not_cooling", {"noise", "odor"}),
        ("se me congela la lechuga en el refri, hielos si hace, ruido no", "too_cold", {"no_ice", "noise"}),
        (
            "la lavadora gotea por la puerta. no brinca, exprime y desagua todo",
            "leak",
            {"vibration", "no_spin", "no_drain"},
        ),
        ("lavadora sin exprimir, llena y saca el agua", "no_spin", {"no_drain"}),
        ("la secadora se apaga sola, no es el breaker porque no se bota", "stops_midcycle", {"trips_breaker"}),
        ("mi triturador no gira. tampoco ha tumbado la pastilla", "jammed", {"trips_breaker"}),
        ("traquetea el enfriador de bebidas; esta frio y no gotea", "noise", {"not_cooling", "leak"}),
        ("se oye feo el refri pero hielo cae, no hay fugas y enfria bien", "noise", {"not_cooling"}),
        ("la maquina de hielo chorrea y truena, hielo si hace", "noise", {"no_ice"}),
        ("mi congelador de la cochera chorrea y rechina", "noise", set()),
        (
            "la estufa la hornilla de enfrente no prende. Las otras tres si, el horno tambien",
            "burner_dead",
            {"no_heat"},
        ),
        ("el horno de la estufa no agarra nada de calor", "no_heat", set()),
        ("muertito el microondas, la pastilla no se bajo", "dead", {"trips_breaker"}),
        ("no prende ni el foco de mi refri", "dead", set()),
    ],
)
def test_what_fails_and_what_works(text: str, code: str, denied: set[str], reader: Reader) -> None:
    read = reader.read(text)
    assert code in {found.code for found in read.symptoms}
    assert denied <= {found.code for found in read.denied}
    assert denied.isdisjoint(found.code for found in read.symptoms)


@pytest.mark.parametrize(
    ("text", "code", "denied"),
    [
        ("ya no enfria el refri abajo, eso si el congelador de arriba ta helando", "warm_fridge", {"warm_freezer"}),
        ("tibio abajo, congelador a todo dar. refri", "warm_fridge", {"warm_freezer"}),
        ("refri no enfria abajo, arriba si", "warm_fridge", {"warm_freezer"}),
        ("refri: frio arriba, abajo nada", "warm_fridge", set()),
        ("mi refri enfria arriba y abajo no", "warm_fridge", set()),
        ("el congelador del refri ya no congela, el lado de la leche si frio", "warm_freezer", {"warm_fridge"}),
        ("el refri esta tibio arriba y abajo todo", "not_cooling", set()),
        ("el refrigerador sigue igual, ni arriba ni abajo enfria nada", "not_cooling", set()),
    ],
)
def test_halves_of_a_refrigerator(text: str, code: str, denied: set[str], reader: Reader) -> None:
    read = reader.read(text)
    assert code in {found.code for found in read.symptoms}
    assert denied <= {found.code for found in read.denied}
    assert denied.isdisjoint(found.code for found in read.symptoms)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("con este calor todo bien pero la estufa chilla", "no_heat"),
        ("me avisa si hace ruido otra vez el refri", "noise"),
        ("huele a gas y le dije a los niños que no prendan nada de la estufa", "dead"),
        ("el horno de la estufa no prende nada. las hornillas jalan todas", "dead"),
        ("lo que huele es el limpiador que eche. el lavaplatos no desagua", "odor"),
        ("era el florero del niño, por eso el charco. el lavaplatos no gotea nada, no calienta", "leak"),
        ("cayo un aguacero y se metio agua a la cocina, el refri ni se mojo pero no hace hielo", "leak"),
        ("el error E24 sale en la lavadora y pita", "noise"),
    ],
)
def test_what_is_not_told(text: str, code: str, reader: Reader) -> None:
    assert code not in {found.code for found in reader.read(text).symptoms}


def test_a_question_denies_nothing(reader: Reader) -> None:
    assert "leak" not in {found.code for found in reader.read("la lavadora gotea mucho, no?").denied}


def test_a_ni_carries_a_no_on(reader: Reader) -> None:
    read = reader.read("la lavadora no lava, exprime ni desagua")
    assert "no_spin" not in {found.code for found in read.denied}


def test_a_noise_that_is_over(reader: Reader) -> None:
    read = reader.read("antes rechinaba mi secadora pero eso ya no, ahora no calienta")
    assert "noise" in {found.code for found in read.denied}
    assert "no_heat" in {found.code for found in read.symptoms}
