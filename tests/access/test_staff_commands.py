"""The commands about who may sign in, against a real database file."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from service.cli import main
from service.storage.engine import open_engine, writing
from service.storage.migrate import upgrade
from service.storage.users import find_user

PASSWORD = "a walnut desk by the window 7"
ANOTHER = "the second drawer squeaks in june"


@pytest.fixture
def url(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    found = f"sqlite:///{tmp_path / 'staff.sqlite3'}"
    upgrade(open_engine(found))
    monkeypatch.setenv("PLAINFAULT_DATABASE", found)
    monkeypatch.setenv("PLAINFAULT_SECRET", "s" * 40)
    return found


def run(*words: str, typed: str = "") -> Result:
    return CliRunner().invoke(main, ["user", *words], input=typed)


def test_somebody_is_let_in_listed_shut_out_and_let_in_again(url: str) -> None:
    assert run("add", "dee", "--name", "Dee Whitfield", typed=f"{PASSWORD}\n").exit_code == 0
    assert "may sign in" in run("list").output
    assert "Dee Whitfield" in run("list").output
    assert run("off", "dee").exit_code == 0
    assert "shut out" in run("list").output
    assert run("on", "DEE").exit_code == 0
    assert "shut out" not in run("list").output


def test_a_new_password_takes_the_place_of_the_old(url: str) -> None:
    run("add", "dee", "--name", "Dee", typed=f"{PASSWORD}\n")
    with writing(open_engine(url)) as connection:
        before = find_user(connection, "demo", "dee")
    assert run("password", "dee", typed=f"{ANOTHER}\n").exit_code == 0
    with writing(open_engine(url)) as connection:
        after = find_user(connection, "demo", "dee")
    assert before is not None
    assert after is not None
    assert before[1] != after[1]


@pytest.mark.parametrize("words", [("off", "nobody"), ("password", "nobody"), ("on", "nobody")])
def test_a_login_that_is_not_there_is_told_with_those_that_are(url: str, words: tuple[str, ...]) -> None:
    run("add", "dee", "--name", "Dee", typed=f"{PASSWORD}\n")
    told = run(*words, typed=f"{ANOTHER}\n")
    assert told.exit_code == 1
    assert "There is no login nobody at demo. Logins there: dee." in told.output


def test_a_weak_password_is_refused_and_nothing_changes(url: str) -> None:
    assert run("add", "dee", "--name", "Dee", typed="short\n").exit_code == 1
    assert "Nobody has a login" in run("list").output
