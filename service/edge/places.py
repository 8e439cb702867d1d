"""Where a value stands in a delivery: how a place is written, and how its path is walked through JSON and XML."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, Literal
from xml.etree.ElementTree import Element  # for the type alone; bodies.py reads the documents

from pydantic import AfterValidator, BeforeValidator

Shape = Literal["json", "form", "multipart", "xml", "query", "raw"]
"""What a body is. form and multipart: fields, whichever way the Content-Type says they are written."""

_PLACE = re.compile(r"body|item|(body|query|item|header):.*[^?]|path:[1-9]", re.DOTALL)

MAY_BE_MISSING = "?"
"""Ends a place that a delivery need not have."""


def is_place(written: str) -> bool:
    """Whether *written* is a place as profiles write them."""
    return bool(_PLACE.fullmatch(written))


def _place(written: str) -> str:
    if is_place(written):
        return written
    bare = written.rstrip(MAY_BE_MISSING)
    if bare != written and is_place(bare):
        raise ValueError(
            f'"{written}" says that it may be missing, which only the places under also can say; write {bare} '
            "(recipient, media, time and parts may be missing without a sign)"
        )
    raise ValueError(
        f'"{written}" is no place; write body:NAME, query:NAME, header:NAME, path:1, item:NAME (with each), '
        "or body for all of it"
    )


def _perhaps(written: str) -> str:
    return _place(written.removesuffix(MAY_BE_MISSING)) + MAY_BE_MISSING * written.endswith(MAY_BE_MISSING)


def place_of(written: str) -> tuple[str, bool]:
    """The place itself, and whether it may be missing."""
    return written.removesuffix(MAY_BE_MISSING), written.endswith(MAY_BE_MISSING)


Source = Annotated[str, AfterValidator(_place)]
"""A place: ``body`` (all of it), ``body:data.from[0]``, ``item:from``, ``query:sender``, ``header:X-Id``, ``path:1``."""

PerhapsSource = Annotated[str, AfterValidator(_perhaps)]
"""A place that may end in a question mark: then it may be missing."""


def _several(written: object) -> object:
    return [written] if isinstance(written, str) else written


Several = BeforeValidator(_several, json_schema_input_type=str | list[str])
"""Takes one where several may stand: ``media: query:picture``."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a path: by name, by number in a list, or to the items of a list whose *name* has a value of *equals*."""

    name: str = ""
    number: int | None = None
    equals: tuple[str, ...] | None = None


_STEP = (
    r"\[(?P<number>\d{1,6})\]|\['(?P<quoted>[^']+)'\]|\[(?P<key>[^\]=\[]+)=(?P<equals>[^\]]*)\]|(?P<name>[^%s\[\]]+)"
)


@lru_cache(maxsize=512)
def steps(path: str, shape: Shape) -> tuple[Step, ...]:
    """
    The steps of *path*. Names are parted by dots; in XML by slashes, if there is one. Raises ValueError.

    ``[0]`` is the first of a list, ``[type=sms|mms]`` those of a list whose ``type`` is one of these, ``['a.b']`` a name
    with dots.
    """
    parted = "/" if shape == "xml" and "/" in path else "."
    found: list[Step] = []
    rest = path.removeprefix("/") if parted == "/" else path
    while rest:
        match = re.match(_STEP % re.escape(parted), rest)
        if match is None:
            raise ValueError(f'the path "{path}" cannot be read from "{rest}" on')
        said = match.groupdict()
        if said["number"] is not None:
            found.append(Step(number=int(said["number"])))
        elif said["key"] is not None:
            found.append(Step(said["key"], equals=_one_of(said["key"], said["equals"])))
        else:
            found.append(Step(said["quoted"] or said["name"]))
        rest = rest[match.end() :]
        if rest.startswith(parted) and len(rest) > 1:
            rest = rest[1:]
    return tuple(found)


def _one_of(key: str, written: str) -> tuple[str, ...]:
    """The values between the bars. A quote, a space or a second sign around one is surely mistyped: nothing has that value."""
    values = tuple(written.split("|"))
    for value in values:
        bare = value.strip(" \"'").lstrip("=")
        if bare != value or key != key.strip() or (not value and len(values) > 1):
            raise ValueError(f"[{key}={written}] is not written as [type=sms] or [type=sms|mms]: no quotes, no spaces")
    return values


