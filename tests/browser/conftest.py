"""A real server and a real Chromium: what a person would have before them."""

from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import uvicorn
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from service.edge.deps import Deps
from service.reading.readers import reader_for
from service.storage.engine import open_engine, writing
from service.storage.migrate import upgrade
from tests.conftest import Clock
from tests.pages import makers
from tests.pages.office import demo_rulebook

expect.set_options(timeout=30_000)  # a busy machine is slow; a page that is wrong stays wrong

FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage",
]  # fmt: skip


@dataclass
class House:
    """A running server over the demo's rows. address: where it listens."""

    address: str
    deps: Deps
    clock: Clock


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    """Started for one test, stopped after it."""
    engine = open_engine(f"sqlite:///{tmp_path / 'plainfault.sqlite3'}")
    upgrade(engine)
    clock = Clock()
    with writing(engine) as connection:
        makers.fill(connection, clock())
    deps = makers.deps_for(engine, clock, demo_rulebook())
    reader_for(demo_rulebook())  # compiled before the clock of a test's patience runs
    app = makers.app_for(deps)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    server = uvicorn.Server(
        uvicorn.Config(app, host="127.0.0.1", port=port, log_level="error", timeout_graceful_shutdown=1)
    )
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield House(f"http://127.0.0.1:{port}", deps, clock)
    server.should_exit = True
    thread.join(10)
    engine.dispose()


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The system's Chromium."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def context(chromium: Browser, house: House) -> Iterator[BrowserContext]:
    """A browser window of the office's size."""
    opened = chromium.new_context(viewport={"width": 1280, "height": 900}, base_url=house.address)
    yield opened
    opened.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    """An open tab; the test fails when a script, the content policy or the accessibility of a page complains."""
    yield from watched(context)


@pytest.fixture
def phone(chromium: Browser, house: House) -> Iterator[BrowserContext]:
    """A phone in a hand."""
    opened = chromium.new_context(
        viewport={"width": 390, "height": 844}, device_scale_factor=2, is_mobile=True, has_touch=True, locale="es-US",
        timezone_id="America/Denver", base_url=house.address,
    )  # fmt: skip
    yield opened
    opened.close()


def watched(context: BrowserContext) -> Iterator[Page]:
    tab = context.new_page()
    tab.set_default_timeout(30_000)
    complaints: list[str] = []
    tab.on("pageerror", lambda error: complaints.append(str(error)))
    tab.on("console", lambda line: complaints.append(line.text) if "Content Security Policy" in line.text else None)
    yield tab
    assert complaints == []


def violations(page: Page) -> list[str]:
    """What axe-core finds on the page as it stands: rule and where."""
    found = Axe().run(page).response["violations"]
    return [f"{v['id']}: {node['html'][:120]}" for v in found for node in v["nodes"]]


def sign_in(page: Page, login: str = "olive") -> None:
    """Sign in as somebody of the demo."""
    page.goto("/sign-in")
    page.get_by_label("Login").fill(login)
    page.get_by_label("Password").fill(makers.PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/desk**")
