"""A start finds what was learned by a note, and never by a note that belongs to something else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from service.reading.opinion import sealed, second_opinion, told_texts
from service.reading.opinion.second_opinion import SecondOpinion, Taught
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from tests.conftest import ROOT


@pytest.fixture(scope="module")
def demo() -> Rulebook:
    return load_rulebook(ROOT / "rules", "demo")


@pytest.fixture
def small(demo: Rulebook, tmp_path: Path) -> Rulebook:
    """An edition of its own, that keeps what it learns in a folder of its own."""
    return replace(demo, fingerprint="e" * 64, heard_as=None, kept_in=tmp_path)


@pytest.fixture(autouse=True)
def nothing_alive(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(second_opinion, "_ALIVE", {})


@pytest.fixture
def gathered(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """How often texts were gathered."""
    times: list[str] = []

    def few(rulebook: Rulebook) -> Iterator[Taught]:
        times.append(rulebook.fingerprint)
        yield from (Taught(f"humming {word}", "noise") for word in ("loudly", "softly"))
        yield from (Taught(f"leaking {word}", "leak") for word in ("loudly", "softly"))

    few.__module__ = told_texts.__name__
    monkeypatch.setattr(told_texts, "taught_intents", few)
    return times


def opinion(rulebook: Rulebook) -> SecondOpinion:
    return sealed.opinion_of(rulebook, told_texts.taught_intents)


def test_texts_are_gathered_once_for_an_edition(
    small: Rulebook, gathered: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    first = opinion(small).of(["humming", "loudly", "softly"], ("noise", "leak"))
    monkeypatch.setattr(second_opinion, "_ALIVE", {})
    assert opinion(small).of(["humming", "loudly", "softly"], ("noise", "leak")) == first
    assert len(gathered) == 1


def test_another_edition_gathers_its_own(small: Rulebook, gathered: list[str]) -> None:
    opinion(small)
    opinion(replace(small, fingerprint="f" * 64))
    assert gathered == ["e" * 64, "f" * 64]


def test_an_edition_that_hears_the_same_needs_no_gathering(small: Rulebook, gathered: list[str]) -> None:
    assert opinion(replace(small, fingerprint="f" * 64, heard_as=small.fingerprint)) is opinion(small)
    assert len(gathered) == 1


@pytest.mark.parametrize("broken", ["*.npz", "*.seal"])
def test_what_is_not_whole_is_learned_again(
    small: Rulebook, gathered: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    opinion(small)
    (file,) = tmp_path.glob(broken)
    whole = file.read_bytes()
    file.write_bytes(b"\xff" + whole[: len(whole) // 2])
    monkeypatch.setattr(second_opinion, "_ALIVE", {})
    assert opinion(small).of(["humming", "loudly", "softly"], ("noise", "leak")) is not None
    assert len(gathered) == 2
    assert file.read_bytes() == whole, "and kept again"


def test_teaching_from_elsewhere_leaves_no_note(small: Rulebook, tmp_path: Path) -> None:
    sealed.opinion_of(small, lambda _: (Taught("humming", "noise"), Taught("leaking", "leak")))
    assert not list(tmp_path.glob("*.seal"))


def test_where_nothing_is_kept_it_is_gathered_every_time(small: Rulebook, gathered: list[str]) -> None:
    for _ in range(2):
        opinion(replace(small, kept_in=None))
    assert len(gathered) == 2
