"""What is typed at the desk is not lost: half-written replies, changed drafts, and words sent after the session was over."""

from __future__ import annotations

import html
import re
from datetime import timedelta

import pytest
from sqlalchemy import insert, select

from service.storage.engine import reading, writing
from service.storage.tables import outbox
from tests.pages.office import Office, sign_in


def in_field(office: Office, identity: str, page: str = "/desk/tickets/1003") -> str:
    found = re.search(rf'<textarea id="{identity}"[^>]*>(.*?)</textarea>', office.client.get(page).text, re.S)
    assert found, identity
    return html.unescape(found.group(1))


def add_reply(office: Office, status: str, *, turn: str = "thluz.9", name: str = "later") -> str:
    """A reply of a newer turn of Luz's thread."""
    with writing(office.deps.engine) as connection:
        [row] = connection.execute(select(outbox).where(outbox.c.id == "othluz2")).mappings()
        fresh = {"id": name, "key": name, "turn": turn, "seq": row["seq"] + 1, "status": status, "text": "Later words."}
        connection.execute(insert(outbox).values(**{**row, **fresh}))
    return name


@pytest.fixture
def two_drafts(office: Office) -> tuple[str, str]:
    return "othluz2", add_reply(office, "draft")


def test_sending_a_draft_keeps_the_reply_and_the_other_draft_as_typed(
    office: Office, two_drafts: tuple[str, str]
) -> None:
    first, second = two_drafts
    typed = {f"draft.{first}": "Le llamo hoy.", f"draft.{second}": "Una sola cosa más.", "text": "Buenos días, soy"}
    assert office.post("/desk/tickets/1003/draft", send=first, **typed).status_code == 303
    assert in_field(office, "text") == "Buenos días, soy"
    assert in_field(office, f"draft-{second}") == "Una sola cosa más."
    [sent] = [r for r in office.replies("thluz") if r.id == first]
    assert (sent.status, sent.text) == ("waiting", "Le llamo hoy.")


def test_sending_the_reply_keeps_the_drafts_as_typed_and_empties_its_field(
    office: Office, two_drafts: tuple[str, str]
) -> None:
    first, second = two_drafts
    typed = {f"draft.{first}": "Le llamo hoy.", f"draft.{second}": "Later words.", "text": "Soy Olive."}
    assert office.post("/desk/tickets/1003/write", once="n1", **typed).status_code == 303
    assert in_field(office, "text") == ""
    assert in_field(office, f"draft-{first}") == "Le llamo hoy."


def test_a_deed_that_takes_the_words_along_keeps_them(office: Office) -> None:
    office.post("/desk/tickets/1003/hold", text="half a sen")
    assert in_field(office, "text") == "half a sen"
    assert "it was not sent" in office.client.get("/desk/tickets/1003").text
    assert office.replies("thluz", author="olive") == []


def test_what_one_person_typed_nobody_else_sees(office: Office) -> None:
    office.post("/desk/tickets/1003/hold", text="half a sen")
    office.post("/sign-out")
    sign_in(office.client, "ada")
    assert in_field(office, "text") == ""


def test_a_later_draft_that_is_sent_drops_the_earlier_one_and_says_so(
    office: Office, two_drafts: tuple[str, str]
) -> None:
    first, second = two_drafts
    assert "Send, and drop the earlier draft" in office.client.get("/desk/tickets/1003").text
    typed = {f"draft.{first}": "Changed, and dropped.", f"draft.{second}": "Later words."}
    assert office.post("/desk/tickets/1003/draft", send=second, **typed).status_code == 303
    states = {row.id: (row.status, row.reason) for row in office.replies("thluz")}
    assert states[first] == ("dropped", "overtaken by a later reply")
    assert states[second][0] == "waiting"
    assert office.post("/desk/tickets/1003/draft", send=first, **typed).status_code == 409
    assert "Changed, and dropped." in office.client.get("/desk/tickets/1003").text


def test_a_draft_does_not_go_out_after_what_answers_a_later_text(office: Office) -> None:
    add_reply(office, "sent")
    page = office.client.get("/desk/tickets/1003").text
    assert "this one cannot be sent any more" in page
    assert office.post("/desk/tickets/1003/draft", send="othluz2", **{"draft.othluz2": "x"}).status_code == 409
    assert office.post("/desk/tickets/1003/draft", discard="othluz2").status_code == 303


def test_a_draft_that_its_holder_sends_is_the_holder_s_word(office: Office) -> None:
    """The line's own words are held back while a person holds the thread; what that person sends is not."""
    office.post("/desk/tickets/1003/hold")
    office.post("/desk/tickets/1003/draft", send="othluz2", **{"draft.othluz2": "Le llamo hoy."})
    [row] = [r for r in office.replies("thluz") if r.id == "othluz2"]
    assert (row.status, row.author) == ("waiting", "olive")


@pytest.mark.parametrize("away", [timedelta(minutes=31), timedelta(hours=9)])
def test_words_sent_after_the_session_was_over_are_kept_for_their_writer(office: Office, away: timedelta) -> None:
    data = {"csrf": office.csrf, "text": "Hola Luz, soy Olive.", "once": "n1"}
    office.clock.forward(seconds=away.total_seconds())
    answer = office.client.post("/desk/tickets/1003/write", data=data)
    assert answer.status_code == 403
    assert "What you typed is kept: sign in as olive again" in answer.text
    assert "/sign-in?next=/desk/tickets/1003" in answer.text
    sign_in(office.client)
    assert in_field(office, "text") == "Hola Luz, soy Olive."
    assert in_field(office, "text", "/desk/tickets/1001") == ""
    assert office.replies("thluz", author="olive") == []
    assert office.held_by("thluz") is None


def test_kept_words_are_not_shown_to_another_who_signs_in(office: Office) -> None:
    data = {"csrf": office.csrf, "text": "Hola Luz, soy Olive.", "once": "n1"}
    office.clock.forward(minutes=31)
    office.client.post("/desk/tickets/1003/write", data=data)
    sign_in(office.client, "ada")
    assert "Hola Luz, soy Olive." not in office.client.get("/desk/tickets/1003").text


def test_words_of_nobody_known_are_given_back_to_be_copied(office: Office) -> None:
    office.client.cookies.clear()
    answer = office.client.post("/desk/tickets/1003/write", data={"csrf": "x", "text": "Hola <Luz>"})
    assert answer.status_code == 403
    assert "Hola &lt;Luz&gt;" in answer.text
    with reading(office.deps.engine) as connection:
        assert not connection.execute(select(outbox).where(outbox.c.text.contains("Hola"))).all()


def test_a_form_that_the_session_did_not_make_keeps_nothing(office: Office) -> None:
    office.clock.forward(minutes=31)
    office.client.post("/desk/tickets/1003/write", data={"csrf": "forged", "text": "forged words"})
    sign_in(office.client)
    assert "forged words" not in office.client.get("/desk/tickets/1003").text


def test_the_cookie_outlives_the_session_and_opens_nothing(office: Office) -> None:
    office.clock.forward(hours=9)
    assert office.client.get("/desk").headers["location"].startswith("/sign-in")
    assert office.client.get("/desk/tickets/1003/visit").status_code == 303
