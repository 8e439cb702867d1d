"""Scores against scikit-learn's own, on random forecasts."""

from __future__ import annotations

import numpy as np
import pytest
import sklearn.metrics as outside
from sklearn.calibration import calibration_curve
from sklearn.linear_model import LogisticRegression

from service.diagnosis.review import Job, cause_forecasts, rate_of
from service.diagnosis.scores import (
    brier,
    brier_of_causes,
    calibration,
    calibration_error,
    log_loss,
    log_loss_of_causes,
    recalibrated,
    recalibration,
)


@pytest.fixture
def forecasts() -> tuple[list[float], list[bool]]:
    rng = np.random.default_rng(3)
    p = rng.uniform(0.01, 0.99, size=400)
    return p.tolist(), (rng.random(400) < p).tolist()


def test_two_way_scores_agree(forecasts: tuple[list[float], list[bool]]) -> None:
    p, y = forecasts
    assert brier(p, y) == pytest.approx(outside.brier_score_loss(y, p), abs=1e-12)
    assert log_loss(p, y) == pytest.approx(outside.log_loss(y, p), abs=1e-12)


def test_the_calibration_curve_agrees(forecasts: tuple[list[float], list[bool]]) -> None:
    p, y = forecasts
    rates, means = calibration_curve(y, p, n_bins=5)
    bins = calibration(p, y)
    assert [one.rate for one in bins] == pytest.approx(rates.tolist())
    assert [one.mean for one in bins] == pytest.approx(means.tolist())
    assert [one.count for one in bins] == np.histogram(p, bins=5, range=(0, 1))[0].tolist()
    apart = np.average(np.abs(rates - means), weights=[one.count for one in bins])
    assert calibration_error(bins) == pytest.approx(apart)


def test_scores_over_causes_agree() -> None:
    rows, truths = beliefs()
    labels = list(range(5))
    assert log_loss_of_causes(rows.tolist(), truths) == pytest.approx(outside.log_loss(truths, rows, labels=labels))
    one_hot = np.eye(5)[truths]
    by_cause = sum(outside.brier_score_loss(one_hot[:, k], rows[:, k]) for k in labels)
    assert brier_of_causes(rows.tolist(), truths) == pytest.approx(by_cause)


def test_what_the_reports_count_of_the_right_cause_agrees() -> None:
    rows, truths = beliefs()
    ranked = [
        sorted(((f"c{k}", share) for k, share in enumerate(row)), key=lambda one: -one[1]) for row in rows.tolist()
    ]
    jobs = [
        Job("washer", "2026-11", f"c{truth}", tuple(belief)) for belief, truth in zip(ranked, truths, strict=True)
    ]  # fmt: skip
    for most in (1, 3):
        share = outside.top_k_accuracy_score(truths, rows, k=most, labels=list(range(5)))
        assert rate_of(jobs, lambda job, most=most: job.right_among(most)).value == pytest.approx(share)
    judged = cause_forecasts(jobs)
    right = [row.argmax() == truth for row, truth in zip(rows, truths, strict=True)]
    assert judged.brier == pytest.approx(outside.brier_score_loss(right, rows.max(axis=1)))
    assert judged.log_loss == pytest.approx(outside.log_loss(right, rows.max(axis=1)))
    assert judged.causes is not None
    assert judged.causes.log_loss == pytest.approx(outside.log_loss(truths, rows, labels=list(range(5))))


def beliefs() -> tuple[np.ndarray, list[int]]:
    rng = np.random.default_rng(4)
    rows = rng.dirichlet(np.ones(5), size=300)
    return rows, [int(rng.choice(5, p=row)) for row in rows]


def test_recalibration_agrees_with_logistic_regression(forecasts: tuple[list[float], list[bool]]) -> None:
    p, _ = forecasts
    rng = np.random.default_rng(5)
    x = np.log(np.array(p) / (1 - np.array(p)))
    y = rng.random(len(p)) < 1 / (1 + np.exp(-(0.4 + 0.6 * x)))
    line = LogisticRegression(C=np.inf, tol=1e-10, max_iter=1000).fit(x[:, None], y)
    a, b = recalibration(p, y.tolist())
    assert (a, b) == pytest.approx((float(line.intercept_[0]), float(line.coef_[0, 0])), abs=2e-3)
    given = np.array([0.1, 0.5, 0.9])
    theirs = line.predict_proba(np.log(given / (1 - given))[:, None])[:, 1]
    assert [recalibrated(one, (a, b)) for one in given] == pytest.approx(theirs.tolist(), abs=1e-3)
