"""A customer's picture at the desk: fetched by the service, shown to the office, never a way into the house."""

from __future__ import annotations

from functools import partial

import pytest

from service.edge import media
from service.edge.exchange import receive
from service.edge.inbound import Inbound
from service.edge.wire import Answer, Request
from service.pages.desk import pictures
from service.storage.engine import reading
from service.storage.messages import media_of
from service.storage.tables import messages
from tests.pages.makers import MARIA
from tests.pages.office import Office

JPEG = b"\xff\xd8\xff\xe0" + b"x" * 100


def sent(office: Office, *links: str) -> str:
    """Maria sends a text with *links*; the message's id."""
    receive(
        office.deps, Inbound("demo", "loopback", MARIA, "+15055550100", "look at this", links, "pic-1", office.clock())
    )
    with reading(office.deps.engine) as connection:
        row = connection.execute(messages.select().where(messages.c.carrier_id == "pic-1")).one()
        assert media_of(connection, "demo", row.id) == links
        assert media_of(connection, "other", row.id) == ()
    return str(row.id)


def test_a_picture_is_shown_through_the_service(office: Office, monkeypatch: pytest.MonkeyPatch) -> None:
    def carrier(request: Request) -> Answer:
        return Answer(200, {}, JPEG)

    looked_at = partial(media.fetch, resolve=lambda _name, _port: ("93.184.216.34",), ask=carrier)
    monkeypatch.setattr(pictures, "fetch", looked_at)
    message = sent(office, "https://pictures.example/a.jpg")
    assert f'href="/desk/pictures/{message}/1"' in office.client.get("/desk/tickets/1001").text
    answer = office.client.get(f"/desk/pictures/{message}/1")
    assert (answer.status_code, answer.headers["content-type"], answer.content) == (200, "image/jpeg", JPEG)
    assert "sandbox" in answer.headers["content-security-policy"]


@pytest.mark.parametrize("link", ["https://127.0.0.1/admin", "http://pictures.example/a.jpg", "phone:picture"])
def test_a_link_into_the_house_is_not_followed_and_said_in_words(office: Office, link: str) -> None:
    message = sent(office, link)
    answer = office.client.get(f"/desk/pictures/{message}/1")
    assert answer.status_code == 502
    assert "could not be had" in answer.text
    assert link not in answer.text


@pytest.mark.parametrize("place", [0, 2, -1])
def test_a_picture_that_is_not_there_is_said_to_be_missing(office: Office, place: int) -> None:
    message = sent(office, "https://127.0.0.1/a.jpg")
    assert office.client.get(f"/desk/pictures/{message}/{place}").status_code == 404


def test_nobody_sees_a_picture_without_signing_in(office: Office) -> None:
    message = sent(office, "https://127.0.0.1/a.jpg")
    office.client.cookies.clear()
    answer = office.client.get(f"/desk/pictures/{message}/1", follow_redirects=False)
    assert answer.headers["location"].startswith("/sign-in")
