"""Token buckets as rows: the database's arithmetic is the one of the plain function, on both databases."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine, delete

from service.storage.buckets import draw, filled
from service.storage.engine import writing
from service.storage.ledgers import buckets

BEGIN = datetime(2026, 3, 2, 9, 0, 0, 123_456, UTC)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    steps_s=st.lists(st.floats(-30, 90), min_size=1, max_size=25),
    per_second=st.floats(0.01, 3),
    burst=st.integers(1, 6),
    wanted=st.integers(1, 3),
)  # fmt: skip
def test_draws_are_those_of_the_plain_arithmetic(
    engine: Engine, steps_s: list[float], per_second: float, burst: int, wanted: int
) -> None:
    with writing(engine) as connection:
        connection.execute(delete(buckets))
        tokens, at, now = float(burst), BEGIN, BEGIN
        for step in steps_s:
            now += timedelta(seconds=step)
            expected = filled(tokens, at, now, per_second=per_second, burst=burst)
            if abs(expected - wanted) < 1e-6:
                continue  # on the edge of a token either answer is right
            wait = draw(connection, "demo", "b", per_second=per_second, burst=burst, now=now, wanted=wanted)
            assert (wait == timedelta()) == (expected > wanted)
            if expected < wanted:
                assert abs(wait.total_seconds() - (wanted - expected) / per_second) < 1e-3
            tokens, at = expected - wanted * (expected > wanted), now
