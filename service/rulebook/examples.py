"""Every example in the rules: each is a text with what it must be read as, and so a test."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.rulebook.model import Rulebook
from service.rulebook.schema.common import Example


@dataclass(frozen=True, slots=True)
class Placed:
    """
    An example and where it stands.

    file: from the rules folder on, without its name (``appliances/dishwasher/symptoms.yaml``). rule: the id or code it
    stands beside. appliance: the machine under discussion, None where the text is about none in particular.
    """

    file: str
    rule: str
    appliance: str | None
    example: Example


def every_example(rulebook: Rulebook) -> Iterator[Placed]:
    """All examples of *rulebook*, in the order of its files."""
    for code, appliance in rulebook.appliances.items():
        folder = f"appliances/{code}"
        yield from _placed(f"{folder}/appliance.yaml", code, None, appliance.basics.examples)
        for symptom in appliance.symptoms.values():
            yield from _placed(f"{folder}/symptoms.yaml", symptom.code, code, symptom.examples)
        for observation in appliance.observations.values():
            yield from _placed(f"{folder}/observations.yaml", observation.id, code, observation.examples)
    for danger in rulebook.dangers.values():
        yield from _placed("dangers.yaml", danger.code, None, danger.examples)
    for urgency in rulebook.urgency.values():
        yield from _placed("dangers.yaml", urgency.code, None, urgency.examples)
    for name in rulebook.names.values():
        yield from _placed("talk/appliances.yaml", name.appliance, None, name.examples)
    for rule in rulebook.talk.values():
        yield from _placed("talk", rule.code, None, rule.examples)


def _placed(file: str, rule: str, appliance: str | None, examples: tuple[Example, ...]) -> Iterator[Placed]:
    for example in examples:
        yield Placed(file, rule, appliance, example)
