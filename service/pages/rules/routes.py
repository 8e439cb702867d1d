"""The rule author's place at the desk: reading only. Files are edited where they stand; nothing here changes them."""

from __future__ import annotations

from functools import partial
from threading import Lock
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Depends, Response

from service.access.guard import Guard
from service.access.sessions import SignedIn
from service.edge.deps import Deps
from service.pages.answer import PageRoute, notice, show
from service.pages.desk.views import frame_for_page
from service.pages.rules.page import Outcome, build_page, of_cover, of_examples, of_trial
from service.rulebook.examples import every_example
from service.rulebook.folder import Folder, read_folder
from service.rulebook.loading import RulesMistaken, load_rulebook
from service.rulebook.model import Rulebook
from service.storage.engine import reading
from service.storage.shops import edition_source
from service.storage.turns import last_turns
from service.workshop.cover import findings
from service.workshop.examples import missed_examples
from service.workshop.trial.past import stored
from service.workshop.trial.trying import trial

HERE = "/desk/rules"
MOST_TURNS = 100
"""Turns that a trial on the page takes at most; the command takes as many as one likes."""
RUNS = ("examples", "cover", "trial")


def rules_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/rules`` and its runs: one at a time, since they take seconds of the machine that answers customers."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    author = Depends(guard.page("write_rules"))
    one_at_a_time = Lock()

    @router.get(HERE)
    def page(session: SignedIn = author, run: str = "", machine: str = "", last: int = 20) -> Response:
        if run not in RUNS:
            return _page(deps, session, "", "", 0)
        if not one_at_a_time.acquire(blocking=False):
            return notice(429, "Another run is under way", "Try again in half a minute.", HERE, "Back to the rules")
        try:
            return _page(deps, session, run, machine, max(1, min(last, MOST_TURNS)))
        finally:
            one_at_a_time.release()

    return router


def _page(deps: Deps, session: SignedIn, run: str, machine: str, last: int) -> Response:
    rules, shop = deps.settings.rules, session.shop
    folder = read_folder(rules, [shop])
    try:
        written = load_rulebook(rules, shop)
    except RulesMistaken:
        written = None
    outcome = _run(deps, folder, written, shop, run, machine, last) if written else None
    frame = frame_for_page(deps, session, title="Rules", here=HERE)
    return show("rules/templates/rules.html", build_page(frame, folder, shop, written, deps.rulebook_of(shop), outcome))


def _run(
    deps: Deps, folder: Folder, written: Rulebook, shop: str, run: str, machine: str, last: int
) -> Outcome | None:  # fmt: skip
    if run == "examples":
        return of_examples(sum(1 for _ in every_example(written)), missed_examples(written))
    if run == "cover" and machine in written.appliances:
        return of_cover(machine.replace("_", " "), findings(folder, written, [machine]))
    if run != "trial":
        return None
    with reading(deps.engine) as connection:
        past = [stored(row) for row in last_turns(connection, shop, last)]
        sources = partial(edition_source, connection, shop)
        return of_trial(trial(past, written, sources), deps.clock(), ZoneInfo(written.shop.timezone))
