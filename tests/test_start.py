"""What a start spares: the rules are kept out of the garbage collector's sight once, and not looked through for it."""

from __future__ import annotations

import gc

from service.app import rules_left_alone


def test_what_stands_is_spared_until_the_line_ends() -> None:
    before = gc.get_freeze_count()
    with rules_left_alone():
        assert gc.get_freeze_count() >= before
        assert gc.get_freeze_count() > 0
    assert gc.get_freeze_count() == before


def test_an_application_within_another_gives_nothing_back() -> None:
    with rules_left_alone():
        spared = gc.get_freeze_count()
        with rules_left_alone():
            pass
        assert gc.get_freeze_count() == spared
