"""
Owner checks that are safe by rule: what an owner may be told to touch, with what, and what must be said before it.

What the closed words of the schema cannot say is screened in the texts themselves by ``forbidden``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from service.rulebook.checking.codes import Path
from service.rulebook.checking.forbidden import forbidden_act
from service.rulebook.folder import Page
from service.rulebook.problems import Problem, one_of
from service.rulebook.schema.appliance import Check
from service.rulebook.schema.common import Text

HANDS_IN = frozenset(
    {"filter", "spray_arm", "float", "hose_in_view", "pump_filter_low", "lint_filter", "burner_cap", "sink_drain"}
    | {"ice_bin", "levelling_foot", "grille", "water_tank", "lamp"}
)
"""What is only touched with the power off."""
OUT_OF_REACH = frozenset(
    {"nothing", "controls", "door", "wall_switch", "tap", "sink_drain", "shutoff_valve", "cookware"}
)
"""What an owner may touch while the machine runs."""
NOT_ON_LIVE = frozenset({"glove", "soft_brush", "cup"})
"""What means hands in the machine, so never with the power on."""
BEFORE_A_BREAKER = ("burning_smell", "hot_wiring", "shock", "smoke", "sparks", "water_near_power")
"""No breaker or reset button is touched while one of these is held. Source: H5 NFPA home electrical tips; H6 CPSC Doc. 5035."""

_POWER = {
    "en": re.compile(r"\b(power|breaker|unplug|switch(ed)? off|turn(ed)? off|off at)", re.I),
    "es": re.compile(r"\b(corriente|electricidad|luz|desconect|desenchuf|apag|breaker|interruptor|pastilla)", re.I),
}
_MAY_BE = {
    "hot": ({"en": r"\b(hot|cool|cold|burn|scald)", "es": r"(caliente|fr[ií]|quem|enfri)"}, "may be hot"),
    "sharp": ({"en": r"\b(sharp|glass|glove|cut)", "es": r"(filos|vidrio|guante|cort)"}, "may be sharp"),
    "wet": (
        {"en": r"\b(wet|water|dry|towel|slip|spill)", "es": r"(mojad|agua|sec[oa]|toalla|resbal|derram)"},
        "may be wet",
    ),
    "heavy": ({"en": r"\b(heavy|lift|weigh|two people)", "es": r"(pesad|levant|pesa\b|dos personas)"}, "may be heavy"),
}
_ONCE = {"en": re.compile(r"\b(once|one time|only one)\b", re.I), "es": re.compile(r"\b(una (sola )?vez)\b", re.I)}
_NO_FORCE = {
    "en": re.compile(r"\bforc|stiff|by hand", re.I),
    "es": re.compile(r"forc|fuerce|fuerza|dur[oa]|a mano", re.I),
}

_SOUR = {
    "en": re.compile(r"\b(vinegar|descaler|citric acid)\b", re.I),
    "es": re.compile(r"\b(vinagre|descalcificador|desincrustante|ácido cítrico)\b", re.I),
}
_NOT_WITH_BLEACH = {"en": re.compile(r"\bbleach", re.I), "es": re.compile(r"\b(cloro|lejía|blanqueador)", re.I)}

Rule = Callable[[Check], Iterator[tuple[str, str, str]]]
"""Yields field, what was found, remedy."""


def unsafe(check: Check) -> Iterator[tuple[str, str, str]]:
    """Every way in which *check* is not safe by its fields: the field, what was found, the remedy."""
    for rule in _RULES:
        yield from rule(check)


def screened(page: Page[Any], at: Path, check: Check) -> Iterator[Problem]:
    """A problem for each text of *check* that tells an owner to do what only a technician may."""
    texts: list[tuple[Path, Text]] = [((*at, "steps", number), step) for number, step in enumerate(check.steps)]
    texts += [((*at, field), getattr(check, field)) for field in ("title", "see", "helped")]
    texts += [((*at, "cautions", number, "text"), caution.text) for number, caution in enumerate(check.cautions)]
    if check.fixed_elsewhere:
        texts.append(((*at, "fixed_elsewhere"), check.fixed_elsewhere))
    for path, text in texts:
        yield from told(page, path, text, running=check.running)


def told(page: Page[Any], path: Path, text: Text, *, running: bool = False) -> Iterator[Problem]:
    """A problem for each language in which *text* at *path* tells a forbidden act."""
    for language in ("en", "es"):
        words = text.in_(language)
        act = forbidden_act(words, language, running=running)
        if act:
            remedy = "Leave it to the technician, or say that it must not be done."
            yield page.problem((*path, language), f'"{words}" tells the owner to {act}.', remedy=remedy)


def _cautioned(check: Check, pattern: dict[str, re.Pattern[str]]) -> bool:
    """Whether the cautions say it in both languages."""
    return all(
        any(words.search(caution.text.in_(lang)) for caution in check.cautions) for lang, words in pattern.items()
    )


def _said(check: Check, pattern: dict[str, re.Pattern[str]]) -> bool:
    """Whether cautions, steps or the end say it in both languages."""
    texts = [*(caution.text for caution in check.cautions), *check.steps, check.ends_if, check.see, check.not_for]
    return all(any(words.search(text.in_(lang)) for text in texts) for lang, words in pattern.items())


def _listed(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]


def _hands(check: Check) -> Iterator[tuple[str, str, str]]:
    reached = sorted(HANDS_IN.intersection(check.touches))
    if reached and check.power != "off":
        yield (
            "power",
            f"{_listed(reached)} is touched, but the power is {check.power}.",
            'Write "power: off".',
        )
    if check.opens == "user_filter" and check.power != "off":
        yield "power", f"The user filter is opened, but the power is {check.power}.", 'Write "power: off".'
    held = sorted(NOT_ON_LIVE.intersection(check.tools))
    if held and check.power != "off":
        yield "tools", f"A {one_of(held)} is used, but the power is {check.power}.", "No tool on a live machine."
    if check.power == "off" and not _cautioned(check, _POWER):
        yield (
            "cautions",
            "The power must be off, but no caution says so in both languages.",
            "Say how it is switched off.",
        )


def _running(check: Check) -> Iterator[tuple[str, str, str]]:
    if not check.running:
        return
    if check.power == "off":
        yield "running", "The machine runs, but the power is off.", "Mend one of the two."
    reached = sorted(set(check.touches) - OUT_OF_REACH)
    if reached:
        yield "touches", f"{_listed(reached)} is touched while the machine runs.", "Only watch a running machine."
    if check.opens not in ("nothing", "cabinet_under_sink"):
        yield "opens", f"{check.opens} is opened while the machine runs.", "Only watch a running machine."


def _breaker(check: Check) -> Iterator[tuple[str, str, str]]:
    if "breaker" not in check.touches and not check.reset and "disposal_reset_button" not in check.touches:
        return
    if "disposal_reset_button" in check.touches and not check.reset:
        yield "reset", "The reset button is touched, but this is not marked as a reset.", 'Write "reset: yes".'
    left = [code for code in BEFORE_A_BREAKER if code not in check.never_if]
    if left:
        yield "never_if", f"A breaker or reset is touched; never_if lacks {_listed(left)}.", "Add them."
    if not any(caution.signal in ("DANGER", "WARNING") for caution in check.cautions):
        yield (
            "cautions",
            "A breaker or reset is touched without a WARNING.",
            "Warn of wet hands, heat, smell and shock.",
        )
    if check.reset and not _said(check, _ONCE):
        yield "steps", "A reset is not said to be for one time only, in both languages.", 'Say "once", "una sola vez".'


def _plug(check: Check) -> Iterator[tuple[str, str, str]]:
    if "plug" not in check.touches:
        return
    left = [code for code in ("hot_wiring", "water_near_power") if code not in check.never_if]
    if left:
        yield "never_if", f"The plug is touched; never_if lacks {_listed(left)}.", "Add them."


def _bodily(check: Check) -> Iterator[tuple[str, str, str]]:
    for what in check.may_be:
        words, said = _MAY_BE[what]
        if not _cautioned(check, {lang: re.compile(pattern, re.I) for lang, pattern in words.items()}):
            yield "cautions", f"Something {said}, but no caution says so in both languages.", "Add one."


def _water(check: Check) -> Iterator[tuple[str, str, str]]:
    if "shutoff_valve" in check.touches and not _said(check, _NO_FORCE):
        yield "cautions", "A shut-off valve is touched, and nothing says not to force it.", "Say it in both languages."
    if "pump_filter_low" in check.touches:
        if "pan" not in check.tools:
            yield "tools", "A pump filter is opened without a pan.", "Add pan."
        if check.water != "off":
            yield "water", f"A pump filter is opened, but the water is {check.water}.", 'Write "water: off".'
        if "hot" not in check.may_be:
            yield "may_be", "A pump filter holds hot water after a wash.", "Add hot, and a caution to let it cool."


def _mixing(check: Check) -> Iterator[tuple[str, str, str]]:
    """Source: H19 CDC and state advice."""
    texts = [check.title, *check.steps, check.see, *(caution.text for caution in check.cautions)]
    if any(_SOUR[lang].search(text.in_(lang)) for text in texts for lang in _SOUR) and not _said(
        check, _NOT_WITH_BLEACH
    ):
        yield "cautions", "Vinegar or descaler is named, and nothing says not with bleach.", "Say it in both languages."


def _contrary(check: Check) -> Iterator[tuple[str, str, str]]:
    """What can never be offered."""
    both = sorted(check.settles.keys() & set(check.unsafe_for))
    if both:
        yield (
            "unsafe_for",
            f"The check settles {_listed(both)}, and is unsafe for it.",
            "It would never be offered; keep one.",
        )
    asked = sorted(set(check.when) & set(check.never_if))
    if asked and len(asked) == len(set(check.when)):
        yield (
            "never_if",
            f"The check is for {_listed(asked)}, and never with it.",
            "It would never be offered; keep one.",
        )


_RULES: tuple[Rule, ...] = (_hands, _running, _breaker, _plug, _bodily, _water, _mixing, _contrary)
