"""The simulated phone: for numbers that belong to nobody, at shops whose texts stay in the house."""

from __future__ import annotations

from dataclasses import replace

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import func, select

from service.edge.worker import tick
from service.storage.engine import reading
from service.storage.tables import messages
from tests.pages import makers
from tests.pages.office import Office

PHONE = "/phone/demo/+15055550188"


def texts(office: Office) -> int:
    with reading(office.deps.engine) as connection:
        query = select(func.count()).where(messages.c.text == "my dishwasher does not drain")
        return int(connection.execute(query).scalar_one())


def test_a_text_is_answered_on_the_phone_with_what_it_costs(office: Office) -> None:
    answer = office.client.post(PHONE, data={"text": "my dishwasher does not drain", "once": "a"})
    assert answer.headers["location"] == PHONE
    office.clock.forward(seconds=30)
    tick(office.deps)
    page = office.client.get(PHONE).text
    assert "my dishwasher does not drain" in page
    assert "segments, GSM-7" in page or "segment, GSM-7" in page


def test_a_text_posted_twice_is_one_text(office: Office) -> None:
    for _ in range(2):
        office.client.post(PHONE, data={"text": "my dishwasher does not drain", "once": "a"})
    assert texts(office) == 1


def test_an_empty_text_with_a_picture_is_taken(office: Office) -> None:
    office.client.post(PHONE, data={"text": "", "picture": "yes", "once": "b"})
    assert "picture" in office.client.get(PHONE).text.split('class="texts"')[1].split("</ol>")[0]


@pytest.mark.parametrize("number", ["+15055550250", "+15055551234", "911", "+525555550142"])
def test_a_number_that_may_be_somebody_s_is_no_phone_here(office: Office, number: str) -> None:
    path = f"/phone/demo/{number}"
    assert office.client.get(path).status_code == 404
    assert office.client.post(path, data={"text": "hello", "once": "c"}).status_code == 404


def test_the_number_is_taken_in_any_spelling(office: Office) -> None:
    assert office.client.get("/phone?number=505-555-0188").headers["location"] == PHONE
    assert office.client.get("/phone?number=505-555-1188").status_code == 422


def test_there_is_no_phone_for_a_shop_whose_texts_leave_the_house(office: Office) -> None:
    shop = office.deps.rulebook_of("demo").shop.model_copy(update={"gateway": "elsewhere"})
    rulebook = replace(office.deps.rulebook_of("demo"), shop=shop)
    app = makers.app_for(replace(office.deps, rulebook_of=lambda _: rulebook))
    client = TestClient(app, follow_redirects=False)
    assert client.get("/phone").status_code == 404
    assert client.get(PHONE).status_code == 404
    assert client.post(PHONE, data={"text": "hello", "once": "d"}).status_code == 404
