"""The documents name what the code has: every setting, every command, every stage and way to close."""

from __future__ import annotations

from typing import get_args

import click
import pytest

from service.cli import main
from service.conversation.state import ClosedReason, Stage
from service.settings import PREFIX, Settings
from tests.conftest import ROOT

GUIDE = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def commands(group: click.Group, before: str) -> list[str]:
    found = []
    for name, command in group.commands.items():
        full = f"{before} {name}"
        found += commands(command, full) if isinstance(command, click.Group) else [full]
    return found


@pytest.mark.parametrize("name", list(Settings.model_fields))
def test_every_setting_has_its_line(name: str) -> None:
    assert f"`{PREFIX}{name.upper()}`" in GUIDE


@pytest.mark.parametrize("command", commands(main, "plainfault"))
def test_every_command_has_its_line(command: str) -> None:
    assert f"`{command}`" in GUIDE


@pytest.mark.parametrize("stage", get_args(Stage))
def test_every_stage_is_in_the_tickets_life(stage: str) -> None:
    assert f"| {stage} |" in GUIDE


def test_every_way_to_close_is_named() -> None:
    life = " ".join(GUIDE.split())
    assert [reason for reason in get_args(ClosedReason) if reason.replace("_", " ") not in life] == []
