"""
YAML as text with lines: every value is what the author typed, and every mistake can be pointed at.

YAML's own typing would turn ZIP 02134 into 1116, 12:30 into 750 and ``no`` into false; here the schema converts. A key
given twice, an alias and a tag are refused. The only module that knows the YAML library.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import cast

import yaml

from service.rulebook.problems import Problem

Plain = str | list["Plain"] | dict[str, "Plain"]
"""What a rule file holds: texts, lists and mappings."""

_TAG = "tag:yaml.org,2002:str"
_TAGS = frozenset([_TAG, "tag:yaml.org,2002:seq", "tag:yaml.org,2002:map"])


@dataclass(frozen=True, slots=True)
class Written:
    """One rule file as it was typed. ``file``: how it is named to its author. ``value``: mappings with sorted keys."""

    file: str
    text: str = field(repr=False)
    value: Plain
    _nodes: list[yaml.Node] = field(default_factory=list, compare=False, repr=False)
    _found: list[tuple[tuple[str | int, ...], dict[str, Plain]]] = field(
        default_factory=list, compare=False, repr=False
    )

    @property
    def root(self) -> yaml.Node:
        """What knows the lines; read again for the first problem only, since it is the most of what a file takes."""
        if not self._nodes and (root := _composed(self.text)) is not None:
            self._nodes.append(root)
        return self._nodes[0]

    def line(self, path: Sequence[str | int]) -> int:
        """The line, from 1, of the deepest part of *path* that the file has: of the key in a mapping, of the item in a list."""
        node = self.root
        line = node.start_mark.line
        for part in path:
            found = _step(node, part)
            if found is None:
                continue
            node, line = found
        return int(line) + 1

    def has(self, path: Sequence[str | int]) -> bool:
        """Whether the file has something at *path*."""
        node = self.root
        for part in path:
            found = _step(node, part)
            if found is None:
                return False
            node = found[0]
        return True

    def speaking(self) -> Iterator[tuple[tuple[str | int, ...], dict[str, Plain]]]:
        """Every mapping of the file that has a language or a source, with its path; looked for once."""
        if not self._found and not isinstance(self.value, str):
            _speaking(self.value, (), self._found)
        yield from self._found

    def where(self, path: Sequence[str | int]) -> str:
        """*path* in the author's words: ``cause seal_worn, evidence > slow_drain``; items are counted from 1."""
        node, words, named = self.root, list[str](), ""
        for depth, part in enumerate(path):
            found = _step(node, part)
            name = _name(found[0]) if found else ""
            if isinstance(part, int) and name and depth == 1:
                named, words = f"{words[-1].removesuffix('s')} {name}", []
            else:
                words.append(name or (str(part + 1) if isinstance(part, int) else part))
            node = found[0] if found else node
        return ", ".join(part for part in (named, " > ".join(words)) if part)


def _speaking(
    value: list[Plain] | dict[str, Plain],
    path: tuple[str | int, ...],
    found: list[tuple[tuple[str | int, ...], dict[str, Plain]]],
) -> None:
    if isinstance(value, dict):
        if "en" in value or "es" in value or "source" in value:
            found.append((path, value))
        items: Iterable[tuple[str | int, Plain]] = value.items()
    else:
        items = enumerate(value)
    for part, item in items:
        if item and not isinstance(item, str) and (isinstance(item, dict) or not isinstance(item[-1], str)):
            _speaking(item, (*path, part), found)  # a list of phrases or codes holds no mapping


def read_yaml(path: Path, file: str) -> tuple[Written | None, list[Problem]]:
    """The file at *path*, named *file* in problems; None with the problems when it cannot be read as YAML."""
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        return None, [Problem(file, line, "", "The file is not UTF-8 text.", "", "Save it as UTF-8.")]
    return read_text(text, file)


def read_text(text: str, file: str) -> tuple[Written | None, list[Problem]]:
    """The rule file whose content is *text*; as ``read_yaml``."""
    try:
        root = _composed(text)
    except yaml.YAMLError as error:
        return None, [_unreadable(error, text, file)]
    if root is None:
        return None, [Problem(file, 0, "", "The file is empty.", "", "Write its rules, or delete it.")]
    problems: list[Problem] = []
    value = None if "&" in text or "!" in text else _as_it_stands(root)
    if value is None:
        value = _plain(root, file, problems, set())
    return (None, problems) if problems else (Written(file, text, value), [])


def _composed(text: str) -> yaml.Node | None:
    loader = _Loader(text.encode())
    try:
        return loader.get_single_node()
    finally:
        loader.dispose()


