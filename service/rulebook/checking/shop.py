"""A shop's file against the rules and itself: hours that have an end, people who can reach their work, overrides that meet."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from service.rulebook.checking.codes import Codes, Path, causes, twice, unknown
from service.rulebook.checking.evidence import LEAST_SOMETHING_ELSE
from service.rulebook.checking.notation import placeholders
from service.rulebook.checking.wording import shop_wording_problems
from service.rulebook.edition import SOMETHING_ELSE
from service.rulebook.folder import ApplianceFolder, Folder, Page
from service.rulebook.plates import plate
from service.rulebook.problems import Problem, did_you_mean
from service.rulebook.schema.shop import BESIDES_MACHINES, Shop, Span, Technician

_US_NUMBER = re.compile(r"^\+1[2-9]\d{2}[2-9]\d{6}$")
"""North American numbers: N is 2 to 9. Source N2."""


def shop_problems(name: str, page: Page[Shop], folder: Folder, codes: Codes) -> Iterator[Problem]:
    """What is wrong with the shop file *page*, whose file name is *name*."""
    shop = page.model
    if shop.shop != name:
        yield page.problem(("shop",), f'The file is named "{name}", the shop "{shop.shop}".', remedy="Make them equal.")
    if not _is_zone(shop.timezone):
        remedy = did_you_mean(shop.timezone, available_timezones())
        yield page.problem(("timezone",), f'"{shop.timezone}" is not a time zone.', remedy=remedy)
    yield from _numbers(page)
    yield from _what_it_serves(page, codes)
    yield from _hours(page)
    yield from twice(page, "technicians", {n: item.id for n, item in enumerate(shop.technicians)}, "technician")
    for place, technician in enumerate(shop.technicians):
        yield from _technician(page, ("technicians", place), technician)
    yield from _brands(page)
    if "fee" not in (placeholders(shop.fees.say.en) or ()):
        yield page.problem(
            ("fees", "say"), "The sentence does not state the fee.", remedy="Write {fee} where it stands."
        )
    yield from _overrides(page, folder, codes)
    yield from _recalls(page, codes)
    yield from shop_wording_problems(page, folder.wording)


def _is_zone(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (ValueError, ZoneInfoNotFoundError, OSError):
        return False
    return True


def _numbers(page: Page[Shop]) -> Iterator[Problem]:
    shop = page.model
    numbers: list[tuple[Path, str | None]] = [(("number",), shop.number), (("office_phone",), shop.office_phone)]
    numbers += [(("technicians", n, "phone"), item.phone) for n, item in enumerate(shop.technicians)]
    numbers += [(("on_call", n, "number"), item.number) for n, item in enumerate(shop.on_call)]
    for path, number in numbers:
        if number and number.startswith("+1") and not _US_NUMBER.match(number):
            found = f'"{number}" is not a number one can dial.'
            yield page.problem(
                path, found, expected="After +1: three digits, then seven, neither beginning with 0 or 1."
            )


def _what_it_serves(page: Page[Shop], codes: Codes) -> Iterator[Problem]:
    shop, known = page.model, codes.vocabulary.appliances
    skills = set(chain.from_iterable(technician.skills for technician in shop.technicians))
    for place, code in enumerate(shop.serves):
        yield from unknown(page, ("serves", place), code, "an appliance", known)
        if code in known and code not in skills:
            found = f'Nobody has the skill "{code}", so no visit can be offered for it.'
            yield page.problem(("serves", place), found, remedy="Add it to a technician's skills.", blocks=False)
    for code in shop.refer:
        what = f"an appliance, nor {' or '.join(BESIDES_MACHINES)}"
        yield from unknown(page, ("refer", code), code, what, {*known, *BESIDES_MACHINES})
        if code in shop.serves:
            found = f'"{code}" is served, so nobody is referred.'
            yield page.problem(("refer", code), found, remedy="Take it out of serves or of refer.")


def _hours(page: Page[Shop]) -> Iterator[Problem]:
    shop = page.model
    spans: list[tuple[Path, Span]] = [(("hours", day), span) for day, span in shop.hours.items()]
    for place, technician in enumerate(shop.technicians):
        spans += [(("technicians", place, "days", day), span) for day, span in technician.days.items()]
    for path, span in spans:
        if span.end <= span.start:
            found = f"The day ends at {span.end:%H:%M}, and begins at {span.start:%H:%M}."
            yield page.problem(path, found, remedy="The end is the later one; the day has 24 hours.")
    starts = shop.windows.starts
    if list(starts) != sorted(set(starts)):
        yield page.problem(
            ("windows", "starts"), "The windows are not in order.", remedy="Write each once, earliest first."
        )
    if not shop.hours:
        yield page.problem(("hours",), "The shop is never open.", remedy="Write at least one day.")


def _technician(page: Page[Shop], at: Path, technician: Technician) -> Iterator[Problem]:
    expected = "The day must start in a ZIP code of the area, so that travel can be measured."
    yield from unknown(page, (*at, "start_zip"), technician.start_zip, "in the area", page.model.area, expected)
    if not technician.days:
        yield page.problem(
            (*at, "days"), f"{technician.name} works on no day.", remedy="Write a day, or take them out."
        )


def _brands(page: Page[Shop]) -> Iterator[Problem]:
    owner: dict[str, str] = {}
    for field in ("serves", "refuses"):
        for brand, spellings in getattr(page.model.brands, field).items():
            for spelling in (brand, *spellings):
                other = owner.setdefault(spelling.casefold(), brand)
                if other != brand:
                    found = f'"{spelling}" already stands for {other}.'
                    yield page.problem(("brands", field, brand), found, remedy="A spelling names one brand.")
    for brand in page.model.brands.serves.keys() & page.model.brands.refuses.keys():
        path = ("brands", "refuses", brand)
        yield page.problem(path, f"{brand} is served and refused.", remedy="Keep one of the two.")


def _recalls(page: Page[Shop], codes: Codes) -> Iterator[Problem]:
    known = codes.vocabulary.appliances
    recalls = page.model.recalls
    yield from twice(page, "recalls", {place: item.id for place, item in enumerate(recalls)}, "recall")
    for place, item in enumerate(recalls):
        yield from unknown(page, ("recalls", place, "appliance"), item.appliance, "an appliance", known)
        for number, model in enumerate(item.models):
            if not plate(model.removesuffix("*")) or "*" in model[:-1]:
                found = f'"{model}" is no model number.'
                path: Path = ("recalls", place, "models", number)
                yield page.problem(path, found, remedy='* stands only at the end, after letters or digits: "DW-24*".')
        for number, run in enumerate(item.serials):
            if len(plate(run.first)) != len(plate(run.last)) or plate(run.last) < plate(run.first):
                found = f'"{run.first}" to "{run.last}" is no run of serial numbers.'
                expected = "Both ends have as many letters and digits, and the first comes first."
                yield page.problem(("recalls", place, "serials", number), found, expected=expected)
    for code in page.model.replace:
        yield from unknown(page, ("replace", code), code, "an appliance", known)


def _overrides(page: Page[Shop], folder: Folder, codes: Codes) -> Iterator[Problem]:
    shop = page.model
    for field in ("weights", "evidence", "checks"):
        for code in getattr(shop, field):
            expected = "A shop overrides what has a folder in rules/appliances."
            yield from unknown(page, (field, code), code, "an appliance with rules", codes.folders, expected)
    for code, appliance in folder.appliances.items():
        if appliance.broken or not appliance.causes:
            continue
        yield from _weights(page, appliance)
        for cause, rows in shop.evidence.get(code, {}).items():
            path = ("evidence", code, cause)
            yield from unknown(page, path, cause, "a cause", causes(appliance), _causes_of(appliance))
            known = codes.evidence(appliance)
            expected = f"Evidence is a symptom or observation of {code}, or a hazard."
            for name in rows:
                yield from unknown(page, (*path, name), name, "evidence", known, expected)
        checks = [check.id for check in appliance.checks.model.checks] if appliance.checks else []
        for check in shop.checks.get(code, {}):
            expected = f"The owner checks of {code} are listed in {appliance.file}/checks.yaml."
            yield from unknown(page, ("checks", code, check), check, "an owner check", checks, expected)


def _weights(page: Page[Shop], appliance: ApplianceFolder) -> Iterator[Problem]:
    weights = page.model.weights.get(appliance.name, {})
    if not weights or appliance.causes is None:
        return
    at: Path = ("weights", appliance.name)
    for cause, weight in weights.items():
        known = (*causes(appliance), SOMETHING_ELSE)
        yield from unknown(page, (*at, cause), cause, "a cause", known, _causes_of(appliance))
        if weight <= 0:
            yield page.problem((*at, cause), f"{weight:g} is no weight.", remedy="Write a number above 0.")
    file = appliance.causes.model
    named = sum(weights.get(cause.id, cause.weight) for cause in file.causes)
    leak = weights.get(SOMETHING_ELSE, file.something_else)
    least = named * LEAST_SOMETHING_ELSE / (1 - LEAST_SOMETHING_ELSE)
    if leak < least - 1e-9:
        found = f"With these weights something_else, {leak:g}, is less than a twentieth of the whole."
        yield page.problem(at, found, remedy=f"Write something_else: {least:.4g} beside them, or more.")


def _causes_of(appliance: ApplianceFolder) -> str:
    return f"The causes of {appliance.name} are listed in {appliance.file}/causes.yaml."
