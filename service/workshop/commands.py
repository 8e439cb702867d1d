"""The workshop's commands, for whoever keeps the rules."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from service.rulebook.loading import load_rulebook
from service.workshop.check import check as check_rules
from service.workshop.counting import write_counts
from service.workshop.cover import cover
from service.workshop.examples import run_examples
from service.workshop.publish import publish
from service.workshop.report import Report
from service.workshop.simulation import report as report_simulation
from service.workshop.terminal import RULES, SHOP, friendly


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


@workshop.command("publish")
@RULES
def publish_schema(rules: Path) -> None:
    """Write the JSON Schemas that editors read, and the table of fields in the guide, from the schema."""
    changed = publish(rules)
    click.echo("\n".join(str(path) for path in changed) or "Everything is in step.")


@workshop.command()
@RULES
@SHOP
@click.option("--customers", default=10_000, show_default=True, help="Invented customers for each appliance.")
@click.option("--seed", default=1, show_default=True, help="The same seed gives the same customers.")
@click.option(
    "--learn", is_flag=True, help="Also show what outcomes would teach a shop whose faults differ from the book."
)
def simulate(rules: Path, shop: str, customers: int, seed: int, learn: bool) -> None:
    """Compare asking by value with a fixed list and with entropy, on invented customers."""
    with friendly():
        report_simulation(load_rulebook(rules, shop), customers, seed, learn)


def _tell(report: Report) -> None:
    click.echo(report.text)
    sys.exit(report.exit_code)
