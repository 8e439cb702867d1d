"""What holds in every conversation, whatever is sent in whatever order, with the real reader and rules."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.conversation.step import Step
from tests.journeys.line import Line

TEXTS = [
    "dishwasher not working right", "my dishwasher drains only in a trickle", "it leaks from the door", "1", "2", "3",
    "5", "yes", "no", "I don't know", "can't", "none of those", "87104", "90210", "1450 Rio Grande Blvd NW",
    "Maria Lopez", "thurs after lunch", "any day but friday", "just send someone", "how much is it",
    "a person please", "cancel my visit", "can we move it", "when are you coming", "works now", "no change", "STOP",
    "START", "HELP", "yes please", "I smell gas", "there is a burning smell", "ok", "thanks", "", "🤔", "asdf qwer",
    "sorry, I meant the washer", "the pump is shot", "cleaned the filter already", "x " * 700,
    "el lavaplatos no desagua", "sí", "no sé", "mañana por la tarde", "huele a quemado", "dryer does not heat",
    "is it under warranty", "wrong number", "My zephrine dishwasher leaks", "gate code 4411",
]  # fmt: skip
MOVES = st.one_of(st.sampled_from(TEXTS), st.integers(1, 60).map(lambda hours: hours))
RUNS = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def play(moves: list[str | int]) -> Line:
    line = Line()
    for move in moves:
        if isinstance(move, int):
            line.wait(hours=move)
        else:
            line.text(move, media=0 if move else 1)
    return line


def kinds(step: Step) -> set[str]:
    return {r.kind for r in step.replies}


@RUNS
@given(st.lists(MOVES, min_size=1, max_size=14))
def test_no_conversation_fails_or_breaks_what_always_holds(moves: list[str | int]) -> None:
    line = play(moves)
    assert len(line.state.model_dump_json()) < 30_000
    assert len([t for t in line.state.tickets if not t.open]) <= 3
    for visit in line.visits.values():
        assert visit.address
        assert visit.postal_code in line.rulebook.shop.area


@RUNS
@given(st.lists(MOVES, min_size=1, max_size=10))
def test_after_opting_out_nothing_is_sent_but_danger_and_consent(moves: list[str | int]) -> None:
    line = play(["my dishwasher drains only in a trickle", "STOP"])
    sent = len(line.steps)
    for move in moves:
        if isinstance(move, int):
            line.wait(hours=move)
        elif move not in ("START", "yes", "yes please", "sí"):
            line.text(move, media=0 if move else 1)
    assert all(kinds(step) <= {"danger", "consent"} for step in line.steps[sent:])


@RUNS
@given(st.lists(MOVES, min_size=1, max_size=8))
def test_a_conversation_played_again_gives_the_same_ticket(moves: list[str | int]) -> None:
    first, second = play(moves), play(moves)
    assert first.state == second.state
    assert [r.text for r in first.replies] == [r.text for r in second.replies]


@RUNS
@given(
    st.lists(st.sampled_from(TEXTS), max_size=6), st.sampled_from(["I smell gas", "hay humo", "water is at the outlet"])
)
def test_a_danger_named_at_any_time_is_answered_first(moves: list[str], danger: str) -> None:
    line = play([m for m in moves if m not in ("I smell gas", "there is a burning smell", "huele a quemado")])
    line.text(danger)
    assert line.last.replies
    assert line.last.replies[0].kind == "danger"
    assert line.state.asked is None


@RUNS
@given(st.lists(MOVES, max_size=8))
def test_owner_checks_are_never_offered_while_a_danger_stands(moves: list[str | int]) -> None:
    line = play(["my dishwasher leaves grit", "there is a burning smell"])
    for move in moves:
        before = len(line.steps)
        if isinstance(move, int):
            line.wait(hours=move)
        else:
            line.text(move, media=0 if move else 1)
        for step in line.steps[before:]:
            assert not any(id.startswith("check.") for r in step.replies for id in r.wording)
