"""What is told to be well without a verb, by "nothing", or of water that another spilt: denials in strangers' words."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


def read(reader: Reader, text: str, about: str) -> tuple[set[str], set[str]]:
    heard = reader.read(text, about=about)
    return {f.code for f in heard.symptoms}, {f.code for f in heard.denied}


@pytest.mark.parametrize(
    ("text", "about", "not_so"),
    [
        ("it shakes bad. floor under it bone dry", "washer", "leak"),
        ("no its bone dry underneath", "dishwasher", "leak"),
        ("zumba nomás, abajo del fregadero todo seco", "disposal", "leak"),
        ("won't drain. nothing on the floor", "washer", "leak"),
        ("hace ruido, no tira nada, piso seco", "dishwasher", "leak"),
        ("ya no tira agua, ahora no abre la puerta", "washer", "leak"),
        ("the puddle was just the dog, it only buzzes", "refrigerator", "leak"),
        ("el charco lo hizo el niño, el refri nomás zumba", "refrigerator", "leak"),
        ("alarm screams. everything rock hard inside", "freezer", "not_cooling"),
        ("it rattles but it's holding at 37", "refrigerator", "not_cooling"),
        ("it clunks and the food is still cold and all that", "refrigerator", "not_cooling"),
        ("hums loud, nothing thawed", "freezer", "not_cooling"),
        ("it ticks a few times and then she lights. the knob cracked", "range", "burner_dead"),
        ("the knob cracked, lights first try", "cooktop", "burner_dead"),
        ("prende luego luego, lo malo es la perilla rota", "cooktop", "burner_dead"),
        ("drum turns, zero heat. nothing tripped", "dryer", "trips_breaker"),
        ("won't start. breaker never tripped", "dryer", "trips_breaker"),
        ("no spin. no breaker thing, la pastilla no se bajó", "washer", "trips_breaker"),
        ("plate turns, light's on, burrito stays frozen", "microwave", "light_out"),
        ("no sparks in it, plate just won't spin", "microwave", "arcing"),
        ("no echa chispas, nomás no calienta", "microwave", "arcing"),
        ("runs on all three speeds but pulls no steam", "range_hood", "fan_dead"),
        ("works great now, no more clicking", "range", "clicks_nonstop"),
        ("no hace hielo, si saca agua", "refrigerator", "no_water"),
        ("abajo está tibio, el congelador bien duro", "refrigerator", "warm_freezer"),
    ],
)
def test_is_denied(reader: Reader, text: str, about: str, not_so: str) -> None:
    present, denied = read(reader, text, about)
    assert not_so in denied
    assert not_so not in present


@pytest.mark.parametrize(
    ("text", "about", "code"),
    [
        ("the floor isn't dry anymore", "washer", "leak"),
        ("it's wet, not dry, underneath", "washer", "leak"),
        ("i want the floor dry", "dishwasher", "leak"),
        ("the breaker keeps tripping", "dryer", "trips_breaker"),
        ("does nothing, leaking too", "washer", "leak"),
        ("it sparks inside", "microwave", "arcing"),
        ("on. heats nothing", "dryer", "no_heat"),
        ("the burner lights up front won't light", "range", "burner_dead"),
        ("sounds good, see you then", "washer", "noise"),
        ("no smell of gas", "range", "odor"),
        ("not a drop of ice", "ice_maker", "leak"),
        ("the ice cream is not hard", "freezer", "not_cooling"),
        ("nothing i put in there is hard", "freezer", "not_cooling"),
    ],
)
def test_is_not_denied(reader: Reader, text: str, about: str, code: str) -> None:
    assert code not in read(reader, text, about)[1]
