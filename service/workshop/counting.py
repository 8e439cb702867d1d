"""How much each appliance's rules hold: the table in the author's guide, written between its two marks."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel

from service.rulebook.folder import ApplianceFolder, Folder, read_folder
from service.rulebook.schema.common import Example, Phrases

BEGIN = "<!-- counts: made by `plainfault workshop count` -->"
END = "<!-- end of counts -->"
COLUMNS = (
    "symptoms",
    "phrases en",
    "phrases es",
    "examples",
    "observations",
    "causes",
    "owner checks",
    "tests",
    "parts",
)
Model = TypeVar("Model", bound=BaseModel)
Row = tuple[str, tuple[int, ...]]


def counts(folder: Folder) -> tuple[Row, ...]:
    """For each appliance with rules its name and a number for each of ``COLUMNS``."""
    return tuple((name, _counted(appliance)) for name, appliance in folder.appliances.items() if appliance.joined())


def table(rows: tuple[Row, ...]) -> str:
    """The counts as a Markdown table, with their sum."""
    lines = [f"| appliance | {' | '.join(COLUMNS)} |", f"| --- |{' ---: |' * len(COLUMNS)}"]
    lines += [f"| {name} | {' | '.join(f'{n:,}' for n in numbers)} |" for name, numbers in rows]
    sums = [sum(column) for column in zip(*(numbers for _, numbers in rows), strict=True)]
    if len(rows) > 1:
        lines.append(f"| together | {' | '.join(f'{n:,}' for n in sums)} |")
    return "\n".join(lines)


def with_counts(guide: str, rows: tuple[Row, ...]) -> str:
    """*guide* with the table between its two marks; unchanged when it has no marks."""
    before, begin, rest = guide.partition(BEGIN)
    _, end, after = rest.partition(END)
    return f"{before}{begin}\n\n{table(rows)}\n\n{end}{after}" if begin and end else guide


def write_counts(rules: Path) -> tuple[str, bool]:
    """The table of the rules at *rules*, and whether the guide beside them had to be changed for it."""
    rows = counts(read_folder(rules, []))
    guide = rules / "README.md"
    told = guide.read_text("utf-8") if guide.exists() else ""
    wanted = with_counts(told, rows)
    if wanted != told:
        guide.write_text(wanted, "utf-8")
    return table(rows), wanted != told


def _counted(folder: ApplianceFolder) -> tuple[int, ...]:
    joined = folder.joined()
    assert joined is not None  # noqa: S101 - only folders that are whole are counted
    phrases = list(within(joined, Phrases))
    return (
        len(joined.symptoms),
        sum(len(one.en) for one in phrases),
        sum(len(one.es) for one in phrases),
        sum(1 for _ in within(joined, Example)),
        len(joined.observations),
        len(joined.causes),
        len(joined.checks),
        len(joined.tests),
        len(joined.parts),
    )


def within(value: object, kind: type[Model]) -> Iterator[Model]:
    """Every *kind* in *value*, however deep."""
    if isinstance(value, kind):
        yield value
    elif isinstance(value, BaseModel):
        for field in type(value).model_fields:
            yield from within(getattr(value, field), kind)
    elif isinstance(value, dict):
        for item in value.values():
            yield from within(item, kind)
    elif isinstance(value, tuple | list):
        for item in value:
            yield from within(item, kind)
