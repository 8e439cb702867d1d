"""Calendar files: what is refused, and what they say of nobody."""

from datetime import timedelta

import pytest

from service.scheduling.calendar_file import visit_file
from tests.scheduling.shops import NOW, make_shop

UID = "8e03978e-40d5-43e8-bc93-6894a57f9324"


def written(**over):
    """A file with sensible values, lines unfolded."""
    values = {
        "uid": UID,
        "sequence": 0,
        "start": NOW,
        "end": NOW + timedelta(hours=2),
        "stamp": NOW,
        "summary": "Visit",
    } | over
    return visit_file(
        over.pop("shop", None) or make_shop(), **{k: v for k, v in values.items() if k != "shop"}
    ).decode()


@pytest.mark.parametrize("wrong", [{"sequence": -1}, {"end": NOW}, {"uid": "ana@example"}])
def test_what_makes_no_sound_file_is_refused(wrong):
    with pytest.raises(ValueError, match=r"must|badly formed"):
        written(**wrong)


def test_a_shop_without_an_address_is_the_organizer_by_its_phone():
    assert 'ORGANIZER;CN="Test Repair":tel:+15055550101' in written(shop=make_shop(email=""))
    assert "mailto:office@test.example" in written()


def test_empty_fields_are_left_out():
    assert "LOCATION" not in written()
    assert "LOCATION:12 Juniper Ln" in written(location="12 Juniper Ln")
