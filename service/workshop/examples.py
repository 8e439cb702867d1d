"""Every example in the rules, read as a text of a customer: which are read as they say, and what the others hit instead."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from service.reading.model import Asked, Choice, Reading
from service.reading.reader import Reader, reader_for
from service.rulebook.examples import Placed, every_example
from service.rulebook.model import Rulebook
from service.rulebook.schema.common import ASKED_KINDS
from service.workshop.report import Report, count

OFFERS = ("Tue 8 Dec, 8 to 10 am", "Wed 9 Dec, 1 to 3 pm", "Thu 10 Dec, 10 am to 12 pm")
"""The windows that stand as offered where an example answers an offer."""


@dataclass(frozen=True, slots=True)
class Missed:
    """An example that is not read as it says: the codes that were not found (or denied), and those that were but must not."""

    placed: Placed
    not_found: tuple[str, ...]
    not_denied: tuple[str, ...]
    not_wanted: tuple[str, ...]
    found: tuple[str, ...]

    def __str__(self) -> str:
        example, lines = (
            self.placed.example,
            [f"{self.placed.file}, {self.placed.rule}", f'  "{self.placed.example.says}"'],
        )
        if example.asked:
            lines[-1] += f" (asked: {example.asked})"
        for words, codes in (
            ("means", self.not_found),
            ("denies", self.not_denied),
            ("must not mean", self.not_wanted),
        ):
            if codes:
                lines.append(f"  {words} {', '.join(codes)}.")
        return "\n".join([*lines, f"  It was read as {', '.join(self.found) or 'nothing'}."])


def run_examples(rulebook: Rulebook) -> Report:
    """Read every example of *rulebook*; the report names each that is missed, and fails if any is."""
    reader = reader_for(rulebook)
    examples = list(every_example(rulebook))
    missed = [found for placed in examples if (found := missed_by(reader, rulebook, placed))]
    told = [str(found) for found in missed]
    if not missed:
        return Report(f"{count(len(examples), 'example')}, all read as they say.", 0)
    closing = f"{count(len(missed), 'example')} of {len(examples)} not read as {'it says' if len(missed) == 1 else 'they say'}."
    return Report("\n".join([*told, closing]), 1)


def missed_by(reader: Reader, rulebook: Rulebook, placed: Placed) -> Missed | None:
    """What *reader* makes of the example otherwise than it says; None when it is read as it says."""
    example = placed.example
    reading = reader.read(example.says, asked=asked_of(rulebook, placed), about=placed.appliance)
    found, denied = meant(reading, example.asked), frozenset(denied_codes(reading))
    missed = Missed(
        placed,
        tuple(code for code in example.means if _plain(code) not in found),
        tuple(code for code in example.denies if _plain(code) not in denied),
        tuple(code for code in example.lacks if _plain(code) in found),
        tuple(sorted(found)) + tuple(f"not {code}" for code in sorted(denied)),
    )
    return missed if missed.not_found or missed.not_denied or missed.not_wanted else None


def asked_of(rulebook: Rulebook, placed: Placed) -> Asked | None:
    """The question that stands open before the example: a kind, or an observation with its choices as sent."""
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
    return Asked(asked, placed.appliance, offers=OFFERS if asked == "offer" else ())


def meant(reading: Reading, asked: str | None = None) -> frozenset[str]:
    """Every code that *reading* holds as present, in the words of the examples."""
    codes = {*(found.code for found in reading.symptoms), *(found.code for found in reading.hazards)}
    codes |= {*reading.urgency, *reading.intents, *(f"appliance={code}" for code in reading.appliances)}
    codes |= {f"{seen.id}={seen.value}" for seen in reading.observations}
    codes |= {f"theory={theory.cause}" for theory in reading.theories if theory.cause}
    codes |= {f"{fact}={value}" for fact, value in _facts(reading)}
    if reading.wish is not None and reading.wish.soonest:
        codes.add("wish=soonest")
    if answer := reading.answer:
        codes.add(answer.kind)
        codes |= {"hedged"} if answer.hedged else set()
        if asked is not None:
            codes.add(f"{asked}={answer.value if answer.value is not None else answer.kind}")
    return frozenset(_plain(code) for code in codes)


def denied_codes(reading: Reading) -> Iterable[str]:
    """Every code that *reading* holds as denied."""
    yield from (found.code for found in reading.denied)
    yield from (found.code for found in reading.denied_hazards)


def _facts(reading: Reading) -> Iterable[tuple[str, str]]:
    for fact, value in reading.facts.items():
        for item in value if isinstance(value, tuple | list) else (value,):
            yield fact, f"{item:g}" if isinstance(item, float) else str(item)


def _plain(code: str) -> str:
    """Codes are compared without regard to capitals: a brand or model is kept as the customer wrote it."""
    return code.casefold()
