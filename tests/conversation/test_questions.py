"""What is asked next: fit first, one question a text, nothing told or declined is asked again, and an end to asking."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.conversation.compose import compose
from service.conversation.trying import offer
from service.conversation.underway import Turn
from service.reading.model import Answer
from tests.conversation.scripted import Bench, choice, seen, sign
from tests.journeys.line import demo, with_policies

REPORT = ("report_problem",)


def asking() -> Bench:
    """A bench whose shop offers no owner checks, so that questions are what comes next."""
    return Bench(with_policies(demo(), checks_max=0))


def leak(bench: Bench, **fields: object) -> object:
    return bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=REPORT, **fields)


def test_a_vague_complaint_is_met_with_the_rules_numbered_choices() -> None:
    bench = Bench()
    step = bench.hears("v", appliances=("dishwasher",), symptoms=(sign("vague"),), intents=REPORT)
    choices = bench.rulebook.appliances["dishwasher"].basics.choices
    lines = step.replies[-1].text.split("\n")[1:]
    assert lines == [f"{n} {c.say.en}" for n, c in enumerate(choices, start=1)]
    assert [say for _, say in step.state.asked.choices] == [c.say.en for c in choices]


def test_none_of_the_choices_asks_for_their_own_words() -> None:
    bench = Bench()
    bench.hears("v", appliances=("dishwasher",), symptoms=(sign("vague"),), intents=REPORT)
    step = bench.hears("none of those", answer=Answer("none"), intents=("answer",))
    assert step.state.asked.code == "own_words"


def test_a_zip_outside_the_area_is_told_at_once_with_where_to_turn_and_closes() -> None:
    bench = Bench()
    step = leak(bench, facts={"postal_code": "90210"})
    assert "90210" in step.replies[-1].text
    assert step.state.asked is None
    assert step.state.tickets[0].closed == "out_of_area"


def test_the_zip_is_asked_by_the_second_question() -> None:
    bench = asking()
    leak(bench)
    bench.hears("no idea", answer=Answer("dont_know"), intents=("answer",))
    assert bench.state.asked.kind == "postal_code"
    step = bench.hears("90210", facts={"postal_code": "90210"}, answer=Answer("value", "90210"), intents=("answer",))
    assert step.state.tickets[0].closed == "out_of_area"
    assert step.state.tickets[0].questions <= 2


def test_a_zip_put_right_opens_the_ticket_again() -> None:
    bench = Bench()
    leak(bench, facts={"postal_code": "90210"})
    step = bench.hears("sorry 87110", facts={"postal_code": "87110"}, corrects=True)
    assert step.state.tickets[0].closed is None
    assert step.replies


@pytest.mark.parametrize(
    ("facts", "appliance", "closed"),
    [({"brand": "zefrine"}, "dishwasher", "not_ours"), ({}, "other", "not_ours"), ({}, "trash_compactor", "not_ours")],
)
def test_a_brand_or_machine_not_served_is_told_at_once(facts: dict[str, str], appliance: str, closed: str) -> None:
    bench = Bench()
    step = bench.hears("d", appliances=(appliance,), symptoms=(sign("leak", appliance),), intents=REPORT, facts=facts)
    assert step.state.tickets[0].closed == closed
    assert len(step.replies) >= 1
    assert "?" not in step.replies[-1].text


def test_a_brand_that_is_served_is_not_taken_for_one_that_is_not() -> None:
    bench = Bench()
    step = leak(bench, facts={"brand": "tervane"})
    assert step.state.tickets[0].closed is None


def test_what_was_volunteered_is_not_asked() -> None:
    bench = asking()
    leak(bench, observations=(seen("sink_backs_up", "no"),), facts={"postal_code": "87110", "pattern": "worsening"})
    for _ in range(6):
        asked = bench.state.asked
        assert asked is None or asked.code not in ("sink_backs_up", "began")
        assert asked is None or asked.kind != "postal_code"
        if asked is None or asked.kind in ("address", "offer"):
            break
        bench.hears("dont know", answer=Answer("dont_know"), intents=("answer",))


def test_nobody_is_asked_twice_for_what_they_declined_or_cannot_tell() -> None:
    bench = asking()
    leak(bench, facts={"postal_code": "87110"})
    codes = []
    while bench.state.asked is not None and bench.state.asked.kind in ("observation", "symptom", "yes_no"):
        codes.append(bench.state.asked.code)
        kind = "declined" if len(codes) % 2 else "dont_know"
        bench.reader.says(f"cant say {len(codes)}", answer=Answer(kind), intents=("answer",))
        bench.hears(f"cant say {len(codes)}")
    assert codes
    assert len(codes) == len(set(codes))


def test_at_most_the_shops_number_of_questions_to_a_usable_ticket() -> None:
    bench = Bench(with_policies(demo(), questions_max=3, checks_max=0))
    bench.hears("v", appliances=("dishwasher",), symptoms=(sign("vague"),), intents=REPORT)
    asked = 1
    for n in range(8):
        open_one = bench.state.asked
        if open_one.kind in ("address", "offer"):
            break
        asked += open_one.kind != "symptom" or n > 0
        given = choice(1, open_one.choices[1][0]) if open_one.choices else Answer("no")
        facts = {"postal_code": "87110"} if open_one.kind == "postal_code" else {}
        bench.reader.says(f"a{n}", answer=given, intents=("answer",), facts=facts)
        bench.hears(f"a{n}")
    assert bench.state.asked.kind == "address"
    assert asked <= 3


def test_just_send_someone_gets_two_questions_at_most_besides_address_and_safety() -> None:
    bench = Bench()
    step = bench.hears("send someone", appliances=("dishwasher",), symptoms=(sign("vague"),), intents=("book",))
    kinds = []
    for n in range(8):
        asked = bench.state.asked
        if asked is None or asked.kind == "offer":
            break
        kinds.append(asked.kind)
        facts = {"postal_code": "87110"} if asked.kind == "postal_code" else {}
        facts |= {"address": "9 Alameda Rd NW"} if asked.kind == "address" else {}
        answer = {"check_result": Answer("not_fixed")}.get(
            asked.kind, choice(1, asked.choices[1][0]) if asked.choices else Answer("no")
        )
        bench.reader.says(f"a{n}", answer=answer, intents=("answer",), facts=facts)
        step = bench.hears(f"a{n}")
    assert len([k for k in kinds if k not in ("postal_code", "address")]) <= 2
    assert step.state.asked.kind == "offer"


def test_a_machine_without_rules_goes_to_a_person_after_what_and_where() -> None:
    rulebook = demo()
    others = {code: rules for code, rules in rulebook.appliances.items() if code != "dryer"}
    bench = Bench(replace(rulebook, appliances=others))
    bench.hears("dryer", appliances=("dryer",), intents=REPORT)
    kinds = [bench.state.asked.kind]
    bench.hears("it does not heat at all", symptoms=(sign("no_heat", "dryer"),), intents=REPORT)
    kinds.append(bench.state.asked.kind)
    step = bench.hears("87110", facts={"postal_code": "87110"}, answer=Answer("value", "87110"), intents=("answer",))
    assert kinds == ["symptom", "postal_code"]
    assert step.state.in_focus.needs_person
    assert step.state.asked is None
    assert len(step.replies) == 1


def test_a_question_not_answered_is_put_once_more_and_then_left() -> None:
    bench = asking()
    leak(bench, facts={"postal_code": "87110"})
    first = bench.state.asked
    bench.hears("its a tervane", facts={"brand": "Tervane"})
    assert bench.state.asked.code == first.code
    assert bench.state.asked.tries == 2
    bench.hears("model x5", facts={"model": "X5"})
    assert bench.state.asked is None or bench.state.asked.code != first.code


def test_a_stop_use_fault_is_told_and_ends_owner_checks() -> None:
    bench = Bench()
    rules = bench.rulebook.appliances["dishwasher"]
    code = next(c for c, s in rules.symptoms.items() if s.stop_use is not None)
    step = bench.hears(
        "d", appliances=("dishwasher",), symptoms=(sign(code),), intents=REPORT, facts={"postal_code": "87110"}
    )
    whole = " ".join(r.text for r in step.replies)
    assert rules.symptoms[code].stop_use.say.en.split(".")[0] in whole
    assert step.state.in_focus.stop_use == code
    assert step.state.in_focus.unsafe
    assert not step.state.in_focus.checks


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_owner_check_fits_two_texts_and_cautions_stand_before_steps(language: str) -> None:
    for rules in demo().appliances.values():
        for check in rules.checks.values():
            bench = Bench()
            bench.hears("d", appliances=(rules.code,), symptoms=(sign("leak", rules.code),), intents=REPORT)
            turn = Turn(bench.rulebook, bench.reader, bench.now, None, "th1", 2, False, bench.state)
            turn.put(language=language)
            offer(turn, "t1", check)
            texts = compose(turn.pieces, language)
            assert len(texts) <= 2, (check.id, [t.text for t in texts])
            whole = " ".join(t.text for t in texts)
            places = [whole.index(p) for p in (check.cautions[0].text.in_(language), check.steps[0].in_(language))]
            assert places == sorted(places), check.id
            assert whole.endswith(check.helped.in_(language)), check.id
