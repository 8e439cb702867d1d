"""A measure as it stands on the page: what it says in a line, its picture and the tables behind it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil, isnan

from service.diagnosis.review import Forecasts, Mean, PartUse, Rate, parts_used
from service.pages.reports.measures import Curve, Judged, Measure, Parts, Share, figures_of
from service.pages.reports.pictures import (
    FEW_OF_A_FORECAST,
    Picture,
    Point,
    calibration_picture,
    over_time,
    parts_picture,
)
from service.pages.words import month_words

PARTS_DRAWN = 8
SAID = (0.2, 0.4, 0.6, 0.8, 0.9)
"""Chances for which it is told what they have come to."""
FEW_SAYS = "Fewer than 50 so far: read the range, not the figure."


@dataclass(frozen=True, slots=True)
class Table:
    """A table behind a picture; the first cell of each row is its head."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Section:
    """One measure. headline: the figure over everything shown. note: how far it can be trusted. picture: None if empty."""

    id: str
    title: str
    says: str
    headline: str
    note: str
    picture: Picture | None
    tables: tuple[Table, ...]
    csv: str


@dataclass(frozen=True, slots=True)
class Names:
    """How codes are called on the page."""

    appliance: Callable[[str], str]
    part: Callable[[str, str], str]


def section_of(measure: Measure, judged: Judged, months: Sequence[str], names: Names, query: str) -> Section:
    """*measure* over *judged*. months: those to draw, oldest first. query: of the address, for the file."""
    csv = f"/desk/reports/{measure.id}.csv?{query}"
    if isinstance(measure, Parts):
        return _parts(measure, judged, months, names, csv)
    if isinstance(measure, Curve):
        return _curve(measure, judged, months, names, csv)
    figures = figures_of(measure)
    whole = [get(judged) for _, get in figures]
    count = whole[0].count
    points = [(name, [_point(get(judged.of(None, month))) for month in months]) for name, get in figures]
    top = (
        1.0 if isinstance(measure, Share) else float(ceil(max([2.0, *(p.high for _, row in points for p in row if p)])))
    )
    told = "; ".join(f"{name}: {_told(one)}" for (name, _), one in zip(figures, whole, strict=True))
    picture = over_time(
        f"picture-{measure.id}", f"{measure.title}, by month", told, [month_words(month)[:3] for month in months],
        points, top, " %" if isinstance(measure, Share) else "",
    )  # fmt: skip
    tables = (
        _table("By month", "Month", [(month_words(m), judged.of(None, m)) for m in months], figures, measure.unit),
        _table(
            "By appliance", "Appliance", [(names.appliance(a), judged.of(a, None)) for a in judged.appliances], figures,
            measure.unit,
        ),
    )  # fmt: skip
    note = FEW_SAYS if whole[0].few else ""
    return Section(
        measure.id, measure.title, measure.says, told[:1].upper() + told[1:] if count else "", note, picture if count else None,
        tables if count else (), csv,
    )  # fmt: skip


def _curve(measure: Curve, judged: Judged, months: Sequence[str], names: Names, csv: str) -> Section:
    told = measure.forecasts(judged)
    if not told.count:
        return Section(measure.id, measure.title, measure.says, "", "", None, (), csv)
    headline = (
        f"{told.count} forecasts. Brier score {told.brier:.3f} (0 is perfect, 0.250 is a coin), log loss "
        f"{told.log_loss:.3f}, forecast and outcome {told.distance:.0%} apart on average.".replace("%", " %")
    )
    if told.causes is not None:
        headline += (
            f" All causes of a sheet together, {told.causes.count} jobs: Brier score {told.causes.brier:.3f} (0 to 2), "
            f"log loss {told.causes.log_loss:.3f}."
        )
    picture = calibration_picture(f"picture-{measure.id}", measure.title, headline, told)
    by_month = [(month_words(month), measure.forecasts(judged.of(None, month))) for month in months]
    by_appliance = [(names.appliance(a), measure.forecasts(judged.of(a, None))) for a in judged.appliances]
    tables = (_bins(told), _scores("By month", "Month", by_month), _scores("By appliance", "Appliance", by_appliance))
    note = f"Hollow points stand on fewer than {FEW_OF_A_FORECAST} forecasts."
    if told.few:
        note = f"Fewer than 50 so far: points and their ranges, no curve. {note}"
    return Section(
        measure.id, measure.title, measure.says, headline, note, picture, (*_meant(told), *tables), csv
    )  # fmt: skip


def _meant(told: Forecasts) -> tuple[Table, ...]:
    """From 200 forecasts on: what is likely to come true of a chance as it is given now."""
    come = [(said, told.has_meant(said)) for said in SAID]
    rows = tuple((_percent(said), _percent(meant)) for said, meant in come if meant is not None)
    return (Table("What a forecast has come to here", ("Forecast", "Came true"), rows),) if rows else ()


def _bins(told: Forecasts) -> Table:
    rows = tuple(
        (f"{one.low:.0%} to {one.high:.0%}".replace("%", " %"), str(one.count), _percent(one.mean), _percent(one.rate),
         _range(one.interval))
        for one in told.bins
    )  # fmt: skip
    return Table("By what was forecast", ("Forecast", "How many", "Mean forecast", "Came true", "Range"), rows)


