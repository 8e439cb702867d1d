"""Learning from outcomes, on both databases: what teaches and what does not, and what an accepted edition changes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cache
from random import Random
from typing import Any

import pytest
from sqlalchemy import Engine, select

from service.diagnosis.belief import believe
from service.diagnosis.likelihoods import prior
from service.diagnosis.model import Evidence
from service.edge import learning
from service.edge.deps import Deps
from service.edge.editions import Editions
from service.edge.exchange import receive
from service.edge.gateways import load_gateways
from service.edge.inbound import Inbound
from service.reading.readers import reader_for
from service.rulebook.edition import Source, compiled
from service.rulebook.loading import rulebook_from_source
from service.rulebook.model import Rulebook
from service.settings import Settings
from service.storage import shops
from service.storage.engine import reading, writing
from service.storage.learned import learned_of
from service.storage.ledgers import audit, outcomes
from service.storage.tables import turns
from service.storage.teaching import lessons
from tests.conftest import ROOT, Clock
from tests.pages.office import demo_rulebook
from tests.pages.past import Past

SEAL, GREASE = "drain_valve_seal_worn", "drain_line_grease"
TRICKLE = Evidence(symptoms={"slow_drain": True})


@cache
def with_policies(**changes: Any) -> Rulebook:
    """The demo's dishwasher alone, under these policies; hears what the demo hears."""
    reader_for(demo_rulebook())  # made first: whoever asks first for the words the two share makes the reader of both
    source = Source.model_validate_json(demo_rulebook().source)
    policies = source.shop.policies.model_copy(update=changes)
    shop = source.shop.model_copy(update={"policies": policies})
    own = tuple(appliance for appliance in source.appliances if appliance.code == "dishwasher")
    other = compiled(source.model_copy(update={"shop": shop, "appliances": own}))
    return replace(other, heard_as=demo_rulebook().fingerprint)


@dataclass
class Workplace:
    """A shop with the demo's rules and its own past."""

    deps: Deps
    engine: Engine
    clock: Clock

    @property
    def rules(self) -> Rulebook:
        return self.deps.rulebook_of("demo")

    def share(self, cause: str = SEAL) -> float:
        return believe(self.rules.appliances["dishwasher"], TRICKLE).share(cause)

    def outcomes(self, count: int, found: str = SEAL, start: int = 2000, **more: Any) -> list[str]:
        with writing(self.engine) as connection:
            past = Past(connection, self.clock(), number=start)
            for place in range(count):
                past.outcome(past.ticket(60 - place / count), 60 - place / count, found, **more)
            return past.kept

    def study(self) -> learning.Study:
        book = self.deps.editions_in_force.book("demo").appliances["dishwasher"]
        with reading(self.engine) as connection:
            return learning.study(connection, "demo", book, learned_of(connection, "demo").get("dishwasher"))


def workplace(engine: Engine, clock: Clock, rulebook: Rulebook) -> Workplace:
    settings = Settings.model_validate({"database": str(engine.url), "secret": "s" * 40})
    editions = Editions(engine, clock, {"demo": rulebook})
    with writing(engine) as connection:
        edition = editions.install(connection, "demo", clock())
    editions.use("demo", edition)
    gateways = load_gateways(ROOT / "deploy" / "gateways", settings.gateway_secret)
    return Workplace(Deps(engine, clock, editions, Random(5), gateways, settings, editions), engine, clock)


@pytest.fixture
def shop(engine: Engine, clock: Clock) -> Workplace:
    return workplace(engine, clock, with_policies())


def test_accepted_weights_are_an_edition_that_the_line_works_by(shop: Workplace) -> None:
    before, first = shop.share(), shop.rules.fingerprint
    shop.outcomes(60)
    assert shop.share() == before  # nothing moves by itself
    assert learning.accept(shop.deps, "demo", "dishwasher", "ada")
    assert shop.share() > before + 0.05
    assert shop.rules.fingerprint != first
    with reading(shop.engine) as connection:
        row = shops.shop_row(connection, "demo")
        source = shops.edition_source(connection, "demo", shop.rules.fingerprint)
    assert row is not None
    assert row.edition == shop.rules.fingerprint
    assert source is not None
    again = rulebook_from_source(source)
    assert believe(again.appliances["dishwasher"], TRICKLE).share(SEAL) == shop.share()


def test_a_turn_names_the_edition_with_what_was_learned(shop: Workplace) -> None:
    shop.outcomes(40)
    learning.accept(shop.deps, "demo", "dishwasher", "ada")
    said = "my dishwasher drains very slowly, I smell gas too"
    receive(shop.deps, Inbound("demo", "loopback", "+15055550142", "+15055550100", said, (), "c1", shop.clock()))
    with reading(shop.engine) as connection:
        assert connection.execute(select(turns.c.edition)).scalar_one() == shop.rules.fingerprint