def in_json(value: object, path: tuple[Step, ...]) -> list[object]:
    """Everything *path* leads to; a name after a list means that of each of its items. Nothing for what is not there."""
    found = [value]
    for step in path:
        found = [after for one in found for after in _json_step(one, step)]
    return [one for one in found if one is not None]


def _json_step(value: object, step: Step) -> list[object]:
    if isinstance(value, str):
        value = _json_within(value)
    if step.equals is not None:
        items = value if isinstance(value, list) else [value]
        return [one for one in items if isinstance(one, dict) and _has(step, texts(one.get(step.name)))]
    number = int(step.name) if re.fullmatch(r"[0-9]{1,6}", step.name) else step.number
    if isinstance(value, list):
        if number is not None:
            return value[number : number + 1]
        return [one[step.name] for one in value if isinstance(one, dict) and step.name in one]
    if isinstance(value, dict):
        name = step.name or str(step.number)
        return [value[name]] if name in value else []
    return []


def _has(step: Step, values: list[str]) -> bool:
    return any(wanted in values for wanted in step.equals or ())


def _json_within(text: str) -> object:
    """A text that is itself JSON, as gateways send that wrap one message in another; else nothing to walk in."""
    try:
        return json_document(text)
    except ValueError:
        return None


DEEPEST = 64
"""Levels of JSON within JSON; no gateway needs as many, and what walks through them must come to an end."""


def json_document(written: bytes | str) -> object:
    """The document that *written* is. Raises ValueError, also for one with too many levels."""
    try:
        document: object = json.loads(written)
    except RecursionError as wrong:
        raise ValueError("too many levels") from wrong
    level = [document]
    for _ in range(DEEPEST):
        inner = [one for one in level if isinstance(one, dict | list)]
        level = [item for one in inner for item in (one.values() if isinstance(one, dict) else one)]
        if not level:
            return document
    raise ValueError("too many levels")


EXACT_BELOW = 2.0**53
"""Whole numbers of more are not all to be had as floating-point numbers."""


def texts(value: object) -> list[str]:
    """A JSON value as texts: a list gives all its items, null gives none, what is no text is written as JSON."""
    if value is None:
        return []
    if isinstance(value, list):
        return [text for item in value for text in texts(item)]
    if isinstance(value, float) and value.is_integer() and abs(value) < EXACT_BELOW:
        value = int(value)  # a phone number or an id that somebody's table made a 1.5055550142E10
    return [value if isinstance(value, str) else json.dumps(value)]


def in_xml(top: Element, path: tuple[Step, ...], *, from_root: bool) -> list[Element | str]:
    """
    The elements, or for a last step ``@name`` the attributes, that *path* leads to.

    from_root: the first step names *top* itself. Namespaces are left out of account.
    """
    found: list[Element | str] = [_Above(top) if from_root else top]
    for step in path:
        if step.number is not None:
            found = found[step.number : step.number + 1]
        elif step.equals is not None:
            found = [one for one in found if _has(step, _near(one, step.name))]
        else:
            found = [after for one in found for after in _xml_step(one, step.name)]
    return found


class _Above(Element):
    """Stands over the root, so that a path can begin with the root's name."""

    def __init__(self, root: Element) -> None:
        super().__init__("")
        self.append(root)


def _xml_step(one: Element | str, name: str) -> list[Element | str]:
    if isinstance(one, str):
        return []
    if name.startswith("@"):
        return [value for key, value in one.attrib.items() if local(key) == name[1:]]
    return [child for child in one if local(child.tag) == name]


def _near(one: Element | str, name: str) -> list[str]:
    return [xml_text(found) for found in _xml_step(one, name)]


def local(tag: object) -> str:
    """A tag's name without its namespace; comments and instructions have none."""
    return tag.rpartition("}")[2] if isinstance(tag, str) else ""


def xml_text(found: Element | str) -> str:
    """All characters within an element, or an attribute's value."""
    return found if isinstance(found, str) else "".join(found.itertext())
