"""Who wants no more texts, or texts again, in words that no wording of the rules holds (source T1: any reasonable wording)."""

from __future__ import annotations

import pytest

from service.reading.aims.texting import LEAST, Texting
from service.reading.opinion.second_opinion import SecondOpinion, Taught
from service.reading.reader import Reader
from tests.journeys.line import Line

PERHAPS = "im drowning in your reminders here"
OUT = (
    "each text costs me money so end it",
    "my plan cannot take these texts, enough",
    "texts cost me, no more of them please",
)
IN = (
    "i would like the texts once more",
    "texts again for me please, like before",
    "give me the texts back like before",
)
NEITHER = (
    "each visit costs me money so end the leak",
    "the washer takes no more water",
    "come once more please, like before",
)


@pytest.fixture(scope="module")
def texting() -> Texting:
    told = [*(Taught(t, "opt_out") for t in OUT), *(Taught(t, "opt_in") for t in IN), *(Taught(t, "") for t in NEITHER)]
    return Texting(SecondOpinion([Taught(f"{t.text} {n}", t.code) for t in told for n in ("a", "b")], in_depth=True))


@pytest.mark.parametrize(("texts", "said"), [(OUT, "out"), (IN, "in"), (NEITHER, None)])
def test_what_was_taught_is_said(texting: Texting, texts: tuple[str, ...], said: str | None) -> None:
    assert [texting.said(text.replace(",", "").split()) for text in texts] == [said] * len(texts)


def test_few_words_are_left_to_the_wordings(texting: Texting) -> None:
    assert texting.said(["texts", "cost", "me"][: LEAST - 1]) is None


@pytest.mark.parametrize(
    "text",
    [
        "each one of these costs me so this has to be the last text ok",
        "nobody here wants these messages on this phone anymore",
        "make these go away from my phone, every time it buzzes my kid wakes up",
    ],
)  # fmt: skip
def test_an_end_of_texts_in_free_words_is_one(reader: Reader, text: str) -> None:
    assert reader.consent(text) == "out"
    assert "opt_out" in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "hit the wrong thing and opted out by accident, put me back on", "you can message me again, changed my mind",
        "my toddler sent STOP from my phone, undo that opt out", "reactívenme los mensajes por favor",
    ],
)  # fmt: skip
def test_who_undoes_a_stop_wants_texts(reader: Reader, text: str) -> None:
    assert reader.consent(text) == "in"


@pytest.mark.parametrize(
    "text",
    [
        "the dryer wont stop, it goes on and on", "each visit costs 95 and that has to be the last one",
        "get rid of my old washer",
        "no more ice in the freezer since tuesday", "ya no me calienta la secadora, manden a alguien por favor",
        "cancel tuesday and text me another day", "que ya no venga el martes, mejor el jueves",
    ],
)  # fmt: skip
def test_what_only_sounds_so_is_none(reader: Reader, text: str) -> None:
    assert reader.consent(text) is None


@pytest.mark.parametrize(
    "text", ["get rid of my number i am not fixing it", "ya no me avisen por mensaje de nada por favor"]
)
def test_less_than_plain_is_perhaps(reader: Reader, text: str) -> None:
    assert reader.consent(text) is None
    assert reader.read(text).may_want_no_more


def test_who_may_want_no_more_texts_is_told_how_they_end() -> None:
    line = Line()
    line.text("my dryer has no heat")
    said = line.text(PERHAPS)
    assert "reply STOP" in " ".join(said)
    assert line.state.consent == "in", "nothing was said plainly"


def test_nobody_else_is_told(reader: Reader) -> None:
    assert not reader.read("my washer wont drain and the floor is wet, can you come tomorrow").may_want_no_more
    line = Line()
    assert "responda STOP" not in " ".join(line.text("mi secadora no calienta"))
