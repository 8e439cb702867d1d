"""One thing that the rules leave open, and the kinds of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from service.rulebook.problems import Problem

KINDS: Mapping[str, str] = MappingProxyType(
    {
        "unheard": "Nobody is heard saying this in one of the languages",
        "claimed": "Two rules claim the same wording",
        "loose": "What may be missing leaves one everyday word",
        "same": "Nothing tells these causes apart",
        "unasked": "Questions that are never worth asking",
        "unreached": "Owner checks that are never offered",
        "unneeded": "Parts, tools and panels that nothing needs",
        "long": "Wording that costs too many segments",
        "hard": "Wording that reads above grade six",
    }
)
"""What a finding may be about, in the order of the report; said as its heading."""


@dataclass(frozen=True, slots=True)
class Finding:
    """Something left to mend: its kind, a key of ``KINDS``, and where it stands, what is so, and the remedy."""

    kind: str
    problem: Problem


Findings = Iterator[Finding]
