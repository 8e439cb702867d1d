"""A measure as it stands on the page: what it says in a line, its picture, the tables behind it, the rows of its file."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, isnan

from service.diagnosis.review import Forecasts, Mean, PartUse, Rate, parts_used
from service.pages.reports.measures import Average, Curve, Judged, Measure, Parts, Share
from service.pages.reports.pictures import Picture, Point, calibration_picture, over_time, parts_picture
from service.pages.words import month_words

PARTS_DRAWN = 8
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
        return _parts(measure, judged, names, csv)
    if isinstance(measure, Curve):
        return _curve(measure, judged, csv)
    figures = _figures(measure)
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


def file_rows(measure: Measure, judged: Judged) -> Iterable[tuple[str | int | float, ...]]:
    """The head, then a row for each appliance and month with anything to count: codes and bare numbers."""
    if isinstance(measure, Parts):
        yield ("appliance", "part", "jobs", "carried", "used", "carried_and_used", "used_not_carried")
        for use in parts_used(judged.jobs):
            yield (use.appliance, use.part, use.jobs, use.carried, use.used, use.both, use.missed)
        return
    if isinstance(measure, Curve):
        yield ("appliance", "from", "to", "count", "mean_forecast", "rate", "low", "high", "brier", "log_loss")
        for appliance in (None, *judged.appliances):
            told = measure.forecasts(judged.of(appliance, None))
            for bin_ in told.bins:
                spread = (bin_.low, bin_.high, bin_.count, bin_.mean, bin_.rate, *bin_.interval)
                figures = (*spread, told.brier, told.log_loss)
                yield (appliance or "all", *(round(figure, 6) for figure in figures))
        return
    yield ("appliance", "month", "measure", "hits", "count", "value", "low", "high")
    for appliance in (None, *judged.appliances):
        for month in (None, *judged.months):
            for name, get in _figures(measure):
                one = get(judged.of(appliance, month))
                if one.count:
                    hits = one.hits if isinstance(one, Rate) else ""
                    bounds = (round(bound, 6) for bound in one.interval)
                    yield (appliance or "all", month or "all", name, hits, one.count, round(one.value, 6), *bounds)


def _figures(measure: Share | Average) -> Sequence[tuple[str, Callable[[Judged], Rate | Mean]]]:
    return measure.series if isinstance(measure, Share) else (("mean", measure.mean),)


def _curve(measure: Curve, judged: Judged, csv: str) -> Section:
    told = measure.forecasts(judged)
    if not told.count:
        return Section(measure.id, measure.title, measure.says, "", "", None, (), csv)
    headline = (
        f"{told.count} forecasts. Brier score {told.brier:.3f} (0 is perfect, 0.250 is a coin), log loss "
        f"{told.log_loss:.3f}, forecast and outcome {told.distance:.0%} apart on average.".replace("%", " %")
    )
    picture = calibration_picture(f"picture-{measure.id}", measure.title, headline, told)
    by = {appliance: measure.forecasts(judged.of(appliance, None)) for appliance in judged.appliances}
    note = "Fewer than 50 so far: points and their ranges, no curve." if told.few else ""
    return Section(
        measure.id, measure.title, measure.says, headline, note, picture, (_bins(told), _scores(by)), csv
    )  # fmt: skip


def _bins(told: Forecasts) -> Table:
    rows = tuple(
        (f"{one.low:.0%} to {one.high:.0%}".replace("%", " %"), str(one.count), _percent(one.mean), _percent(one.rate),
         _range(one.interval))
        for one in told.bins
    )  # fmt: skip
    return Table("By what was forecast", ("Forecast", "How many", "Mean forecast", "Came true", "Range"), rows)


def _scores(by: Mapping[str, Forecasts]) -> Table:
    rows = tuple(
        (appliance.replace("_", " "), str(one.count), f"{one.brier:.3f}", f"{one.log_loss:.3f}")
        for appliance, one in by.items()
        if one.count
    )
    return Table("By appliance", ("Appliance", "How many", "Brier score", "Log loss"), rows)


def _parts(measure: Parts, judged: Judged, names: Names, csv: str) -> Section:
    uses = parts_used(judged.jobs)
    jobs = sum(job.planned for job in judged.jobs)
    if not uses:
        return Section(measure.id, measure.title, measure.says, "", "", None, (), csv)
    used, missed = sum(use.used for use in uses), sum(use.missed for use in uses)
    idle = sum(use.carried - use.both for use in uses)
    headline = (
        f"{jobs} jobs: {used} parts used, {used - missed} of them on board, {missed} missing; "
        f"{idle} carried for nothing."
    )
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
    note = FEW_SAYS if jobs < 50 else ""
    return Section(
        measure.id, measure.title, measure.says, headline, note, picture, (Table("By part", head, rows),), csv
    )  # fmt: skip


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
