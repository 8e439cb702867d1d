"""Pictures of figures as plain shapes on a small sheet: points with the range they may lie in, and bars for counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from service.diagnosis.review import Forecasts, PartUse

WIDTH = 360.0
LEFT, RIGHT, TOP, BOTTOM = 44.0, 10.0, 22.0, 24.0
HEIGHT = 190.0
ROW = 34.0
FEW_OF_A_FORECAST = 10
"""A point of a calibration picture is hollow on fewer than so many."""
MARKS = ("one", "two")
"""Series are told apart by shape as well as shade: a disc and a square."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A line, dot, square or bar: what it is, its class, and its numbers as text, ready to print."""

    kind: str
    look: str
    at: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Word:
    """A few words on the sheet. anchor: start, middle or end."""

    x: str
    y: str
    anchor: str
    text: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A sheet with shapes. id: of its title on the page. says: what somebody who does not see it should hear."""

    id: str
    title: str
    says: str
    width: str
    height: str
    shapes: tuple[Shape, ...] = ()
    words: tuple[Word, ...] = ()


@dataclass(frozen=True, slots=True)
class Point:
    """One value with the range it may lie in. few: too few behind it to read it by itself."""

    value: float
    low: float
    high: float
    few: bool


@dataclass
class Sheet:
    """Takes shapes as they come."""

    shapes: list[Shape] = field(default_factory=list)
    words: list[Word] = field(default_factory=list)

    def line(self, look: str, x1: float, y1: float, x2: float, y2: float) -> None:
        """From one point to another."""
        self.shapes.append(Shape("line", look, tuple(map(_number, (x1, y1, x2, y2)))))

    def point(self, look: str, x: float, y: float, few: bool) -> None:
        """A disc or a square, hollow if it stands on few."""
        self.shapes.append(Shape("dot" if look == MARKS[0] else "square", f"{look} few" if few else look, _at(x, y)))

    def bar(self, look: str, x: float, y: float, width: float, height: float) -> None:
        """A filled bar by its upper left corner."""
        self.shapes.append(Shape("bar", look, tuple(map(_number, (x, y, width, height)))))

    def word(self, x: float, y: float, text: str, anchor: str = "middle") -> None:
        """A few words at a point."""
        self.words.append(Word(_number(x), _number(y), anchor, text))

    def done(self, id_: str, title: str, says: str, height: float = HEIGHT) -> Picture:
        """The finished picture."""
        return Picture(id_, title, says, _number(WIDTH), _number(height), tuple(self.shapes), tuple(self.words))


def over_time(
    id_: str, title: str, says: str, labels: Sequence[str], series: Sequence[tuple[str, Sequence[Point | None]]],
    top: float = 1.0, unit: str = " %",
) -> Picture:  # fmt: skip
    """Points by month with their ranges. top: what the upper edge stands for; unit ``" %"`` prints shares as per cent."""
    sheet = Sheet()
    _grid(sheet, top, unit)
    step = (WIDTH - LEFT - RIGHT) / max(1, len(labels))
    every = 1 + (len(labels) - 1) // 12
    for place, label in enumerate(labels):
        if (len(labels) - 1 - place) % every == 0:
            sheet.word(LEFT + (place + 0.5) * step, HEIGHT - 8, label)
    for number, (_, points) in enumerate(series):
        shift = (number - (len(series) - 1) / 2) * 8
        for place, point in enumerate(points):
            if point is not None:
                _whisker(sheet, MARKS[number], LEFT + (place + 0.5) * step + shift, point, top)
    if len(series) > 1:
        _legend(sheet, [name for name, _ in series])
    return sheet.done(id_, title, says)


def calibration_picture(id_: str, title: str, says: str, forecasts: Forecasts) -> Picture:
    """Forecast chance across, how often it came true upward; on the slanted line they agree. A curve only from 50 on."""
    sheet = Sheet()
    _grid(sheet, 1.0, " %")
    for share in (0, 25, 50, 75, 100):
        sheet.word(_across(share / 100), HEIGHT - 8, f"{share} %", "end" if share == 100 else "middle")
    sheet.line("ideal", _across(0), _up(0, 1), _across(1), _up(1, 1))
    if not forecasts.few:
        for one, other in zip(forecasts.bins, forecasts.bins[1:], strict=False):
            sheet.line("curve", _across(one.mean), _up(one.rate, 1), _across(other.mean), _up(other.rate, 1))
    for bin_ in forecasts.bins:
        _whisker(
            sheet, MARKS[0], _across(bin_.mean), Point(bin_.rate, *bin_.interval, bin_.count < FEW_OF_A_FORECAST), 1.0
        )
    return sheet.done(id_, title, says)


def parts_picture(id_: str, title: str, says: str, parts: Sequence[tuple[str, PartUse]]) -> Picture:
    """A bar a part: on board and used, used but not on board, on board for nothing."""
    sheet = Sheet()
    most = max(max(use.carried + use.missed, 1) for _, use in parts)
    x = 2.0
    for look, name in (("used", "on board, used"), ("missed", "missing"), ("idle", "carried for nothing")):
        sheet.bar(look, x, 4, 9, 9)
        sheet.word(x + 13, 12, name, "start")
        x += 24 + 6.3 * len(name)
    for place, (name, use) in enumerate(parts):
        y, x = 4 + (place + 1) * ROW - ROW / 3, 2.0
        sheet.word(x, y + 10, name, "start")
        for look, count in (("used", use.both), ("missed", use.missed), ("idle", use.carried - use.both)):
            width = count / most * (WIDTH - 90)
            if count:
                sheet.bar(look, x, y + 15, width, 12)
            x += width
        sheet.word(x + 5, y + 25, f"{use.both} + {use.missed} + {use.carried - use.both}", "start")
    return sheet.done(id_, title, says, 8 + ROW * (len(parts) + 2 / 3))


def _grid(sheet: Sheet, top: float, unit: str) -> None:
    for part in (0.0, 0.5, 1.0):
        y = _up(part * top, top)
        sheet.line("grid", LEFT, y, WIDTH - RIGHT, y)
        value = part * top
        sheet.word(LEFT - 5, y + 4, f"{value:.0%}".replace("%", " %") if unit == " %" else f"{value:g}{unit}", "end")


def _whisker(sheet: Sheet, look: str, x: float, point: Point, top: float) -> None:
    sheet.line(f"range {look}", x, _up(min(point.high, top), top), x, _up(point.low, top))
    sheet.point(look, x, _up(min(point.value, top), top), point.few)


def _legend(sheet: Sheet, names: Sequence[str]) -> None:
    x = LEFT
    for look, name in zip(MARKS, names, strict=False):
        sheet.point(look, x + 4, 8, False)
        sheet.word(x + 12, 12, name, "start")
        x += 26 + 6.5 * len(name)


def _across(share: float) -> float:
    return LEFT + share * (WIDTH - LEFT - RIGHT)


def _up(value: float, top: float) -> float:
    return HEIGHT - BOTTOM - value / top * (HEIGHT - TOP - BOTTOM)


def _at(x: float, y: float) -> tuple[str, str]:
    return _number(x), _number(y)


def _number(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
