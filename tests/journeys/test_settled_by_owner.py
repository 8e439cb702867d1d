"""Journeys that end without a visit: the filter, the new disposal's plug, in both languages."""

from __future__ import annotations

from tests.journeys.line import Line


def test_vague_text_then_filter_cleaned_then_fixed() -> None:
    line = Line()
    line.text("my dishwasher is not working right")
    assert line.state.asked is not None
    assert line.state.asked.kind == "symptom"
    line.text("water stays in the bottom and the dishes have grit on them")
    line.talk({"postal_code": "87110", "filter_cleaned": "never"}, until="check_result")
    assert line.state.asked is not None
    assert line.state.asked.code == "clean_filter"
    said = line.said
    assert said.index("CAUTION") < said.index("rack") < said.index("Rinse"), "a caution stands before the step"
    line.text("did that, filter was packed with gunk. works fine now")
    assert line.ticket.closed == "settled_by_owner"
    assert line.ticket.cause_found == "filter_clogged"
    assert line.visits == {}
    assert "comes back" in line.said


def test_new_disposal_then_knockout_then_fixed_by_the_installer() -> None:
    """The first of the three conversations: four customer texts, no visit, the cause recorded."""
    line = Line()
    first = line.text("dishwasher not workin properly")
    assert len(first) == 1
    assert "Tarnwick Appliance Repair" in first[0]
    assert "STOP" in first[0]
    assert "1 " in first[0]
    assert "5 " in first[0]
    line.text("2. it doesnt drain at all since they put in the new disposal")
    assert line.ticket.symptoms.get("no_drain") is True
    assert "new_disposal" in line.ticket.facts["after"]
    asked = [a for a in line.ticket.asked if a in ("new_disposal", "no_drain", "began")]
    assert asked == [], "what was volunteered is not asked"
    line.text("yea plumber did it friday")
    assert line.ticket.closed is None
    assert "knock out the plug" in "\n".join(r.text for r in line.replies)
    line.text("called him, he forgot it. works now")
    assert line.ticket.closed == "settled_by_owner"
    assert line.ticket.cause_found == "knockout_plug_in"
    assert line.texts_sent == 4
    assert line.visits == {}


def test_nobody_is_told_to_reach_into_the_disposal_or_take_the_hose_off() -> None:
    line = Line()
    line.text("dishwasher does not drain at all since the new garbage disposal was put in")
    line.talk({"postal_code": "87110"}, until="check_result")
    said = "\n".join(r.text for r in line.replies)
    assert "Never put a hand or tool in the disposal" in said
    assert "Do not take the hose off" in said


def test_a_check_declined_is_not_offered_again() -> None:
    line = Line()
    line.text("dishwasher leaves grit on the dishes and smells a bit")
    line.talk({"postal_code": "87110", "filter_cleaned": "never"}, until="check_result")
    assert line.state.asked is not None
    check = line.state.asked.code
    line.text("no I can't bend down for that")
    assert line.ticket.checks[str(check)] in ("declined", "unable", "not_fixed")
    line.talk({"postal_code": "87110", "check_result": "no change", "address": "12 Alameda Rd NW"}, until="offer")
    offered = [r for step in line.steps for r in step.reasons if r.what == "offered" and r.rule == check]
    assert len(offered) == 1


def test_the_filter_in_spanish() -> None:
    line = Line()
    line.text("mi lavaplatos no lava bien, los platos salen con tierrita y huele mal")
    assert line.state.language == "es"
    line.talk({"postal_code": "87110", "filter_cleaned": "nunca"}, until="check_result")
    assert line.state.asked is not None
    assert line.state.asked.code == "clean_filter"
    line.text("ya lo limpié y ya funciona bien")
    assert line.ticket.closed == "settled_by_owner"
    assert all("the " not in r.text for r in line.replies), "Spanish throughout"


def test_ok_after_a_check_was_offered_is_no_news_that_it_works() -> None:
    line = Line()
    line.text("my dishwasher is not working right")
    line.text("water stays in the bottom and the dishes have grit on them")
    line.talk({"postal_code": "87110", "filter_cleaned": "never"}, until="check_result")
    for nod in ("ok", "ok will do", "sure, thanks", "ahorita lo hago"):
        line.text(nod)
        assert line.ticket.stage == "trying", nod
    line.text("yes that fixed it")
    assert line.ticket.closed == "settled_by_owner"


def test_asking_for_a_visit_is_heard_whatever_was_asked() -> None:
    line = Line()
    line.text("my dishwasher is not working right")
    line.text("water stays in the bottom")
    said = line.text("can you send a tech")
    assert "make that out" not in " ".join(said)
    assert line.ticket.just_send


def test_what_they_did_and_mean_to_do_is_no_result_and_worked_is_one() -> None:
    line = Line()
    line.text("dishwasher leaves grit on the dishes and water in the bottom")
    line.talk({"postal_code": "87110", "filter_cleaned": "never"}, until="check_result")
    for words in ("cleaned it, full of gunk", "ok ill run it and let you know"):
        line.text(words)
        assert "could not make that out" not in line.said
        assert line.state.asked is not None
        assert line.state.asked.kind == "check_result"
    line.text("worked!! thanks")
    assert line.ticket.closed == "settled_by_owner"
