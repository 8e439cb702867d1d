"""
Faults that are told only to say what they were: “smell in the fridge was a bag of shrimp, cancel please”, “the leak was from
the roof, the dishwasher had nothing to do with it”; or only asked about. The machine has none of them.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from service.reading.aims.intents import without_what_is_over
from service.reading.machines.belonging import ARTICLES
from service.reading.machines.mentions import UNKNOWN, Mention
from service.reading.model import Found, Reading
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_STAYS = frozenset((
    "still", "keeps", "keep", "instead", "need", "necesito", "ocupo", "sigue", "siguen", "wont", "todavia", "again",
))  # fmt: skip
"""Words beside which something is left to mend though a visit is called off."""

_PRESSED = frozenset((
    "hit", "hits", "press", "pressed", "push", "pushed", "tried", "button", "pico", "pique", "picarle", "apreto", "aprieto",
    "apriete", "aprete", "boton", "aplasto", "oprimo",
))  # fmt: skip
"""Beside these a "cancel" is a button."""

_BUT = frozenset(("but", "pero", "except", "excepto"))
_NOTHING, _TO_DO = frozenset(("nada", "nothing")), frozenset(("que", "to"))
_SEE = frozenset(("ver", "do"))
_NEVER = frozenset(("never", "wasnt", "nunca"))
_IT_WAS = frozenset(("era", "fue"))
_NO = frozenset(("no", "ni"))


def without_what_it_was_not(
    draft: Reading, worded: Mapping[str, Hit], words: Sequence[Word], mentions: Sequence[Mention]
) -> Reading:
    """*draft* without faults that are over or only asked about, and with those denied that are said to have been another's."""
    draft = without_what_is_over(draft, worded, words)
    if not draft.symptoms or draft.hazards:
        return draft
    if "ask_help" in draft.intents:
        draft = replace(draft, symptoms=tuple(f for f in draft.symptoms if not _is_only_asked(f, draft, worded, words)))
    cleared = {m.appliance: words[m.start].start for m in mentions if not m.implied and is_cleared(m, words)}
    off = _is_called_off(draft, worded, words)
    gone = [f for f in draft.symptoms if off or f.start < cleared.get(f.appliance, 0)]
    return _with_denied(draft, gone) if gone else draft


def _is_only_asked(found: Found, draft: Reading, worded: Mapping[str, Hit], words: Sequence[Word]) -> bool:
    """“do you fix boilers? mine is leaking”: no machine of ours; “is it normal that it hums”: asked, and no complaint."""
    if found.appliance == _NO_MACHINE and "book" not in draft.intents:
        return True
    asks = worded.get("ask_help")
    asked = [word.form for word in words[asks.start : asks.end]] if asks is not None else []
    if asks is None or "normal" not in asked or not _OUGHT.isdisjoint(asked):
        return False
    behind = words[asks.end :]
    end = next((word.start for word in behind if word.brk == _STOP), len(draft.text))
    if any(word.form in _SO_MUCH for word in behind if word.start < end):
        return False
    if asks.start <= _OPENS and found.start <= words[asks.start].start and found.end >= end:
        return True
    return words[asks.start].start < found.start < end and not any(w.form in _TURNS for w in behind if w.start < end)


_TURNS = _BUT | {"malo", "gusta", "problem", "issue", "problema", "bothers"}
_NO_MACHINE, _STOP = "other", 2
_OPENS = 2
_OUGHT = frozenset(("debe", "debia", "should"))
_SO_MUCH = frozenset(("this", "so", "too", "tan", "asi", "tanto", "demasiado"))
"""“is it normal for it to get this hot” complains."""


def is_cleared(mention: Mention, words: Sequence[Word]) -> bool:
    """“never the disposal”, “no era la lavadora”, “la dishwasher nada que ver”, “the fridge had nothing to do with it”."""
    behind = [word.form for word in words[mention.end : mention.end + 6] if not word.brk]
    for at in range(max(0, len(behind) - 2)):
        if behind[at] in _NOTHING and behind[at + 1] in _TO_DO and behind[at + 2] in _SEE:
            return True
    at = mention.start - 1
    while at > 0 and words[at].form in ARTICLES and not words[at + 1].brk:
        at -= 1
    if at < 1 or words[at + 1].brk or not _ends(mention.end, words):
        return False
    before = words[at - 1].form
    return (words[at].form in _NEVER and before in ("was", "it", "thats", "that")) or (
        words[at].form in _IT_WAS and before in _NO
    )


def _ends(at: int, words: Sequence[Word]) -> bool:
    """Whether the statement ends before word *at*."""
    return at >= len(words) or words[at].brk > 0 or words[at].form in ("after", "at", "so", "y", "and", "sino", "era")


def _is_called_off(draft: Reading, worded: Mapping[str, Hit], words: Sequence[Word]) -> bool:
    """Whether the visit is called off with what it was, and nothing says that it goes on."""
    call = worded.get("cancel")
    if call is None or "cancel" not in draft.intents or "book" in draft.intents or "reschedule" in draft.intents:
        return False
    forms = {word.form for word in words}
    if not _STAYS.isdisjoint(forms) or not _PRESSED.isdisjoint(forms):
        return False
    before, behind = words[: call.start], words[call.end :]
    if any(word.form in _BUT for word in behind):
        return False
    if any(word.form in _WAS for word in behind):
        return True
    return any(word.form in _WAS for word in before) and len(behind) <= _NO_MORE


_NO_MORE = 6
"""So many words may follow, of the day that is called off and the trouble that it made."""

_WAS = frozenset(("was", "were", "era", "eran", "fue", "fueron", "turned", "resulto"))


_OVER = frozenset(("vague", "trips_breaker"))
"""What was so, whatever came of it."""


def _with_denied(draft: Reading, gone: Collection[Found]) -> Reading:
    known = {(f.appliance, f.code) for f in draft.denied}
    denied = [f for f in gone if f.appliance != UNKNOWN and f.code not in _OVER and (f.appliance, f.code) not in known]
    kept = tuple(f for f in draft.symptoms if f not in gone)
    return replace(draft, symptoms=kept, denied=(*draft.denied, *denied))
