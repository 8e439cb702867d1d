"""Facts told beside something else: since an event, a fuel between a machine's words, what is no wish, no age and no cycle."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("been like that since easter", "since", "since easter"), ("hissing since we moved it", "since", "since we moved it"),
        ("ever since they put it in it smells", "since", "since they put it in"),
        ("not cold since the power outage", "since", "since the power outage"),
        ("waters been standing in it since last nite", "since", "since last nite"),
        ("desde que la movimos huele raro", "since", "desde que la movimos"),
        ("my gas wall oven is slow", "fuel", "gas"), ("electric glass cooktop, small burner is dead", "fuel", "electric"),
        ("con la parrilla empotrada de gas prendida", "fuel", "gas"), ("se mojó la cubierta de inducción", "fuel", "induction"),
        ("she smells propane behind our gas dryer", "fuel", "gas"),
        ("my dishwasher has been with me eleven years", "age_years", 11),
        ("soy el inquilino pero paga la dueña", "payer", "landlord"),
        ("felt the plug and its cool", "tried", ("checked_plug",)),
        ("the washer was bought ten years back", "age_years", 10), ("fridge is brand new", "age_years", 0),
    ],
)  # fmt: skip
def test_a_fact_told_in_passing_is_kept(reader: Reader, text: str, name: str, value: object) -> None:
    assert reader.read(text).facts.get(name) == value


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("since you guys are the experts what do you think", "since"), ("daughter keeps saying she smells propane", "fuel"),
        ("skunky propane stink around my stove", "fuel"), ("gets way hotter than it should", "pattern"),
        ("flipped the breaker on and off, no change", "pattern"), ("a flame came out just now and then it went out", "pattern"),
        ("salió lumbre por atrás y la apagué con sal", "tried"), ("the plug is wet where its plugged in", "tried"),
        ("is my dryer still under warranty", "payer"), ("it crackles like the 4th of july", "wish"),
        ("smells like an iron sat on them too long", "wish"), ("no descansa ni de día ni de noche", "wish"),
        ("trips the breaker as soon as i hit start", "wish"),
        ("brand new smoke alarm works. dishwasher door wont latch", "age_years"),
        ("my 6 yr old says the freezer is spicy", "age_years"), ("we had a kitchen fire ten years back", "age_years"),
        ("back in 2009 our old place went up", "address"), ("yo rento y no prende la estufa", "after"),
    ],
)  # fmt: skip
def test_what_only_sounds_like_a_fact_is_none(reader: Reader, text: str, name: str) -> None:
    assert name not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("can you come sat by noon", "wish", "sat by noon"), ("as soon as possible please", "wish", "as soon as possible"),
        ("can you come july 4th", "wish", "july 4th"), ("it turns on and off by itself all day", "pattern", "sometimes"),
    ],
)  # fmt: skip
def test_its_neighbours_still_count(reader: Reader, text: str, name: str, value: str) -> None:
    assert reader.read(text, about="washer").facts.get(name) == value
