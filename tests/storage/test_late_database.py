"""A database that comes up later than the service, or never."""

from __future__ import annotations

import pytest
from sqlalchemy.exc import OperationalError

from service.storage.engine import await_database, open_engine
from tests.conftest import PostgresServer
from tests.edge.running import free_port


class Waiting:
    """A clock that moves by what is waited; *then* happens at a moment of it."""

    def __init__(self) -> None:
        self.at = 0.0
        self.then: dict[float, object] = {}

    def clock(self) -> float:
        return self.at

    def pause(self, seconds: float) -> None:
        self.at += seconds
        happens = self.then.get(self.at)
        if callable(happens):
            happens()


def test_a_database_that_comes_up_late_is_waited_for() -> None:
    server, waiting, told = PostgresServer(), Waiting(), list[str]()
    try:
        url = server.fresh()
        server.stop("fast")
        waiting.then[3.0] = server.start
        engine = open_engine(url)
        await_database(engine, 60, told.append, clock=waiting.clock, pause=waiting.pause)
        with engine.connect() as connection:
            assert connection.exec_driver_sql("SELECT 1").scalar_one() == 1
        engine.dispose()
    finally:
        server.remove()
    assert waiting.at >= 3.0
    assert len(told) == 1
    assert "Trying again for 60 seconds" in told[0]


def test_one_that_never_comes_is_given_up_with_its_own_error() -> None:
    waiting, told = Waiting(), list[str]()
    engine = open_engine(f"postgresql+psycopg://nobody@127.0.0.1:{free_port()}/none")
    with pytest.raises(OperationalError):
        await_database(engine, 5, told.append, clock=waiting.clock, pause=waiting.pause)
    assert (waiting.at, len(told)) == (5.0, 1)
