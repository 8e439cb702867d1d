"""Which of the times a text names are asked for: a wish, and not when something was."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from service.reading.model import Answer, Asked, Wish
from service.reading.times.bare_times import only_when_beside
from service.reading.times.wish_around import is_around_work
from service.reading.times.wish_draft import EXCEPTING
from service.reading.times.wishes import states_time
from service.reading.words.asking import is_inquired
from service.reading.words.normalising import Normal


def without_no_wish(
    facts: Mapping[str, object], heard: Collection[str], answer: Answer | None, wish: Wish | None
) -> Mapping[str, object]:
    """
    *facts* without a wish that is none: a window that is taken (*answer* to an offer), the days of a sale, the time of a visit
    called off. "Not today, next week" is one, and so is what will not do where somebody is to come.
    """
    only_out = wish is not None and not (
        _wanted(wish) or answer is not None or wish.words.lower().startswith(EXCEPTING)
    )
    taken = (answer is not None and answer.kind == "choice") or "spam" in heard
    called_off = {"cancel", "fixed"} & set(heard) and not {"reschedule", "book", "not_fixed"} & set(heard)
    instead = wish is not None and (wish.days_out or wish.relative_out) and (wish.days_in or wish.week or wish.relative)
    moves = wish is not None and (wish.requested or bool({"book", "reschedule"} & set(heard)))
    if taken or (only_out and not (moves and "cancel" not in heard)) or (called_off and not instead):
        return {name: value for name, value in facts.items() if name != "wish"}
    return facts


def _wanted(wish: Wish) -> bool:
    """Whether *wish* says when, and not only when not."""
    return bool(states_time(replace(wish, days_out=(), relative_out=())) or wish.soonest or wish.holiday)


def _merely_told(wish: Wish) -> bool:
    """Whether *wish* names but a part of the day, an hour, this week or today: in a complaint that is when it happens."""
    bound = (wish.start or wish.end) and not wish.point
    return not (
        bound
        or wish.days_in
        or wish.dates
        or wish.week == "next"
        or wish.soonest
        or {*wish.relative} - {0}
        or wish.days_out
    )


def keep_wish(
    wish: Wish | None,
    facts: dict[str, object],
    asked: Asked | None,
    heard: Collection[str],
    normal: Normal,
    *,
    alone: bool,
    complains: bool,
) -> Wish | None:
    """
    *wish*, where it is one for a visit, put among the *facts*; None for a time that only belongs to the story, or that is
    only inquired about.
    """
    alone = alone or only_when_beside(normal, wish, facts.get("address"))
    around = wish is not None and wish.requested and is_around_work(wish, normal.folded)
    offered = around or (asked is not None and asked.kind in ("offer", "access"))
    booking = bool({"book", "reschedule"} & set(heard))
    inquired = wish is not None and not (offered or booking) and is_inquired(normal.words, wish.words, normal.text)
    arranging = asked is None or offered or _of_the_visit(asked)
    requested = (
        wish is not None
        and wish.requested
        and arranging
        and not ({"ask_help", "ask_status"} & set(heard))
        and (complains or "ask_price" not in heard)
    )
    if wish is None or not (
        (states_time(wish) or wish.soonest or (wish.holiday and (booking or requested or offered)))
        and not inquired
        and not (complains and asked is None and not requested and not booking and _merely_told(wish))
        and (
            requested
            or around
            or _names_a_visit(wish, asked, heard, facts, complains=complains)
            or _tells_when_home(wish, asked, facts, normal, complains=complains)
            or is_wish(wish.words.lower(), asked, heard, facts, alone=alone)
        )
    ):
        return wish if "wish" in facts else None
    facts["wish"] = wish.words
    since = str(facts.get("since", ""))
    if requested and (since in wish.words or wish.words in since):
        facts.pop("since", None)
    if facts.get("since") and not complains and {"book", "reschedule", "cancel"} & set(heard):
        facts.pop("since")
    return wish


_OF_THE_MACHINE = ("observation", "yes_no", "symptom", "check_result", "brand", "model", "code", "fuel", "variant")
_WHEN_IT_BEGAN = "began"
"""To this question a day and an hour tell of the trouble."""


def _names_a_visit(
    wish: Wish, asked: Asked | None, heard: Collection[str], facts: Mapping[str, object], *, complains: bool
) -> bool:
    """
    Whether a day to come and an hour of it are told while something of the machine is asked: “wed at 4 like i said” is of
    the visit, for nothing that was asked has an hour.
    """
    if asked is None or asked.kind not in _OF_THE_MACHINE or asked.code == _WHEN_IT_BEGAN:
        return False
    if complains or facts.get("since") or {"ask_help", "ask_status"} & set(heard):
        return False
    day = bool(wish.days_in or wish.dates or {*wish.relative} - {0})
    return day and bool(wish.start or wish.end or wish.part)


_MOST_WORDS = 10
_HOME = frozenset((
    "free", "home", "available", "work", "only", "come", "libre", "casa", "salgo", "llego", "trabajo", "desocupo", "desocupada",
    "desocupado", "nomas", "disponible", "vengan",
))  # fmt: skip
"""Words of who tells from when somebody is there."""


def _tells_when_home(
    wish: Wish, asked: Asked | None, facts: Mapping[str, object], normal: Normal, *, complains: bool
) -> bool:
    """
    Whether a short text tells no more than from when or until when somebody is there, while something of the machine is
    asked: “im only free after 5”.
    """
    if asked is None or asked.kind not in _OF_THE_MACHINE or asked.code == _WHEN_IT_BEGAN or complains:
        return False
    bound = bool(wish.start or wish.end) and not wish.point
    short = len(normal.words) <= _MOST_WORDS
    return bound and short and not facts.get("since") and any(word.form in _HOME for word in normal.words)


def _of_the_visit(asked: Asked) -> bool:
    return asked.kind in ARRANGING or (asked.kind == "confirm" and asked.code in ("visit", "cancel"))


ARRANGING = ("name", "address", "postal_code", "phone", "payer")
"""Questions put while a visit is being arranged: a time that is stated then is when they would like us."""


_ABOUT_A_VISIT = frozenset(("book", "reschedule", "cancel"))
"""Without these a day beside a question ("are you open saturdays", "is he coming today") asks for no visit."""


def is_wish(
    words: str, asked: Asked | None, heard: Iterable[str], facts: dict[str, object], *, alone: bool = False
) -> bool:
    """
    Whether a stated time is a wish: asked for, *alone* in the text or said with a booking word, and not when the trouble
    began.
    """
    if asked is not None and asked.kind == "offer":
        return True
    if alone:
        return not facts.get("since")
    since = str(facts.get("since", "")).lower()
    wanted = bool(_ABOUT_A_VISIT & set(heard))
    if words in ("today", "hoy", "tonight") and not wanted:
        return False
    if {"ask_help", "ask_status"} & set(heard) and not wanted:
        return False
    if asked is None and not wanted:
        return False
    if asked is not None and not _of_the_visit(asked) and not {"book", "reschedule", "cancel"} & set(heard):
        return False
    if since and (words in since or since in words):
        return False
    return bool({"book", "reschedule", "ask_status", "cancel"} & set(heard)) or not since
