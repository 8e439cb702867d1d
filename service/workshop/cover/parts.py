"""Parts, tools and panels of an appliance that no cause, test or other rule needs."""

from __future__ import annotations

from service.rulebook.folder import ApplianceFolder
from service.workshop.cover.finding import Finding, Findings


def unneeded(appliance: ApplianceFolder) -> Findings:
    """What ``parts.yaml`` and the openings of ``tests.yaml`` list and nothing refers to."""
    causes = appliance.causes.model.causes if appliance.causes else ()
    tests = appliance.tests.model.tests if appliance.tests else ()
    openings = appliance.tests.model.openings if appliance.tests else ()
    needed = {part for cause in causes for part in cause.parts}
    used = {tool for cause in causes for tool in cause.tools}
    used |= {tool for test in tests for tool in test.tools} | {tool for panel in openings for tool in panel.tools}
    opened = {test.opening for test in tests if test.opening}
    if page := appliance.parts:
        for at, part in enumerate(page.model.parts):
            if part.id not in needed:
                found, remedy = "No cause is mended with this part.", "Name it in the parts of a cause, or delete it."
                yield Finding("unneeded", page.problem(("parts", at), found, remedy=remedy, blocks=False))
        for at, tool in enumerate(page.model.tools):
            if tool.id not in used:
                found = "No cause, test or panel needs this tool."
                remedy = "Name it where it is needed, or delete it."
                yield Finding("unneeded", page.problem(("tools", at), found, remedy=remedy, blocks=False))
    if tests_page := appliance.tests:
        for at, opening in enumerate(openings):
            if opening.id not in opened:
                found, remedy = "No test is behind this panel.", "Name it as the opening of a test, or delete it."
                yield Finding("unneeded", tests_page.problem(("openings", at), found, remedy=remedy, blocks=False))
