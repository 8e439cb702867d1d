"""The sentences of the line: every id used is there, both languages say the same, budgets and grade hold."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from service.wording.grade import grade
from service.wording.segments import count
from service.wording.sentences import placeholders

ROOT = Path(__file__).parent.parent.parent
EN = yaml.safe_load((ROOT / "rules/wording/en.yaml").read_text(encoding="utf-8"))
ES = yaml.safe_load((ROOT / "rules/wording/es.yaml").read_text(encoding="utf-8"))
ROOMS = ("service/conversation", "service/edge")
CODE = "\n".join(path.read_text(encoding="utf-8") for room in ROOMS for path in (ROOT / room).glob("*.py"))
LONGEST = {
    "shop": "Tarnwick Appliance Repair", "phone": "505-555-0101", "when": "Wednesday from 10:30 am",
    "window": "Wed 30 Sep, 10 am to 12 pm", "address": "12345 Rio Grande Blvd NW, Apt 12", "machine": "dishwasher",
    "signs": "water stays in it, sink backs up", "sign": "water stays in it", "value": "87801", "month": "September",
    "title": "Ask about the plug in the new disposal",
    "refer": "A licensed plumber can help.", "signal": "WARNING",
    "why": "Please do not use it. A yellow or sooty flame can make CO. If anyone feels sick, go out and call 911.",
    "time": "10:30", "day": "Wednesday",
}  # fmt: skip
FRAGMENTS = ("signal.", "when.", "clock.", "day.", "month.", "machine.")
"""Pieces of sentences; grade and full stops are for sentences."""


def filled(sentence: str) -> str:
    return sentence.format(**LONGEST)


def used() -> set[str]:
    """Ids as the code asks for them; an f-string stands for all ids that fit it."""
    asked = set(
        re.findall(
            r'(?:tell|words|lead=|said=|say)\(?\s*(?:turn\.\w+, |rulebook, \w+, )?"([a-z_]+(?:\.[a-z_]+)*)"', CODE
        )
    )
    asked |= {a or b for a, b in re.findall(r'"([a-z_]+\.[a-z_]+)" if|else "([a-z_]+\.[a-z_]+)"', CODE)}
    for pattern in re.findall(r'f"((?:signal|day|month|fit|clock)\.[^"]*)"', CODE):
        shape = re.compile(re.sub(r"\\\{.*?\\\}", r"[a-z0-9]+", re.escape(pattern)))
        asked |= {id for id in EN if shape.fullmatch(id)}
    kinds = set(re.findall(r'pose\(\s*turn, "([a-z_]+)"', CODE))
    asked |= {id for id in EN if id.split(".")[0] == "ask" and id.split(".")[1] in {*kinds, "wish"}}
    return {id for id in asked if "." in id or id in EN}


def test_every_id_the_code_uses_is_in_the_wording() -> None:
    missing = {id for id in used() if id not in EN and not id.startswith(("shop.", "danger.told_", "ask.symptom"))}
    assert not missing


def test_every_sentence_of_the_wording_is_used_by_the_code() -> None:
    texts = set(re.findall(r'"([a-z_]+(?:\.[a-z_0-9]+)+|intro|wrong_number|follow_up)"', CODE))
    assert not {id for id in EN if id not in texts and id not in used()}


def test_both_languages_have_the_same_ids_and_placeholders() -> None:
    assert set(EN) == set(ES)
    assert [id for id in EN if placeholders(EN[id]) != placeholders(ES[id])] == []


@pytest.mark.parametrize("wording", [EN, ES], ids=["en", "es"])
def test_a_sentence_fits_two_segments_and_the_seven_bit_alphabet(wording: dict[str, str]) -> None:
    too_long = {id for id, s in wording.items() if count(filled(s)).number > 2}
    assert not too_long
    dear = {id for id, s in wording.items() if count(filled(s)).encoding != "GSM-7"}
    assert dear <= {"day.sat"}, "sábado has no spelling without its accent"


def test_english_sentences_read_at_grade_six_together_and_none_far_above() -> None:
    sentences = {id: filled(s) for id, s in EN.items() if not id.startswith(FRAGMENTS)}
    assert grade(" ".join(sentences.values())) <= 6
    assert {id: round(grade(s), 1) for id, s in sentences.items() if grade(s) > 9 and len(s.split()) > 7} == {}


@pytest.mark.parametrize("wording", [EN, ES], ids=["en", "es"])
def test_no_emoji_no_exclamation_marks_no_stop_words_for_anything_else(wording: dict[str, str]) -> None:
    for id, sentence in wording.items():
        assert not {"!", "¡"} & set(sentence), id
        assert not re.search(r"\b(CANCEL|END|QUIT|UNSUBSCRIBE|REVOKE)\b", sentence), f"{id}: source T-A"


def test_the_help_reply_names_the_shop_a_phone_and_stop_source_t10() -> None:
    for wording in (EN, ES):
        assert {"{shop}", "{phone}"} <= set(re.findall(r"\{\w+\}", wording["consent.help"]))
        assert "STOP" in wording["consent.help"]


def test_the_stop_reply_names_the_shop_and_says_that_no_more_messages_come_source_t10() -> None:
    assert "{shop}" in EN["consent.out"]
    assert "no more messages" in EN["consent.out"].lower()
    assert "{shop}" in ES["consent.out"]
    assert "no le enviaremos mensajes" in ES["consent.out"]
    assert count(filled(EN["consent.out"])).number == 1


@pytest.mark.parametrize("id", ["intro", "intro.after_danger", "consent.in"])
def test_the_first_text_says_who_how_often_what_it_costs_and_how_to_stop_source_t9(id: str) -> None:
    assert all(part in EN[id] for part in ("{shop}", "{phone}", "STOP", "rates may apply", "few"))
    assert all(part in ES[id] for part in ("{shop}", "{phone}", "STOP", "su plan puede cobrarlos", "Pocos"))
