"""One more thing to try, for those who ask beyond the usual two; and a "no" right after we closed it as working."""

from __future__ import annotations

from functools import cache

import pytest

from service.conversation.state import State
from tests.journeys.line import Line, demo, with_policies

CHECK_LED = {"en": "one quick look", "es": "algo sencillo"}


@cache
def narrowed() -> State:
    """A dishwasher that does not drain, both usual checks done in vain, the address asked for."""
    line = Line()
    line.text("my dishwasher doesn't drain, 87111. no new disposal, the sink is fine")
    for _ in range(12):
        asked = line.state.asked
        if asked is None or asked.kind in ("offer", "address"):
            break
        line.text("no, that did not help" if asked.kind == "check_result" else "I don't know")
    assert line.state.asked is not None
    assert line.state.asked.kind == "address"
    return line.state


def asked_for_more(text: str, state: State | None = None) -> Line:
    line = Line(state=state or narrowed())
    line.text(text)
    return line


@pytest.mark.parametrize(
    "text",
    [
        "is there anything else I can try?",
        "anything else i could check before you come",
        "what else can i try",
        "got it. is there something else I could look at first?",
        "no, anything i can check myself?",
        "¿hay algo más que pueda revisar?",
        "qué más puedo probar antes de que vengan",
        "y otra cosa que yo pueda revisar?",
    ],
)
def test_who_asks_for_more_is_offered_another_check(text: str) -> None:
    line = asked_for_more(text)
    assert line.state.asked is not None
    assert line.state.asked.kind == "check_result"
    [new] = line.ticket.checks.keys() - narrowed().tickets[0].checks.keys()
    assert line.state.asked.code == new
    assert 0 < line.ticket.check_chances[new] < 1


@pytest.mark.parametrize(
    "text",
    [
        "i can't think of anything else to try, send someone",
        "I have not got anything else to check, just come",
        "there's nothing else to try",
        "I already tried everything",
        "no sé qué hacer, manden a alguien",
        "418 Cholla Wren Ln NE",
    ],
)
def test_who_does_not_ask_for_more_is_offered_nothing(text: str) -> None:
    line = asked_for_more(text)
    assert line.ticket.checks == narrowed().tickets[0].checks


def test_each_wish_brings_one_check_until_none_is_left_and_then_a_visit_is_arranged() -> None:
    line = asked_for_more("anything else I can try?")
    offered = [line.state.asked.code] if line.state.asked else []
    for _ in range(12):
        line.text("no change, what else can I try?")
        assert line.state.asked is not None
        if line.state.asked.kind != "check_result":
            break
        offered.append(line.state.asked.code)
    assert len(offered) == len(set(offered))
    assert line.state.asked.kind == "address"
    assert "nothing more that is safe" in line.said
    assert {line.ticket.checks[code or ""] for code in offered} == {"not_fixed"}
    assert line.ticket.check_chances.keys() >= set(offered)


def test_after_the_extra_check_the_usual_count_holds_again() -> None:
    line = asked_for_more("anything else I can try?")
    line.text("no, that did not help")
    assert line.state.asked is not None
    assert line.state.asked.kind == "address"


def test_a_check_that_settles_it_closes_the_complaint() -> None:
    line = asked_for_more("anything else I can try?")
    line.text("yes! it works now")
    assert line.ticket.closed == "settled_by_owner"


def test_nothing_is_offered_where_a_danger_was_named_or_the_shop_offers_no_checks() -> None:
    line = asked_for_more("there is a burning smell from it")
    line.text("is there anything else I can try?")
    assert line.ticket.checks == narrowed().tickets[0].checks
    none = Line(with_policies(demo(), checks_max=0), state=narrowed())
    none.text("is there anything else I can try?")
    assert none.ticket.checks == narrowed().tickets[0].checks


@cache
def closed() -> State:
    line = Line()
    line.text("dishwasher doesn't drain at all since they put in the new disposal, 87111")
    line.text("yes it works now")
    assert line.ticket.closed == "settled_by_owner"
    return line.state


@pytest.mark.parametrize(
    "text",
    [
        "no", "Nope", "no, still full", "wait no it didnt work", "actually no", "no it does not", "not yet",
        "no, sigue igual", "no, todavía no",
    ],
)  # fmt: skip
def test_a_no_after_it_was_closed_takes_the_complaint_up_again(text: str) -> None:
    line = Line(state=closed())
    line.text(text)
    assert (line.ticket.key, line.ticket.earlier, line.ticket.closed) == ("t2", "t1", None)
    assert line.ticket.symptoms["no_drain"] is True
    assert line.state.asked is not None


@pytest.mark.parametrize(
    "text",
    ["no thanks", "no that's all", "no more issues", "great, thanks, no more problems", "ok", "yes", "no, gracias"],
)
def test_a_no_of_something_else_leaves_it_closed(text: str) -> None:
    line = Line(state=closed())
    line.text(text)
    assert [ticket.closed for ticket in line.state.tickets] == ["settled_by_owner"]


def test_a_no_long_after_is_about_nothing() -> None:
    line = Line(state=closed())
    line.wait(days=5)
    line.text("no")
    assert all(not ticket.open for ticket in line.state.tickets)
