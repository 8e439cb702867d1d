"""What every test may use: databases of both kinds, a clock that stands still, the rules of the demo shop."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import Engine, inspect, make_url, text

from service.storage.engine import open_engine
from service.storage.every_table import metadata
from service.storage.migrate import upgrade

ROOT = Path(__file__).parent.parent
RULES = ROOT / "rules"


@dataclass
class Clock:
    """A clock that moves only when told."""

    moment: datetime = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)  # a Tuesday, 10 in the morning in Albuquerque

    def __call__(self) -> datetime:
        return self.moment

    def forward(self, **by: float) -> datetime:
        """Move on by so many seconds, minutes, hours or days."""
        self.moment += timedelta(**by)
        return self.moment


@pytest.fixture
def clock() -> Clock:
    """Tuesday 1 December 2026, 10:00 in Albuquerque."""
    return Clock()


class PostgresServer:
    """A PostgreSQL server of the test run's own, on a Unix socket in a folder of its own."""

    def __init__(self) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="pf-pg-", dir="/tmp"))
        self.data = self.folder / "data"
        self._count = 0
        self._idle: list[str] = []
        found = shutil.which("pg_ctl", path=_binaries())
        if not found:
            raise RuntimeError("PostgreSQL's pg_ctl is not installed: apt-get install postgresql")
        self.bin = Path(found).resolve().parent
        if not (self.bin / "initdb").exists():
            self.bin = Path(
                subprocess.run(["pg_config", "--bindir"], check=True, capture_output=True, text=True).stdout.strip()
            )
        if os.geteuid() == 0:
            shutil.chown(self.folder, "postgres", "postgres")
        self._run(
            "initdb",
            "-D",
            str(self.data),
            "-U",
            "postgres",
            "-A",
            "trust",
            "--no-sync",
            "-E",
            "UTF8",
            "--locale=C.UTF-8",
        )
        self.start()
        admin = self.engine("postgres")
        with admin.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.execute(text("CREATE DATABASE template_plainfault"))
        admin.dispose()
        template = self.engine("template_plainfault")
        upgrade(template)
        template.dispose()

    def _run(self, *command: str) -> None:
        program = [str(self.bin / command[0]), *command[1:]]
        if os.geteuid() == 0:  # PostgreSQL refuses to run as root
            program = ["setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups", *program]
        subprocess.run(program, check=True, capture_output=True, cwd=self.folder, timeout=60)

    def start(self, fsync: str = "off") -> None:
        """Start the server; *fsync* on where durability is the point."""
        options = (
            f"-c listen_addresses='' -c unix_socket_directories='{self.folder}' -c fsync={fsync} -c max_connections=60"
        )
        self._run("pg_ctl", "-D", str(self.data), "-w", "-o", options, "-l", str(self.folder / "log"), "start")

    def stop(self, mode: str = "immediate") -> None:
        """Stop the server; ``immediate`` is a crash."""
        self._run("pg_ctl", "-D", str(self.data), "-m", mode, "-w", "stop")

    def url(self, name: str) -> str:
        """The URL of one database."""
        return f"postgresql+psycopg://postgres@/{name}?host={self.folder}"

    def engine(self, name: str) -> Engine:
        """An engine for one database."""
        return open_engine(self.url(name))

    def fresh(self) -> str:
        """The URL of a database with all tables and no rows: one that a test is done with, or a new one."""
        if self._idle:
            return self.url(self._idle.pop())
        self._count += 1
        name = f"t{self._count}"
        admin = self.engine("postgres")
        with admin.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.execute(text(f"CREATE DATABASE {name} TEMPLATE template_plainfault"))
        admin.dispose()
        return self.url(name)

    def done(self, url: str) -> None:
        """Empty the database at *url* for the next test, unless its tables are not the line's any more."""
        name = str(make_url(url).database)
        engine = self.engine(name)
        with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.execute(
                text(
                    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
                    " WHERE datname = current_database() AND pid <> pg_backend_pid()"
                )
            )
            found = set(inspect(connection).get_table_names()) - {"alembic_version"}
            if found == set(metadata.tables):
                connection.execute(text(f"TRUNCATE {', '.join(sorted(found))} RESTART IDENTITY"))
                self._idle.append(name)
        engine.dispose()

    def remove(self) -> None:
        """Stop and delete everything."""
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)


def _binaries() -> str:
    versions = sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)
    return os.pathsep.join([*(str(v) for v in versions), os.environ.get("PATH", "")])


@pytest.fixture(scope="session")
def postgres() -> Iterator[PostgresServer]:
    """The run's PostgreSQL server."""
    server = PostgresServer()
    yield server
    server.remove()


@pytest.fixture(scope="session")
def sqlite_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database file with all tables and no rows, to copy."""
    file = tmp_path_factory.mktemp("template") / "plainfault.sqlite3"
    engine = open_engine(f"sqlite:///{file}")
    upgrade(engine)
    engine.dispose()
    return file


@pytest.fixture(params=["sqlite", pytest.param("postgresql", marks=pytest.mark.postgres)])
def database_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """A database with all tables and no rows: the test runs once on each kind."""
    if request.param == "sqlite":
        template: Path = request.getfixturevalue("sqlite_template")
        shutil.copy(template, tmp_path / "plainfault.sqlite3")
        yield f"sqlite:///{tmp_path / 'plainfault.sqlite3'}"
        return
    server: PostgresServer = request.getfixturevalue("postgres")
    url = server.fresh()
    yield url
    server.done(url)


@pytest.fixture
def engine(database_url: str) -> Iterator[Engine]:
    """An engine for a fresh database, closed afterwards."""
    opened = open_engine(database_url)
    yield opened
    opened.dispose()
