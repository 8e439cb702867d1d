"""What closes no complaint, and who goes on writing after a close is taken up again."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


def leaking() -> Line:
    line = Line()
    line.text("washer leaks, 87110")
    line.text("from under it she says")
    return line


@pytest.mark.parametrize(
    "words", ["vent is clean did it myself sunday", "my husband fixed the hose already", "ya quedó limpio el ducto"]
)
def test_a_clean_part_closes_nothing(words: str) -> None:
    line = Line()
    line.text("dryer takes 3 cycles to dry")
    line.text(words)
    assert line.ticket.open


@pytest.mark.parametrize(
    "words",
    [
        "will u bill me not her",
        "send the bill to me, not him",
        "not her, me",
        "me cobran a mi no a ella",
        "its my name on the lease not her",
    ],
)
def test_one_person_set_against_another_is_no_wrong_number(words: str) -> None:
    line = leaking()
    line.text(words)
    assert line.ticket.open


def test_who_says_that_it_is_a_wrong_number_is_left_alone() -> None:
    line = leaking()
    line.text("sorry wrong number")
    assert line.ticket.closed == "withdrawn"


@pytest.mark.parametrize(
    "words", ["24 lena pl, 87109", "it comes from under it", "send someone thursday", "how much is it"]
)
def test_who_goes_on_after_a_wrong_number_is_taken_up_again(words: str) -> None:
    line = leaking()
    line.text("wrong number")
    said = " ".join(line.text(words))
    assert line.ticket.open
    assert (line.ticket.appliance, line.ticket.key) == ("washer", "t1")
    assert "Which appliance" not in said


def test_who_gives_an_address_after_it_was_taken_for_mended_is_taken_up_again() -> None:
    line = Line()
    line.text("dryer takes 3 cycles to dry")
    line.text("its working again")
    assert line.ticket.closed == "settled_by_owner"
    said = " ".join(line.text("24 lena pl, 87109"))
    assert line.ticket.open
    assert "Which appliance" not in said


def test_thanks_after_a_close_opens_nothing() -> None:
    line = Line()
    line.text("dryer takes 3 cycles to dry")
    line.text("its working again")
    line.text("thank you so much")
    assert not line.ticket.open