def test_an_accepted_share_is_the_book_as_so_many_jobs_and_the_shop_s_own_on_top(shop: Workplace) -> None:
    book = shop.deps.editions_in_force.book("demo").appliances["dishwasher"]
    before = dict(zip(book.causes, prior(book).tolist(), strict=False))
    shop.outcomes(63)
    learning.accept(shop.deps, "demo", "dishwasher", "ada")
    now = shop.rules.appliances["dishwasher"]
    after = dict(zip(now.causes, prior(now).tolist(), strict=False))
    worth = max(20, len(book.causes))
    learned = (worth * before[SEAL] + 63) / (worth + 63), worth * before[GREASE] / (worth + 63)
    other = worth * (1 - sum(before.values())) / (worth + 63)
    room = (1 - 0.05) / (1 - other)  # what is not listed keeps a twentieth
    assert (after[SEAL], after[GREASE]) == pytest.approx((learned[0] * room, learned[1] * room), abs=1e-4)


def test_accepting_twice_changes_nothing_and_both_old_and_new_are_on_record(shop: Workplace) -> None:
    shop.outcomes(30)
    assert learning.accept(shop.deps, "demo", "dishwasher", "ada")
    assert not learning.accept(shop.deps, "demo", "dishwasher", "ada")
    with reading(shop.engine) as connection:
        [detail] = connection.execute(select(audit.c.detail).where(audit.c.did == "accepted learning")).scalars()
    assert detail["before"] == {"weights": {}, "evidence": {}}
    assert detail["after"]["weights"][SEAL] > shop.deps.editions_in_force.book("demo").appliances[
        "dishwasher"
    ].causes[SEAL].weight  # fmt: skip


def test_what_is_held_fast_stays_as_it_is_in_force(shop: Workplace) -> None:
    shop.outcomes(30)
    learning.accept(shop.deps, "demo", "dishwasher", "ada")
    learning.freeze(shop.deps, "demo", "dishwasher", SEAL, "ada", frozen=True)
    held = prior(shop.rules.appliances["dishwasher"]).tolist()
    place = list(shop.rules.appliances["dishwasher"].causes).index(SEAL)
    shop.outcomes(60, GREASE, start=3000)
    assert learning.accept(shop.deps, "demo", "dishwasher", "ada")
    after = prior(shop.rules.appliances["dishwasher"]).tolist()
    assert after[place] == pytest.approx(held[place], abs=1e-4)
    assert shop.share(GREASE) > 0.3
    learning.freeze(shop.deps, "demo", "dishwasher", SEAL, "ada", frozen=False)
    assert learning.accept(shop.deps, "demo", "dishwasher", "ada")
    assert prior(shop.rules.appliances["dishwasher"])[place] < held[place] - 0.01


def test_a_reset_is_the_book_again_and_counts_anew(shop: Workplace) -> None:
    before = shop.rules
    shop.outcomes(30)
    learning.accept(shop.deps, "demo", "dishwasher", "ada")
    learning.reset(shop.deps, "demo", "dishwasher", "ada")
    assert shop.rules == before
    assert shop.study().proposal.jobs == 0
    shop.clock.forward(days=1)
    with writing(shop.engine) as connection:
        past = Past(connection, shop.clock(), number=4000)
        past.outcome(past.ticket(0.1), 0.1, SEAL)
    assert shop.study().proposal.jobs == 1


def test_undone_visits_teach_nothing_and_the_last_finding_of_a_ticket_counts(shop: Workplace) -> None:
    shop.outcomes(5, "not_looked_at", fixed=False)
    with writing(shop.engine) as connection:
        past = Past(connection, shop.clock(), number=3000)
        ticket = past.ticket(10)
        past.outcome(ticket, 12, GREASE, fixed=False)
        past.outcome(ticket, 11, SEAL)
        past.outcome(ticket, 10, "not_looked_at", fixed=False)
    moved = {one.cause: one.jobs for one in shop.study().proposal.weights if one.jobs}
    assert moved == {SEAL: 1.0}


def test_a_complaint_that_came_back_teaches_nothing(shop: Workplace) -> None:
    with writing(shop.engine) as connection:
        past = Past(connection, shop.clock())
        past.outcome(past.ticket(40, machine="m1"), 40, SEAL)
        past.ticket(20, machine="m1")
    assert shop.study().proposal.jobs == 0


def test_only_what_was_answered_when_asked_moves_a_grade(shop: Workplace) -> None:
    kept = {"symptoms": {"slow_drain": True, "leak": True}, "observations": {}, "hedged": ["odor"]}
    shop.outcomes(40, evidence={**kept, "asked": ["leak", "odor"]})
    graded = {(one.cause, one.code) for one in shop.study().proposal.grades}
    assert (SEAL, "leak") in graded
    assert (SEAL, "slow_drain") not in graded
    learning.accept(shop.deps, "demo", "dishwasher", "ada")
    assert shop.rules.appliances["dishwasher"].causes[SEAL].evidence["leak"] in ("very often", "almost always")


