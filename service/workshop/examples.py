"""Every example of a rulebook run through the reader: which are read as written beside them, and what was read instead."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.reading.model import Asked, Reading
from service.reading.reader import Reader, reader_for
from service.rulebook.examples import Placed, every_example
from service.rulebook.model import Rulebook


@dataclass(frozen=True, slots=True)
class Missed:
    """An example that is read otherwise. wanted: the codes asked for in vain; unwanted: those heard though ``lacks`` has them."""

    placed: Placed
    wanted: tuple[str, ...]
    unwanted: tuple[str, ...]
    heard: tuple[str, ...]
    denied: tuple[str, ...]


def run_examples(rulebook: Rulebook) -> tuple[str, int]:
    """The report in words, and the exit code: 0 when every example is read as written, 1 otherwise."""
    examples = list(every_example(rulebook))
    missed = list(missed_examples(rulebook))
    if not missed:
        return f"{len(examples)} examples, all read as written.\n", 0
    lines = [line for miss in missed for line in _told(miss)]
    lines.append(f"{len(examples)} examples, {len(missed)} read otherwise.")
    return "\n".join(lines) + "\n", 1


def missed_examples(rulebook: Rulebook) -> Iterator[Missed]:
    """The examples of *rulebook* that are not read as written, in the order of its files."""
    reader = reader_for(rulebook)
    for placed in every_example(rulebook):
        miss = _try(reader, rulebook, placed)
        if miss is not None:
            yield miss


def _try(reader: Reader, rulebook: Rulebook, placed: Placed) -> Missed | None:
    example = placed.example
    reading = reader.read(example.says, asked=_asked(placed, rulebook), about=placed.appliance)
    heard, denied = heard_codes(reading), denied_codes(reading)
    if example.asked and reading.answer is not None and reading.answer.kind in ("yes", "no") and placed.rule:
        heard = heard | {f"{placed.rule}={reading.answer.kind}"}
    wanted = tuple(c for c in example.means if c not in heard) + tuple(c for c in example.denies if c not in denied)
    unwanted = tuple(c for c in example.lacks if c in heard)
    return Missed(placed, wanted, unwanted, tuple(sorted(heard)), tuple(sorted(denied))) if wanted or unwanted else None


def _asked(placed: Placed, rulebook: Rulebook) -> Asked | None:
    kind = placed.example.asked
    if kind is None:
        return None
    appliance = rulebook.appliances.get(placed.appliance or "")
    if appliance is not None and kind in appliance.observations:
        return Asked("observation", placed.appliance, kind)
    coded = placed.rule if placed.rule in {**rulebook.vocabulary.symptoms, **rulebook.vocabulary.hazards} else None
    return Asked(kind, placed.appliance, coded)


def heard_codes(reading: Reading) -> set[str]:
    """Everything *reading* holds to be so, in the words an example uses: codes, ``observation=value``, ``fact=value``."""
    heard = {f.code for f in reading.symptoms} | {h.code for h in reading.hazards}
    heard |= set(reading.urgency) | set(reading.intents) | {f"appliance={a}" for a in reading.appliances}
    heard |= {f"{seen.id}={seen.value}" for seen in reading.observations}
    heard |= {f"theory={theory.cause}" for theory in reading.theories} | {t.cause for t in reading.theories if t.cause}
    for name, value in reading.facts.items():
        values = value if isinstance(value, tuple) else (value,)
        heard |= {name} | {f"{name}={v}" for v in values}
    if reading.answer is not None:
        heard |= {"answer", f"answer={reading.answer.kind}"}
        if reading.answer.value is not None:
            heard.add(f"answer={reading.answer.value}")
    return heard


def denied_codes(reading: Reading) -> set[str]:
    """Everything *reading* holds not to be so."""
    return (
        {f.code for f in reading.denied}
        | {h.code for h in reading.denied_hazards}
        | {s.id for s in reading.observations if s.value == "no"}
    )


def _told(miss: Missed) -> Iterator[str]:
    placed = miss.placed
    about = f", about {placed.appliance}" if placed.appliance else ""
    yield f"{placed.file}, beside {placed.rule}: “{placed.example.says}”{about}"
    if miss.wanted:
        yield f"  not heard: {', '.join(miss.wanted)}"
    if miss.unwanted:
        yield f"  heard though it should not be: {', '.join(miss.unwanted)}"
    yield f"  heard: {', '.join(miss.heard) or 'nothing'}" + (
        f"; denied: {', '.join(miss.denied)}" if miss.denied else ""
    )
