"""Parts of larger machines that stand alone after all, and what is said of two machines in one breath."""

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "machines"),
    [
        ("the ice maker on its own, not in the fridge, makes a grinding noise", ("ice_maker",)),
        ("ice machine leaks, its the one by itself not the one in the fridge", ("ice_maker",)),
        ("la maquina de hielo aparte, no la del refri, tira agua", ("ice_maker",)),
        ("el hielo sale feo de la maquina de hielo que va sola no la del refri", ("ice_maker",)),
        ("the ice maker in my fridge is not making ice", ("refrigerator",)),
        ("el ice maker del refri no sirve", ("refrigerator",)),
        ("the freezer part of my fridge is thawing", ("refrigerator",)),
        ("my fridge and the freezer in the garage both quit", ("refrigerator", "freezer")),
        ("is it the freezer? no the fridge is warm", ("refrigerator",)),
    ],
)
def test_a_part_that_stands_alone_is_not_the_larger_machines(
    reader: Reader, text: str, machines: tuple[str, ...]
) -> None:
    assert reader.read(text).appliances == machines


@pytest.mark.parametrize(
    "text",
    [
        "my fridge and my garage freezer are both dead",
        "the fridge and the chest freezer wont turn on",
        "mi refri y el congelador de cofre no prenden",
    ],
)
def test_what_is_said_of_two_machines_is_said_of_both(reader: Reader, text: str) -> None:
    told = {(f.appliance, f.code) for f in reader.read(text).symptoms}
    assert {("refrigerator", "dead"), ("freezer", "dead")} <= told


def test_a_machine_that_is_ruled_out_shares_nothing(reader: Reader) -> None:
    told = {(f.appliance, f.code) for f in reader.read("dishwasher not the washer is leaking").symptoms}
    assert ("washer", "leak") not in told


@pytest.mark.parametrize(
    ("text", "works"),
    [
        ("el congelador no prende el foco, congelar si congela", "not_cooling"),
        ("el foco del refri no prende, enfriar enfria", "not_cooling"),
        ("no exprime la lavadora, el agua si la saca", "no_drain"),
        ("no gira la secadora, calor si da", "no_heat"),
        ("la lavadora no exprime pero lavar si lava", "no_agitate"),
    ],
)
def test_what_is_insisted_on_works_whatever_stands_before(reader: Reader, text: str, works: str) -> None:
    reading = reader.read(text)
    assert works in {f.code for f in reading.denied}
    assert works not in {f.code for f in reading.symptoms}


@pytest.mark.parametrize(
    "text", ["el refri no enfria, enfriar no enfria nada", "no quiere enfriar, enfria poquito el refri"]
)
def test_a_verb_said_twice_may_fail_both_times(reader: Reader, text: str) -> None:
    assert "not_cooling" in {f.code for f in reader.read(text).symptoms}


@pytest.mark.parametrize(
    "text",
    [
        "a ver si me pueden ayudar la lavadora tira agua por abajo",
        "haber si me ayudan mi lavadora tira agua por abajo",
        "si me pueden ayudar mi lavadora tira agua por abajo",
    ],
)
def test_asking_for_help_supposes_nothing(reader: Reader, text: str) -> None:
    assert "leak" in {f.code for f in reader.read(text).symptoms}


@pytest.mark.parametrize("text", ["si la lavadora tira agua otra vez les aviso", "a ver si la lavadora no tira agua"])
def test_what_is_only_supposed_stays_so(reader: Reader, text: str) -> None:
    assert "leak" not in {f.code for f in reader.read(text).symptoms}
