"""Asking by value against a fixed list and against entropy, on invented customers; and what outcomes would teach a shop."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from math import sqrt
from random import Random
from statistics import fmean, stdev

import click

from service.diagnosis.learning import applied, counted, propose
from service.diagnosis.simulate import POLICIES, Customer, Policy, Run, by_value, draw_customer, run
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

Z95 = 1.959963984540054
LEARNED_AFTER = (0, 50, 200)
"""Outcomes after which the learning is looked at."""
KNOWING = "knowing the truth"


@dataclass(frozen=True, slots=True)
class Interval:
    """A mean and half the width of its 95 % interval."""

    mean: float
    half: float

    def __str__(self) -> str:
        return f"{self.mean:8.2f} +/- {self.half:.2f}"


@dataclass(frozen=True, slots=True)
class PolicyResult:
    """One way of asking: minutes per ticket, what it costs more than asking by value (paired), and how tickets went."""

    policy: str
    minutes: Interval
    more: Interval
    questions: float
    checks: float
    settled: float
    second_trips: float


def compare(
    appliance: Appliance, shop: Shop, customers: Sequence[Customer], tick: Callable[[], None] = lambda: None
) -> tuple[PolicyResult, ...]:
    """The same customers under every policy, asking by value first. tick: called after each customer and policy."""
    done = {name: list(_ticking(customers, appliance, shop, policy, tick)) for name, policy in POLICIES.items()}
    base = [one.minutes for one in done["by value"]]
    return tuple(
        PolicyResult(
            policy=name,
            minutes=interval([one.minutes for one in found]),
            more=interval([one.minutes - here for one, here in zip(found, base, strict=True)]),
            questions=fmean(one.questions for one in found),
            checks=fmean(one.checks for one in found),
            settled=fmean(one.settled for one in found),
            second_trips=fmean(one.second_trip for one in found),
        )
        for name, found in done.items()
    )


def interval(values: Sequence[float]) -> Interval:
    """Mean of *values* with its 95 % interval, by the normal approximation."""
    return Interval(fmean(values), Z95 * stdev(values) / sqrt(len(values)) if len(values) > 1 else float("inf"))


def drifted(appliance: Appliance, rng: Random, spread: float = 1.0) -> Appliance:
    """A shop whose machines fail in other shares than the book says: each weight times a lognormal of this *spread*."""
    causes = {
        code: cause.model_copy(update={"weight": cause.weight * rng.lognormvariate(0.0, spread)})
        for code, cause in appliance.causes.items()
    }
    return appliance.model_copy(update={"causes": causes})


def learning_curve(
    book: Appliance, truth: Appliance, shop: Shop, outcomes: Sequence[int], customers: int, rng: Random,
    tick: Callable[[], None] = lambda: None,
) -> Iterator[tuple[str, Interval, Interval]]:  # fmt: skip
    """
    Minutes per ticket with the book, after so many *outcomes* at the shop, and knowing the truth, same customers.

    Each with what it costs more than knowing the truth, paired. tick: called after each customer.
    """
    asked = [draw_customer(truth, rng) for _ in range(customers)]
    jobs = [draw_customer(truth, rng) for _ in range(max(outcomes))]
    found = [one.found for one in _ticking(jobs, book, shop, by_value, tick)]
    known = [one.minutes for one in _ticking(asked, truth, shop, by_value, tick)]
    for count in outcomes:
        rules = applied(book, propose(book, counted(found[:count]))) if count else book
        minutes = [one.minutes for one in _ticking(asked, rules, shop, by_value, tick)]
        more = interval([one - here for one, here in zip(minutes, known, strict=True)])
        yield f"after {count} outcomes", interval(minutes), more
    yield KNOWING, interval(known), Interval(0.0, 0.0)


def curve_lines(curve: Iterable[tuple[str, Interval, Interval]]) -> Iterator[str]:
    """The learning curve as lines of a table, what is lacking against the truth also as a share of it."""
    rows = list(curve)
    known = next(minutes.mean for name, minutes, _ in rows if name == KNOWING)
    yield f"  {'learning':20}{'minutes':>18}{'more than knowing':>22}{'share':>9}"
    for name, minutes, more in rows:
        lacking = "" if name == KNOWING else f"{more!s:>22}{more.mean / known:9.1%}"
        yield f"  {name:20}{minutes!s:>18}{lacking}"


def report(
    rulebook: Rulebook, customers: int, seed: int, learn: bool = False, appliances: Sequence[str] = ()
) -> None:  # fmt: skip
    """
    Print the comparison for every appliance of the shop, or those named, with a progress bar.

    learn: also what outcomes would teach, on customers of their own.
    """
    for code, appliance in rulebook.appliances.items():
        if appliances and code not in appliances:
            continue
        rng = Random(f"{seed} {code}")  # noqa: S311 - a simulation, repeatable on purpose
        drawn = [draw_customer(appliance, rng) for _ in range(customers)]
        with click.progressbar(length=customers * len(POLICIES), label=code) as bar:
            results = compare(appliance, rulebook.shop, drawn, partial(bar.update, 1))
        click.echo(f"{code}: {customers} customers, minutes per ticket, 95 % intervals, seed {seed}")
        for line in table(results):
            click.echo(line)
        if learn:
            rng = Random(f"{seed} {code} learning")  # noqa: S311 - the same, however many were compared before
            truth = drifted(appliance, rng)
            with click.progressbar(
                length=(len(LEARNED_AFTER) + 1) * customers + max(LEARNED_AFTER), label="learning"
            ) as bar:
                tick = lambda bar=bar: bar.update(1)  # noqa: E731
                curve = tuple(learning_curve(appliance, truth, rulebook.shop, LEARNED_AFTER, customers, rng, tick))
            for line in curve_lines(curve):
                click.echo(line)


def table(results: Iterable[PolicyResult]) -> Iterator[str]:
    """The results as lines of a table."""
    titles = f"{'minutes':>18}{'more than by value':>22}{'questions':>11}{'checks':>8}{'settled':>9}{'2nd trip':>10}"
    yield f"  {'asking':14}{titles}"
    for one in results:
        more = "" if one.policy == "by value" else str(one.more)
        yield (
            f"  {one.policy:14}{one.minutes!s:>18}{more:>22}{one.questions:11.2f}{one.checks:8.2f}"
            f"{one.settled:9.1%}{one.second_trips:10.1%}"
        )


def _ticking(
    customers: Sequence[Customer],
    appliance: Appliance,
    shop: Shop,
    policy: Policy,
    tick: Callable[[], None],
) -> Iterator[Run]:
    for customer in customers:
        yield run(customer, appliance, shop, policy)
        tick()
