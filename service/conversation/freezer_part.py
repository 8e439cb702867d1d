"""“its just the freezer part”: a freezer that is said to be a refrigerator's part needs no question of where it is."""

from __future__ import annotations

import re
from dataclasses import replace

from service.conversation.ask import INSIDE
from service.conversation.halves import AS_WELL, ONLY, hold
from service.conversation.hear import rename
from service.conversation.matters import named
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.opinion.halves import COOLS, FREEZER, WARM
from service.reading.words.normalising import fold

_APART = "freezer"
_NAMES = frozenset(("freezer", "freezers", "frizer", "congelador"))
_PART = re.compile(
    r"\b(?:freezer|frizer|congelador)(?:'?s)? (?:part|section|side|compartment|half|portion|area|drawer|door|parte|nada mas)\b"
    r"|\b(?:parte|lado|seccion|compartimento|cajon|puerta|area) "
    r"(?:de |del |de arriba del |de abajo del )(?:el )?(?:freezer|congelador)\b"
    r"|\b(?:of|in|inside|on|to) (?:the|my|our|a) (?:\w+ )?(?:fridge|refrigerator|refri|frig)\b"
    r"|\b(?:del|de mi|dentro del|en el|en mi|dentro de mi|adentro del) (?:refri|refrigerador|nevera)\b"
)
"""A freezer that is part of a refrigerator: “its just the freezer part”, “it's in my fridge”."""
_LONGEST = 9
"""A text of more words says more than which machine is meant."""
_PRAISED = ("fine", "ok", "good", "works", "bien", "sirve", "funciona", "jala")


def part_told(turn: Turn, reading: Reading) -> Reading:
    """
    *reading* of a text that only says that the freezer spoken of is a refrigerator's part: that one's complaint from now on.

    Nothing is asked then of whether it is inside one or stands alone.
    """
    ticket, said = turn.state.in_focus, fold(reading.text)
    words = said.split()
    if ticket is None or not ticket.open or ticket.visit is not None or len(words) > _LONGEST:
        return reading
    if ticket.appliance not in (COOLS, _APART) or COOLS not in turn.rulebook.shop.serves or _PART.search(said) is None:
        return reading
    if named(turn.rulebook, "freezer_alone", reading.text) is not None or not _means_freezer(words, ticket.appliance):
        return reading
    others = {f.appliance for f in reading.symptoms} - {COOLS, _APART, "unknown"}
    if others or AS_WELL & {*words} or any(word.startswith(_PRAISED) for word in words):
        return reading
    held = {code for code in WARM if ticket.symptoms.get(code)}
    if ticket.appliance == _APART:
        rename(turn, ticket, COOLS)
    elif not held or not ONLY & {*words}:
        return reading
    if held:
        hold(turn, turn.the(ticket.key), FREEZER, set(), new=False)
    asked = turn.the(ticket.key).asked
    turn.change(ticket.key, asked=tuple(dict.fromkeys([*asked, f"appliance:{INSIDE}"])))
    return replace(
        reading, appliances=(COOLS,), answer=None, intents=(),
        symptoms=tuple(f for f in reading.symptoms if f.code not in WARM),
        denied=tuple(f for f in reading.denied if f.code not in WARM),
    )  # fmt: skip


def _means_freezer(words: list[str], appliance: str) -> bool:
    """Whether the freezer is meant: by its name, or since it is what is spoken about."""
    return appliance == _APART or bool(_NAMES & {*words})
