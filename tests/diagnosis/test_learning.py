"""Learning: what counts, how far it moves the book, and what is left alone."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.diagnosis.grades import GRADES
from service.diagnosis.learning import (
    Counts,
    Outcome,
    counted,
    learned_chance,
    learned_shares,
    nearest_word,
    propose,
)
from service.rulebook.schema.appliance import Appliance

shares = st.lists(st.floats(0.01, 1), min_size=3, max_size=3).map(lambda raw: [x / sum(raw) for x in raw])
jobs = st.lists(st.integers(0, 60), min_size=3, max_size=3)


def outcome(cause: str, **more: object) -> Outcome:
    return Outcome({cause: 1.0}, **more)


@given(book=shares, found=jobs)
def test_a_learned_share_lies_between_the_book_and_what_was_found(book: list[float], found: list[int]) -> None:
    learned = learned_shares(dict(zip("abc", book, strict=True)), dict(zip("abc", map(float, found), strict=True)))
    assert sum(learned.values()) == pytest.approx(1)
    for before, count, after in zip(book, found, learned.values(), strict=True):
        raw = count / sum(found) if sum(found) else before
        assert min(raw, before) - 1e-12 <= after <= max(raw, before) + 1e-12


@given(found=st.permutations([outcome("pump"), outcome("seal", symptoms={"no_drain": False}), outcome("pump")]))
def test_the_order_of_outcomes_does_not_matter(machine: Appliance, found: list[Outcome]) -> None:
    assert propose(machine, counted(found)) == propose(machine, counted(found[::-1]))


def test_undone_visits_and_complaints_that_came_back_teach_nothing(machine: Appliance) -> None:
    counts = counted([outcome("pump", done=False), outcome("pump", came_back=True)])
    assert counts.total == 0
    assert propose(machine, counts).weights == ()


def test_a_job_an_owner_check_settled_counts_by_belief() -> None:
    counts = counted([Outcome({"filter": 0.8, "line": 0.2}, symptoms={"slow_drain": True})])
    assert counts.jobs == {"filter": 0.8, "line": 0.2}
    assert counts.answered["line", "slow_drain"] == pytest.approx(0.2)


def test_older_jobs_weigh_less_when_forgetting() -> None:
    counts = counted([outcome("pump"), outcome("seal")], keep=0.5)
    assert counts.jobs == {"pump": 0.5, "seal": 1.0}


def test_one_job_does_not_swing_the_ranking(machine: Appliance) -> None:
    moved = {one.cause: one for one in propose(machine, counted([outcome("wiring")])).weights}
    assert moved["wiring"].after < moved["filter"].after
    assert moved["wiring"].after > moved["wiring"].before
    assert moved["filter"].after < moved["filter"].before


def test_proposed_weights_keep_the_scale_of_the_book(machine: Appliance) -> None:
    moved = propose(machine, counted([outcome("seal")] * 40)).weights
    book = sum(cause.weight for cause in machine.causes.values()) + machine.something_else
    assert sum(one.weight for one in moved) == pytest.approx(book)


def test_a_frozen_cause_keeps_its_weight_and_its_grades(machine: Appliance) -> None:
    found = counted([outcome("pump", symptoms={"no_drain": False})] * 60)
    proposal = propose(machine, found, frozen=frozenset({"pump"}))
    assert "pump" not in {one.cause for one in proposal.weights} | {one.cause for one in proposal.grades}


def test_a_grade_moves_to_the_word_that_fits_best(machine: Appliance) -> None:
    found = counted([outcome("pump", symptoms={"no_drain": k % 2 == 0}) for k in range(60)])
    grade = next(one for one in propose(machine, found).grades if one.code == "no_drain")
    assert (grade.cause, grade.before, grade.word) == ("pump", 0.92, "about half")
    assert grade.after == pytest.approx((8 * 0.92 + 30) / 68)


def test_answers_of_a_choice_move_each_by_itself(machine: Appliance) -> None:
    found = counted([outcome("pump", observations={"drain_type": "valve"})] * 60)
    moved = {one.value: one.word for one in propose(machine, found).grades}
    assert moved["valve"] in ("almost always", "very often", "always")
    assert moved["pump"] in ("rarely", "sometimes")


def test_what_the_rules_no_longer_know_is_passed_over(machine: Appliance) -> None:
    found = counted([outcome("retired", observations={"gone": "yes"}), outcome("pump", observations={"gone": "yes"})])
    assert "retired" not in {one.cause for one in propose(machine, found).weights}
    assert propose(machine, found).grades == ()


@given(st.floats(0.01, 0.99), st.integers(0, 50))
def test_a_learned_chance_is_never_certain(grade: float, answered: int) -> None:
    assert 0.01 <= learned_chance(grade, answered, answered) <= 0.99


def test_every_word_is_nearest_to_its_own_number() -> None:
    assert [nearest_word(number) for number in GRADES.values()] == list(GRADES)


def test_nothing_counted_proposes_nothing(machine: Appliance) -> None:
    proposal = propose(machine, Counts({}, {}, {}))
    assert (proposal.weights, proposal.grades, proposal.jobs) == ((), (), 0)
