"""The rows of a measure's file: codes and bare numbers, by appliance and month."""

from __future__ import annotations

from collections.abc import Iterable

from service.diagnosis.review import Rate, parts_used
from service.pages.reports.measures import Curve, Judged, Measure, Parts, figures_of


def file_rows(measure: Measure, judged: Judged) -> Iterable[tuple[str | int | float, ...]]:
    """The head, then a row for each appliance and month with anything to count: codes and bare numbers."""
    if isinstance(measure, Parts):
        yield ("appliance", "month", "part", "jobs", "carried", "used", "carried_and_used", "used_not_carried")
        for month in (None, *judged.months):
            for use in parts_used(judged.of(None, month).jobs):
                counts = (use.jobs, use.carried, use.used, use.both, use.missed)
                yield (use.appliance, month or "all", use.part, *counts)
        return
    if isinstance(measure, Curve):
        yield (
            "appliance", "month", "from", "to", "count", "mean_forecast", "rate", "low", "high", "brier", "log_loss",
            "brier_all_causes", "log_loss_all_causes",
        )  # fmt: skip
        for appliance in (None, *judged.appliances):
            for month in (None, *judged.months):
                told = measure.forecasts(judged.of(appliance, month))
                whole = told.causes
                beliefs = (round(whole.brier, 6), round(whole.log_loss, 6)) if whole else ("", "")
                scores = (round(told.brier, 6), round(told.log_loss, 6), *beliefs)
                for bin_ in told.bins:
                    figures = (bin_.low, bin_.high, bin_.count, bin_.mean, bin_.rate, *bin_.interval)
                    yield (appliance or "all", month or "all", *(round(figure, 6) for figure in figures), *scores)
        return
    yield ("appliance", "month", "measure", "hits", "count", "value", "low", "high")
    for appliance in (None, *judged.appliances):
        for month in (None, *judged.months):
            for name, get in figures_of(measure):
                one = get(judged.of(appliance, month))
                if one.count:
                    hits = one.hits if isinstance(one, Rate) else ""
                    bounds = (round(bound, 6) for bound in one.interval)
                    yield (appliance or "all", month or "all", name, hits, one.count, round(one.value, 6), *bounds)
