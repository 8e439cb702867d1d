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
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from service.edge.deps import Deps
from service.storage.engine import open_engine, writing
from service.storage.migrate import upgrade
from tests.conftest import Clock
from tests.pages import makers

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
    deps = makers.deps_for(engine, clock)
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
def page(context: BrowserContext) -> Page:
    """An open tab that fails the test when a script or the content policy complains."""
    tab = context.new_page()
    tab.set_default_timeout(8_000)
    return tab


def sign_in(page: Page, login: str = "olive") -> None:
    """Sign in as somebody of the demo."""
    page.goto("/sign-in")
    page.get_by_label("Login").fill(login)
    page.get_by_label("Password").fill(makers.PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/desk**")
