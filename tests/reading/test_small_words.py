"""No phrase of the rules may be heard in one word that stands in every text: "no (click) (at all)" would hear every "no"."""

from __future__ import annotations

from collections.abc import Iterator

from service.reading.reader import Reader
from service.reading.words.matching import PhraseTree
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.schema.common import Phrases
from tests.reading.score import RULES

SMALL = (
    "no", "not", "yes", "it", "is", "the", "a", "on", "in", "of", "to", "at", "i", "we", "you", "and", "or", "only",
    "just", "off", "out", "up", "when", "if", "for", "my", "its", "this", "there", "do", "does", "be", "has",
    "have", "get", "come", "now", "still", "again", "some", "any", "all", "si", "se", "la", "el", "lo", "de", "en",
    "un", "con", "que", "y", "ya", "muy", "sin",
)  # fmt: skip


def phrases(rulebook: Rulebook) -> Iterator[tuple[str, Phrases]]:
    for appliance in rulebook.appliances.values():
        for symptom in appliance.symptoms.values():
            yield f"{appliance.code}.{symptom.code}", symptom.signs
            yield f"{appliance.code}.{symptom.code} (function)", symptom.functions
        for observation in appliance.observations.values():
            for answer in observation.answers:
                yield f"{appliance.code}.{observation.id}={answer.value}", answer.hears
    for danger in rulebook.dangers.values():
        for role in (danger.signs, danger.innocent, danger.denials):
            yield danger.code, role


def test_no_phrase_is_heard_in_a_single_small_word(reader: Reader) -> None:
    texts = {word: reader.hearer.normaliser.words(word).words for word in SMALL}
    heard = []
    for where, spoken in phrases(load_rulebook(RULES, "demo")):
        for language in ("en", "es"):
            for phrase in spoken.in_(language):
                tree = PhraseTree(language)
                tree.add([phrase], None)
                heard += [f"{where}: “{phrase}” hears “{word}”" for word, words in texts.items() if tree.hits(words)]
    assert heard == []
