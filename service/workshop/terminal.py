"""What every command shares: where the rules are, which shop is meant, and how a person's mistake is told."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NoReturn

import click
from sqlalchemy.exc import DBAPIError

from service.edge.gateways import ProfilesMistaken
from service.rulebook.loading import RulesMistaken
from service.settings import SettingsMistaken
from service.storage.one_process import DatabaseInUse
from service.workshop.trial.past import NotATurn

RULES = click.option(
    "--rules", type=click.Path(path_type=Path, file_okay=False), default=Path("rules"), show_default=True,
    help="The folder of rule files.",
)  # fmt: skip
SHOP = click.option("--shop", default="demo", show_default=True, help="The shop, by its file's name.")


@contextmanager
def friendly() -> Iterator[None]:
    """Tell a mistake, or a database out of reach, in a sentence with exit code 1; anything else is our bug and shows."""
    try:
        yield
    except (SettingsMistaken, RulesMistaken, ProfilesMistaken, DatabaseInUse, NotATurn) as mistake:
        stop(str(mistake))
    except DBAPIError as wrong:
        stop(_database_words(wrong))


def _database_words(wrong: DBAPIError) -> str:
    said = str(wrong.orig).strip().splitlines()[0].rstrip(".")
    return (
        f"The database cannot be used: {said}. See that it runs and that PLAINFAULT_DATABASE names it; "
        "if tables are missing, run `plainfault migrate`."
    )


def stop(message: str) -> NoReturn:
    """Say *message* on standard error and end with exit code 1."""
    click.echo(message, err=True)
    sys.exit(1)
