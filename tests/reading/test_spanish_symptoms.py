"""Faults told in Spanish, as it is written by ear and said at home, and what must not be heard in it."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader
from service.reading.words.spanish_slips import MOST_WAYS, meant_by_ear
from service.reading.words.spelling import Speller


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("ya valió la lavadora compa", {"washer=vague"}),
        ("algo trae mi secadora", {"dryer=vague"}),
        ("no sé qué le pasa al microondas", {"microwave=vague"}),
        ("se amoló el congelador", {"freezer=vague"}),
        ("se nos dañó la cocina", {"range=vague"}),
        ("el foco del horno tampoco prende", {"range=light_out"}),
        ("ya ni la luz de la nevera prende", {"refrigerator=light_out", "refrigerator=dead"}),
        ("lo que no prende es el abanico de la campana", {"range_hood=fan_dead"}),
        ("no le responden los botones al micro", {"microwave=controls_fault"}),
        ("la hornilla de atrás de la estufa no agarra", {"range=burner_dead"}),
        ("la puerta del refri se queda abierta sola", {"refrigerator=door_fault"}),
        ("no pega el hule de la puerta del congelador", {"freezer=door_fault"}),
        ("la secadora sigue y sigue dando vueltas", {"dryer=wont_stop"}),
        ("el horno de pared tarda horas en calentar", {"wall_oven=temp_off"}),
        ("la lavadora hace un ruidajo", {"washer=noise"}),
        ("la lavadora no quiere tirar el agua", {"washer=no_drain"}),
        ("el refri está haciendo un cerro de hielo", {"refrigerator=frost"}),
        ("la secadora avienta puro aire frío", {"dryer=no_heat"}),
        ("no más no enfría la nevera", {"refrigerator=not_cooling"}),
    ],
)
def test_household_spanish_tells_its_fault(reader: Reader, text: str, told: set[str]) -> None:
    assert {f"{s.appliance}={s.code}" for s in reader.read(text).symptoms} == told


@pytest.mark.parametrize(
    ("text", "machines"),
    [
        ("la hielera no enfría", ["refrigerator"]),
        ("la hielera de los vinos no enfría", ["beverage_cooler"]),
        ("ya pasamos la comida a una hielera con hielo", []),
        ("el aplastador de basura no prende", ["trash_compactor"]),
        ("la maquinita de moler del fregadero gotea", ["disposal"]),
        ("el de los trastes no prende", ["dishwasher"]),
        ("la parrilla no prende", ["cooktop"]),
        ("no es la lavadora es la secadora la que no calienta", ["dryer"]),
        ("se me fue, la lavadora, digo, la secadora, no calienta", ["dryer"]),
        ("lavadora no, secadora. no calienta", ["dryer"]),
        ("pensé que era el refri pero es el congelador el que gotea", ["freezer"]),
        ("the washer, i mean the dryer, wont heat", ["dryer"]),
        ("it's not the fridge its the dishwasher thats leaking", ["dishwasher"]),
        ("la lavadora y la secadora no prenden", ["washer", "dryer"]),
        ("mi lavadora no sirve, perdón por la hora, y la secadora tampoco", ["washer", "dryer"]),
        ("sorry, my washer leaks and the dryer squeaks", ["washer", "dryer"]),
    ],
)
def test_the_machine_that_is_meant_is_named(reader: Reader, text: str, machines: list[str]) -> None:
    assert list(reader.read(text).appliances) == machines


@pytest.mark.parametrize(
    "text",
    [
        "ya no vengan mañana, gracias",
        "Refugio Ocampo para servirle",
        "huele bien rico la secadora, a suavizante",
        "para nada, no huele a gas",
        "la puerta está abierta, pase",
        "le abrí la llave y cierra bien el paso del gas",
    ],
)
def test_small_talk_tells_no_fault(reader: Reader, text: str) -> None:
    assert not reader.read(text).symptoms


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("amariya", "amarilla"), ("fayando", "fallando"), ("kiere", "quiere"), ("serca", "cerca"), ("vaja", "baja"),
        ("yave", "llave"), ("orno", "horno"), ("aniyo", "anillo"), ("quemao", "quemado"), ("enpieza", "empieza"),
    ],
)  # fmt: skip
def test_a_word_written_by_ear_is_the_one_that_sounds_the_same(written: str, meant: str) -> None:
    assert Speller([], {meant: 2}).correct(written) == (meant,)


@pytest.mark.parametrize("word", ["peso", "bote", "oyen", "kindly", "unidad"])
def test_a_right_word_is_not_taken_for_one_that_sounds_like_it(reader: Reader, word: str) -> None:
    assert not any("read as" in note for note in reader.read(f"el {word} de la casa").notes)


def test_ways_of_a_word_have_an_end() -> None:
    assert len(list(meant_by_ear("s" * 24))) <= MOST_WAYS + 60
    assert next(iter(meant_by_ear("mmm")), None) is None


@pytest.mark.parametrize(
    ("text", "danger"),
    [("hule a gas en la cocina", "gas_smell"), ("la secadora hule a quemado", "burning_smell")],
)
def test_rubber_is_a_smell_only_where_one_is_told(reader: Reader, text: str, danger: str) -> None:
    assert [h.code for h in reader.read(text).hazards] == [danger]
    assert not any("read as" in n for n in reader.read("se salió el hule a la puerta de la lavadora").notes)
