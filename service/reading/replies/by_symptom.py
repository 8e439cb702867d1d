"""Which of several symptoms a text takes by telling it: “mostly it drips”, “idk, all i know is theres bubbles everywhere”."""

from __future__ import annotations

from service.reading.model import Answer, Asked, Reading

_GIVES_WAY = (None, "dont_know", "declined", "value")


def by_its_symptom(asked: Asked, taken: Answer | None, text: Reading) -> Answer | None:
    """*taken*, or the one choice whose symptom is told of the machine, where nothing plainer says which is meant."""
    if asked.kind != "symptom" or (taken.kind if taken else None) not in _GIVES_WAY:
        return taken
    told = {found.code for found in text.symptoms if asked.appliance in (None, found.appliance)}
    places = [place for place, choice in enumerate(asked.choices) if choice.value in told]
    if len(places) != 1:
        return taken
    return Answer("choice", asked.choices[places[0]].value, places[0])
