"""What a shop's file lays over the base rules, and what it says for itself alone: one line each, with the base beside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from service.rulebook.edition import SOMETHING_ELSE
from service.rulebook.folder import Folder, Page, read_folder
from service.rulebook.loading import load_rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop
from service.workshop.report import Report, count

KINDS = {
    "weights": "How often causes are met",
    "evidence": "How often signs are seen with causes",
    "checks": "Owner checks",
    "wording": "Sentences",
}
"""What a shop may lay over the base, in the order it is told."""


@dataclass(frozen=True, slots=True)
class Override:
    """
    One thing of the shop's own. kind: a key of ``KINDS``. base, own: in words. line: in the shop's file. why: the shop's
    reason where it gives one. same: it says what the base says, so that it may be deleted.
    """

    kind: str
    what: str
    base: str
    own: str
    line: int
    why: str = ""

    @property
    def same(self) -> bool:
        """Whether it changes nothing."""
        return self.base == self.own


def overrides(folder: Folder, shop: str) -> tuple[Override, ...]:
    """Everything that the file of *shop* lays over the base of *folder*, in the order of ``KINDS``."""
    page = folder.shops[shop]
    base = {name: joined for name, appliance in folder.appliances.items() if (joined := appliance.joined())}
    return (*_weights(page, base), *_evidence(page, base), *_checks(page, base), *_wording(page, folder))


def own_matters(shop: Shop) -> tuple[tuple[str, str], ...]:
    """What the file says for the shop alone, label and value: there is no base for it."""
    fee = shop.fees.visit_cents
    found = [
        ("Visit fee", f"${fee // 100}" if fee % 100 == 0 else f"${fee / 100:.2f}"),
        ("Serves", ", ".join(code.replace("_", " ") for code in shop.serves)),
        ("Brands served", ", ".join(shop.brands.serves) or "all that are not refused"),
        ("Brands refused", ", ".join(shop.brands.refuses) or "none"),
        ("Recalls listed", str(len(shop.recalls))),
        ("Replacing talked over for", ", ".join(code.replace("_", " ") for code in shop.replace) or "nothing"),
    ]
    return tuple(found)


def told(rules: Path, shop: str) -> Report:
    """The report on *shop*'s file at *rules*. Raises RulesMistaken."""
    rulebook = load_rulebook(rules, shop)
    folder = read_folder(rules, [shop])
    found = overrides(folder, shop)
    file = folder.shops[shop].written.file
    lines = [f"{file} lays {count(len(found), 'thing')} over the base."]
    for kind, heading in KINDS.items():
        here = [one for one in found if one.kind == kind]
        if here:
            lines += ["", heading, *(_line(one) for one in here)]
    lines += ["", "The shop's alone", *(f"  {label}: {value}" for label, value in own_matters(rulebook.shop))]
    if needless := [one for one in found if one.same]:
        lines += ["", f"{count(len(needless), 'line')} the same as the base: may be deleted."]
    return Report("\n".join(lines), 0)


def _line(one: Override) -> str:
    reason = f" ({one.why})" if one.why else ""
    change = "same as the base" if one.same else f"{one.base} -> {one.own}"
    return f"  line {one.line}: {one.what}: {change}{reason}"


def _weights(page: Page[Shop], base: dict[str, Appliance]) -> Iterator[Override]:
    for code, weights in page.model.weights.items():
        appliance = base.get(code)
        for cause, weight in weights.items() if appliance else ():
            assert appliance  # noqa: S101 - the loop is empty without it
            usual = appliance.something_else if cause == SOMETHING_ELSE else appliance.causes[cause].weight
            line = page.written.line(("weights", code, cause))
            yield Override("weights", f"{code}, {cause}", f"{usual:g}", f"{weight:g}", line)


def _evidence(page: Page[Shop], base: dict[str, Appliance]) -> Iterator[Override]:
    for code, causes in page.model.evidence.items():
        for cause, rows in causes.items():
            usual = base[code].causes[cause].evidence if code in base else {}
            for sign, grade in rows.items():
                line = page.written.line(("evidence", code, cause, sign))
                was = usual.get(sign, "as usual")
                yield Override("evidence", f"{code}, {cause}, {sign}", str(was), grade, line)


def _checks(page: Page[Shop], base: dict[str, Appliance]) -> Iterator[Override]:
    for code, checks in page.model.checks.items():
        for check, own in checks.items() if code in base else ():
            line = page.written.line(("checks", code, check))
            said = "offered" if own.offered else "not offered"
            title = base[code].checks[check].title.en
            yield Override("checks", f"{code}, {check} ({title})", "offered", said, line, own.why)


def _wording(page: Page[Shop], folder: Folder) -> Iterator[Override]:
    for language, sentences in page.model.wording.items():
        base = folder.wording[language].model.root if language in folder.wording else {}
        for id, said in sentences.items():
            line = page.written.line(("wording", language, id))
            yield Override("wording", f"{language}, {id}", f'"{base.get(id, "")}"', f'"{said}"', line)
