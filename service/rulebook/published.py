"""
The schema as others read it: JSON Schema for editors, and the table of fields in the rule author's guide.

An editor that knows YAML sees ``no`` and ``08:30`` as text, as this loader does; the published schemas say so.
"""

from __future__ import annotations

import json
from types import UnionType
from typing import Any, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from service.rulebook.folder import APPLIANCE_FILES
from service.rulebook.schema.danger import DangersFile
from service.rulebook.schema.shop import Shop
from service.rulebook.schema.talk import NamesFile, TalkFile
from service.rulebook.schema.told import ToldElsewhereFile, ToldIntentsFile
from service.rulebook.schema.vocabulary import VocabularyFile
from service.rulebook.schema.wording import WordingFile

FILES: dict[str, type[BaseModel]] = {
    "vocabulary": VocabularyFile,
    **APPLIANCE_FILES,
    "dangers": DangersFile,
    "talk": TalkFile,
    "names": NamesFile,
    "told_intents": ToldIntentsFile,
    "told_elsewhere": ToldElsewhereFile,
    "wording": WordingFile,
    "shop": Shop,
}
"""Schema name and model of every kind of rule file, in the order an author meets them."""

PLACES = {
    "vocabulary": "vocabulary.yaml",
    **{name: f"appliances/NAME/{name}.yaml" for name in APPLIANCE_FILES},
    "dangers": "dangers.yaml",
    "talk": "talk/NAME.yaml",
    "names": "talk/appliances.yaml",
    "told_intents": "talk/told.yaml",
    "told_elsewhere": "told.yaml",
    "wording": "wording/LANGUAGE.yaml",
    "shop": "shops/NAME.yaml",
}
"""Where each kind of file stands in the rules folder."""


class _ForEditors(GenerateJsonSchema):
    def bool_schema(self, schema: Any) -> JsonSchemaValue:  # noqa: ARG002 - the base class names it
        return {"enum": [True, False, "yes", "no"]}

    def time_schema(self, schema: Any) -> JsonSchemaValue:  # noqa: ARG002
        return {"type": "string", "pattern": r"^\d{2}:\d{2}(:\d{2})?$"}

    def date_schema(self, schema: Any) -> JsonSchemaValue:  # noqa: ARG002
        return {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"}


def json_schema(name: str) -> str:
    """The JSON Schema (draft 2020-12) of the kind of file called *name* in ``FILES``, as the text of its file."""
    return schema_text(FILES[name])


def schema_text(model: type[BaseModel]) -> str:
    """The JSON Schema of files that are a *model*, as the text of its file."""
    schema = model.model_json_schema(schema_generator=_ForEditors)
    schema = {"$schema": _ForEditors.schema_dialect, **schema}
    return json.dumps(schema, indent=1, sort_keys=True, ensure_ascii=False) + "\n"


def field_table() -> str:
    """Every field of every kind of rule file, as Markdown: what it is, whether it must be written, what it means."""
    told: set[type[BaseModel]] = set()
    blocks: list[str] = []
    for name, model in FILES.items():
        if name == "wording":
            continue
        blocks.append(f"### `{PLACES[name]}`\n\n" + "\n".join(_model_lines(model, told)))
    return "\n\n".join(blocks) + "\n"


def models() -> list[type[BaseModel]]:
    """Every model an author writes, each once, in the order of the table."""
    told: set[type[BaseModel]] = set()
    for name, model in FILES.items():
        if name != "wording":
            _model_lines(model, told)
    return sorted(told, key=lambda model: model.__name__)


def _model_lines(model: type[BaseModel], told: set[type[BaseModel]]) -> list[str]:
    """A heading line and a line per field of *model*, then of the models within that were not *told* yet."""
    told.add(model)
    lines = [f"- `{name}`{_must(field)}: {field.description}" for name, field in model.model_fields.items()]
    for field in model.model_fields.values():
        for inner in _models_in(field.annotation):
            if inner not in told:
                lines += ["", f"**{_title(inner)}**", "", *_model_lines(inner, told)]
    return lines


def _must(field: FieldInfo) -> str:
    if field.is_required():
        return " (must be written)"
    default = field.get_default(call_default_factory=True)
    if default in (None, (), {}, "") or isinstance(default, BaseModel):
        return ""
    if isinstance(default, bool):
        return f" (if left out: {'yes' if default else 'no'})"
    if isinstance(default, tuple):
        return f" (if left out: {', '.join(map(str, default))})"
    return f" (if left out: {default:%H:%M})" if hasattr(default, "hour") else f" (if left out: {default})"


def _title(model: type[BaseModel]) -> str:
    words = "".join(f" {letter.lower()}" if letter.isupper() else letter for letter in model.__name__).strip()
    return f"{words[0].upper()}{words[1:]}"


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and not get_origin(annotation):
        return [annotation] if issubclass(annotation, BaseModel) else []
    found: list[type[BaseModel]] = []
    if get_origin(annotation) in {Union, UnionType} or get_args(annotation):
        for argument in get_args(annotation):
            found += _models_in(argument) if argument is not Ellipsis else []
    return found
