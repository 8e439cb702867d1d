"""The rule author's check: every problem of every rule file in one text, and whether the rules may be used."""

from __future__ import annotations

from pathlib import Path

from service.rulebook.checking import problems_of
from service.rulebook.folder import ApplianceFolder, Folder, read_folder
from service.rulebook.problems import Problem, render
from service.workshop.report import Report, count

__all__ = ["Report", "check"]


_USABLE = "The rules can be used."
_USABLE_SO_FAR = "The rules can be used as far as they go; what is told above is missing or likely a slip."


def check(rules: Path) -> Report:
    """
    The report on all rules at *rules*, every shop's file too.

    What is only missing so far, or a likely slip, is told but does not fail.
    """
    if not rules.is_dir():
        file = str(rules)
        return Report(
            render([Problem(file, 0, "", "There is no such folder.", "", "Name the folder of the rules.")]), 1
        )
    folder = read_folder(rules)
    problems = sorted(problems_of(folder))
    blocked = any(problem.blocks for problem in problems)
    parts = [render(problems), "" if blocked else _summary(folder, told=bool(problems))]
    return Report("\n".join(part for part in parts if part), int(blocked))


def _summary(folder: Folder, *, told: bool) -> str:
    """*told*: problems stand above that stop nothing."""
    lines = [_appliance_line(appliance) for appliance in folder.appliances.values()]
    dangers = folder.dangers.model if folder.dangers else None
    named = len(folder.names.model.appliances) if folder.names else 0
    rules = sum(len(page.model.rules) for page in folder.talk)
    common = [
        count(len(dangers.dangers) if dangers else 0, "danger"),
        count(len(dangers.urgency) if dangers else 0, "reason for haste", "reasons for haste"),
        count(named, "appliance by name only", "appliances by name only"),
        count(rules, "rule of talk", "rules of talk"),
        count(len(folder.wording["en"].model.root) if "en" in folder.wording else 0, "sentence"),
        count(len(folder.shops), "shop"),
    ]
    return "\n".join([*lines, f"common: {', '.join(common)}", _USABLE_SO_FAR if told else _USABLE])


def _appliance_line(appliance: ApplianceFolder) -> str:
    joined = appliance.joined()
    if joined is None:
        return f"{appliance.name}: not whole yet"
    counts = [
        count(len(joined.symptoms), "symptom"),
        count(len(joined.observations), "observation"),
        count(len(joined.causes), "cause"),
        count(len(joined.checks), "owner check"),
        count(len(joined.tests), "test"),
        count(len(joined.parts), "part"),
    ]
    return f"{appliance.name}: {', '.join(counts)}"
