"""Sentences: values filled in, mistakes named."""

from types import SimpleNamespace

import pytest

from service.wording.sentences import WordingError, fill, placeholders, say


def rulebook(spanish="accents"):
    wording = {
        "en": {"fee": "The visit is {fee}. We’re here.", "odd": "{fee.real}", "curly": "a {{b}} {id}"},
        "es": {"fee": "La visita cuesta {fee}. Aquí estamos."},
    }
    return SimpleNamespace(wording=wording, shop=SimpleNamespace(policies=SimpleNamespace(spanish=spanish)))


def test_values_are_filled_in_and_signs_made_plain():
    assert say(rulebook(), "en", "fee", fee="$95") == "The visit is $95. We're here."
    assert say(rulebook(), "es", "fee", fee="$95") == "La visita cuesta $95. Aquí estamos."
    assert say(rulebook("seven_bit"), "es", "fee", fee="$95") == "La visita cuesta $95. Aqui estamos."


def test_a_language_without_wording_of_its_own_is_answered_in_english():
    assert say(rulebook(), "mixed", "fee", fee="$95").startswith("The visit")


def test_a_value_may_be_called_id_and_braces_may_be_written_twice():
    assert say(rulebook(), "en", "curly", id=7) == "a {b} 7"


def test_a_value_the_sentence_does_not_name_is_ignored():
    assert say(rulebook(), "en", "fee", fee="$95", shop="x") == "The visit is $95. We're here."


def test_a_value_that_holds_braces_is_not_filled_again():
    assert say(rulebook(), "en", "fee", fee="{shop}") == "The visit is {shop}. We're here."


def test_a_missing_sentence_is_named_with_its_file():
    with pytest.raises(WordingError, match=r"wording/es\.yaml has no sentence 'odd'"):
        say(rulebook(), "es", "odd", fee=1)


def test_a_missing_value_is_named_with_what_was_given():
    with pytest.raises(WordingError, match=r"'fee': nothing was given for \{fee\} \(given: shop\)"):
        say(rulebook(), "en", "fee", shop="x")


@pytest.mark.parametrize("template", ["{fee.real}", "{fee[0]}", "{}", "{0}", "{fee!r}", "{fee:>9}", "{fee"])
def test_a_placeholder_is_a_plain_name_and_nothing_more(template):
    with pytest.raises(WordingError):
        fill(template, {"fee": "95"}, "here")


def test_placeholders_are_listed():
    assert placeholders("{a} and {b}, {a}") == {"a", "b"}
