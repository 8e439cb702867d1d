"""What carriers and people also send: repeats, disorder, forgeries, STOP, nonsense, pictures, silence; on each database."""

from __future__ import annotations

import json
from datetime import timedelta

import pytest

from service.storage.ledgers import consents
from service.storage.tables import messages, threads, turns
from tests.journeys.served import ServedLine

IN_ORDER = ("hi, my dishwasher", "it leaks from the door")
FORGED = "whsec_" + "QUFB" * 8
KNOWN = {
    "postal_code": "87104", "address": "1450 Rio Grande Blvd NW", "sink_backs_up": "no", "new_disposal": "no",
    "filter_cleaned": "cleaned it last week", "check_result": "did that, no change", "name": "Ana Baca",
}  # fmt: skip


def body(line: ServedLine, **changed: object) -> bytes:
    """A delivery's body; a field given as None is left out."""
    fields = {"from": line.number, "to": "+15055550100", "text": "dishwasher leaks", "media": [], **changed}
    return json.dumps({name: value for name, value in fields.items() if value is not None}).encode()


def nothing_was_kept(line: ServedLine) -> bool:
    """Whether no table knows of any text."""
    return not any(line.rows(table) for table in (threads, messages, turns)) and line.carrier.sent == []


# Deliveries


def test_three_quick_texts_are_one_turn(line: ServedLine) -> None:
    said = line.text("hi", "my dishwasher", "it leaks from the door")
    assert len(line.turns) == 1
    assert [event["text"] for event in line.turns[0].events] == ["hi", "my dishwasher", "it leaks from the door"]
    assert line.focus.symptoms == {"leak": True}
    assert len(said) == 1


def test_a_repeated_delivery_is_taken_once(line: ServedLine) -> None:
    first = line.post("my dishwasher leaks", identity="once")
    early = line.post("my dishwasher leaks", identity="once")
    assert len(line.settle(seconds=20)) == 1
    late = line.post("my dishwasher leaks", identity="once")
    assert [answer.status_code for answer in (first, early, late)] == [200, 200, 200]
    assert line.settle(seconds=20) == []
    assert len(line.heard) == 1
    assert len(line.turns) == 1


def test_texts_that_overtook_each_other_are_read_in_the_order_they_were_sent(line: ServedLine) -> None:
    now = line.clock()
    earlier, later = (now - timedelta(seconds=3)).isoformat(), (now - timedelta(seconds=1)).isoformat()
    assert line.post("it leaks from the door", identity="b", sent_at=later).status_code == 200
    assert line.post("hi, my dishwasher", identity="a", sent_at=earlier).status_code == 200
    line.settle(seconds=20)
    assert [row.text for row in sorted(line.heard, key=lambda row: row.carrier_at)] == list(IN_ORDER)
    assert [event["text"] for event in line.turns[0].events] == list(IN_ORDER)
    assert line.focus.symptoms == {"leak": True}


def test_a_moment_far_ahead_does_not_put_a_text_behind_all_later_ones(line: ServedLine) -> None:
    wrong = (line.clock() + timedelta(days=300)).isoformat()
    assert line.post(IN_ORDER[0], identity="a", sent_at=wrong).status_code == 200
    line.clock.forward(seconds=1)
    assert line.post(IN_ORDER[1], identity="b", sent_at=line.clock().isoformat()).status_code == 200
    line.settle(seconds=20)
    assert [event["text"] for event in line.turns[0].events] == list(IN_ORDER)


def test_a_wrong_signature_is_refused_and_leaves_nothing(line: ServedLine) -> None:
    answer = line.deliver(body(line), identity="forged", secret=FORGED)
    assert answer.status_code == 401
    assert answer.headers["content-type"].startswith("application/problem+json")
    assert line.settle(seconds=20) == []
    assert nothing_was_kept(line)


@pytest.mark.parametrize("age_s", [3600, -3600])
def test_a_stale_or_future_delivery_is_refused_though_well_signed(line: ServedLine, age_s: int) -> None:
    assert line.deliver(body(line), identity="old", age_s=age_s).status_code == 401
    line.settle(seconds=20)
    assert nothing_was_kept(line)


@pytest.mark.parametrize("case", ["no json", "no sender", "no text"])
def test_a_malformed_delivery_is_unprocessable_and_leaves_nothing(line: ServedLine, case: str) -> None:
    raw = {
        "no json": b"{text: leaks",
        "no sender": body(line, **{"from": None}),
        "no text": body(line, text=None, media=None),
    }[case]
    assert line.deliver(raw, identity="odd").status_code == 422
    line.settle(seconds=20)
    assert nothing_was_kept(line)


