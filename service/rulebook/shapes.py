"""A file's text against its schema: every deviation becomes a problem in the author's words."""

from __future__ import annotations

from collections.abc import Callable
from types import UnionType
from typing import Any, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from service.rulebook.problems import Problem, did_you_mean, one_of
from service.rulebook.yaml_text import Written

Model = TypeVar("Model", bound=BaseModel)
_UNION_TAGS = {"yes", "each", "[key]"}


def shaped(written: Written, model: type[Model]) -> tuple[Model | None, list[Problem]]:
    """*written* as a *model*; None with every problem when it does not fit."""
    try:
        return model.model_validate(written.value), []
    except ValidationError as error:
        found = error.errors(include_url=False)
        return None, [_problem(written, model, details) for details in found if not _follows(details, found)]


def _follows(details: ErrorDetails, found: list[ErrorDetails]) -> bool:
    """Whether a list only has too few because one of its items, told already, is mistaken."""
    depth = len(details["loc"])
    within = any(len(other["loc"]) > depth and other["loc"][:depth] == details["loc"] for other in found)
    return details["type"] == "too_short" and within


def _problem(written: Written, model: type[BaseModel], details: ErrorDetails) -> Problem:
    path = _path(written, details)
    kind = str(details["type"])
    if kind == "extra_forbidden":
        found, remedy, expected = _extra(details, model)
    elif kind == "missing":
        found, remedy, expected = _missing(details, model)
    else:
        found, remedy, expected = _WORDS.get(kind, _otherwise)(details)
    return Problem(written.file, written.line(path), written.where(path), found, expected, remedy)


def _path(written: Written, details: ErrorDetails) -> tuple[str | int, ...]:
    """Where the author sees it: the names a union adds are left out, unless the file has a key of that name."""
    loc = [part for part in details["loc"] if part != "[key]"]
    path: list[str | int] = []
    for place, part in enumerate(loc):
        missing = details["type"] == "missing" and place == len(loc) - 1
        if part in _UNION_TAGS and not missing and not written.has((*path, part)):
            continue
        path.append(part)
    return tuple(path)


Said = tuple[str, str, str]
"""What was found, the remedy, what was expected."""


def _quoted(details: ErrorDetails) -> str:
    value = details["input"]
    if isinstance(value, dict):
        return "A mapping"
    if isinstance(value, list):
        return "A list"
    return f'"{value}"' if value else "Nothing"


def _extra(details: ErrorDetails, model: type[BaseModel]) -> Said:
    fields = _fields_at(model, details["loc"][:-1])
    name = str(details["loc"][-1])
    return (
        f'"{name}" is not a field here.',
        did_you_mean(name, fields),
        f"The fields are {_and(fields)}." if fields else "",
    )


def _missing(details: ErrorDetails, model: type[BaseModel]) -> Said:
    field = str(details["loc"][-1])
    about = _description(model, details["loc"])
    return f'"{field}" is missing.', f'Write "{field}:"' + (f" ({about})." if about else "."), ""


def _literal(details: ErrorDetails) -> Said:
    allowed = [word.strip("'") for word in str(details["ctx"]["expected"]).replace(" or ", ", ").split(", ")]
    found = f"{_quoted(details)} is not one of the words allowed here."
    return found, did_you_mean(str(details["input"]), allowed), f"Write {one_of(allowed)}."


def _pattern(details: ErrorDetails) -> Said:
    shape = _PATTERNS.get(str(details["ctx"]["pattern"]), f"Expected the pattern {details['ctx']['pattern']}.")
    return f"{_quoted(details)} is not written as it should be.", "", shape


_PATTERNS = {
    r"^[a-z][a-z0-9_]*$": "A code is lower-case letters, digits and underscores, and begins with a letter.",
    r"^\+[1-9]\d{6,14}$": "A phone number begins with + and the country code, digits only: +15055550142.",
    r"^\d{5}$": "A ZIP code has five digits.",
    r"^[a-z_]+(=[a-z0-9_]+)?$": "A code, or a fact and its value: tried=cleaned_filter.",
    r"^[a-z][a-z0-9_.]*$": "A sentence's name is lower-case letters, digits, underscores and dots.",
}


def _limit(words: str) -> Callable[[ErrorDetails], Said]:
    def said(details: ErrorDetails) -> Said:
        limit = next(value for key, value in details["ctx"].items() if key in {"gt", "ge", "lt", "le"})
        return f"{_quoted(details)} is out of bounds.", "", f"Expected a number {words} {limit:g}."

    return said


