"""“can i light it with a match”: what an owner would do and must not, asked about, is answered with no and why."""

from __future__ import annotations

from service.conversation.ask import again
from service.conversation.hear import UNKNOWN
from service.conversation.matters import bare_words, named
from service.conversation.smalltalk import TELLS
from service.conversation.underway import Turn
from service.reading.model import Reading

_GAS = frozenset(("cooktop", "range", "wall_oven", "dryer", UNKNOWN))
_COLD = frozenset(("refrigerator", "freezer", "ice_maker", "beverage_cooler", UNKNOWN))
_ACTS = (
    ("stop.no_flame", "lit_by_hand", None, _GAS),
    ("stop.no_tool", "sharp_tool", "on_ice", _COLD),
    ("stop.no_hand", "hand_in", None, frozenset(("disposal",))),
)
"""What is said, the list that names the act, a second list that must be named besides, and the machines it is of."""
_NEAR = 9
"""At most so many words from "can i" to the act."""
_SHORT = 12
"""A question mark alone asks for leave in a text of at most so many words."""


def answer(turn: Turn, reading: Reading) -> bool:
    """Say no, and why; the open question stays. True when that ends this turn's talk."""
    focus = turn.state.in_focus
    machine = focus.appliance if focus is not None and focus.open else UNKNOWN
    said = next(
        (
            id
            for id, act, besides, machines in _ACTS
            if machine in machines and _asked(turn, reading.text, act) and _besides(turn, reading.text, besides)
        ),
        None,
    )
    if said is None:
        return False
    turn.tell(said, signal=turn.words("signal.warning"))
    turn.because(
        "told",
        "Asked whether something may be done that is not safe: no, and why.",
        source="common practice, no source",
    )
    return False if TELLS & turn.learned else again(turn)


def _besides(turn: Turn, text: str, matter: str | None) -> bool:
    if matter is None or named(turn.rulebook, matter, text) is not None:
        return True
    focus = turn.state.in_focus
    return focus is not None and focus.symptoms.get("frost") is True


def _asked(turn: Turn, text: str, act: str) -> bool:
    """Whether leave is asked for what the list *act* names: behind a “can i”, or in a short question."""
    done = named(turn.rulebook, act, text)
    if done is None:
        return False
    words = bare_words(text)
    asks = named(turn.rulebook, "may_i", text)
    if asks is None:
        return "?" in text and len(words) <= _SHORT
    first, at = (" ".join(words).find(" ".join(bare_words(phrase))) for phrase in (asks, done))
    between = " ".join(words)[min(first, at) : max(first, at)].split()
    return len(between) <= _NEAR
