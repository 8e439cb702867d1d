"""The rule author's page: who may see it, what it tells of the files, and what its runs find."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import timedelta
from html import unescape
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import select

from service.edge.deps import Deps
from service.edge.exchange import receive, rest_over
from service.edge.inbound import Inbound
from service.pages.rules.page import RulesPage
from service.rulebook.loading import load_rulebook
from service.storage.engine import open_engine, reading, writing
from service.storage.every_table import metadata
from service.storage.tables import messages, outbox
from tests.conftest import RULES, Clock
from tests.pages import makers
from tests.pages.office import sign_in
from tests.pages.test_every_page import DECLARED, Page
from tests.rulebook.sound import SOUND, write


@pytest.fixture
def rules(tmp_path: Path) -> Path:
    """Small sound rules of the demo shop, to be spoilt at will."""
    files = {name: text for name, text in SOUND.items() if not name.startswith("shops/")}
    return write(
        tmp_path, {**files, "shops/demo.yaml": SOUND["shops/corner.yaml"].replace("shop: corner", "shop: demo")}
    )


@pytest.fixture
def deps(tmp_path: Path, clock: Clock, rules: Path) -> Iterator[Deps]:
    with house(tmp_path, clock, rules) as found:
        yield found


@contextmanager
def house(folder: Path, clock: Clock, rules: Path) -> Iterator[Deps]:
    """The demo's rows, with the rules at *rules* in use."""
    engine = open_engine(f"sqlite:///{folder / 'line.sqlite3'}")
    metadata.create_all(engine)
    with writing(engine) as connection:
        makers.fill(connection, clock())
    found = makers.deps_for(engine, clock, load_rulebook(rules, "demo"))
    yield replace(found, settings=found.settings.model_copy(update={"rules": rules}))
    engine.dispose()


@pytest.fixture
def client(deps: Deps) -> TestClient:
    return signed_in(deps)


def signed_in(deps: Deps) -> TestClient:
    client = TestClient(makers.app_for(deps), base_url="https://desk.test", follow_redirects=False)
    sign_in(client, "ada")
    return client


def words(html: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", html.partition("<main")[2])))


def test_the_page_is_declared() -> None:
    assert DECLARED["rules/templates/rules.html"] is RulesPage


def test_only_an_author_may_see_it(deps: Deps) -> None:
    client = TestClient(makers.app_for(deps), base_url="https://desk.test", follow_redirects=False)
    assert client.get("/desk/rules").status_code == 303
    sign_in(client)
    assert client.get("/desk/rules").status_code == 403
    assert "/desk/rules" not in client.get("/desk").text


def test_sound_files_in_use_are_said_to_be_so_and_counted(client: TestClient) -> None:
    html = client.get("/desk/rules").text

    assert "The files are the rules in use." in words(html)
    assert "No file has a problem." in words(html)
    assert "owner checks" in words(html)
    assert "dishwasher, seal_worn 5 → 6" in words(html)
    page = Page(html)
    assert page.heads == 1
    assert set(page.fields) <= page.labels
    assert len(page.ids) == len(set(page.ids))


def test_a_mistake_is_told_with_line_and_remedy_and_the_line_goes_on(client: TestClient, rules: Path) -> None:
    path = rules / "appliances/dishwasher/causes.yaml"
    path.write_text(path.read_text("utf-8").replace("slow_drain: almost", "slow_drian: almost"), "utf-8")

    said = words(client.get("/desk/rules?run=examples").text)

    assert "The files cannot be used as they are. The line goes on with the rules it has." in said
    assert '"slow_drian" is not evidence. Did you mean "slow_drain"?' in said
    assert "rules/appliances/dishwasher/causes.yaml, line 7" in said
    assert "Try the files" not in said


def test_examples_are_run_on_the_files(client: TestClient, rules: Path) -> None:
    path = rules / "appliances/dishwasher/symptoms.yaml"
    path.write_text(path.read_text("utf-8").replace("says: it leaks, means", "says: it sings, means"), "utf-8")

    said = words(client.get("/desk/rules?run=examples").text)

    assert "The files differ from the rules in use." in said
    assert '"it sings" means leak. It was read as' in said


def test_what_is_left_open_is_found_on_the_files(client: TestClient, rules: Path) -> None:
    path = rules / "appliances/dishwasher/parts.yaml"
    path.write_text(path.read_text("utf-8") + "  - {id: plumb_bob, name: plumb bob}\n", "utf-8")

    said = words(client.get("/desk/rules?run=cover&machine=dishwasher").text)

    assert "Left open: dishwasher" in said
    assert "parts.yaml, line 10, tool plumb_bob No cause, test or panel needs this tool." in said


def test_a_trial_shows_then_and_now_and_sends_nothing(tmp_path: Path, clock: Clock) -> None:
    rules = Path(shutil.copytree(RULES, tmp_path / "rules"))
    for folder in (rules / "appliances").iterdir():
        if folder.name != "freezer":
            shutil.rmtree(folder)  # one appliance is enough here, and read sooner
    with house(tmp_path, clock, rules) as deps:
        now = clock.forward(minutes=1)
        text = Inbound("demo", "loopback", "+15055550188", "+15055550100", "my freezer is warm", (), "w1", now)
        received = receive(deps, text)
        clock.moment += timedelta(seconds=30)
        rest_over(deps, "demo", received.thread)
        path = rules / "wording/en.yaml"
        path.write_text(path.read_text("utf-8").replace("automatic text line", "text line, automatic"), "utf-8")

        def kept() -> int:
            with reading(deps.engine) as connection:
                return len(connection.execute(select(outbox)).all()) + len(connection.execute(select(messages)).all())

        before = kept()
        said = words(signed_in(deps).get("/desk/rules?run=trial&last=1").text)

        assert "1 turn tried, 1 otherwise. Nothing was sent." in said
        assert "my freezer is warm" in said
        assert re.search(r"reply 1 Then .*automatic text line.* With these rules .*text line, automatic", said)
        assert kept() == before


@pytest.mark.parametrize("query", ["run=nonsense", "run=cover&machine=toaster", "run=trial&last=-4"])
def test_odd_questions_get_the_page(client: TestClient, query: str) -> None:
    assert client.get(f"/desk/rules?{query}").status_code == 200
