"""One past turn taken again from its recorded state: pure, so nothing goes out and no row changes."""

from __future__ import annotations

from dataclasses import replace

from service.conversation.office_closing import OfficeMistaken
from service.conversation.step import Step
from service.conversation.turn import take
from service.conversation.underway import DiaryMissing
from service.conversation.upgrade import read_state
from service.rulebook.model import Rulebook
from service.storage.turns import read_diary
from service.workshop.trial.past import PastTurn


class NotRetaken(Exception):
    """The turn cannot be judged on these rules, and why; no fault of the rules."""


def retaken(past: PastTurn, rulebook: Rulebook) -> Step:
    """
    What *rulebook* makes of the turn, with the autonomy, the diary and the time of then.

    Raises NotRetaken where it needs what was not recorded; whatever else is raised is what the line would have met.
    """
    try:
        return take(
            read_state(past.state_before),
            past.events,
            letting(rulebook, past.autonomy),
            past.at,
            read_diary(past.diary),
            thread=past.thread,
            turn=past.number,
            held=past.held,
        )
    except DiaryMissing as wrong:
        raise NotRetaken("it would offer a visit now, and the diary of then was not kept") from wrong
    except OfficeMistaken as wrong:
        raise NotRetaken(f"what the office did then cannot be done from this state: {wrong}") from wrong


def letting(rulebook: Rulebook, autonomy: str) -> Rulebook:
    """*rulebook* with the autonomy that the desk had switched."""
    policies = rulebook.shop.policies
    if policies.autonomy == autonomy:
        return rulebook
    shop = rulebook.shop.model_copy(update={"policies": policies.model_copy(update={"autonomy": autonomy})})
    return replace(rulebook, shop=shop)
