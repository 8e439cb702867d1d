"""Learning at the desk: the author sees what would move and by how much, and decides; the office only looks."""

from __future__ import annotations

import re

import pytest
from fastapi.testclient import TestClient
from httpx2 import Response
from sqlalchemy import delete, select

from service.edge.deps import Deps
from service.pages.learning.page import SHOWN
from service.storage.engine import reading, writing
from service.storage.learned import learned_of
from service.storage.ledgers import outcomes
from tests.pages import makers
from tests.pages.conftest import SignIn
from tests.pages.office import Office, demo_rulebook, sign_in
from tests.pages.past import Past
from tests.pages.test_sheet import kept, likeliest, path_of, recorded

SEAL = "drain_valve_seal_worn"


def text_of(html: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html))


def token_of(client: TestClient) -> str:
    found = re.search(r'name="csrf" value="([^"]+)"', client.get("/desk/day").text)
    assert found
    return found.group(1)


def decided(client: TestClient, deed: str, appliance: str = "dishwasher", **data: str) -> Response:
    return client.post(f"/desk/learning/{appliance}/{deed}", data={"csrf": token_of(client), **data})


@pytest.fixture
def author(office: Office) -> TestClient:
    """Ada, the author, with the demo's real rules and thirty worn seals behind her."""
    with writing(office.deps.engine) as connection:
        past = Past(connection, office.clock())
        for place in range(30):
            past.outcome(past.ticket(50 - place), 50 - place, SEAL)
    client = TestClient(makers.app_for(office.deps), base_url="https://desk.test", follow_redirects=False)
    sign_in(client, "ada")
    return client


def row_of(client: TestClient, cause: str) -> list[str]:
    name = demo_rulebook().appliances["dishwasher"].causes[cause].name.en
    found = re.search(rf'<tr><th scope="row">{re.escape(name)}.*?</tr>', client.get("/desk/learning").text, re.S)
    assert found, name
    return re.findall(r"<td>(.*?)</td>", found.group(0))


def test_a_shop_without_outcomes_is_told_that_nothing_would_move(office: Office) -> None:
    text = text_of(office.client.get("/desk/learning").text)
    assert text.count("Nothing would move: no outcome has been counted.") == len(demo_rulebook().appliances)
    assert "Accept the proposal" not in text


def test_the_author_sees_what_would_move_and_accepts_it(author: TestClient) -> None:
    book, now, proposed, by, jobs = row_of(author, SEAL)[:5]
    assert book == now
    assert float(proposed.split()[0]) > float(now.split()[0]) + 10
    assert by.startswith("+")
    assert jobs == "30"
    answer = decided(author, "accept")
    assert answer.headers["location"] == "/desk/learning?said=accepted#dishwasher"
    assert "learned from 30 jobs, accepted by ada" in text_of(author.get("/desk/learning?said=accepted").text)
    name = demo_rulebook().appliances["dishwasher"].causes[SEAL].name.en
    assert f'scope="row">{name}' not in author.get("/desk/learning").text, "nothing is left to move"
    assert decided(author, "accept").headers["location"].startswith("/desk/learning?said=same")


def test_every_cause_that_would_move_is_seen_and_can_be_held_fast(author: TestClient) -> None:
    html = author.get("/desk/learning").text.split('id="dishwasher"')[1].split("</section>")[0]
    moves = [float(by.replace("−", "-")) for by in re.findall(r"<td>([+−][\d.]+)</td>", html)]
    assert len(moves) > SHOWN
    assert sum(moves) == pytest.approx(0, abs=0.05 * (len(moves) + 1))
    assert html.count("/dishwasher/freeze") >= len(moves)
    assert f"Causes that move less ({len(moves) - SHOWN})" in html


def test_what_was_found_in_words_is_shown_to_whoever_writes_the_rules(office: Office) -> None:
    assert (
        recorded(office, found="something_else", found_words="a <spoon> in the pump", ended="fixed").status_code == 303
    )
    html = office.client.get("/desk/learning").text
    paper = html.split('id="dishwasher"')[1].split("</section>")[0]
    assert "<q>a &lt;spoon&gt; in the pump</q>" in paper
    assert 'href="/desk/tickets/1001"' in paper
    assert html.count("Found, and not in the rules") == 1


