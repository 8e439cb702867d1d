"""From outcomes to a new edition: what would move, and accepting, freezing and resetting it. Old and new are on record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from service.diagnosis.learning import Proposal, applied, counted, holding, propose
from service.edge.deps import Deps
from service.rulebook.loading import Learned, laid_over
from service.rulebook.schema.appliance import Appliance
from service.storage import audit
from service.storage.engine import writing
from service.storage.learned import LearnedRow, keep_learned, learned_of, take_night
from service.storage.teaching import lessons

NIGHT = time(3, 0)
"""From this hour on, where the shop is, the night's learning is done. Our own choice."""

BY_SETTING = "nightly"
"""Who accepted, on record, when the shop's setting did."""

LEAST_MOVE = 0.0005
"""A share that would move by less is not worth an edition."""


@dataclass(frozen=True, slots=True)
class Study:
    """One appliance: rules as written, what was decided for it (None: nothing yet), and what its outcomes propose now."""

    book: Appliance
    row: LearnedRow | None
    proposal: Proposal

    @property
    def held(self) -> Appliance:
        """The rules as written, with what is frozen as it is in force: what a proposal starts from."""
        return held_fast(self.book, self.row)


def study(connection: Connection, shop: str, book: Appliance, row: LearnedRow | None) -> Study:
    """What the shop's outcomes would make of *book*, shrunk to it."""
    counts = counted(lessons(connection, shop, book, row.since if row else None))
    frozen = row.frozen if row else frozenset[str]()
    return Study(book, row, propose(held_fast(book, row), counts, frozen=frozen))


def held_fast(book: Appliance, row: LearnedRow | None) -> Appliance:
    """*book* with the weights and evidence in force of what is frozen."""
    if row is None or not row.frozen:
        return book
    return holding(book, laid_over(book, Learned(row.weights, row.evidence)), row.frozen)


def accept(deps: Deps, shop: str, appliance: str, by: str) -> bool:
    """Put what the outcomes of *appliance* propose now in force; False if that would change nothing."""
    editions = deps.editions_in_force
    with writing(deps.engine) as connection:
        row = learned_of(connection, shop).get(appliance)
        done = _accept(
            connection, deps, shop, study(connection, shop, editions.book(shop).appliances[appliance], row), by
        )
        edition = editions.install(connection, shop, deps.clock()) if done else None
    if edition is not None:
        editions.use(shop, edition)
    return done


def freeze(deps: Deps, shop: str, appliance: str, code: str, by: str, *, frozen: bool) -> None:
    """Let a cause or a code stay as it is in force, or let it move again."""
    with writing(deps.engine) as connection:
        row = learned_of(connection, shop).get(appliance) or _nothing(appliance, by, deps.clock())
        kept = row.frozen | {code} if frozen else row.frozen - {code}
        keep_learned(connection, shop, replace(row, frozen=kept, by=by, at=deps.clock()))
        _note(connection, deps, shop, by, "froze" if frozen else "unfroze", appliance, {"code": code})


def reset(deps: Deps, shop: str, appliance: str, by: str) -> None:
    """Back to the rules as written; outcomes until now are not counted again, and nothing stays frozen."""
    now, editions = deps.clock(), deps.editions_in_force
    with writing(deps.engine) as connection:
        row = learned_of(connection, shop).get(appliance)
        before = {"weights": dict(row.weights), "evidence": dict(row.evidence)} if row else {}
        keep_learned(connection, shop, replace(_nothing(appliance, by, now), since=now))
        _note(connection, deps, shop, by, "reset learning", appliance, {"before": before})
        edition = editions.install(connection, shop, now)
    editions.use(shop, edition)


def learn_by_night(deps: Deps, done: dict[str, date]) -> int:
    """
    Accept what the shops propose whose setting says so, once a night; how many appliances changed.

    done: by shop the last day this process has seen to, kept by the caller so that other passes cost nothing.
    """
    editions, changed = deps.editions, 0
    for shop in editions.shops if editions else ():
        rules = deps.rulebook_of(shop).shop
        local = deps.clock().astimezone(ZoneInfo(rules.timezone))
        if rules.policies.learning != "nightly" or local.time() < NIGHT or done.get(shop) == local.date():
            continue
        with writing(deps.engine) as connection:
            first = take_night(connection, shop, local.date(), deps.clock())
        if first:
            books = deps.editions_in_force.book(shop).appliances
            changed += sum(accept(deps, shop, appliance, BY_SETTING) for appliance in books)
        done[shop] = local.date()
    return changed


def would_change(one: Study) -> bool:
    """Whether accepting the proposal would change what is in force enough to be worth an edition."""
    weights, evidence = differences(one.book, applied(one.held, one.proposal))
    before = one.row.weights if one.row else {}
    return evidence != (one.row.evidence if one.row else {}) or _moved(one.book, before, weights)


def _accept(connection: Connection, deps: Deps, shop: str, one: Study, by: str) -> bool:
    if not would_change(one):
        return False
    weights, evidence = differences(one.book, applied(one.held, one.proposal))
    row = one.row or _nothing(one.book.code, by, deps.clock())
    keep_learned(
        connection, shop,
        replace(row, weights=weights, evidence=evidence, jobs=one.proposal.jobs, by=by, at=deps.clock()),
    )  # fmt: skip
    before = {"weights": dict(row.weights), "evidence": dict(row.evidence)}
    detail = {
        "jobs": round(one.proposal.jobs, 2),
        "before": before,
        "after": {"weights": weights, "evidence": evidence},
    }
    _note(connection, deps, shop, by, "accepted learning", one.book.code, detail)
    return True


def differences(book: Appliance, after: Appliance) -> tuple[dict[str, float], dict[str, Any]]:
    """What of *after* is not as *book* has it: weights by cause, grades by cause and code."""
    weights = {code: cause.weight for code, cause in after.causes.items()} | {"something_else": after.something_else}
    own = {code: cause.weight for code, cause in book.causes.items()} | {"something_else": book.something_else}
    evidence = {
        code: {name: grade for name, grade in cause.evidence.items() if book.causes[code].evidence.get(name) != grade}
        for code, cause in after.causes.items()
    }
    return (
        {code: round(weight, 4) for code, weight in weights.items() if abs(weight - own[code]) > 1e-9},
        {code: graded for code, graded in evidence.items() if graded},
    )


def _moved(book: Appliance, before: Mapping[str, float], after: Mapping[str, float]) -> bool:
    whole = sum(cause.weight for cause in book.causes.values()) + book.something_else
    own = {code: cause.weight for code, cause in book.causes.items()} | {"something_else": book.something_else}
    return any(abs(after.get(code, own[code]) - before.get(code, own[code])) > LEAST_MOVE * whole for code in own)


def _nothing(appliance: str, by: str, now: datetime) -> LearnedRow:
    return LearnedRow(appliance, {}, {}, frozenset(), None, 0.0, by, now)


def _note(
    connection: Connection, deps: Deps, shop: str, by: str, did: str, appliance: str, detail: Mapping[str, object]
) -> None:
    audit.record(
        connection, shop=shop, at=deps.clock(), who=by, did=did, subject=f"learning:{appliance}", detail=dict(detail)
    )
