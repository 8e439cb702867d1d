"""Which of the things done to a machine were done to set it right: not what the fault came after, nor a spill wiped up."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from service.reading.words.normalising import Word

_AFTER = frozenset(("after", "since", "when", "desde", "dende", "despues", "cuando", "al"))
_REACH = 4
_ALARMS = frozenset(
    ("alarm", "alarma", "alarmita", "detector", "smoke", "battery", "batteries", "pila", "pilas", "volt")
)
_SPILT = frozenset((
    "spill", "spilled", "spilt", "derrame", "derramo", "derramamos", "trapie", "trapee", "mopped", "tire", "vacie",
))  # fmt: skip
_MOPPING = frozenset(("wiped", "limpie", "limpiamos", "mopped", "seque", "dried", "cleaned", "trapie"))

_CLEANERS = frozenset(("alcohol", "vinegar", "degreaser", "qtip", "toothbrush", "vinagre", "desengrasante", "peroxide"))
"""Who cleans with these does more than mop up."""


def in_earnest(tries: Iterable[tuple[int, int, str]], words: Sequence[Word]) -> tuple[int, int, str] | None:
    """The first of *tries* (first word, the one after the last, what was done) that was meant to mend what is complained of."""
    forms = [word.form for word in words]
    spilt = not _SPILT.isdisjoint(forms) or any(
        (forms[at], forms[at + 2 : at + 3]) == ("se", ["cayo"]) for at in range(len(forms) - 2)
    )
    for start, end, code in tries:
        if _comes_before_the_fault(words, start):
            continue
        if not _ALARMS.isdisjoint(forms[max(start - 2, 0) : end + _REACH]):
            continue
        if spilt and not _MOPPING.isdisjoint(forms[start:end]) and _CLEANERS.isdisjoint(forms[end : end + _REACH]):
            continue
        return start, end, code
    return None


def _comes_before_the_fault(words: Sequence[Word], start: int) -> bool:
    """Whether the fault began with what was done from *start*: “ever since I cleaned it”, “desde que la moví”."""
    at = start - 1
    while at >= max(start - _REACH, 0) and not words[at + 1].brk:
        if words[at].form in _AFTER:
            return True
        at -= 1
    return False
