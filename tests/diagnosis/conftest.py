"""A small machine and a shop for every test of this room."""

from __future__ import annotations

import pytest
from hypothesis import settings

from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop
from tests.diagnosis.drain_machine import BOTH, small_machine

settings.register_profile("diagnosis", deadline=None)  # a busy machine is no failure
settings.load_profile("diagnosis")


@pytest.fixture(scope="session")
def machine() -> Appliance:
    return small_machine()


@pytest.fixture(scope="session")
def shop() -> Shop:
    hours = {"mon": {"start": "08:00", "end": "17:00"}}
    return Shop.model_validate(
        {
            "shop": "mesa", "name": "Mesa Repair", "number": "+15055550100", "office_phone": "+15055550101",
            "timezone": "America/Denver", "serves": ["dishwasher"], "refer_otherwise": BOTH,
            "area": {"87106": {"lat": 35.08, "lon": -106.62}}, "hours": hours,
            "technicians": [{"id": "ann", "name": "Ann", "skills": ["dishwasher"], "days": hours, "start_zip": "87106"}],
            "windows": {"starts": ["08:00"]}, "fees": {"visit_cents": 9500, "say": BOTH},
        }
    )  # fmt: skip
