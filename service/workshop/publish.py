"""Writes what is made from the schema: the JSON Schemas that editors read, and the table of fields in the author's guide."""

from __future__ import annotations

from pathlib import Path

from service.edge.profile import Profile
from service.rulebook.published import FILES, field_table, json_schema, schema_text

BEGIN = "<!-- fields: made by `plainfault workshop publish` -->"
END = "<!-- end of fields -->"


def publish(rules: Path) -> tuple[Path, ...]:
    """Bring ``schema/*.json`` and ``README.md`` under *rules* into step with the schema; what was changed is returned."""
    wanted = {rules / "schema" / f"{name}.json": json_schema(name) for name in FILES}
    guide = rules / "README.md"
    if guide.exists():
        wanted[guide] = with_fields(guide.read_text("utf-8"))
    return _written(wanted)


def publish_profile(gateways: Path) -> tuple[Path, ...]:
    """Bring ``schema/profile.json`` under *gateways* into step; it stands apart, since every other file there is a profile."""
    return _written({gateways / "schema" / "profile.json": schema_text(Profile)})


def _written(wanted: dict[Path, str]) -> tuple[Path, ...]:
    changed = [path for path, text in wanted.items() if not path.exists() or path.read_text("utf-8") != text]
    for path in changed:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(wanted[path], "utf-8")
    return tuple(changed)


def with_fields(guide: str) -> str:
    """*guide* with the table of fields between its two marks; unchanged when it has no marks."""
    before, begin, rest = guide.partition(BEGIN)
    _, end, after = rest.partition(END)
    return f"{before}{begin}\n\n{field_table()}\n{end}{after}" if begin and end else guide
