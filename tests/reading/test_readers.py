"""Readers are shared by what they hear, and gone with the last rulebook that hears so."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from threading import Barrier
from weakref import ref

import pytest

from service.reading.opinion import second_opinion as opinions
from service.reading.opinion.second_opinion import SecondOpinion, Taught, opinion_of_pairs
from service.reading.opinion.teaching import seal
from service.reading.reader import Reader
from service.reading.readers import reader_for
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from tests.conftest import ROOT

SMOKE = ("smoke came out", "it smoked by the door", "grey fumes at the back", "fumes and smoke", "smoky behind it")
NONE = ("the drawer sticks", "when can you come", "it is a white one", "noisy all night", "the lamp went")
TAUGHT = [*(Taught(text, "smoke") for text in SMOKE), *(Taught(text, "noise") for text in NONE)]


def second_opinion(taught: Iterable[Taught], *, in_pieces: bool = False) -> SecondOpinion:
    pairs = sorted(taught)
    sealed = seal(pairs, in_pieces=in_pieces, in_depth=False)
    return opinion_of_pairs(pairs, sealed, None, in_pieces=in_pieces, in_depth=False)


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(ROOT / "rules", "demo")


def test_an_edition_that_differs_in_weights_alone_is_read_by_the_same_reader(rulebook: Rulebook) -> None:
    learned = replace(rulebook, fingerprint="0" * 64, heard_as=rulebook.fingerprint)
    assert reader_for(learned) is reader_for(rulebook)


@pytest.fixture
def no_collector() -> Iterator[None]:
    """What stands when the line starts is out of its sight (``rules_left_alone``), so nothing may wait for it."""
    gc.disable()
    yield
    gc.enable()


@pytest.mark.usefixtures("no_collector")
def test_a_reader_is_gone_with_the_last_rulebook_that_hears_so(rulebook: Rulebook) -> None:
    edited, learned = (replace(rulebook, fingerprint=mark * 64, heard_as="1" * 64) for mark in "12")
    reader = ref(reader_for(edited))
    reader_for(edited).read("washer wont spin")
    assert reader_for(learned) is reader()
    assert reader() is not reader_for(rulebook)
    del edited
    assert reader_for(learned) is reader(), "another edition still hears so"
    del learned
    assert reader() is None


def test_what_two_shops_learned_alike_is_held_once(rulebook: Rulebook) -> None:
    other = replace(rulebook, fingerprint="3" * 64)
    assert isinstance(reader_for(other), Reader)
    assert second_opinion(TAUGHT, in_pieces=True) is not second_opinion(TAUGHT), "learned otherwise"
    first = second_opinion(TAUGHT)
    assert second_opinion(reversed(TAUGHT)) is first
    assert second_opinion(TAUGHT[:-1]) is not first


@pytest.fixture
def hasty_threads() -> Iterator[None]:
    """Threads that take turns as often as they can."""
    usual = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    yield
    sys.setswitchinterval(usual)


@pytest.mark.usefixtures("hasty_threads")
def test_threads_that_read_at_once_remember_each_word_by_its_own_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opinions, "MOST_WORDS", 40)
    texts = [["smoke", "by", "the", "back", f"smok{n}", f"fum{n}", f"dor{n}", f"drawr{n % 7}"] for n in range(200)]
    alone, shared = (SecondOpinion(TAUGHT, in_pieces=True) for _ in range(2))
    expected = [alone.of(text, ("smoke", "noise")) for text in texts]
    assert None not in expected
    start = Barrier(6)

    def read_all(first: int) -> list[bool]:
        start.wait()
        order = [(first * 31 + n) % len(texts) for n in range(2 * len(texts))]
        return [shared.of(texts[n], ("smoke", "noise")) == expected[n] for n in order]

    with ThreadPoolExecutor(6) as threads:
        assert all(all(right) for right in threads.map(read_all, range(6)))
