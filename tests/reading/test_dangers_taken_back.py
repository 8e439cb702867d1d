"""Dangers told and taken back, explained or excused; and true ones told beside the same words."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader

DENIED = (
    ("washer just hums. sparks no, never", "sparks"),
    ("chispas no, eso fue el otro aparato", "sparks"),
    ("no gira el plato, humo no", "smoke"),
    ("water by the outlet? no thats way over on the sink side", "water_near_power"),
    ("did it spark? nope lol, it just quit", "sparks"),
    ("my wife asked if i smelled burning, no, nothing like that", "burning_smell"),
    ("no smoke no sparks nothing on fire, it just rattles", "fire"),
    ("it beeped twice and nothing was smoking", "smoke"),
    ("i thought something was burning, turns out it was my sons popcorn", "burning_smell"),
    ("ayer olia a quemado pero era la cena, el horno no tiene luz", "burning_smell"),
    ("huele a quemado pero es el vecino que anda asando carne, mi refri no enfria", "burning_smell"),
    ("your notes say it smells of gas. i never said that, a knob is loose", "gas_smell"),
    ("dishwasher drips, the outlet is on the other side of the cabinet, dry", "water_near_power"),
    ("el enchufe esta muy arriba y seco", "water_near_power"),
    ("nobody has felt dizzy and the co alarm is quiet", "carbon_monoxide"),
    ("ni mareos ni dolor de cabeza", "carbon_monoxide"),
    ("era puro vapor, no humo", "smoke"),
)

EXCUSED = (
    "disposal hums. i got cut by one of these years ago so my hand stays out of it",
    "do i need a plumber or you guys if theres ever a gas leak? just asking",
    "hood is weak and the whole house smells like fried fish",
    "the news had a story about ovens catching fire and now my mom worries, mine just has a dead clock",
    "me pueden instalar una alarma de humo nueva en la cocina",
)

TRUE = (
    ("haha this is fine, the left side of my range is on fire", "fire"),
    ("lol so the dryer is smoking a little, should i worry", "smoke"),
    ("pense que era la comida pero el humo sale del motor de la campana", "smoke"),
    ("i thought it was the neighbors bbq but smoke is coming from our dryer", "smoke"),
    ("hood motor started smelling like melted plastic while i was cooking", "burning_smell"),
    ("my last dryer never did this but this one is sparking", "sparks"),
    ("last year you fixed it and today it smells like gas again", "gas_smell"),
    ("turns out it wasnt the toast, the dishwasher is what smells burnt", "burning_smell"),
    ("what do i do if i smell gas right now by the stove", "gas_smell"),
    ("just wondering if its ok that theres smoke when the oven preheats", "smoke"),
    ("did the gas smell go away? no", "gas_smell"),
    ("it does nothing, smells burnt", "burning_smell"),
    ("it does nothing smells burnt", "burning_smell"),
    ("no heat and smell of burning from the dryer", "burning_smell"),
    ("no burning smell and smoke from the dryer", "smoke"),
    ("sale humo no prende", "smoke"),
    ("the outlet is dry but water is dripping on the power strip", "water_near_power"),
    ("cleaned the filters, hood still doesnt clear smoke from cooking. and the motor smells burnt", "burning_smell"),
    ("el año pasado igual, y ahora otra vez echa humo la secadora", "smoke"),
    ("chispea adentro cuando caliento la comida", "sparks"),
    ("jajaja el refri me dio un toque bien fuerte al abrirlo", "shock"),
)

FOOD = (
    "freezer died and i got half an elk in there",
    "the stuff on top in the freezer is getting soft",
    "freezer hums but nothing in it is frozen anymore",
    "la carne del congelador ya se anda ablandando",
    "se me echo a perder el pollo, no enfria el refri",
)


@pytest.mark.parametrize(("text", "code"), DENIED)
def test_a_danger_taken_back_is_denied_and_not_raised(reader: Reader, text: str, code: str) -> None:
    read = reader.read(text)
    assert code not in {h.code for h in read.hazards}
    assert code in {h.code for h in read.denied_hazards}


@pytest.mark.parametrize("text", EXCUSED)
def test_an_excused_danger_is_not_raised(reader: Reader, text: str) -> None:
    assert not reader.read(text).hazards


@pytest.mark.parametrize(("text", "code"), TRUE)
def test_what_stands_beside_an_excuse_is_raised_all_the_same(reader: Reader, text: str, code: str) -> None:
    assert code in {h.code for h in reader.read(text).hazards}


@pytest.mark.parametrize("text", FOOD)
def test_food_is_at_risk(reader: Reader, text: str) -> None:
    assert "food_at_risk" in reader.read(text).urgency
