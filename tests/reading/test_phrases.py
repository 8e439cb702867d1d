"""The phrase notation, the stems behind it, and the graph that finds phrases."""

from __future__ import annotations

import pytest

from service.reading.matching import PhraseTree
from service.reading.normalising import Normaliser
from service.reading.notation import PhraseMistaken, parse
from service.reading.stemming import stem_en, stem_es


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
