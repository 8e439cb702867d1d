"""Sentences that cost more segments than a text may, or read above grade six; as customers get them, not as they are stored."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from service.rulebook.folder import ApplianceFolder, Folder, Page
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Check, Observation, ObservationsFile
from service.rulebook.schema.common import Text
from service.wording.grade import grade
from service.wording.segments import count, plain
from service.workshop.cover.finding import Finding, Findings

GRADE = 6.0
"""The school grade a whole message may read at. Source W4."""
SLACK = 3.0
"""A short message is judged more mildly: one long word ("refrigerator") lifts it by as much."""
SHORT_WORDS = 25
SEGMENTS, DANGER_SEGMENTS, ACCENTED = 2, 3, 1
"""What a text may cost; a danger instruction; what Spanish with accents may take more."""
SIGNALS_ES = {"DANGER": "PELIGRO", "WARNING": "ADVERTENCIA", "CAUTION": "CUIDADO", "NOTICE": "AVISO"}
"""Signal words as the Spanish wording has them, for their length."""

Place = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Message:
    """What goes out as one text, where it stands, and the segments it may take."""

    page: Page[Any]
    path: Place
    text: Text
    most: int = SEGMENTS


def dear_or_hard(folder: Folder, rulebook: Rulebook, appliances: Sequence[str] = ()) -> Findings:
    """Each message of the appliances, dangers and wording that is too dear or too hard to read."""
    spanish = rulebook.shop.policies.spanish
    for message in _messages(folder, appliances):
        yield from _dear(message, spanish)
        yield from _hard(message)


def _dear(message: Message, spanish: str) -> Findings:
    for language in ("en", "es"):
        counted = count(plain(message.text.in_(language), language, spanish))
        allowed = message.most + (ACCENTED if language == "es" and counted.encoding == "UCS-2" else 0)
        if counted.number > allowed:
            found = f"This costs {counted.number} segments ({counted.units} units of {counted.encoding})."
            remedy = f"Shorten it to {allowed} segments."
            yield Finding("long", message.page.problem((*message.path, language), found, remedy=remedy, blocks=False))


def _hard(message: Message) -> Findings:
    words = len(message.text.en.split())
    most = GRADE if words >= SHORT_WORDS else GRADE + SLACK
    reads = grade(message.text.en)
    if words > 6 and reads > most:
        found = f"This reads at grade {reads:.1f}; at most {most:g} for {words} words."
        remedy = "Make sentences shorter, and take shorter words."
        yield Finding("hard", message.page.problem((*message.path, "en"), found, remedy=remedy, blocks=False))


def _messages(folder: Folder, appliances: Sequence[str]) -> Iterator[Message]:
    for name, appliance in folder.appliances.items():
        if not appliances or name in appliances:
            yield from _of_appliance(appliance)
    if folder.dangers and not appliances:
        for place, danger in enumerate(folder.dangers.model.dangers):
            at: Place = ("dangers", place)
            yield Message(folder.dangers, (*at, "instruction", "say"), danger.instruction.say, DANGER_SEGMENTS)
            yield Message(folder.dangers, (*at, "ask_after"), danger.ask_after)
            if danger.again:
                yield Message(folder.dangers, (*at, "again"), danger.again, 1)
            for code, other in danger.instruction_for.items():
                yield Message(folder.dangers, (*at, "instruction_for", code, "say"), other.say, DANGER_SEGMENTS)


def _of_appliance(appliance: ApplianceFolder) -> Iterator[Message]:
    if basics := appliance.basics:
        for place, meanwhile in enumerate(basics.model.meanwhile):
            yield Message(basics, ("meanwhile", place, "say"), meanwhile.say)
    if symptoms := appliance.symptoms:
        for place, symptom in enumerate(symptoms.model.symptoms):
            if symptom.stop_use:
                path = ("symptoms", place, "stop_use", "say")
                yield Message(symptoms, path, symptom.stop_use.say, DANGER_SEGMENTS)
    if observations := appliance.observations:
        yield from _of_observations(observations)
    if checks := appliance.checks:
        for place, check in enumerate(checks.model.checks):
            for field, text in as_sent(check).items():
                yield Message(checks, ("checks", place, field), text)


def _of_observations(page: Page[ObservationsFile]) -> Iterator[Message]:
    for place, item in enumerate(page.model.observations):
        if item.who == "customer":
            yield Message(page, ("observations", place, "ask"), asked(item))
        for value, stop in item.stop_use.items():
            yield Message(page, ("observations", place, "stop_use", value, "say"), stop.say, DANGER_SEGMENTS)


def as_sent(check: Check) -> dict[str, Text]:
    """
    The two texts an owner check goes out as, by the field that begins them: who must leave it, cautions and steps; then
    what they should see, what ends it, and whether it helped. A check with no hands on names nobody and ends by itself.
    """
    hands_on = set(check.touches) != {"nothing"}
    cautions = [
        Text(en=f"{caution.signal}: {caution.text.en}", es=f"{SIGNALS_ES[caution.signal]}: {caution.text.es}")
        for caution in check.cautions
    ]
    first = [*([check.not_for] if hands_on else []), *cautions, *check.steps]
    second = [check.see, *([check.ends_if] if hands_on else []), check.helped]
    return {"steps": _joined(first), "see": _joined(second)}


def _joined(texts: Sequence[Text]) -> Text:
    return Text(en=" ".join(text.en for text in texts), es=" ".join(text.es for text in texts))


def asked(item: Observation) -> Text:
    """A question with its choices, numbered as they go out."""

    def words(language: str) -> str:
        said = [f"{n} {answer.say.in_(language)}" for n, answer in enumerate(item.answers, start=1)]
        return "\n".join([item.ask.in_(language), *said])

    return Text(en=words("en"), es=words("es"))