def graded(client: TestClient) -> list[list[str]]:
    """Rows of the dishwasher's grades that would change: as written, in force, proposed, answers."""
    paper = client.get("/desk/learning").text.split('id="dishwasher"')[1].split("</section>")[0]
    table = paper.partition("How often an answer is seen with a cause")[2].split("</table>")[0]
    return [
        re.findall(r"<td>(.*?)</td>", row)[:4] for row in re.findall(r"<tr><th scope=\"row\">.*?</tr>", table, re.S)
    ]


def test_a_grade_is_shown_until_it_is_in_force_and_again_if_it_would_move_back(
    author: TestClient, office: Office
) -> None:
    asked = {"symptoms": {"slow_drain": True, "leak": True}, "observations": {}, "asked": ["leak"]}
    with writing(office.deps.engine) as connection:
        past = Past(connection, office.clock(), number=4000)
        for _ in range(12):
            past.outcome(past.ticket(5), 5, SEAL, evidence=asked)
    [(book, now, proposed, answers)] = graded(author)
    assert book == now != proposed
    assert answers == "12"
    decided(author, "accept")
    assert graded(author) == []
    with writing(office.deps.engine) as connection:
        connection.execute(delete(outcomes).where(outcomes.c.evidence["asked"][0].as_string() == "leak"))
    [(book, now, back, answers)] = graded(author)
    assert (now, back, answers) == (proposed, book, "too few")


def test_what_is_held_fast_says_so_and_can_be_let_move(author: TestClient, office: Office) -> None:
    decided(author, "freeze", code=SEAL)
    book, now, proposed = row_of(author, SEAL)[:3]
    assert book == now == proposed
    assert "(held fast)" in author.get("/desk/learning").text
    decided(author, "unfreeze", code=SEAL)
    with reading(office.deps.engine) as connection:
        assert learned_of(connection, "demo")["dishwasher"].frozen == frozenset()


def test_a_reset_is_offered_once_something_was_learned(author: TestClient) -> None:
    assert "/dishwasher/reset" not in author.get("/desk/learning").text
    decided(author, "accept")
    assert "/dishwasher/reset" in author.get("/desk/learning").text
    decided(author, "reset")
    assert "reset by ada" in text_of(author.get("/desk/learning").text)


def test_an_appliance_or_a_code_nobody_knows_changes_nothing(author: TestClient) -> None:
    assert decided(author, "accept", appliance="spaceship").status_code == 404
    assert decided(author, "freeze", code="phlogiston").status_code == 422
    assert decided(author, "burn").status_code == 422


def test_the_office_sees_and_cannot_decide_and_a_technician_sees_nothing(signed_in: SignIn, deps: Deps) -> None:
    client = signed_in("olive")
    page = client.get("/desk/learning")
    assert page.status_code == 200
    assert "Hold fast" not in page.text
    assert decided(client, "accept").status_code == 403
    client.cookies.clear()
    assert signed_in("ray").get("/desk/learning").status_code == 403
    with reading(deps.engine) as connection:
        assert learned_of(connection, "demo") == {}


def test_an_undone_visit_is_recorded_without_a_cause_and_the_office_decides(office: Office) -> None:
    with reading(office.deps.engine) as connection:
        assert list(connection.execute(select(outcomes))) == []

    assert "?again=" in recorded(office, ended="undone").headers["location"]
    assert recorded(office, ended="undone", why="nobody home, dog in the yard").status_code == 303
    [row] = kept(office)
    assert (row.found, row.fixed, row.return_why) == ("not_looked_at", False, "nobody home, dog in the yard")
    assert office.ticket(1001).stage == "deciding"
    assert [visit.status for visit in office.visits()] == ["missed"]
    assert "not looked at" in office.client.get(path_of(office.deps)).text


def test_a_correction_keeps_the_forecast_as_it_was_shown(office: Office) -> None:

    cause = likeliest(office)
    recorded(office, found=cause, ended="returning", why="a part")
    [first] = kept(office)
    assert 0 < first.forecast["finish"] < 1
    assert first.forecast["load"]
    recorded(office, found=cause, ended="fixed")
    [second] = kept(office)
    assert (second.fixed, second.forecast, second.belief) == (True, first.forecast, first.belief)
