"""Every example in the rules, read as a text of a customer: which are read as they say, and what the others hit instead."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.reading.model import Asked, Choice, Reading
from service.reading.reader import Reader
from service.reading.readers import reader_for
from service.rulebook.examples import Placed, every_example
from service.rulebook.model import Rulebook
from service.rulebook.schema.common import ASKED_KINDS
from service.workshop.report import Report, count

OFFERS = ("Tue 8 Dec, 8 to 10 am", "Wed 9 Dec, 1 to 3 pm", "Thu 10 Dec, 10 am to 12 pm")
"""The windows that stand as offered where an example answers an offer."""


@dataclass(frozen=True, slots=True)
class Missed:
    """An example that is not read as it says: codes not found, codes not denied, codes found that must not be; and what was."""

    placed: Placed
    not_found: tuple[str, ...]
    not_denied: tuple[str, ...]
    not_wanted: tuple[str, ...]
    heard: tuple[str, ...]

    def __str__(self) -> str:
        example = self.placed.example
        asked = f" (asked: {example.asked})" if example.asked else ""
        lines = [f"{self.placed.file}, {self.placed.rule}", f'  "{example.says}"{asked}']
        for words, codes in (
            ("means", self.not_found),
            ("denies", self.not_denied),
            ("must not mean", self.not_wanted),
        ):
            if codes:
                lines.append(f"  {words} {', '.join(codes)}.")
        return "\n".join([*lines, f"  It was read as {', '.join(self.heard) or 'nothing'}."])


def run_examples(rulebook: Rulebook) -> Report:
    """Read every example of *rulebook*; the report names each that is missed, and fails if any is."""
    number = sum(1 for _ in every_example(rulebook))
    missed = list(missed_examples(rulebook))
    if not missed:
        return Report(f"{count(number, 'example')}, all read as they say.", 0)
    closing = (
        f"{count(len(missed), 'example')} of {number} not read as {'it says' if len(missed) == 1 else 'they say'}."
    )
    return Report("\n".join([*map(str, missed), closing]), 1)


def missed_examples(rulebook: Rulebook) -> Iterator[Missed]:
    """The examples of *rulebook* that are not read as they say, in the order of its files."""
    reader = reader_for(rulebook)
    for placed in every_example(rulebook):
        if missed := missed_by(reader, rulebook, placed):
            yield missed


def missed_by(reader: Reader, rulebook: Rulebook, placed: Placed) -> Missed | None:
    """What *reader* makes of the example otherwise than it says; None when it is read as it says."""
    example = placed.example
    reading = reader.read(example.says, asked=asked_of(rulebook, placed), about=placed.appliance)
    heard, denied = heard_codes(reading, example.asked), denied_codes(reading)
    missed = Missed(
        placed,
        tuple(code for code in example.means if code.casefold() not in heard),
        tuple(code for code in example.denies if code.casefold() not in denied),
        tuple(code for code in example.lacks if code.casefold() in heard),
        (*sorted(heard), *(f"not {code}" for code in sorted(denied))),
    )
    return missed if missed.not_found or missed.not_denied or missed.not_wanted else None


def asked_of(rulebook: Rulebook, placed: Placed) -> Asked | None:
    """The question that stands open before the example: a kind (about its symptom or hazard), or an observation as sent."""
    asked = placed.example.asked
    if asked is None:
        return None
    appliance = rulebook.appliances.get(placed.appliance or "")
    observation = appliance.observations.get(asked) if appliance else None
    if observation is not None:
        choices = tuple(Choice(answer.value, answer.say.en) for answer in observation.answers)
        return Asked("observation", placed.appliance, asked, choices)
    if asked not in ASKED_KINDS:
        return None
    about = placed.rule if placed.rule in {**rulebook.vocabulary.symptoms, **rulebook.vocabulary.hazards} else None
    return Asked(asked, placed.appliance, about, offers=OFFERS if asked == "offer" else ())


def heard_codes(reading: Reading, asked: str | None = None) -> frozenset[str]:
    """Every code that *reading* holds as present, in the words of the examples, small letters; *asked*: of that question."""
    codes = {*(found.code for found in reading.symptoms), *(found.code for found in reading.hazards)}
    codes |= {*reading.urgency, *reading.intents, *(f"appliance={code}" for code in reading.appliances)}
    codes |= {f"{seen.id}={seen.value}" for seen in reading.observations}
    codes |= {f"theory={theory.cause}" for theory in reading.theories if theory.cause}
    codes |= set(_facts(reading))
    if reading.wish is not None and reading.wish.soonest:
        codes.add("wish=soonest")
    if answer := reading.answer:
        codes |= {answer.kind, *(["hedged"] if answer.hedged else [])}
        if asked is not None:
            codes.add(f"{asked}={answer.value if answer.value is not None else answer.kind}")
    return frozenset(code.casefold() for code in codes)


def denied_codes(reading: Reading) -> frozenset[str]:
    """Every code that *reading* holds not to be so; of observations, those that are answered no."""
    codes = {*(found.code for found in reading.denied), *(found.code for found in reading.denied_hazards)}
    return frozenset(codes | {seen.id for seen in reading.observations if seen.value == "no"})


def _facts(reading: Reading) -> Iterator[str]:
    for fact, value in reading.facts.items():
        yield fact
        for item in value if isinstance(value, tuple | list) else (value,):
            yield f"{fact}={item:g}" if isinstance(item, float) else f"{fact}={item}"
