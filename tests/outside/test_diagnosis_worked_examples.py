"""Orders, posteriors, values, loads and scores against worked examples: brute force, hand, and the papers' formulas.

Sources: P/C order, Kadane and Simon 1977 and Heckerman, Breese and Rommelse 1995; opening costs, Ottosen and Jensen 2010;
value of information, Howard 1966; entropy, Lindley 1956; naive Bayes in logarithms; shrinkage, Dirichlet and Beta.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import permutations
from math import log

import numpy as np
import pytest
from numpy.typing import NDArray

from service.diagnosis.actions import Actions, expected_min
from service.diagnosis.belief import weigh
from service.diagnosis.duration import mixed_quantile, spread
from service.diagnosis.learning import learned_chance, learned_shares
from service.diagnosis.load import Carried, best_load, saving_cents
from service.diagnosis.prefixes import choices, in_order, prefixes
from service.diagnosis.scores import (
    brier,
    brier_of_causes,
    calibration,
    calibration_error,
    log_loss,
    log_loss_of_causes,
    wilson,
)  # fmt: skip
from service.diagnosis.table import barring
from service.diagnosis.tests_order import best_order
from service.diagnosis.worth import entropy_bits, expected_gain_bits, value_of, value_together

Floats = NDArray[np.float64]


def own_causes(p: list[float], minutes: list[float], **more: object) -> Actions:
    """Tests that each surely show one cause of their own; what is left of the belief no test shows."""
    return Actions(np.array([*p, 1 - sum(p)]), np.eye(len(p), len(p) + 1), np.array(minutes), **more)


def named(order: tuple[int, ...]) -> str:
    return "".join("ABCDEF"[k] for k in order)


def test_e1_1_four_causes_with_a_sure_check_each_go_b_d_a_c_at_8_5() -> None:
    actions = own_causes([0.4, 0.3, 0.2, 0.1], [8, 2, 5, 1])
    costs = sorted(expected_min(actions, order) for order in permutations(range(4)))
    assert named(best_order(actions)) == "BDAC"
    assert expected_min(actions, best_order(actions)) == pytest.approx(8.5)
    assert [costs[0], costs[1], costs[2], costs[-1]] == pytest.approx([8.5, 8.6, 8.9, 12.4])


def checks(p: list[float], minutes: list[float], visit: float) -> tuple[list[float], str]:
    """Cost of each prefix of the checks and their order, where each settles only its own part of the belief."""
    return ends_and_order(np.array([[*p, 1 - sum(p)]]), np.eye(len(p), len(p) + 1), minutes, visit)


def ends_and_order(rows: Floats, settles: Floats, minutes: list[float], visit: float) -> tuple[list[float], str]:
    among, most = choices(settles, np.array(minutes), visit), len(minutes)
    bars = barring(np.zeros((1, len(minutes)), dtype=bool))
    ends = prefixes(rows, among, bars, most, lambda left: visit * left.sum(axis=1))
    return ends[:, 0].tolist(), named(tuple(int(place[0]) for place in in_order(rows, among, bars, most)))


def test_e1_2_imperfect_checks_before_a_visit_go_c_a_b_d() -> None:
    rows = np.array([[0.35, 0.25, 0.20, 0.05, 0.15]])
    settles = np.diag([0.9, 0.8, 0.6, 1.0, 0.0])[:4]
    ends, order = ends_and_order(rows, settles, [4, 3, 1, 6], 95)
    assert order == "CABD"
    assert ends == pytest.approx([95, 84.6, 58.195, 40.89, 38.33])


def test_e1_3_the_visit_comes_before_the_last_check() -> None:
    costs, order = checks([0.3, 0.2, 0.15, 0.1], [5, 2, 20, 40], 90)
    assert order == "BACD"
    assert costs == pytest.approx([90, 74, 51, 47.5, 52.5])


def test_e1_4_the_repairs_cost_does_not_enter_the_order() -> None:
    actions = own_causes([0.5, 0.3, 0.2], [6, 2, 5])
    assert named(best_order(actions)) == "BAC"
    assert expected_min(actions, best_order(actions)) + 37 == pytest.approx(44.2)


def test_e1_5_with_equal_ratios_every_order_costs_the_same() -> None:
    actions = own_causes([0.4, 0.2, 0.1], [8, 4, 2])
    assert all(expected_min(actions, order) == pytest.approx(11.2) for order in permutations(range(3)))
    assert best_order(actions) == (0, 1, 2)


def test_e1_6_two_checks_pay_together_although_the_first_alone_does_not() -> None:
    costs, _ = checks([0.5, 0.45], [51, 50], 100)
    assert costs == pytest.approx([100, 101, 81])


def test_e1_8_without_unlisted_causes_the_last_test_is_not_needed() -> None:
    actions = own_causes([0.7, 0.2, 0.1], [12, 4, 3])
    order = best_order(actions, eliminate=True)
    assert named(order) == "BCA"
    assert expected_min(actions, order, eliminate=True) == pytest.approx(6.4)
    assert expected_min(actions, (0, 1, 2), eliminate=True) == pytest.approx(13.2)


def test_e1_9_tests_that_share_causes_are_ordered_exactly() -> None:
    finds = np.array([[0, 1, 1, 0], [1, 0, 0, 1], [1, 0, 1, 0]], dtype=float)
    actions = Actions(np.array([0.30, 0.15, 0.40, 0.15]), finds, np.array([4.0, 4, 5]))
    order = best_order(actions)
    assert named(order[:2]) == "AB"
    assert expected_min(actions, order) == pytest.approx(5.8)
    assert expected_min(actions, (2, 0, 1)) == pytest.approx(6.8)


def test_e1_10_an_opening_that_two_tests_share_can_wait() -> None:
    actions = own_causes([0.40, 0.35, 0.25], [4, 2, 2], opening=(-1, 0, 0), opening_min=(10.0,))
    assert named(best_order(actions)) == "ABC"
    assert expected_min(actions, (0, 1, 2)) == pytest.approx(11.7)
    assert expected_min(actions, (1, 2, 0)) == pytest.approx(14.9)


PRIOR = np.array([0.30, 0.15, 0.20, 0.15, 0.20])
HUMS = np.array([0.72, 0.72, 0.25, 0.72, 0.50])
SLOW = np.array([0.92, 0.25, 0.25, 0.25, 0.25])
BACKS_UP = np.array([0.07, 0.07, 0.03, 0.92, 0.25])


def test_e2_1_naive_bayes_over_five_causes() -> None:
    after = [0.480657, 0.065307, 0.233238, 0.065307, 0.155492]
    not_hums = [0.200957, 0.100478, 0.358852, 0.100478, 0.239234]
    assert weigh(PRIOR, np.array([1 - HUMS])) == pytest.approx(not_hums, abs=1e-6)
    assert weigh(PRIOR, np.array([1 - HUMS, SLOW])) == pytest.approx(after, abs=1e-6)
    sink_no = [0.522312, 0.070966, 0.264352, 0.006105, 0.136264]
    assert weigh(PRIOR, np.array([1 - HUMS, SLOW, 1 - BACKS_UP])) == pytest.approx(sink_no, abs=1e-6)
    sink_yes = [0.233378, 0.031709, 0.048534, 0.416746, 0.269634]
    assert weigh(PRIOR, np.array([1 - HUMS, SLOW, BACKS_UP])) == pytest.approx(sink_yes, abs=1e-6)


def test_e2_1_a_hedged_answer_is_soft_evidence() -> None:
    hedged = [0.295775, 0.088555, 0.316269, 0.088555, 0.210846]
    assert weigh(PRIOR, np.array([1 - HUMS, 0.7 * SLOW + 0.3 * (1 - SLOW)])) == pytest.approx(hedged, abs=1e-6)


def test_three_hundred_answers_do_not_underflow() -> None:
    shares = weigh(np.array([0.5, 0.5]), np.array([[0.07, 0.08]] * 300))
    assert log(shares[1] / shares[0]) == pytest.approx(300 * log(0.08 / 0.07), rel=1e-9, abs=20)
    assert 0 < shares[0] < 1


def values(shares: Floats, questions: list[Floats], plan: Callable[[Floats], Floats]) -> tuple[float, list[float]]:
    costs = plan(np.concatenate([shares[None, :], *(answers * shares for answers in questions)]))
    return float(costs[0]), value_of(costs, [len(answers) for answers in questions])


def pair_value(shares: Floats, first: Floats, second: Floats, plan: Callable[[Floats], Floats], price: float) -> float:
    now, answers = float(plan(shares[None, :])[0]), np.concatenate([first, second])
    between = answers * shares
    joint = plan((between[:, None, :] * answers[None, :, :]).reshape(-1, len(shares))).reshape(len(answers), -1)
    later = np.repeat(price * between.sum(axis=1)[:, None], 2, axis=1)
    return float(value_together(now, plan(between), joint, later, [len(first), len(second)])[0, 1])


def one_van(rows: Floats) -> Floats:
    """Owner check for X at 15, visit at 95, room for one of two parts, second trip at 120."""
    chance = rows.sum(axis=1)
    checks_cost = np.minimum(95 * chance, 15 * chance + 95 * (chance - rows[:, 0]))
    return np.asarray(checks_cost + 120 * np.minimum(rows[:, 1], rows[:, 2]))


THREE = np.array([0.40, 0.35, 0.25])
Q1 = np.array([[0.50, 0.95, 0.05], [0.50, 0.05, 0.95]])
Q2 = np.array([[0.85, 0.30, 0.30], [0.15, 0.70, 0.70]])


def test_e3_1_value_and_entropy_rank_two_questions() -> None:
    plan, worth = values(THREE, [Q1, Q2], one_van)
    assert plan == pytest.approx(102)
    assert worth == pytest.approx([26.40, 1.50])
    assert entropy_bits(THREE) == pytest.approx(1.558872, abs=1e-6)
    assert [expected_gain_bits(THREE, q) for q in (Q1, Q2)] == pytest.approx([0.422311, 0.226135], abs=1e-6)


def test_e3_1_the_value_depends_on_the_decision_it_can_touch() -> None:
    def checks_only(rows: Floats) -> Floats:
        return np.asarray(one_van(rows) - 120 * np.minimum(rows[:, 1], rows[:, 2]))

    assert values(THREE, [Q1, Q2], checks_only)[1] == pytest.approx([0, 1.50])
    van = [120 * np.minimum(THREE[1], THREE[2])]
    assert van[0] - sum(120 * min((a * THREE)[1], (a * THREE)[2]) for a in Q1) == pytest.approx(26.40)


def test_e3_1_after_an_answer_the_other_question_is_worth_less() -> None:
    yes, no = (row * THREE / (row * THREE).sum() for row in Q1)
    assert values(yes, [Q2], one_van)[1][0] == pytest.approx(2.243119, abs=1e-6)
    assert values(no, [Q2], one_van)[1][0] == pytest.approx(0.609890, abs=1e-6)


@pytest.mark.parametrize(("price", "cost"), [(1.0, 75.9225), (0.5, 75.10), (3.0, 78.60)])
def test_e3_1_the_adaptive_policy_at_a_price(price: float, cost: float) -> None:
    assert 102 - pair_value(THREE, Q1, Q2, one_van, price) + price == pytest.approx(cost, abs=1e-9)


def test_e3_2_two_answers_turn_a_plan_that_one_does_not() -> None:
    def plan(rows: Floats) -> Floats:
        chance = rows.sum(axis=1)
        return np.asarray(np.minimum(95 * chance, 15 * chance + 95 * (chance - rows[:, 0])))

    belief, question = np.array([0.2, 0.8]), np.array([[0.4, 0.25], [0.6, 0.75]])
    assert values(belief, [question], plan)[1][0] == pytest.approx(0, abs=1e-9)
    assert pair_value(belief, question, question, plan, 0.0) == pytest.approx(0.99, abs=1e-9)


PARTS = {"P1": Carried(4, 3), "P2": Carried(3, 2), "P3": Carried(14, 2), "P4": Carried(6, 4)}
NEEDS = [(0.30, {"P1"}), (0.18, {"P2"}), (0.22, set()), (0.08, {"P3"}), (0.10, {"P4"}), (0.12, set())]
LOAD_CASES = [(99.0, {"P1", "P2", "P4"}, 35.0), (7, {"P1", "P2"}, 40), (6, {"P1", "P2"}, 40), (5, {"P1", "P2"}, 40),
              (4, {"P1"}, 56.8)]  # fmt: skip


@pytest.mark.parametrize(("room", "load", "cost"), LOAD_CASES)
def test_e4_1_the_load_with_and_without_room(room: float, load: set[str], cost: float) -> None:
    needs = [(p, frozenset(need)) for p, need in NEEDS]
    best = best_load(needs, PARTS, 110, room)
    without = 110 * sum(p for p, need in needs if need) + 110 * 0.12
    assert best == load
    assert without - saving_cents(best, needs, PARTS, 110) == pytest.approx(cost)


def test_e4_2_the_densest_part_first_would_fail() -> None:
    parts = {"a": Carried(2, 5), "b": Carried(2, 4), "c": Carried(2, 4)}
    needs = [(0.30, frozenset("a")), (0.22, frozenset("b")), (0.20, frozenset("c"))]
    assert best_load(needs, parts, 100, 8) == {"b", "c"}
    assert saving_cents(frozenset("bc"), needs, parts, 100) == pytest.approx(38)


def test_e4_3_two_parts_that_only_pay_together() -> None:
    parts = {"u": Carried(3, 1), "v": Carried(3, 1)}
    assert best_load([(0.10, frozenset("uv"))], parts, 110, 99) == {"u", "v"}
    assert saving_cents(frozenset("uv"), [(0.10, frozenset("uv"))], parts, 110) == pytest.approx(5)


def test_e5_1_weights_shrink_to_the_book() -> None:
    book = {"a": 0.30, "b": 0.15, "c": 0.20, "d": 0.15, "e": 0.20}
    jobs = {"a": 18.0, "b": 2, "c": 11, "d": 3, "e": 6}
    learned = [0.4, 0.083333, 0.25, 0.1, 0.166667]
    assert list(learned_shares(book, jobs).values()) == pytest.approx(learned, abs=1e-6)
    one = [0.333333, 0.142857, 0.190476, 0.142857, 0.190476]
    assert list(learned_shares(book, {"a": 1.0}).values()) == pytest.approx(one, abs=1e-6)


def test_e5_2_a_grade_after_nine_of_fourteen() -> None:
    assert learned_chance(0.25, 9, 14, worth=8) == pytest.approx(0.5)


FORECASTS = [0.9, 0.8, 0.8, 0.7, 0.6, 0.6, 0.4, 0.3, 0.2, 0.1]
CAME_TRUE = [bool(y) for y in (1, 1, 0, 1, 1, 0, 0, 1, 0, 0)]


def test_e5_3_brier_log_loss_and_calibration_by_bins() -> None:
    bins = calibration(FORECASTS, CAME_TRUE, (0, 0.35, 0.65, 1))
    assert brier(FORECASTS, CAME_TRUE) == pytest.approx(0.2)
    assert log_loss(FORECASTS, CAME_TRUE) == pytest.approx(0.576504, abs=1e-6)
    assert [(b.count, b.mean, b.rate) for b in bins] == [
        (3, pytest.approx(0.2), pytest.approx(1 / 3)),
        (3, pytest.approx(0.533333, abs=1e-6), pytest.approx(1 / 3)),
        (4, pytest.approx(0.8), pytest.approx(0.75)),
    ]
    assert calibration_error(bins) == pytest.approx(0.12)


def test_e5_4_scores_of_three_causes() -> None:
    rows = [[0.6, 0.3, 0.1], [0.2, 0.5, 0.3], [0.1, 0.2, 0.7]]
    assert brier_of_causes(rows, [0, 2, 2]) == pytest.approx(0.393333, abs=1e-6)
    assert log_loss_of_causes(rows, [0, 2, 2]) == pytest.approx(0.690491, abs=1e-6)


def test_e6_2_a_visits_length_from_two_plain_questions() -> None:
    assert spread(50, 110) == pytest.approx(0.615237, abs=1e-6)
    quantiles = [mixed_quantile([(1.0, 60.0)], 0.5, q) for q in (0.8, 0.9, 0.95)]
    assert quantiles == pytest.approx([91.3917, 113.8772, 136.5610], abs=1e-3)


@pytest.mark.parametrize(
    ("hits", "count", "low", "high"),
    [(45, 50, 0.786398, 0.956524), (50, 50, 0.928652, 1), (0, 20, 0, 0.161125), (182, 200, 0.862234, 0.942313)],
)
def test_wilson_intervals(hits: int, count: int, low: float, high: float) -> None:
    assert wilson(hits, count) == pytest.approx((low, high), abs=1e-6)