def _scores(caption: str, first: str, lines: Sequence[tuple[str, Forecasts]]) -> Table:
    """Both scores line by line; of whole beliefs too, where those were judged."""
    some = [(label, one) for label, one in lines if one.count]
    beliefs = any(one.causes for _, one in some)
    head = (first, "How many", "Brier score", "Log loss", *(("Brier, all causes", "Log loss, all causes") * beliefs))
    rows = tuple(
        (label, str(one.count), f"{one.brier:.3f}", f"{one.log_loss:.3f}", *(_of_beliefs(one) * beliefs))
        for label, one in some
    )
    return Table(caption, head, rows)


def _of_beliefs(one: Forecasts) -> tuple[str, str]:
    return (f"{one.causes.brier:.3f}", f"{one.causes.log_loss:.3f}") if one.causes else ("none", "none")


def _parts(measure: Parts, judged: Judged, months: Sequence[str], names: Names, csv: str) -> Section:
    uses = parts_used(judged.jobs)
    if not uses:
        return Section(measure.id, measure.title, measure.says, "", "", None, (), csv)
    jobs, used, both, missed, idle = _sums(judged)
    headline = f"{jobs} jobs: {used} parts used, {both} of them on board, {missed} missing; {idle} carried for nothing."
    drawn = [(_named(use, names), use) for use in uses[:PARTS_DRAWN]]
    picture = parts_picture(
        f"picture-{measure.id}", "Parts: on board and used + used but missing + carried for nothing", headline, drawn
    )
    rows = tuple(
        (
            _named(use, names),
            str(use.jobs),
            str(use.carried),
            str(use.both),
            str(use.missed),
            str(use.carried - use.both),
        )
        for use in uses
    )
    head = ("Part", "Jobs", "On board", "On board and used", "Used, missing", "Carried for nothing")
    by_month = _parts_by("By month", "Month", [(month_words(m), judged.of(None, m)) for m in months])
    by_appliance = _parts_by(
        "By appliance", "Appliance", [(names.appliance(a), judged.of(a, None)) for a in judged.appliances]
    )
    note = FEW_SAYS if jobs < 50 else ""
    return Section(
        measure.id, measure.title, measure.says, headline, note, picture,
        (Table("By part", head, rows), by_month, by_appliance), csv,
    )  # fmt: skip


def _parts_by(caption: str, first: str, lines: Sequence[tuple[str, Judged]]) -> Table:
    head = (first, "Jobs", "Parts used", "On board and used", "Used, missing", "Carried for nothing")
    sums = [(label, _sums(part)) for label, part in lines]
    return Table(caption, head, tuple((label, *map(str, row)) for label, row in sums if row[0]))


def _sums(judged: Judged) -> tuple[int, int, int, int, int]:
    """Jobs with a load list; parts used, on board and used, used and missing, carried for nothing."""
    uses = parts_used(judged.jobs)
    used, both = sum(use.used for use in uses), sum(use.both for use in uses)
    return sum(job.planned for job in judged.jobs), used, both, used - both, sum(use.carried for use in uses) - both


def _named(use: PartUse, names: Names) -> str:
    return f"{names.part(use.appliance, use.part)} ({names.appliance(use.appliance).lower()})"


def _table(
    caption: str, first: str, lines: Sequence[tuple[str, Judged]],
    figures: Sequence[tuple[str, Callable[[Judged], Rate | Mean]]], unit: str,
) -> Table:  # fmt: skip
    head = [first, f"How many {unit}"]
    for name, _ in figures:
        head += [name.capitalize(), f"Range, {name}" if len(figures) > 1 else "Range"]
    rows = []
    for label, part in lines:
        told = [get(part) for _, get in figures]
        cells = [cell for one in told for cell in (_value(one), _bounds(one))]
        rows.append((label, str(told[0].count), *cells))
    return Table(caption, tuple(head), tuple(rows))


def _told(one: Rate | Mean) -> str:
    if not one.count:
        return "nothing yet"
    if isinstance(one, Rate):
        return f"{one.hits} of {one.count} ({_percent(one.value)}), probably {_range(one.interval)}"
    return f"{one.value:.1f} over {one.count} tickets" + (f", probably {_bounds(one)}" if one.half else "")


def _value(one: Rate | Mean) -> str:
    if isnan(one.value):
        return "none"
    return f"{one.hits} of {one.count}, {_percent(one.value)}" if isinstance(one, Rate) else f"{one.value:.1f}"


def _bounds(one: Rate | Mean) -> str:
    if not one.count or (isinstance(one, Mean) and one.half is None):
        return "not known"
    if isinstance(one, Rate):
        return _range(one.interval)
    low, high = one.interval
    return f"{low:.1f} to {high:.1f}"


def _point(one: Rate | Mean) -> Point | None:
    return Point(one.value, *one.interval, one.few) if one.count else None


def _percent(share: float) -> str:
    return f"{round(100 * share)} %"


def _range(interval: tuple[float, float]) -> str:
    return f"{round(100 * interval[0])} to {round(100 * interval[1])} %"