class _Loader(yaml.CBaseLoader):
    """Gives every untagged value the same tag; the library's own search for one takes a third of the reading."""

    def resolve(self, kind: type[yaml.Node], value: object, implicit: object) -> str:  # noqa: ARG002 - the library's call
        return _TAG

    def descend_resolver(self, current_node: object, current_index: object) -> None:
        pass

    def ascend_resolver(self) -> None:
        pass


def _as_it_stands(node: yaml.Node) -> Plain | None:
    """
    What *node* holds, in a text without anchors and tags; None if a key is given twice or is none, which ``_plain`` tells.

    Takes a third of the time of ``_plain``, and nearly every file is sound.
    """
    if isinstance(node, yaml.ScalarNode):
        return str(node.value)
    found: list[Plain | None]
    if isinstance(node, yaml.SequenceNode):
        found = [item.value if type(item) is yaml.ScalarNode else _as_it_stands(item) for item in node.value]
        return None if None in found else cast("list[Plain]", found)
    mapping: dict[str, Plain | None] = {}
    for key, item in node.value:
        if type(key) is not yaml.ScalarNode:
            return None
        mapping[key.value] = item.value if type(item) is yaml.ScalarNode else _as_it_stands(item)
    if len(mapping) < len(node.value) or None in mapping.values():
        return None
    return cast("dict[str, Plain]", dict(sorted(mapping.items())))


def _plain(node: yaml.Node, file: str, problems: list[Problem], seen: set[int]) -> Plain:
    if id(node) in seen:
        problems.append(_at(node, file, "An anchor (&) is used again with *.", "Write the rule out in full."))
        return ""
    seen.add(id(node))
    if node.tag not in _TAGS:
        tag = node.tag.replace("tag:yaml.org,2002:", "!!")
        problems.append(_at(node, file, f'A tag, "{tag}", is not used in rule files.', "Leave it out."))
    if isinstance(node, yaml.ScalarNode):
        return str(node.value)
    if isinstance(node, yaml.SequenceNode):
        return [_plain(item, file, problems, seen) for item in node.value]
    mapping: dict[str, Plain] = {}
    for key, item in node.value:
        if not isinstance(key, yaml.ScalarNode):
            problems.append(_at(key, file, "A key is a list or a mapping.", 'Put quotes around it: "[a|b] c".'))
        elif key.value in mapping:
            first = next(k for k, _ in node.value if k.value == key.value).start_mark.line + 1
            found = f'"{key.value}" is given twice; the first is in line {first}.'
            problems.append(_at(key, file, found, "Keep one of them."))
        else:
            mapping[key.value] = _plain(item, file, problems, seen)
    return dict(sorted(mapping.items()))


def _at(node: yaml.Node, file: str, found: str, remedy: str) -> Problem:
    return Problem(file, node.start_mark.line + 1, "", found, "", remedy)


def _step(node: yaml.Node, part: str | int) -> tuple[yaml.Node, int] | None:
    """The node under *part* of *node* and the line to point at; None if it has none."""
    if isinstance(node, yaml.MappingNode):
        return next(((value, key.start_mark.line) for key, value in node.value if key.value == str(part)), None)
    if isinstance(node, yaml.SequenceNode) and isinstance(part, int) and part < len(node.value):
        return node.value[part], node.value[part].start_mark.line
    return None


def _name(node: yaml.Node) -> str:
    """What an item of a list calls itself: its id, code, value or appliance."""
    if not isinstance(node, yaml.MappingNode):
        return ""
    fields = {key.value: value.value for key, value in node.value if isinstance(value, yaml.ScalarNode)}
    return next((str(fields[key]) for key in ("id", "code", "value", "appliance") if fields.get(key)), "")


def _unreadable(error: yaml.YAMLError, text: str, file: str) -> Problem:
    mark = getattr(error, "problem_mark", None)
    line = mark.line + 1 if mark else 0
    lines = text.splitlines()
    written = lines[line - 1] if 0 < line <= len(lines) else ""
    said = getattr(error, "problem", None) or str(error)
    if "\t" in written[: len(written) - len(written.lstrip())]:
        return Problem(file, line, "", "A tab is used to indent.", "", "Use spaces.")
    if "undefined alias" in said or "alias" in str(getattr(error, "context", "") or ""):
        remedy = 'Put quotes around a phrase that begins with a sign: "* leaks".'
        return Problem(file, line, "", "A text begins with *, which YAML takes for an alias.", "", remedy)
    if "single document" in str(error) or "another document" in said:
        return Problem(file, line, "", 'A second document begins ("---").', "", "One file holds one document.")
    remedy = "Look at the quotes, colons and indents of this line and the one before."
    if said.startswith("did not find expected") and "[" in written:
        remedy = 'Put quotes around a phrase that has brackets: "[a|b] c".'
    return Problem(file, line, "", f"YAML cannot read this: {said}.", "", remedy)
