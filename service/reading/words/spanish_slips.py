"""How a Spanish word may have been meant that was written by ear: b for v, s for c or z, y for ll, without its h, k for qu."""

from __future__ import annotations

import re
from collections.abc import Iterator

_BY_EAR: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(heard), meant)
    for heard, meant in (
        ("b", "v"), ("v", "b"), ("s(?=[ei])", "c"), ("s", "z"), ("z(?=[ei])", "c"), ("z", "s"), ("c(?=[ei])", "s"),
        ("ll", "y"), ("y(?=[aeiou])", "ll"), ("^(?=[aeiou])", "h"), ("^h", ""), ("^ye", "hie"), ("^[gw]ue", "hue"),
        ("^we", "hue"), ("w", "gu"), ("j(?=[ei])", "g"), ("g(?=[ei])", "j"), ("g(?=[ei])", "gu"), ("k(?=[ei])", "qu"),
        ("k", "c"), ("n(?=[bpv])", "m"), ("x", "s"), ("(?<=[aeiou])r(?=[aeiou])", "rr"), ("rr", "r"), ("a(?=os?$)", "ad"),
        ("(?<=[aeiou])i(?=[aeou])", "y"), ("(?<=[aeiou])i(?=[aeou])", "ll"), ("qu(?=[aou])", "cu"),
    )
)  # fmt: skip
"""What is heard alike and mixed up in writing (common practice, no source); the last vowels of “lavao” are “lavado”."""

MOST_WAYS = 400
"""Ways of one word that are tried; an ordinary word has some twenty."""


def meant_by_ear(word: str) -> Iterator[str]:
    """Ways that *word* may have been meant, those with one slip before those with two."""
    once = list(dict.fromkeys(_ways(word)))
    yield from once
    ways = 0
    for way in once:
        for other in _ways(way):
            ways += 1
            if ways > MOST_WAYS:
                return
            yield other


def _ways(word: str) -> Iterator[str]:
    for heard, meant in _BY_EAR:
        for match in heard.finditer(word):
            yield word[: match.start()] + meant + word[match.end() :]
