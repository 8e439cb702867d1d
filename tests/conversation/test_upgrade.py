"""Stored states: the golden file of each shape reads as today's shape; what is unknown is refused, never guessed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pydantic import ValidationError

from service.conversation.state import SHAPE, State
from service.conversation.upgrade import UPGRADES, ShapeUnknown, read_state

GOLDEN = Path(__file__).parent / "golden"


@pytest.mark.parametrize("shape", range(1, SHAPE + 1))
def test_the_golden_state_of_every_shape_can_be_read(shape: int) -> None:
    document = json.loads((GOLDEN / f"state_{shape}.json").read_text(encoding="utf-8"))
    assert document["shape"] == shape
    state = read_state(document)
    assert state.shape == SHAPE
    assert state.tickets
    assert state.tickets[0].words
    assert state.contact.address


def test_the_golden_state_of_today_reads_and_writes_without_loss() -> None:
    document = json.loads((GOLDEN / f"state_{SHAPE}.json").read_text(encoding="utf-8"))
    assert read_state(document).model_dump(mode="json") == document


def test_every_earlier_shape_has_an_upgrade() -> None:
    assert set(UPGRADES) == set(range(1, SHAPE))


def test_nothing_stored_is_a_fresh_thread() -> None:
    assert read_state(None) == State() == read_state({})


def test_a_state_of_newer_code_is_refused_by_name() -> None:
    with pytest.raises(ShapeUnknown, match=f"shape {SHAPE + 1}"):
        read_state({"shape": SHAPE + 1})


def test_an_unknown_field_is_refused() -> None:
    with pytest.raises(ValidationError):
        read_state({"shape": SHAPE, "mood": "good"})
