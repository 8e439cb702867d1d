"""A value set into a document of somebody else's: escaped so that it stays a value."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Literal
from xml.sax.saxutils import escape  # writes only; nothing is parsed here

Written = Literal["text", "xml", "json"]

_NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 cannot hold, not even as a reference."""


def escaped(value: str, written: Written) -> str:
    """*value* as it stands in text, in an element or quoted attribute of XML, or between the quotes of a JSON string."""
    if written == "xml":
        return escape(_NOT_IN_XML.sub(" ", value), {'"': "&quot;", "'": "&apos;"})
    if written == "json":
        return json.dumps(value)[1:-1]
    return value


ECHO = "{echo}"
"""Stands in the answer to a gateway's question for what is said back."""

ANSWERED = re.compile(
    r"\{((?:to|from)(?:\|(?:national|bare|00))?|reply|id|key|(?:body|query|header|item):[^{}\"\n]+|path:[1-9])\}"
)
"""The placeholders of an answer; those with a colon are places of the delivery."""


def filled(template: str, value: Callable[[str], str], written: Written) -> str:
    """*template* with each placeholder filled by its *value*, escaped for XML or JSON."""
    return ANSWERED.sub(lambda name: escaped(value(name[1]), written), template)
