"""In their words: all that a customer wrote about the complaint, newest last, each text once and whole."""

from __future__ import annotations

import re
from html import unescape

from sqlalchemy import select, update

from service.edge.exchange import receive, rest_over
from service.edge.inbound import Inbound
from service.storage.engine import reading, writing
from service.storage.tables import threads, tickets
from tests.pages.office import Office

NUMBER = "+15055550188"


def text(office: Office, words: str, number: str = NUMBER) -> None:
    office.clock.forward(seconds=40)
    receive(
        office.deps, Inbound("demo", "loopback", number, "+15055550100", words, (), f"w-{words[:60]}", office.clock())
    )


def page_of(office: Office, number: str = NUMBER) -> str:
    """The page of the number's first ticket."""
    with reading(office.deps.engine) as connection:
        query = select(tickets.c.number).join(threads, threads.c.id == tickets.c.thread)
        found = connection.execute(query.where(threads.c.number == number).order_by(tickets.c.number)).first()
    assert found
    return office.client.get(f"/desk/tickets/{found.number}").text


def in_their_words(page: str) -> list[str]:
    part = re.search(r'<ul class="said-list">(.*?)</ul>', page, re.S)
    return [unescape(said) for said in re.findall(r"<q>(.*?)</q>", part.group(1), re.S)] if part else []


COMPLAINT = (
    "I want my money back for the last visit, the technician charged us twice the fee that was told to us on the phone and "
    "the water was on the floor again on the very same evening, all over the new boards"
)


def test_later_texts_stand_among_their_words_newest_last(office: Office) -> None:
    base = office.post(
        "/desk/new", phone=NUMBER, appliance="dishwasher", words="it leaks from the door, she says"
    ).headers["location"]
    office.post(f"{base}/hold")
    for words in (
        "it started on Monday and is worse now",
        "ok",
        COMPLAINT,
        "and one more thing, the door will not latch",
    ):
        text(office, words)
    page = office.client.get(base).text
    assert in_their_words(page) == [
        "it leaks from the door, she says",
        "it started on Monday and is worse now",
        COMPLAINT,
        "and one more thing, the door will not latch",
    ]
    assert "1 more of their texts stands in the conversation below" in page


def test_a_complaint_stands_once_above_the_conversation_and_whole(office: Office) -> None:
    text(office, "the dishwasher leaks from the door")
    text(office, COMPLAINT)
    office.clock.forward(seconds=40)
    drain(office)
    page = unescape(page_of(office))
    assert page.count("I want my money back") == 2  # in their words, and in the conversation
    assert in_their_words(page_of(office))[-1] == COMPLAINT


def drain(office: Office) -> None:
    """Let what rests be read."""
    with reading(office.deps.engine) as connection:
        thread = connection.execute(select(threads.c.id).where(threads.c.number == NUMBER)).scalar_one()
    rest_over(office.deps, "demo", thread)


def test_another_ticket_of_the_number_has_its_own_words(office: Office) -> None:
    with writing(office.deps.engine) as connection:
        row = connection.execute(select(tickets).where(tickets.c.number == 1001)).mappings().one()
        connection.execute(
            update(tickets)
            .where(tickets.c.number == 1001)
            .values(opened_at=office.clock(), state=row["state"] | {"words": []})
        )
    assert in_their_words(office.client.get("/desk/tickets/1001").text) == []
