"""The way in: rules on disk to a shop's immutable rulebook, or every reason why not."""

from __future__ import annotations

import gc
import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from service.rulebook.checking import problems_of
from service.rulebook.edition import Learned, Source, compiled, laid_over, rulebook_from_source, source_of, with_learned
from service.rulebook.folder import read_folder
from service.rulebook.kept import FOLDER, keep, kept_source
from service.rulebook.model import Rulebook
from service.rulebook.problems import Problem, RulesMistaken, did_you_mean

__all__ = [
    "Learned",
    "RulesMistaken",
    "check_rules",
    "laid_over",
    "load_rulebook",
    "rulebook_from_source",
    "with_learned",
]


def load_rulebook(rules: Path, shop: str) -> Rulebook:
    """
    The rules at *rules* (a folder) as the shop whose file is ``shops/SHOP.yaml`` wants them.

    Raises RulesMistaken with every problem of the base rules and this shop's file. What is only missing so far does not
    stop loading; ``check_rules`` tells it.
    """
    return _loaded(rules.resolve(), shop, _digest(rules))


def _digest(rules: Path) -> str:
    """What the rule files hold, in one number: equal only while no file was changed, added or taken away."""
    total = hashlib.sha256()
    for path in sorted(rules.rglob("*.yaml")):
        total.update(f"{path.relative_to(rules)}\0".encode())
        total.update(hashlib.sha256(path.read_bytes()).digest())
    return total.hexdigest()


@lru_cache(maxsize=4)  # of tens of megabytes each; more are loaded again from what was kept
def _loaded(rules: Path, shop: str, digest: str) -> Rulebook:
    """The rulebook, kept while its files stay as they are, also for the next process; a refusal is never kept."""
    if source := kept_source(rules, shop, digest):
        return replace(rulebook_from_source(source), kept_in=rules / FOLDER)
    with _collector_at_rest():
        found = compiled(_sound(rules, shop))
        keep(rules, shop, digest, found.source)
    return replace(found, kept_in=rules / FOLDER)


def _sound(rules: Path, shop: str) -> Source:
    """What the files say, read and checked; what was needed only for that is gone when this returns."""
    folder = read_folder(rules, [shop])
    problems = [problem for problem in problems_of(folder) if problem.blocks]
    if shop not in folder.shops and not any(problem.file.endswith(f"shops/{shop}.yaml") for problem in problems):
        known = [path.stem for path in sorted((folder.path / "shops").glob("*.yaml"))]
        file = folder.named(folder.path / "shops" / f"{shop}.yaml")
        problems.append(Problem(file, 0, "", "There is no such shop file.", "", did_you_mean(shop, known)))
    if problems:
        raise RulesMistaken(problems)
    return source_of(folder, folder.shops[shop].model)


def check_rules(rules: Path) -> tuple[Problem, ...]:
    """Every problem of every file under *rules*, all shops too, sorted by file and line; also what is only missing."""
    with _collector_at_rest():
        return tuple(sorted(problems_of(read_folder(rules))))


@contextmanager
def _collector_at_rest() -> Iterator[None]:
    """
    Cycles are not searched for meanwhile: reading makes some hundred thousand small objects that all stay, and looking
    through them again and again took two fifths of the loading.
    """
    at_work = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if at_work:
            gc.enable()
