"""What no owner may be told to do is heard in both languages, and what tells them not to do it passes."""

from __future__ import annotations

import pytest

from service.rulebook.checking.forbidden import ACTS, forbidden_act

TOLD = [
    ("en", "Remove the lower panel.", "remove a panel"),
    ("en", "Open the door, then take the toe kick off.", "remove a panel"),
    ("en", "If it does not drain, pull off the kick plate.", "remove a panel"),
    ("en", "Do not run it. Pry the access cover open.", "remove a panel"),
    ("en", "Do not worry, unscrew the back cover.", "remove a panel"),
    ("es", "Quite el panel de abajo.", "remove a panel"),
    ("es", "Abra la puerta y saque el zócalo.", "remove a panel"),
    ("en", "Loosen the two screws at the top.", "undo a screw"),
    ("es", "Afloje los tornillos.", "undo a screw"),
    ("en", "Scrape the hole clean with a knife.", "use a tool"),
    ("es", "Con un destornillador, levante la rejilla.", "use a tool"),
    ("en", "Turn the gas valve off.", "touch gas"),
    ("en", "Light the pilot light.", "touch gas"),
    ("es", "Cierre la llave del gas.", "touch gas"),
    ("es", "Encienda el piloto.", "touch gas"),
    ("en", "Reach your hand into the disposal and feel for glass.", "put a hand in a disposal"),
    ("es", "Meta la mano en el triturador.", "put a hand in a disposal"),
    ("en", "Pour a cup of bleach in.", "use chemicals"),
    ("es", "Eche destapacaños en el fregadero.", "use chemicals"),
    ("en", "Pull the dishwasher out and look behind it.", "move the machine"),
    ("en", "Slide out the range.", "move the machine"),
    ("es", "Jale la estufa hacia afuera.", "move the machine"),
    ("en", "Take the drain hose off at the sink.", "take a hose off"),
    ("es", "Desconecte la manguera.", "take a hose off"),
    ("en", "Check the wires behind the board.", "touch wiring"),
    ("es", "Revise los fusibles.", "touch wiring"),
    ("en", "Hold the door switch down.", "defeat a door or lid switch"),
    ("es", "Presione el interruptor de la puerta.", "defeat a door or lid switch"),
    ("en", "Force the valve if it is stiff.", "force something stiff"),
    ("es", "Fuerce la llave.", "force something stiff"),
    ("en", "Chip the ice away.", "chip or heat ice"),
    ("en", "A hair dryer helps.", "chip or heat ice"),
    ("es", "Pique el hielo con cuidado.", "chip or heat ice"),
    ("en", "Run a self-clean cycle.", "run a self-clean cycle"),
    ("es", "Ponga la autolimpieza.", "run a self-clean cycle"),
    ("en", "Run the dryer without the vent.", "run a dryer unvented"),
    ("es", "Prenda la secadora sin el ducto.", "run a dryer unvented"),
    ("en", "Reset the breaker again.", "reset a breaker again"),
    ("en", "Keep flipping until the breaker holds.", "reset a breaker again"),
    ("es", "Suba el breaker otra vez.", "reset a breaker again"),
    ("en", "Add refrigerant.", "open sealed refrigerant"),
    ("es", "Recargue el refrigerante.", "open sealed refrigerant"),
    ("en", "Plug it into an extension cord.", "use an extension cord"),
    ("es", "Conecte una extensión.", "use an extension cord"),
    ("en", "Turn up the water heater to 140.", "turn up the water heater"),
    ("es", "Suba la temperatura del agua.", "turn up the water heater"),
]

NOT_TOLD = [
    ("en", "Do not remove the panel."),
    ("en", "Nobody reaches into the disposal or takes the hose off."),
    ("en", "Never use a knife or a screwdriver."),
    ("en", "If the plug is hot, do not touch the wires."),
    ("en", "With the door open, do not use a knife."),
    ("en", "Leave the toe panel on."),
    ("en", "Pull out the lower rack of the dishwasher."),
    ("en", "Open the cabinet under the sink."),
    ("en", "Open the dishwasher door."),
    ("en", "Turn the filter left and lift it out."),
    ("en", "Look at the hose. It must not be kinked."),
    ("en", "Turn the water valve on by hand. Do not force it."),
    ("en", "If it trips again, leave it off."),
    ("en", "Lift the cap of the air gap and rinse it."),
    ("en", "Press the door until it clicks."),
    ("en", "Run the hot tap first."),
    ("en", "Check that the gas smell is gone."),
    ("es", "No quite el panel."),
    ("es", "Nadie mete la mano en el triturador ni quita la manguera."),
    ("es", "No use cloro ni destapacaños."),
    ("es", "Saque la canasta de abajo."),
    ("es", "Abra la puerta del lavaplatos."),
    ("es", "Si el enchufe está caliente, no toque los cables."),
    ("es", "Gire el filtro a la izquierda y sáquelo."),
    ("es", "Abra la llave del agua a mano, sin forzarla."),
    ("es", "Quite la tapita del respiradero y enjuáguela."),
    ("es", "Si se vuelve a botar, déjelo abajo."),
    ("es", "Revise que la manguera no esté doblada."),
]


@pytest.mark.parametrize(("language", "text", "act"), TOLD)
def test_a_forbidden_act_is_heard(language: str, text: str, act: str) -> None:
    assert forbidden_act(text, language) == act


@pytest.mark.parametrize(("language", "text"), NOT_TOLD)
def test_a_warning_and_a_safe_step_pass(language: str, text: str) -> None:
    assert forbidden_act(text, language) is None


def test_every_act_is_tried_in_both_languages() -> None:
    tried = {(language, act) for language, _, act in TOLD}

    assert {(language, act.name) for act in ACTS if not act.running_only for language in ("en", "es")} == tried


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "Look under the dishwasher while it drains."), ("es", "Mire debajo del lavaplatos mientras desagua.")],
)
def test_looking_underneath_is_forbidden_only_while_it_runs(language: str, text: str) -> None:
    assert forbidden_act(text, language, running=True) == "look underneath a running machine"
    assert forbidden_act(text, language) is None


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "Look under the sink while it drains."), ("es", "Mire debajo del fregadero mientras desagua.")],
)
def test_looking_under_the_sink_while_it_runs_is_fine(language: str, text: str) -> None:
    assert forbidden_act(text, language, running=True) is None
