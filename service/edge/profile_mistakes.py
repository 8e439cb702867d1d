"""What the checks of a profile share: how a mistake is told, and whether a document is one."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass

from service.edge.bodies import Malformed, xml_of
from service.edge.places import Shape, steps

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Mistake:
    """One thing that cannot work: at which field, what it is, what to do."""

    path: Path
    found: str
    remedy: str


def unreadable(document: str, written: str) -> str:
    """What is wrong with *document*, or nothing."""
    try:
        if written == "xml":
            xml_of(document.encode())
        elif written == "json":
            json.loads(document)
    except Malformed:
        return "no XML"
    except ValueError:
        return "no JSON"
    return ""


def unwalkable(at: Path, name: str, shape: Shape) -> Iterator[Mistake]:
    """A path into JSON or XML that cannot be read."""
    try:
        steps(name, shape)
    except ValueError as wrong:
        found = f"{str(wrong)[0].upper()}{str(wrong)[1:]}."
        yield Mistake(at, found, "Write names with dots between, such as data.from[0].number.")
