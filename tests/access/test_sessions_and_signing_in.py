"""Sessions and signing in: how they begin, how they end, what wrong tries cost."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import Engine, select

from service.access import sessions
from service.access.passwords import PasswordRefused, Passwords
from service.access.signing_in import FREE_TRIES, MOST_TRIES, Wait, Welcome, Wrong, sign_in, wait_after
from service.access.users import UserRefused, create_user, new_password, switch
from service.storage import audit, users
from service.storage.engine import reading, writing
from service.storage.ledgers import sessions as session_table
from service.storage.users import UserRow
from tests.access.conftest import PASSWORD
from tests.conftest import Clock


def enter(engine: Engine, passwords: Passwords, clock: Clock, password: str = PASSWORD, login: str = "olive") -> object:
    return sign_in(engine, passwords, shop="demo", login=login, password=password, now=clock())


def signed_in(engine: Engine, clock: Clock, secret: str) -> sessions.SignedIn | None:
    with reading(engine) as connection:
        return sessions.find(connection, secret, clock())


def opened(engine: Engine, passwords: Passwords, clock: Clock) -> str:
    result = enter(engine, passwords, clock)
    assert isinstance(result, Welcome)
    return result.secret


def test_the_right_password_opens_a_session(engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow) -> None:
    found = signed_in(engine, clock, opened(engine, passwords, clock))
    assert found is not None
    assert found.user == olive


def test_the_table_holds_no_secret_that_opens_a_session(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    secret = opened(engine, passwords, clock)
    with reading(engine) as connection:
        kept = connection.execute(select(session_table.c.token, session_table.c.csrf)).one()
    assert secret not in kept
    assert signed_in(engine, clock, kept.token) is None


def test_a_session_ends_after_thirty_idle_minutes(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    secret = opened(engine, passwords, clock)
    clock.forward(minutes=29, seconds=59)
    assert signed_in(engine, clock, secret) is not None
    clock.forward(seconds=1)
    assert signed_in(engine, clock, secret) is None


def test_a_session_ends_after_eight_hours_however_busy(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    secret = opened(engine, passwords, clock)
    for _ in range(47):
        clock.forward(minutes=10)
        found = signed_in(engine, clock, secret)
        assert found is not None
        with writing(engine) as connection:
            sessions.used(connection, found, clock())
    clock.forward(minutes=10)
    assert signed_in(engine, clock, secret) is None


def test_signing_out_ends_the_session_on_the_server(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    secret = opened(engine, passwords, clock)
    found = signed_in(engine, clock, secret)
    assert found is not None
    with writing(engine) as connection:
        sessions.end(connection, found, clock())
    assert signed_in(engine, clock, secret) is None


def test_switching_somebody_off_ends_their_sessions_and_their_signing_in(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    secret = opened(engine, passwords, clock)
    with writing(engine) as connection:
        switch(connection, olive, False, now=clock(), by="ada")
    assert signed_in(engine, clock, secret) is None
    assert enter(engine, passwords, clock) == Wrong()


def test_a_new_password_ends_the_old_ones_sessions(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    secret = opened(engine, passwords, clock)
    with writing(engine) as connection:
        new_password(connection, passwords, olive, "seven brass lamps at noon", now=clock(), by="olive")
    assert signed_in(engine, clock, secret) is None
    assert enter(engine, passwords, clock) == Wrong()
    assert isinstance(enter(engine, passwords, clock, "seven brass lamps at noon"), Welcome)


def test_a_wrong_password_and_an_unknown_login_are_told_apart_by_nobody(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    assert enter(engine, passwords, clock, "wrong wrong wrong") == Wrong()
    assert enter(engine, passwords, clock, login="nobody") == Wrong()


def test_a_login_with_odd_capitals_is_the_same(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    assert isinstance(enter(engine, passwords, clock, login=" OLIVE "), Welcome)


def test_wrong_tries_cost_waiting_and_the_right_one_ends_it(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    for _ in range(FREE_TRIES + 1):
        assert enter(engine, passwords, clock, "wrong wrong wrong") == Wrong()
    assert enter(engine, passwords, clock) == Wait(2)
    clock.forward(seconds=2)
    assert isinstance(enter(engine, passwords, clock), Welcome)
    assert enter(engine, passwords, clock, "wrong wrong wrong") == Wrong()


def test_waiting_doubles_up_to_a_quarter_of_an_hour() -> None:
    waits = [wait_after(n).total_seconds() for n in range(FREE_TRIES, FREE_TRIES + 16)]
    assert waits[:5] == [0, 2, 4, 8, 16]
    assert waits[-1] == timedelta(minutes=15).total_seconds()
    assert waits == sorted(waits)


def test_a_hundred_wrong_tries_in_a_row_shut_the_login(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    """Source X6."""
    with writing(engine) as connection:
        for _ in range(MOST_TRIES):
            users.note_failure(connection, "demo", "olive", clock())
    clock.forward(days=2)
    assert enter(engine, passwords, clock) == Wait(None)


@pytest.mark.parametrize(
    ("login", "role", "words"),
    [
        ("olive", "office", "already has a login"),
        ("x", "office", "2 to 63"),
        ("line", "office", "taken by the line"),
        ("otto", "king", "not a role"),
        ("rae", "technician", "technician's id"),
    ],
)
def test_a_user_that_cannot_be_made_is_refused_in_words(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow, login: str, role: str, words: str
) -> None:
    with writing(engine) as connection, pytest.raises(UserRefused, match=words):
        create_user(
            connection, passwords, shop="demo", login=login, name="N", password=PASSWORD, role=role, now=clock()
        )


def test_a_weak_password_makes_no_user(engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow) -> None:
    with writing(engine) as connection, pytest.raises(PasswordRefused):
        create_user(
            connection, passwords, shop="demo", login="otto", name="O", password="short", role="office", now=clock()
        )


def test_making_a_user_and_signing_in_are_in_the_audit_trail(
    engine: Engine, passwords: Passwords, clock: Clock, olive: UserRow
) -> None:
    opened(engine, passwords, clock)
    with reading(engine) as connection:
        deeds = [row.did for row in audit.of_subject(connection, "demo", "user:olive")]
    assert sorted(deeds) == ["signed_in", "user_made"]
