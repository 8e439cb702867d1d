"""Answers by what a text comes to: “... so no”, “panel still frozen”."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from service.reading.words.normalising import Word

_SO = frozenset(("so", "entonces", "asi", "osea"))
_NO = frozenset(("no", "nope", "nah"))
_YES = frozenset(("yes", "yeah", "yep", "si"))


_QUIT = frozenset(("quit", "stopped", "dejo"))
_DOING = frozenset(("doing", "making", "hacer", "hacerlo"))


def has_quit(words: Sequence[Word]) -> bool:
    """“it quit doing that”, “ya dejó de hacerlo”."""
    forms = [word.form for word in words]
    return len(forms) <= _FEW and bool(_QUIT & {*forms}) and bool(_DOING & {*forms})


_FEW = 7


def concludes(words: Sequence[Word]) -> Literal["yes", "no"] | None:
    """“clock and light are on so no”, “it hums, so yes”: the conclusion counts, whatever stands before it."""
    for at in range(1, len(words)):
        form = words[at].form
        if form not in _NO and form not in _YES:
            continue
        before = words[at - 1].form
        if before == "que" and at > 1:
            before = words[at - 2].form
        apart = at + 1 == len(words) or words[at + 1].brk > 0 or _as_they_guess(words, at + 1)
        if before in _SO and apart and not words[at].brk:
            return "no" if form in _NO else "yes"
    return None


_GUESSED = (
    ["i", "guess"],
    ["i", "think"],
    ["i", "suppose"],
    ["creo"],
    ["supongo"],
    ["maam"],
    ["sir"],
    ["senora"],
    ["senor"],
)


def _as_they_guess(words: Sequence[Word], at: int) -> bool:
    """“so no i guess”, “asi que no creo”: doubt or a courtesy behind the conclusion, and the end of the statement."""
    for tail in _GUESSED:
        end = at + len(tail)
        if [word.form for word in words[at:end]] == tail and (end == len(words) or words[end].brk > 0):
            return True
    return False


_STILL = frozenset(("still", "sigue", "siguen", "todavia"))
_WELL = frozenset((
    "good", "fine", "ok", "okay", "works", "working", "running", "great", "going", "waiting", "bien", "jalando", "trabajando",
    "funcionando", "cold", "cooling", "heating", "draining", "spinning", "clean", "quiet",
))  # fmt: skip
_REACH = 4


def goes_on(words: Sequence[Word]) -> bool:
    """“panel still frozen”, “sigue igual”: after a check it is as it was; not “still working”, “still good”."""
    for at, word in enumerate(words):
        if word.form in _STILL and at + 1 < len(words) and not words[at + 1].brk:
            return not any(after.form in _WELL for after in words[at + 1 : at + _REACH])
    return False