def _kind(words: str) -> Callable[[ErrorDetails], Said]:
    def said(details: ErrorDetails) -> Said:
        remedy = ""
        if words == "a text" and isinstance(details["input"], list | dict):
            remedy = "Put quotes around a text that has [ ] { } : or #."
        if words == "a list" and isinstance(details["input"], str) and details["input"]:
            remedy = f"Write [{details['input']}]."
        found = f"{_quoted(details)} is not {words}." if details["input"] else "Nothing is written here."
        return found, remedy, "" if details["input"] else f"Expected {words}."

    return said


def _mapping(details: ErrorDetails) -> Said:
    remedy = _WRITTEN.get(str(details["ctx"].get("class_name", "")), "") if "ctx" in details else ""
    found, _, expected = _kind("a mapping")(details)
    return found, remedy, expected


_WRITTEN = {"Text": "Write {en: ..., es: ...}.", "Phrases": "Write {en: [...], es: [...]}."}


def _short(details: ErrorDetails) -> Said:
    least = details["ctx"].get("min_length", 1)
    if details["type"] == "string_too_short":
        found = "Nothing is written here." if not details["input"] else f"{_quoted(details)} is too short."
        return found, "", "" if least == 1 else f"Expected at least {least} letters."
    return "There are too few here.", "", f"Expected at least {least}, found {details['ctx']['actual_length']}."


def _long(details: ErrorDetails) -> Said:
    most, count = details["ctx"]["max_length"], details["ctx"].get("actual_length")
    return "There are too many here.", "", f"Expected at most {most}, found {count}."


def _otherwise(details: ErrorDetails) -> Said:
    said = str(details["msg"]).removeprefix("Value error, ")
    return said if said.endswith(".") else f"{said}.", "", ""


_WORDS: dict[str, Callable[[ErrorDetails], Said]] = {
    "literal_error": _literal,
    "string_pattern_mismatch": _pattern,
    "string_too_short": _short,
    "too_short": _short,
    "too_long": _long,
    "greater_than": _limit("above"),
    "greater_than_equal": _limit("of at least"),
    "less_than": _limit("below"),
    "less_than_equal": _limit("of at most"),
    "string_type": _kind("a text"),
    "tuple_type": _kind("a list"),
    "dict_type": _kind("a mapping"),
    "model_type": _mapping,
    "model_attributes_type": _mapping,
    "int_parsing": _kind("a whole number"),
    "int_type": _kind("a whole number"),
    "int_from_float": _kind("a whole number"),
    "float_parsing": _kind("a number"),
    "float_type": _kind("a number"),
    "finite_number": _kind("a number"),
    "bool_parsing": _kind("yes or no"),
    "bool_type": _kind("yes or no"),
    "time_parsing": _kind("a time of day such as 08:30"),
    "time_type": _kind("a time of day such as 08:30"),
    "date_parsing": _kind("a date such as 2026-12-24"),
    "date_from_datetime_parsing": _kind("a date such as 2026-12-24"),
    "date_type": _kind("a date such as 2026-12-24"),
}


def _fields_at(model: type[BaseModel], loc: tuple[str | int, ...]) -> list[str]:
    inner = _model_at(model, loc)
    return list(inner.model_fields) if inner else []


def _description(model: type[BaseModel], loc: tuple[str | int, ...]) -> str:
    inner = _model_at(model, loc[:-1])
    field = inner.model_fields.get(str(loc[-1])) if inner else None
    return (field.description or "") if field else ""


def _model_at(model: type[BaseModel], loc: tuple[str | int, ...]) -> type[BaseModel] | None:
    """The model whose fields stand under *loc*, found through the annotations; None when there is none."""
    here: Any = model
    for part in loc:
        inner = _as_model(here)
        if inner and str(part) in inner.model_fields:
            here = inner.model_fields[str(part)].annotation
        elif not inner:
            here = next((argument for argument in reversed(get_args(here)) if argument is not Ellipsis), None)
    return _as_model(here)


def _as_model(annotation: Any) -> type[BaseModel] | None:
    """*annotation* if it is a model, or the model it may be (``Text | None``)."""
    candidates = [annotation, *get_args(annotation)] if get_origin(annotation) in {Union, UnionType} else [annotation]
    return next((found for found in candidates if isinstance(found, type) and issubclass(found, BaseModel)), None)


def _and(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
