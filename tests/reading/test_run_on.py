"""Long texts dictated without stops: whose each fault is, and what ends one."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader

TOLD = [
    (
        "tengo la secadora mala y de la lavadora le cuento pues la lavadora no exprime nada y la secadora hace un tronido",
        {("washer", "no_spin"), ("dryer", "noise")},
        {("dryer", "no_start"), ("dryer", "no_tumble")},
    ),
    (
        "la secadora tambien que mala suerte verdad la lavadora no arranca le pico inicio y no hace nada",
        {("washer", "no_start")},
        {("dryer", "no_start")},
    ),
    (
        "tengo el washer and dryer stacked, la secadora no calienta, limpie la manguera",
        {("dryer", "no_heat")},
        {("washer", "no_heat")},
    ),
    ("the washer and dryer wont start", {("washer", "no_start"), ("dryer", "no_start")}, set()),
    (
        "tengo el congelador de la cochera y el refri viejo, el congelador tiene la puerta que no cierra",
        {("freezer", "door_fault")},
        set(),
    ),
    (
        "hi its about our oven. in wall. i set 375 and it swings 310 to 440",
        {("wall_oven", "temp_off")},
        {("range", "temp_off")},
    ),
    ("Two ovens one wall. the lower one wont hold temp", {("wall_oven", "temp_off")}, {("range", "temp_off")}),
    ("the ice on my bar machine tastes like garlic", {("ice_maker", "bad_ice")}, {("refrigerator", "bad_ice")}),
    (
        "la lavadora no prende nada ni una luz and the dryer al lado prende pero la pantalla dice dE",
        {("washer", "dead"), ("dryer", "error_code")},
        {("washer", "error_code")},
    ),
    ("this is for the cooktop not the oven, the igniter wont quit ticking", {("cooktop", "clicks_nonstop")}, set()),
    (
        "disposal started leaking out the side when the dishwasher drains, it weeps",
        {("disposal", "leak")},
        {("dishwasher", "leak")},
    ),
    (
        "you fixed my washer in the summer and its great. its the dryer now. it wont start",
        {("dryer", "no_start")},
        {("washer", "vague")},
    ),
    (
        "en el refri el freezer sí congela pero abajo ya no enfria",
        {("refrigerator", "warm_fridge")},
        {("freezer", "not_cooling")},
    ),
]


@pytest.mark.parametrize(("text", "heard", "unheard"), TOLD)
def test_each_fault_is_its_machines(
    reader: Reader, text: str, heard: set[tuple[str, str]], unheard: set[tuple[str, str]]
) -> None:
    told = {(found.appliance, found.code) for found in reader.read(text).symptoms}
    assert heard <= told
    assert not unheard & told


BY_EAR = [
    ("la makina de los trastes se yena de espuma asta arriva", ("dishwasher", "suds")),
    ("chilla la makina de aser yelo como raton", ("ice_maker", "noise")),
    ("el refresito de las servezas no deja de sumvar", ("beverage_cooler", "noise")),
    ("mi konjelador ya no conjela nada", ("freezer", "not_cooling")),
    ("la makinita de hielo no ase yelo", ("ice_maker", "no_ice")),
]


@pytest.mark.parametrize(("text", "told"), BY_EAR)
def test_machines_written_by_ear(reader: Reader, text: str, told: tuple[str, str]) -> None:
    assert told in {(found.appliance, found.code) for found in reader.read(text).symptoms}


FAULTS = [
    ("our undercounter ice maker used to fill the bin now we get maybe a cupful", ("ice_maker", "no_ice")),
    ("la maquina de hielo apenas saca un vaso", ("ice_maker", "no_ice")),
    ("el lavaplatos no abre la tapita del jabon", ("dishwasher", "no_detergent")),
    ("cooktop burner, when i turn it off it stays red hot", ("cooktop", "wont_stop")),
    ("parrilla un quemador no prende y otro no se apaga", ("cooktop", "wont_stop")),
    ("parrilla electrica no calienta ninguna hornilla", ("cooktop", "no_heat")),
    ("el refri adentro hay hielo en la orilla", ("refrigerator", "frost")),
    ("fridge has water under the crispers freezing into a sheet", ("refrigerator", "frost")),
    ("the freezer side went soft but the fridge side is still cold", ("refrigerator", "warm_freezer")),
    ("el triturador el agua se tarda horas en irse", ("disposal", "slow_drain")),
    ("fridge water thing only dribbles", ("refrigerator", "no_water")),
    ("the fridge has been clicking every couple minutes", ("refrigerator", "noise")),
    ("my wine cooler is making this buzzing all night", ("beverage_cooler", "noise")),
    ("the fridge has a dead light", ("refrigerator", "light_out")),
    ("el microondas calienta un minuto y se apaga", ("microwave", "stops_midcycle")),
    ("la campana ya no le jala el abanico", ("range_hood", "fan_dead")),
    ("la estufa trae floja la perilla", ("range", "broken_part")),
    ("two cooktop knobs just spin", ("cooktop", "controls_fault")),
    ("microwave clock resets to 0:00 every day", ("microwave", "controls_fault")),
    ("the hood has a glass side panel with a crack", ("range_hood", "broken_glass")),
    ("la lavadora la ropa sale con rasgones", ("washer", "damages_load")),
    ("gunk comes back up out the disposal", ("disposal", "backflow")),
    ("washer wont start, blinks the lock light", ("washer", "error_code")),
    ("wall oven uneven heat", ("wall_oven", "temp_off")),
]


@pytest.mark.parametrize(("text", "told"), FAULTS)
def test_faults_as_outcomes(reader: Reader, text: str, told: tuple[str, str]) -> None:
    assert told in {(found.appliance, found.code) for found in reader.read(text).symptoms}


FINE = [
    ("the fridge water is dripping from the bottom, just drips", "no_water"),
    ("las perillas de la estufa giran bien", "controls_fault"),
    ("el ule de la puerta del refri esta roto", "odor"),
    ("the bottom rack comes out wet in the dishwasher", "broken_part"),
    ("can you stop by midweek for the washer", "stops_midcycle"),
    ("the oven wall is clean, oven runs fine", "temp_off"),
]


@pytest.mark.parametrize(("text", "code"), FINE)
def test_what_only_sounds_like_a_fault(reader: Reader, text: str, code: str) -> None:
    assert code not in {found.code for found in reader.read(text).symptoms}
