"""Everything that is left to mend in a rules folder, and the report on it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from service.rulebook.folder import Folder, read_folder
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.problems import render
from service.workshop.cover.causes import same
from service.workshop.cover.finding import KINDS, Finding, Findings
from service.workshop.cover.loose import loose, loose_talk
from service.workshop.cover.parts import unneeded
from service.workshop.cover.phrases import claimed, dangers_unheard, unheard
from service.workshop.cover.sentences import dear_or_hard
from service.workshop.cover.walk import in_vain
from service.workshop.report import Report, count


def cover(
    rules: Path, shop: str, appliances: Sequence[str] = (), tick: Callable[[str], None] = lambda _: None
) -> Report:
    """
    The report on the rules at *rules* with the file of *shop* over them; it fails while there is anything to mend.

    appliances: only these, all when none is named. tick: told the name of each as its turn comes. Raises RulesMistaken.
    """
    rulebook = load_rulebook(rules, shop)
    folder = read_folder(rules, [shop])
    unknown = [name for name in appliances if name not in rulebook.appliances]
    if unknown:
        known = ", ".join(rulebook.appliances)
        return Report(f"There are no rules for {', '.join(unknown)}. Those with rules: {known}.", 1)
    found = list(findings(folder, rulebook, appliances, tick))
    return Report(told(found, len(appliances or rulebook.appliances)), int(bool(found)))


def findings(
    folder: Folder, rulebook: Rulebook, appliances: Sequence[str] = (), tick: Callable[[str], None] = lambda _: None,
    *, walk: bool = True,
) -> Findings:  # fmt: skip
    """All findings; *walk* False leaves out what takes seconds an appliance: questions and checks that are never met."""
    for code, appliance in rulebook.appliances.items():
        if appliances and code not in appliances:
            continue
        tick(code)
        here = folder.appliances[code]
        yield from unheard(folder, here)
        yield from claimed(here)
        yield from loose(folder, here)
        yield from same(here, appliance)
        yield from unneeded(here)
        if walk:
            yield from in_vain(here, appliance, rulebook.shop)
    if not appliances:
        yield from dangers_unheard(folder)
        yield from loose_talk(folder)
    yield from dear_or_hard(folder, rulebook, appliances)


def told(found: Iterable[Finding], appliances: int) -> str:
    """The findings under a heading for each kind, and what they come to."""
    by_kind = {kind: [one.problem for one in found if one.kind == kind] for kind in KINDS}
    if not any(by_kind.values()):
        return f"{count(appliances, 'appliance')} looked at: nothing left to mend."
    parts = [
        f"{KINDS[kind]} ({len(problems)})\n{_body(render(problems))}" for kind, problems in by_kind.items() if problems
    ]
    number = sum(map(len, by_kind.values()))
    ending = f"{count(number, 'thing')} left to mend. The rules can be used meanwhile."
    return "\n\n".join([*parts, ending])


def _body(rendered: str) -> str:
    """The problems without the closing count, indented under their heading."""
    return "\n".join(f"  {line}" for line in rendered.splitlines()[:-1])