def test_findings_that_the_rules_no_longer_know_are_passed_over(shop: Workplace) -> None:
    shop.outcomes(3, "a_cause_of_old")
    assert shop.study().proposal.jobs == 0


def test_what_an_owner_check_settled_teaches_by_belief_among_the_causes_it_settles(shop: Workplace) -> None:
    book = shop.deps.editions_in_force.book("demo").appliances["dishwasher"]
    check = next(one for one in book.checks.values() if len(one.settles) > 1)
    evidence = {"symptoms": {"no_drain": True}, "observations": {}, "checks": {check.id: "fixed"}, "asked": []}
    shop.outcomes(1, next(iter(check.settles)), source="owner_check", visit=None, evidence=evidence,
                  forecast={"check": check.id, "chance": 0.4})  # fmt: skip
    with reading(shop.engine) as connection:
        [lesson] = lessons(connection, "demo", book)
    assert set(lesson.causes) == set(check.settles)
    assert sum(lesson.causes.values()) == pytest.approx(1)
    belief = believe(book, Evidence(symptoms={"no_drain": True}, checks={check.id: "fixed"}))
    shares = [belief.share(cause) for cause in lesson.causes]
    assert list(lesson.causes.values()) == pytest.approx([share / sum(shares) for share in shares])


def test_a_check_that_settles_a_complaint_by_text_is_kept_as_an_outcome(engine: Engine, clock: Clock) -> None:
    shop = workplace(engine, clock, with_policies(rest_s=0, autonomy="automatic"))
    said = (
        "my dishwasher doesn't drain at all since they put in the new disposal",
        "called him, he forgot it. works now",
    )
    for place, text in enumerate(said):
        clock.forward(minutes=3)
        receive(
            shop.deps, Inbound("demo", "loopback", "+15055550142", "+15055550100", text, (), f"c{place}", clock())
        )  # fmt: skip
    with reading(engine) as connection:
        [row] = connection.execute(select(outcomes)).all()
    assert (row.source, row.fixed, row.by) == ("owner_check", True, "customer")
    assert 0 < row.forecast["chance"] < 1
    assert row.evidence["checks"][row.forecast["check"]] == "fixed"
    assert row.found in shop.rules.appliances["dishwasher"].checks[row.forecast["check"]].settles


def test_a_shop_that_says_so_takes_proposals_over_once_a_night(engine: Engine, clock: Clock) -> None:
    shop = workplace(engine, clock, with_policies(learning="nightly"))
    shop.outcomes(30)
    done: dict[str, date] = {}
    clock.moment = clock.moment.replace(hour=9)  # two in the morning in Albuquerque
    assert learning.learn_by_night(shop.deps, done) == 0
    clock.forward(hours=1.5)
    assert learning.learn_by_night(shop.deps, done) == 1
    shop.outcomes(30, GREASE, start=3000)
    assert learning.learn_by_night(shop.deps, done) == 0
    assert learning.learn_by_night(shop.deps, {}) == 0  # another process: the night is taken
    clock.forward(days=1)
    assert learning.learn_by_night(shop.deps, done) == 1
    with reading(engine) as connection:
        assert learned_of(connection, "demo")["dishwasher"].by == "nightly"


def test_a_shop_that_does_not_say_so_learns_nothing_by_night(shop: Workplace) -> None:
    shop.outcomes(30)
    shop.clock.forward(hours=17)
    assert learning.learn_by_night(shop.deps, {}) == 0


def test_another_process_works_by_the_new_edition_within_seconds(shop: Workplace) -> None:
    other = workplace(shop.engine, shop.clock, with_policies())
    shop.outcomes(30)
    learning.accept(shop.deps, "demo", "dishwasher", "ada")
    assert other.rules != shop.rules
    shop.clock.forward(seconds=6)
    assert other.rules == shop.rules
    assert other.share() == shop.share()


def test_a_process_that_starts_works_by_what_was_accepted(shop: Workplace) -> None:
    shop.outcomes(30)
    learning.accept(shop.deps, "demo", "dishwasher", "ada")
    assert workplace(shop.engine, shop.clock, with_policies()).rules == shop.rules


def test_an_edition_that_cannot_be_read_leaves_the_one_in_force(shop: Workplace) -> None:
    before = shop.rules
    with writing(shop.engine) as connection:
        broken = replace(before, fingerprint="f" * 64, source='{"form": 99}')
        shops.install(connection, broken, shop.clock())
    shop.clock.forward(seconds=6)
    assert shop.rules == before
    shop.clock.forward(seconds=timedelta(minutes=1).seconds)
    assert shop.rules == before
