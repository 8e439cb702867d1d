"""Makes the README's pictures: the demo shop, a morning of texts answered by the line, photographed in Chromium.

Run from the root of the repository: ``.venv/bin/python deploy/pictures.py``. Needs the ``check`` extra and Chromium.
"""

from __future__ import annotations

import secrets
import shutil
import socket
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import uvicorn
from playwright.sync_api import Browser, Page, sync_playwright

from service.access.passwords import Passwords
from service.access.users import create_user
from service.app import build_deps, create_app
from service.edge.deps import Deps
from service.edge.exchange import receive, rest_over
from service.edge.inbound import Inbound
from service.edge.worker import tick
from service.pages.links import sheet_path
from service.settings import Settings
from service.storage import visits_view
from service.storage.engine import open_engine, reading, writing
from service.storage.migrate import upgrade
from service.storage.phone import texts_of

ROOT = Path(__file__).parent.parent
PICTURES = ROOT / "deploy" / "pictures"
MARIA, SAM, LUZ, ABE = "+15055550142", "+15055550143", "+15055550144", "+15055550145"
COMPLAINT = "dishwasher drains slowly, it takes forever. cleaned the filter already, no change"
ANSWERS = (
    ("ZIP", "87111"),
    ("address", "418 Cholla Wren Ln NE"),
    ("Which time", "2"),
    ("name", "Maria Luján"),
    ("get in", "gate code is 0420, dog in the yard"),
    ("way in", "gate code is 0420, dog in the yard"),
    ("quick look", "cant look right now, please just send someone"),
    ("only about a cup", "cant look right now, please just send someone"),
    ("\n1 ", "1"),
    ("disposal", "no"),
    ("gurgle", "no the sink is fine"),
)
"""What Maria answers to a question that holds the words; to any other she does not know."""
OTHERS = (
    (ABE, "washer wont spin, clothes come out soaked"),
    (LUZ, "el refri no enfría, prefiero hablar con una persona"),
    (SAM, "dryer stopped and there is a hot plastic smell and the plug looks brown"),
)


@dataclass
class Clock:
    """Stands still between texts, so that the pictures are the same each time."""

    moment: datetime = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        """Now."""
        return self.moment


def live_through(deps: Deps, clock: Clock) -> None:
    """Maria's conversation until a visit stands and nothing more is asked, then the others' first texts."""
    said = COMPLAINT
    for _ in range(14):
        reply = text(deps, clock, MARIA, said)
        if "?" not in reply:
            break
        said = next((answer for words, answer in ANSWERS if words in reply), "not sure")
    for sender, words in OTHERS:
        text(deps, clock, sender, words)


def text(deps: Deps, clock: Clock, sender: str, words: str) -> str:
    """One text and its answer, two minutes in all; the last reply."""
    number = deps.rulebook_of("demo").shop.number
    moment = clock().isoformat()
    received = receive(deps, Inbound("demo", "loopback", sender, number, words, (), f"picture-{moment}", clock()))
    rest_over(deps, "demo", received.thread)
    for _ in range(4):  # a reply of several texts leaves one by one
        clock.moment += timedelta(seconds=20)
        tick(deps)
    clock.moment += timedelta(seconds=40)
    with reading(deps.engine) as connection:
        return next((b.text for b in reversed(texts_of(connection, "demo", received.thread)) if not b.mine), "")


@contextmanager
def served(deps: Deps) -> Iterator[str]:
    """The application on a free port; its address."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    app = create_app(deps, sender=False)
    server = uvicorn.Server(uvicorn.Config(app, port=port, log_level="error", timeout_graceful_shutdown=1))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield f"http://127.0.0.1:{port}"
    server.should_exit = True
    thread.join(10)


def photograph(browser: Browser, address: str, deps: Deps, password: str) -> None:
    """Desk and ticket on a wide screen, sheet and phone on a narrow one."""
    wide = browser.new_context(viewport={"width": 1200, "height": 900}, base_url=address, color_scheme="light")
    page = wide.new_page()
    page.goto("/sign-in")
    page.get_by_label("Login").fill("olive")
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/desk")
    take(page, "desk")
    page.get_by_role("link", name="#1001").click()
    page.get_by_text("Why (turn 1)").click()
    take(page, "ticket", height=1500)
    narrow = browser.new_context(
        viewport={"width": 390, "height": 1400}, base_url=address, is_mobile=True, device_scale_factor=1.5
    )
    page = narrow.new_page()
    with reading(deps.engine) as connection:
        visits = visits_view.standing_visits(connection, "demo")
    if visits:
        page.goto(sheet_path(deps, "demo", next(iter(visits.values()))))
        take(page, "sheet")
    page.set_viewport_size({"width": 390, "height": 900})
    page.goto(f"/phone/demo/{MARIA}")
    take(page, "phone")


def take(page: Page, name: str, *, height: int | None = None) -> None:
    """One picture of the screen."""
    if height:
        size = page.viewport_size or {"width": 1200, "height": height}
        page.set_viewport_size({"width": size["width"], "height": height})
    page.wait_for_timeout(300)
    page.screenshot(path=PICTURES / f"{name}.png")
    print(f"{name}.png")


def main() -> None:
    """All of it, in a database that is gone afterwards."""
    PICTURES.mkdir(exist_ok=True)
    clock = Clock()
    with tempfile.TemporaryDirectory() as folder:
        url = f"sqlite:///{Path(folder) / 'pictures.sqlite3'}"
        engine = open_engine(url)
        upgrade(engine)
        settings = Settings.model_validate(
            {
                "database": url,
                "secret": secrets.token_hex(32),
                "rules": ROOT / "rules",
                "gateways": ROOT / "deploy/gateways",
            }
        )
        deps = build_deps(settings, engine=engine, clock=clock)
        password = secrets.token_urlsafe(20)
        with writing(engine) as connection:
            create_user(
                connection, Passwords(), shop="demo", login="olive", name="Olive Baca", password=password, role="office",
                now=clock(),
            )  # fmt: skip
        live_through(deps, clock)
        with served(deps) as address, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
            photograph(browser, address, deps, password)
            browser.close()
        engine.dispose()


if __name__ == "__main__":
    main()
