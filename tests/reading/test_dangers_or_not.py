"""Dangers told in other words, and harmless texts in the very words of dangers, in both languages."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader

DANGERS = (
    ("my old stove is sparking", "sparks"),
    ("the old dryer we have smells like burning", "burning_smell"),
    ("our old dryer caught fire last night", "fire"),
    ("my old oven was sparking so i bought a new one and this one sparks too", "sparks"),
    ("mi vieja dice que huele a gas", "gas_smell"),
    ("mi vieja estufa echa chispas", "sparks"),
    ("my moms stove is leaking gas, mine is fine", "gas_smell"),
    ("there is a fishy smell from the light switch when the hood runs", "burning_smell"),
    ("huele a pescado el contacto del horno y no cocinamos", "burning_smell"),
    ("gas dryer makes the windows sweat and my wife has headaches", "carbon_monoxide"),
    ("con la estufa de gas prendida mi papa anda mareado", "carbon_monoxide"),
    ("el motor empieza a umear si lo dejo prendido", "smoke"),
    ("the microwave echo chispas por dentro", "sparks"),
    ("slow hiss from the back of the freezer makes my eyes burn", "refrigerant_leak"),
    ("spilled broth into the burner knobs and now it crackles in there", "water_near_power"),
    ("el contacto tiene agua alrededor", "water_near_power"),
    ("used the extinguisher on the dryer", "fire"),
    ("me golpeo la puerta del horno en la cabeza", "injury"),
    ("le pusieron cinco puntos en la mano por el vidrio", "injury"),
    ("is that smoke? no, but i smell burning plastic", "burning_smell"),
    ("do you smell gas? no idea but something stinks of gas", "gas_smell"),
    ("la manguera no para de echar agua", "flooding"),
    ("my dishwasher is smoking", "smoke"),
    ("the plug is warm, the outlet has a scorch mark", "hot_wiring"),
)

HARMLESS = (
    "gas. propane if that matters",
    "de gas butano, del tanque de afuera",
    "our old dryer caught fire so we bought this one, it just squeaks",
    "we had a gas leak at the old place which is why i bought electric",
    "my gfs oven sparked and almost burnt her place down, mine just takes forever to heat",
    "my aunts fridge was throwing sparks but thats hers, mine has a dark bulb",
    "a una del trabajo le dio toques su lavadora, la mia nomas no exprime",
    "la estufa de mi mama echaba humo y la tiramos, esta es nueva y trae mal el reloj",
    "si huele a gas algun dia a quien le llamo",
    "stove flames are yellow and lazy",
    "cuatro fuegos tiene y los dos de atras no encienden",
    "una llamita chiquita que ni calienta, los otros echan buena lumbre",
    "se me corto la leche, el refri no enfria",
    "no quiero que se me queme la ropa",
    "le aplaste el boton y no baja",
    "la ropa sale con puntos negros",
    "shared laundry, the washer will not spin",
    "el señor se hace el sordo, yo pago",
    "Walter Pruhs, the drawer is stuck",
    "i panicked when i read 911, can we do friday",
    "range trips the arc fault every time we bake",
    "fire extinguisher is by the stove, dog is in the yard",
    "this party is fire come thru",
    "popcorn burned and the microwave stinks of burnt popcorn",
    "it did smell like something burning but that was my toast",
    "cuando hago tortillas se activa la alarma de humo",
    "el humo de los chiles se queda en la cocina",
    "smoke from the griddle hangs there, the hood is weak",
    "the dryer is a little bit sick",
    "se llena y no para de echarse agua hasta que cierro la llave",
    "the breaker pops right back, plug is good",
    "outlet under the sink tested hot, still no lights",
)


@pytest.mark.parametrize(("text", "code"), DANGERS)
def test_a_danger_is_heard(reader: Reader, text: str, code: str) -> None:
    assert code in {hazard.code for hazard in reader.read(text).hazards}


@pytest.mark.parametrize("text", HARMLESS)
def test_what_only_sounds_like_one_raises_none(reader: Reader, text: str) -> None:
    assert not reader.read(text).hazards


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Do I smell gas? no. Does my oven heat? also no", "gas_smell"),
        ("Smoke? nope. it just will not start", "smoke"),
        ("ni humo ni chispas, nomas no calienta", "sparks"),
        ("it trips but the plugs not hot", "hot_wiring"),
        ("el enchufe no esta caliente", "hot_wiring"),
        ("glass cracked, no cuts", "injury"),
        ("the gas company came tuesday and said all clear", "gas_smell"),
        ("leaks in front but no water by it, the outlet i mean", "water_near_power"),
    ],
)
def test_what_is_told_not_to_be_is_denied(reader: Reader, text: str, code: str) -> None:
    reading = reader.read(text)
    assert code in {hazard.code for hazard in reading.denied_hazards}
    assert code not in {hazard.code for hazard in reading.hazards}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("la leche se me corto y la carne esta blandita", "food_at_risk"),
        ("freezer is dead, ice cream is soup", "food_at_risk"),
        ("gotea por abajo, le puse una tina mientras", "active_leak"),
        ("leaking a little, i have a towel there", "active_leak"),
        ("im eighty four and cant bend down", "vulnerable_person"),
        ("my wife is on a walker", "vulnerable_person"),
    ],
)
def test_why_it_cannot_wait_is_heard(reader: Reader, text: str, code: str) -> None:
    assert code in reader.read(text).urgency


@pytest.mark.parametrize(
    "text",
    [
        "a six month old wine cooler that no longer chills",
        "se echo a perder el compactador",
        "la comida sale caliente pero el plato no gira",
        "my late husband put it in himself in 1989",
        "pipes froze, got it thawed, washer wont fill",
    ],
)
def test_what_can_wait_is_not_urgent(reader: Reader, text: str) -> None:
    assert not reader.read(text).urgency
