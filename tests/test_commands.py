"""The commands when what they need is not there: a sentence with a remedy, never a traceback."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from service.cli import main
from tests.conftest import ROOT
from tests.edge.running import free_port


@pytest.mark.parametrize("command", ["serve", "send", "purge"])
def test_a_database_out_of_reach_is_told_in_a_sentence(command: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PLAINFAULT_DATABASE", f"postgresql+psycopg://nobody@127.0.0.1:{free_port()}/none")
    monkeypatch.setenv("PLAINFAULT_SECRET", "s" * 40)
    monkeypatch.setattr("service.cli.PATIENCE_S", 1.0)
    said = CliRunner().invoke(main, [command])
    assert said.exit_code == 1
    assert "The database cannot be used" in said.stderr
    assert "PLAINFAULT_DATABASE" in said.stderr
    assert "Traceback" not in said.output


def test_a_file_that_cannot_be_written_is_told_in_a_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    in_the_way = tmp_path / "a file"
    in_the_way.write_text("no folder")
    monkeypatch.setenv("PLAINFAULT_DATABASE", f"sqlite:///{in_the_way}/line.sqlite3")
    monkeypatch.setenv("PLAINFAULT_SECRET", "s" * 40)
    said = CliRunner().invoke(main, ["serve"])
    assert said.exit_code == 1
    assert "cannot be written" in said.stderr
    assert "PLAINFAULT_DATABASE" in said.stderr


def test_missing_tables_are_told_with_the_command_that_makes_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PLAINFAULT_DATABASE", f"sqlite:///{tmp_path / 'empty.sqlite3'}")
    monkeypatch.setenv("PLAINFAULT_SECRET", "s" * 40)
    said = CliRunner().invoke(main, ["pause"])
    assert said.exit_code == 1
    assert "plainfault migrate" in said.stderr


def test_a_profile_that_cannot_work_stops_the_start_with_file_line_field_and_remedy(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    odd = ROOT / "tests" / "edge" / "odd_gateways" / "brindle.yaml"
    (tmp_path / "brindle.yaml").write_text(odd.read_text().replace('{time_unix}"', '{time_unx}"'))
    monkeypatch.setenv("PLAINFAULT_DATABASE", f"sqlite:///{tmp_path / 'line.sqlite3'}")
    monkeypatch.setenv("PLAINFAULT_SECRET", "s" * 40)
    monkeypatch.setenv("PLAINFAULT_GATEWAYS", str(tmp_path))
    said = CliRunner().invoke(main, ["serve"])
    assert said.exit_code == 1
    assert "brindle.yaml, line 39, send > headers > X-Brindle-Time" in said.stderr
    assert 'Did you mean "time_unix"?' in said.stderr
    assert "Traceback" not in said.output
