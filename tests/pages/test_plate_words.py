"""What sheet and desk say of recalls and of replacing; and that no text to a customer says either."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from service.conversation.events import Texted
from service.conversation.state import State
from service.conversation.turn import take
from service.pages.plate_words import no_recall_words, recall_words, replace_words
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from tests.conftest import ROOT, RULES

NOW = datetime(2026, 11, 25, 17, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


def test_a_possible_recall_says_what_to_verify_and_what_to_do(rulebook: Rulebook) -> None:
    line = recall_words(rulebook, "dishwasher", {"brand": "Mesadora", "model": "MD-24B"})

    assert line == (
        "Recall possible, verify on the plate: the door latch's wiring may overheat. Notice: maker's letter to dealers "
        "26-03, 2 March 2026, listed 2026-03-12. Not told yet: serial. If it fits: leave it off and call the maker's line, "
        "who fit a new harness free.",
    )


def test_where_none_fits_the_technician_is_told_how_old_the_list_is(rulebook: Rulebook) -> None:
    assert recall_words(rulebook, "dishwasher", {"brand": "Ondalux"}) == ()
    assert no_recall_words(rulebook) == (
        "Recall: none on the shop's list of 2026-03-12 fits what was told. Check the model on its plate."
    )


def test_replacing_is_for_a_person_to_say(rulebook: Rulebook) -> None:
    line = replace_words(rulebook, "dishwasher", {"age_years": 12.0}, None)

    assert line == (
        "Talk over a new one from 10 years (12 years: old enough), or when the repair passes $425 (50% of a like new one, "
        "$850). In person only: no text says this."
    )
    assert replace_words(rulebook, "microwave", {"age_years": 12}, None) == ""


@pytest.mark.parametrize(
    "text",
    [
        "is there a recall on my mesadora dishwasher model MD-24B, it won't drain",
        "my mesadora dishwasher is 12 years old and won't drain, should i just replace it?",
        "hay un retiro del mercado de mi lavaplatos mesadora md-24b? no desagua",
    ],
)
def test_no_text_tells_a_customer_of_a_recall_or_of_replacing(rulebook: Rulebook, text: str) -> None:
    step = take(State(), [Texted(id="m1", text=text, at=NOW)], rulebook, NOW, None, thread="t1", turn=1)

    said = " ".join(reply.text for reply in step.replies).casefold()
    assert said
    assert not any(word in said for word in ("recall", "retiro", "new one", "replace", "reemplaz"))


def test_no_sentence_of_the_line_speaks_of_recalls(rulebook: Rulebook) -> None:
    for sentences in rulebook.wording.values():
        assert [id for id, said in sentences.items() if "recall" in said.casefold()] == []
    assert "recall" not in "".join(path.read_text("utf-8") for path in (ROOT / "service/conversation").glob("*.py"))
