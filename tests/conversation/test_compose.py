"""Pieces into texts within the budget of segments."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from service.conversation.compose import compose, fits
from service.conversation.underway import Said
from service.wording.segments import count


def pieces(*texts: str) -> list[Said]:
    return [Said(f"p{n}", text) for n, text in enumerate(texts)]


def test_short_pieces_are_one_text_that_names_its_sentences() -> None:
    (one,) = compose(pieces("Thanks for looking.", "What ZIP code is it in?"), "en")
    assert one.text == "Thanks for looking. What ZIP code is it in?"
    assert one.wording == ("p0", "p1")


def test_a_text_over_two_segments_is_cut_between_pieces_and_keeps_their_order() -> None:
    texts = compose(pieces("a " * 100, "b " * 100, "Did it help?"), "en")
    assert [count(t.text).number for t in texts] == [2, 2]
    assert texts[0].text.startswith("a")
    assert texts[1].text.endswith("Did it help?")


def test_a_spare_piece_is_left_out_where_it_would_cost_another_text() -> None:
    long = [Said("heard", "Dishwasher: leaks.", spare=True), Said("x", "a " * 75), Said("y", "b " * 75)]
    (one,) = compose(long, "en")
    assert "Dishwasher" not in one.text
    assert "heard" not in one.wording


def test_a_first_text_may_take_four_segments_and_the_next_may_not() -> None:
    first = compose(pieces("a " * 150, "b " * 140), "en", first=True)
    assert [count(t.text).number for t in first] == [4]
    later = compose(pieces("a " * 150, "b " * 140), "en")
    assert [count(t.text).number for t in later] == [2, 2]


def test_accented_spanish_may_take_one_segment_more() -> None:
    text = "más " * 45
    assert count(text).number == 3
    assert fits(text, "es")
    assert not fits(text, "en")


def test_a_piece_too_long_is_cut_between_its_sentences() -> None:
    long = " ".join(f"This is step {n} and it has some words in it." for n in range(12))
    texts = compose(pieces(long), "en")
    assert len(texts) == 2
    assert all(t.text.endswith(".") for t in texts)
    assert " ".join(t.text for t in texts) == long


def test_choices_keep_their_lines() -> None:
    (one,) = compose(pieces("Dishwasher: leaks.", "Which is it?\n1 Front\n2 Below"), "en")
    assert one.text == "Dishwasher: leaks. Which is it?\n1 Front\n2 Below"


def test_a_mark_starts_a_new_text() -> None:
    texts = compose([*pieces("One."), Said("", "", alone=True), *pieces("Two.")], "en")
    assert [t.text for t in texts] == ["One.", "Two."]


@given(st.lists(st.text("abc áñ.?", min_size=1, max_size=120).filter(str.strip), min_size=1, max_size=8))
def test_no_word_is_lost_and_every_text_fits_unless_one_sentence_alone_does_not(words: list[str]) -> None:
    texts = compose(pieces(*words), "es")
    assert "".join("".join(t.text.split()) for t in texts) == "".join("".join(w.split()) for w in words)
    assert all(fits(t.text, "es") for t in texts)
