"""The workshop's commands, for whoever keeps the rules."""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path
from shutil import get_terminal_size

import click

from service.rulebook.loading import load_rulebook
from service.settings import load_settings
from service.storage.engine import open_engine, reading
from service.storage.shops import edition_source
from service.storage.turns import last_turns
from service.workshop.check import check as check_rules
from service.workshop.counting import write_counts
from service.workshop.cover import cover
from service.workshop.examples import run_examples
from service.workshop.overrides import told as overrides_told
from service.workshop.publish import publish, publish_profile
from service.workshop.report import Report, count
from service.workshop.simulation import report as report_simulation
from service.workshop.terminal import RULES, SHOP, friendly
from service.workshop.trial.past import as_lines, from_lines, stored
from service.workshop.trial.redacting import gathered
from service.workshop.trial.side_by_side import report as side_by_side
from service.workshop.trial.trying import trial


@click.group()
def workshop() -> None:
    """For whoever keeps the rules."""


@workshop.command()
@RULES
def check(rules: Path) -> None:
    """Report every problem of every rule file."""
    _tell(check_rules(rules))


@workshop.command()
@RULES
@SHOP
def examples(rules: Path, shop: str) -> None:
    """Run every example in the rules and say what each hit instead."""
    with friendly():
        report = run_examples(load_rulebook(rules, shop))
    _tell(report)


@workshop.command("cover")
@RULES
@SHOP
@click.option("--appliance", "appliances", multiple=True, help="Only this one; may be given several times.")
def cover_rules(rules: Path, shop: str, appliances: tuple[str, ...]) -> None:
    """
    List what the rules leave open: symptoms nobody is heard saying, wordings claimed twice, causes nothing tells apart,
    questions and checks that never come up, parts nothing needs, wording too long or too hard. Exit code 1 if anything is.
    """
    with friendly():
        report = cover(rules, shop, appliances, lambda name: click.echo(f"{name} ...", err=True))
    _tell(report)


@workshop.command("count")
@RULES
def count_rules(rules: Path) -> None:
    """Print how much each appliance's rules hold, and write it into the guide beside the rules."""
    table, changed = write_counts(rules)
    click.echo(table)
    click.echo("README.md was brought into step." if changed else "README.md was in step.", err=True)


@workshop.command("overrides")
@RULES
@SHOP
def show_overrides(rules: Path, shop: str) -> None:
    """Say what a shop's file lays over the base rules, with the base beside it, and what it says for itself alone."""
    with friendly():
        report = overrides_told(rules, shop)
    _tell(report)


@workshop.command("gather")
@SHOP
@click.option("--last", default=200, show_default=True, help="How many turns, counted from the newest.")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
def gather_turns(shop: str, last: int, file: Path) -> None:
    """Write past turns to FILE for a trial elsewhere: without names, addresses, phone numbers and gate codes."""
    with friendly():
        settings = load_settings()
        rulebook = load_rulebook(settings.rules, shop)
        with reading(open_engine(settings.database)) as connection:
            past = [stored(row) for row in last_turns(connection, shop, last)]
    found = gathered(past, rulebook)
    file.write_text("".join(f"{line}\n" for line in as_lines(found.turns)), "utf-8")
    click.echo(f"{count(len(found.turns), 'turn')} written to {file}.")
    if found.left_out:
        click.echo(f"{found.left_out} left out: they would be read differently without the person in them.")


@workshop.command("trial")
@RULES
@SHOP
@click.option("--last", default=200, show_default=True, help="How many turns of the database, counted from the newest.")
@click.option(
    "--from", "file", type=click.Path(path_type=Path, dir_okay=False, exists=True), help="Gathered turns instead."
)
def try_rules(rules: Path, shop: str, last: int, file: Path | None) -> None:
    """
    Take past turns again on the edited RULES and show what would be answered otherwise, side by side. Nothing is sent.

    Exit code 1 if a turn could not be taken at all on these rules.
    """
    with friendly():
        rulebook = load_rulebook(rules, shop)
        if file is not None:
            with file.open(encoding="utf-8") as lines:
                tried = list(trial(from_lines(lines, str(file)), rulebook))
        else:
            with reading(open_engine(load_settings().database)) as connection:
                past = [stored(row) for row in last_turns(connection, shop, last)]
                tried = list(trial(past, rulebook, partial(edition_source, connection, shop)))
    _tell(side_by_side(tried, get_terminal_size().columns))


@workshop.command("publish")
@RULES
@click.option(
    "--gateways", type=click.Path(path_type=Path, file_okay=False), default=Path("deploy/gateways"), show_default=True,
    help="The folder of gateway profiles.",
)  # fmt: skip
def publish_schema(rules: Path, gateways: Path) -> None:
    """Write the JSON Schemas that editors read, and the table of fields in the guide, from the schema."""
    changed = publish(rules) + (publish_profile(gateways) if gateways.is_dir() else ())
    click.echo("\n".join(str(path) for path in changed) or "Everything is in step.")


@workshop.command()
@RULES
@SHOP
@click.option("--customers", default=10_000, show_default=True, help="Invented customers for each appliance.")
@click.option("--seed", default=1, show_default=True, help="The same seed gives the same customers.")
@click.option(
    "--learn", is_flag=True, help="Also show what outcomes would teach a shop whose faults differ from the book."
)
@click.option("--appliance", "appliances", multiple=True, help="Only this one; may be given several times.")
def simulate(rules: Path, shop: str, customers: int, seed: int, learn: bool, appliances: tuple[str, ...]) -> None:
    """Compare asking by value with a fixed list and with entropy, on invented customers."""
    with friendly():
        report_simulation(load_rulebook(rules, shop), customers, seed, learn, appliances)


def _tell(report: Report) -> None:
    click.echo(report.text)
    sys.exit(report.exit_code)