# People


def test_a_zip_outside_the_area_is_told_at_once(line: ServedLine) -> None:
    said = line.text("dishwasher leaks, zip 80202")
    assert "80202" in said[0]
    assert line.ticket.closed == "out_of_area"
    assert line.state.asked is None
    assert line.every_visit == []


def test_stop_is_silence_and_start_ends_it_with_proof_of_both(line: ServedLine) -> None:
    line.text("dishwasher leaks")
    assert len(line.text("STOP")) == 1
    assert line.thread.consent == "out"
    assert line.text("it still leaks") == []
    assert line.wait(days=3) == [], "no nudge either"
    assert len(line.text("START")) == 1
    assert line.thread.consent == "in"
    proof = [(row.number, row.change, row.words) for row in sorted(line.rows(consents), key=lambda row: row.at)]
    assert proof == [(line.number, "out", "STOP"), (line.number, "in", "START")]
    by_id = {row.id: row.text for row in line.heard}
    assert [by_id[row.message] for row in sorted(line.rows(consents), key=lambda row: row.at)] == ["STOP", "START"]
    assert line.text("my dishwasher leaks from the door") != []


def test_after_stop_a_danger_is_still_answered(line: ServedLine) -> None:
    line.text("STOP")
    said = line.text("there is smoke coming out of the dishwasher")
    assert len(said) == 1
    assert said[0].startswith(("DANGER:", "WARNING:"))
    assert line.thread.consent == "out"


@pytest.mark.parametrize("text", ["can I talk to a real person please", "quiero hablar con una persona"])
def test_a_person_asked_for_is_fetched_and_nobody_is_nudged(line: ServedLine, text: str) -> None:
    line.text("dishwasher leaks")
    said = line.text(text)
    assert "person" in said[0].lower()
    assert line.ticket.needs_person
    assert "person" in [alarm.kind for alarm in line.alarms]
    assert line.wait(days=2) == []


def test_nonsense_is_asked_again_then_read_by_a_person(line: ServedLine) -> None:
    assert "?" in line.text("sdkfj wlekr")[0]
    assert "person" in line.text("qpwo eiru")[0]
    assert line.text("zmxn cbv") == []
    assert len(line.alarms) == 1


def test_a_picture_without_words_is_kept_and_asked_about(line: ServedLine) -> None:
    link = "https://media.example/p1.jpg"
    said = line.text("", media=[link])
    assert "picture" in said[0]
    assert "?" in said[0]
    assert [(row.text, row.media) for row in line.heard] == [("", [link])]
    line.text("dishwasher leaks from the bottom")
    assert line.focus.symptoms.get("leak") is True


def test_sixteen_hundred_characters_are_kept_whole_and_answered_briefly(line: ServedLine) -> None:
    told = "So we have had this dishwasher for about six years and it was fine until last week. " * 20
    long = (told + "Now it drains very slowly.")[-1600:]
    assert len(long) == 1600
    said = line.text(long)
    assert [row.text for row in line.heard] == [long]
    assert line.focus.symptoms.get("slow_drain") is True
    assert 1 <= len(said) <= 2


def test_emoji_only_is_met_with_a_question(line: ServedLine) -> None:
    said = line.text("🤔🤷🏽‍♀️")
    assert len(said) == 1
    assert "?" in said[0]
    assert [row.text for row in line.heard] == ["🤔🤷🏽‍♀️"]


def test_silence_brings_one_nudge_then_quiet_and_a_month_later_the_same_machine_is_known(line: ServedLine) -> None:
    line.text("my dishwasher leaks from the door, 87104")
    line.talk(KNOWN, until="offer")
    nudged = line.wait(days=2)
    assert len(nudged) == 1
    assert line.wait(days=8) == [], "one nudge is all"
    assert line.ticket.closed == "gone_quiet"
    first = line.ticket
    line.wait(days=30)
    line.text("the dishwasher still leaks from the door")
    assert line.ticket.id != first.id
    assert line.ticket.earlier == first.key
    assert line.ticket.appliance == "dishwasher"
    asked = line.talk(KNOWN, until="offer")
    assert "address" not in asked, "it is on file"


def test_a_nudge_that_falls_in_the_night_waits_for_the_morning(line: ServedLine) -> None:
    line.wait(hours=16)  # two in the morning: twenty hours later it is ten at night
    line.text("my dishwasher is not working right")
    assert line.wait(hours=29) == [], "quiet hours (sources T5, T12)"
    assert len(line.wait(hours=2)) == 1, "eight in the morning"
