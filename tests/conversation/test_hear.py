"""Readings into tickets: whose symptom it is, what is corrected, what is kept, what a comeback is."""

from __future__ import annotations

from datetime import timedelta

from service.conversation.listen import STALE
from service.reading.model import Answer, Theory, Wish
from tests.conversation.scripted import Bench, choice, seen, sign

REPORT = ("report_problem",)


def dishwasher(bench: Bench, *codes: str, **fields: object) -> object:
    signs = tuple(sign(c) for c in codes)
    return bench.hears("d", appliances=("dishwasher",), symptoms=signs, intents=REPORT, **fields)


def test_a_complaint_opens_one_ticket_and_later_texts_join_it() -> None:
    bench = Bench()
    dishwasher(bench, "slow_drain")
    bench.hears("and it is loud", symptoms=(sign("noise", "unknown"),), intents=REPORT)
    assert [t.key for t in bench.state.tickets] == ["t1"]
    assert bench.state.in_focus.symptoms == {"slow_drain": True, "noise": True}


def test_two_machines_are_two_tickets_and_are_asked_in_turn() -> None:
    bench = Bench()
    both = (sign("slow_drain"), sign("no_spin", "washer"))
    step = bench.hears("both", appliances=("dishwasher", "washer"), symptoms=both, intents=REPORT)
    assert [(t.key, t.appliance) for t in step.state.tickets] == [("t1", "dishwasher"), ("t2", "washer")]
    assert step.state.tickets[0].symptoms == {"slow_drain": True}
    assert step.state.focus == "t1"
    assert len([r for r in step.replies if "?" in r.text]) == 1


def test_a_mere_mention_of_another_machine_opens_nothing() -> None:
    bench = Bench()
    dishwasher(bench, "slow_drain")
    bench.hears("the disposal is fine", appliances=("disposal",), intents=("answer",))
    assert [t.appliance for t in bench.state.tickets] == ["dishwasher"]


def test_sorry_i_meant_the_washer_moves_the_complaint() -> None:
    bench = Bench()
    dishwasher(bench, "leak")
    step = bench.hears("sorry, I meant the washer", appliances=("washer",), corrects=True)
    assert [(t.key, t.appliance) for t in step.state.tickets] == [("t1", "washer")]
    assert step.state.tickets[0].symptoms == {"leak": True}


def test_the_appliance_answered_fills_the_ticket_that_had_none() -> None:
    bench = Bench()
    bench.hears("its broken", symptoms=(sign("leak", "unknown"),), intents=REPORT)
    assert bench.state.asked.kind == "appliance"
    step = bench.hears(
        "dishwasher", appliances=("dishwasher",), intents=("answer",), answer=Answer("value", "dishwasher")
    )
    assert [(t.appliance, t.symptoms) for t in step.state.tickets] == [("dishwasher", {"leak": True})]


def test_the_later_word_wins_and_the_special_takes_the_place_of_the_general() -> None:
    bench = Bench()
    dishwasher(bench, "no_drain")
    bench.hears("it does drain, slowly", denied=(sign("no_drain"),), symptoms=(sign("slow_drain"),))
    assert bench.state.in_focus.symptoms == {"no_drain": False, "slow_drain": True}


def test_a_choice_that_means_several_signs_is_kept_as_one_of_them() -> None:
    bench = Bench()
    bench.hears("d", appliances=("dishwasher",), symptoms=(sign("vague"),), intents=REPORT)
    value = bench.state.asked.choices[1][0]
    step = bench.hears("2", answer=choice(1, value), intents=("answer",))
    assert step.state.in_focus.one_of == (tuple(value.split("+")),)
    bench.hears("slowly", symptoms=(sign("slow_drain"),))
    assert bench.state.in_focus.one_of == ()
    assert bench.state.in_focus.symptoms["slow_drain"]


def test_a_theory_is_kept_and_is_no_symptom() -> None:
    bench = Bench()
    dishwasher(bench, "slow_drain")
    pump = Theory("dishwasher", "drain_pump_dead", "the pump is shot")
    step = bench.hears("the pump is shot", theories=(pump,))
    assert step.state.in_focus.theory_words == ("the pump is shot",)
    assert step.state.in_focus.symptoms == {"slow_drain": True}


def test_a_check_that_was_tried_already_counts_as_done_and_is_not_offered() -> None:
    bench = Bench()
    step = dishwasher(bench, "slow_drain", facts={"tried": ("cleaned_filter",)})
    assert step.state.in_focus.checks["clean_filter"] == "not_fixed"
    assert any(r.what == "ruled_out" and "clean_filter" in r.words for r in step.reasons)


def test_observations_and_doubt_are_kept() -> None:
    bench = Bench()
    dishwasher(bench, "slow_drain", observations=(seen("sink_backs_up", "no", hedged=True),))
    assert bench.state.in_focus.observations == {"sink_backs_up": "no"}
    assert bench.state.in_focus.hedged == ("sink_backs_up",)


def test_the_same_machine_a_month_later_is_a_new_ticket_linked_to_the_old() -> None:
    bench = Bench()
    dishwasher(bench, "slow_drain", facts={"brand": "Tervane"})
    bench.hears("works now", intents=("fixed",))
    assert bench.state.tickets[0].closed == "settled_by_owner"
    bench.now += timedelta(days=30)
    step = dishwasher(bench, "slow_drain")
    new = step.state.in_focus
    assert new.key == "t2"
    assert new.earlier == "t1"
    assert new.facts["brand"] == "Tervane"
    assert not any("still work" in r.text.lower() for r in step.replies)


def test_a_number_silent_for_a_year_is_told_nothing_that_was_kept() -> None:
    bench = Bench()
    dishwasher(bench, "slow_drain", facts={"address": "12 Alameda Rd", "postal_code": "87107", "name": "Ana"})
    bench.hears("works now", intents=("fixed",))
    bench.now += STALE + timedelta(days=1)
    step = dishwasher(bench, "slow_drain")
    assert step.state.contact.address is None
    assert step.state.contact.postal_code is None
    assert step.state.in_focus.earlier is None
    assert not any("Alameda" in r.text for r in step.replies)


def test_a_wish_for_tomorrow_is_kept_as_a_date() -> None:
    bench = Bench()
    dishwasher(bench, "slow_drain", wish=Wish(relative=(1,), part="afternoon", words="tomorrow afternoon"))
    kept = bench.state.in_focus.wish
    assert kept.dates == ((12, 2),)
    assert kept.part == "afternoon"


def test_the_state_stays_bounded() -> None:
    bench = Bench()
    for n in range(6):
        dishwasher(bench, "slow_drain")
        bench.reader.says(f"works again {n}", intents=("fixed",))
        bench.hears(f"works again {n}")
    assert len(bench.state.tickets) == 3
    for n in range(30):
        bench.reader.says(
            f"and this {n} " + "x" * 1500, symptoms=(sign("leak"),), appliances=("dishwasher",), intents=REPORT
        )
        bench.hears(f"and this {n} " + "x" * 1500)
    words = bench.state.in_focus.words
    assert len(words) <= 8
    assert max(map(len, words)) <= 300
    assert len(bench.state.model_dump_json()) < 20_000


def test_a_machine_named_and_taken_back_in_one_breath_opens_one_ticket_of_the_other() -> None:
    bench = Bench()
    machines = ("dishwasher", "washer")
    bench.hears(
        "dishwasher leaks, sorry, the washer",
        appliances=machines,
        symptoms=(sign("leak"),),
        intents=REPORT,
        corrects=True,
    )
    assert [(t.appliance, t.symptoms) for t in bench.state.tickets] == [("washer", {"leak": True})]
