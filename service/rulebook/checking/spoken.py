"""Whatever else tells an owner to do something is screened like an owner check: danger instructions, stop-use, meanwhile."""

from __future__ import annotations

from collections.abc import Iterator

from service.rulebook.checking.safety import told
from service.rulebook.folder import ApplianceFolder, Page
from service.rulebook.problems import Problem
from service.rulebook.schema.danger import DangersFile


def spoken_problems(appliance: ApplianceFolder) -> Iterator[Problem]:
    """A problem for each text of *appliance* outside its checks that tells a forbidden act."""
    if page := appliance.basics:
        for place, meanwhile in enumerate(page.model.meanwhile):
            yield from told(page, ("meanwhile", place, "say"), meanwhile.say)
    if symptoms := appliance.symptoms:
        for place, symptom in enumerate(symptoms.model.symptoms):
            if symptom.stop_use:
                path = ("symptoms", place, "stop_use", "say")
                yield from told(symptoms, path, symptom.stop_use.say, running=True)
    if observations := appliance.observations:
        for place, observation in enumerate(observations.model.observations):
            for value, stop_use in observation.stop_use.items():
                path = ("observations", place, "stop_use", value)
                yield from told(observations, (*path, "say"), stop_use.say, running=True)


def instruction_problems(page: Page[DangersFile]) -> Iterator[Problem]:
    """A problem for each danger instruction, and each word about haste, that tells a forbidden act."""
    for place, danger in enumerate(page.model.dangers):
        at = ("dangers", place)
        yield from told(page, (*at, "instruction", "say"), danger.instruction.say, running=True)
        if danger.again:
            yield from told(page, (*at, "again"), danger.again, running=True)
        for code, instruction in danger.instruction_for.items():
            yield from told(page, (*at, "instruction_for", code, "say"), instruction.say, running=True)
    for place, urgency in enumerate(page.model.urgency):
        if urgency.say:
            yield from told(page, ("urgency", place, "say"), urgency.say)
