"""The phrase notation, the stems behind it, and the graph that finds phrases."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.reading.words.matching import PhraseTree
from service.reading.words.normalising import Normaliser
from service.reading.words.notation import Group, Phrase, PhraseMistaken, Plain, parse
from service.reading.words.stemming import stem_en, stem_es


def found(phrase: str, text: str, language: str = "en") -> bool:
    tree = PhraseTree(language)
    tree.add([phrase], "it")
    words = Normaliser({}, {}, lambda _: True).words(text).words
    return bool(tree.hits(words))


@pytest.mark.parametrize(
    ("phrase", "text", "hit"),
    [
        ("drain", "it drains", True),
        ("not drain", "it won't drain", True),
        ("won't drain", "it is not draining", True),
        ("[smells|stinks] bad", "it smelled bad", True),
        ("fills (up) slow", "fills slow", True),
        ("water * floor", "water all over the floor", True),
        ("water * floor", "water is now all over that floor", False),
        ("water * * floor", "water is now all over that floor", True),
        ("=stop", "stopped", False),
        ("smell gas", "smell. gas", False),
        ("no calienta", "ya no está calentando", False),
    ],
)
def test_a_phrase_matches_what_its_notation_says(phrase: str, text: str, hit: bool) -> None:
    assert found(phrase, text) is hit


def test_phrases_that_share_words_never_hear_each_others() -> None:
    tree = PhraseTree("en")
    tree.add(["[a|b] c d"], "first")
    tree.add(["a c x"], "second")
    tree.add(["[a|b|e] c (f) y"], "third")
    words = Normaliser({}, {}, lambda _: True).words
    assert {h.payload for h in tree.hits(words("b c x").words)} == set()
    assert {h.payload for h in tree.hits(words("a c x").words)} == {"second"}
    assert {h.payload for h in tree.hits(words("b c d").words)} == {"first"}
    assert {h.payload for h in tree.hits(words("e c d").words)} == set()
    assert {h.payload for h in tree.hits(words("b c f y").words)} == {"third"}


def _spelled_out(phrase: Phrase) -> set[tuple[str, ...]]:
    """Every wording of *phrase*, the slow way."""
    wordings: set[tuple[str, ...]] = {()}
    for part in phrase:
        if isinstance(part, Plain):
            options: set[tuple[str, ...]] = {(part.form,)}
        else:
            assert isinstance(part, Group)
            options = {wording for option in part.options for wording in _spelled_out(option)}
            options |= {()} if part.optional else set()
        wordings = {head + tail for head in wordings for tail in options}
    return wordings


def _phrases(depth: int) -> st.SearchStrategy[str]:
    word = st.sampled_from(["a", "b", "c", "d"])
    if depth == 0:
        return word
    inner = st.lists(_phrases(depth - 1), min_size=2, max_size=3).map("|".join)
    part = st.one_of(word, inner.map("[{}]".format), inner.map("({})".format))
    return st.lists(part, min_size=1, max_size=3).map(" ".join)


@settings(max_examples=200, deadline=None)
@given(st.lists(_phrases(2), min_size=1, max_size=6), st.lists(st.sampled_from("abcd"), min_size=1, max_size=6))
def test_the_graph_finds_what_spelling_every_phrase_out_would(phrases: list[str], text: list[str]) -> None:
    sound = [p for p in phrases if () not in _spelled_out(_parsed(p))]
    tree = PhraseTree("en")
    for phrase in sound:
        tree.add([phrase], phrase)
    hits = {
        (h.start, h.end, h.payload) for h in tree.hits(Normaliser({}, {}, lambda _: True).words(" ".join(text)).words)
    }
    wanted = {
        (start, start + len(wording), phrase)
        for phrase in sound
        for wording in _spelled_out(parse(phrase))
        for start in range(len(text))
        if tuple(text[start : start + len(wording)]) == wording
    }
    assert hits == wanted


def _parsed(phrase: str) -> Phrase:
    """*phrase* as parsed, or one that may be empty where the notation refuses it."""
    try:
        return parse(phrase)
    except PhraseMistaken:
        return ()


def test_alternatives_that_begin_alike_all_lead_on() -> None:
    assert found("[after|since] [the|that] [freeze|freezing weather|big freeze] (up) hit", "after the freeze hit")
    assert found(
        "[after|since] [the|that] [freeze|freezing weather|big freeze] (up) hit", "since that freezing weather hit"
    )
    assert found(
        "[after|since] * [the|that] [freeze|freezing weather] * [hit|hit hard]", "since all that freeze really hit"
    )


@pytest.mark.parametrize("phrase", ["[a|b", "a|b", "(a|b)", "* a", "a *", "a)"])
def test_a_phrase_out_of_notation_is_refused(phrase: str) -> None:
    with pytest.raises(PhraseMistaken):
        parse(phrase)


def test_forms_of_one_word_share_a_stem() -> None:
    assert len({stem_en(w) for w in ("drain", "drains", "draining", "drained")}) == 1
    assert len({stem_es(w) for w in ("drena", "drenar", "drenando", "drenan")}) == 1
    assert stem_es("tapa") != stem_es("tapado")


def test_positions_point_into_the_text_as_typed() -> None:
    text = "¡La  lavadora no enciende! 🔥 it's"
    for word in Normaliser({}, {"🔥": "fire"}, lambda _: True).words(text).words:
        assert text[word.start : word.end]
