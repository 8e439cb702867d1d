"""Every page, as those who may see it see it: declared, titled, linked, and closed to the others."""

from __future__ import annotations

import re
from dataclasses import fields
from html.parser import HTMLParser

import pytest
from fastapi.testclient import TestClient
from jinja2 import meta, nodes

from service.edge.deps import Deps
from service.pages.answer import Notice, templates
from service.pages.desk.correcting import CorrectPage
from service.pages.desk.days import DayPage
from service.pages.desk.list import ListPage
from service.pages.desk.opening import OpeningPage
from service.pages.desk.planning import PlanPage
from service.pages.desk.signing import SignInPage
from service.pages.desk.switches import SwitchesPage
from service.pages.desk.ticket import TicketPage
from service.pages.learning.page import LearningPage
from service.pages.links import sheet_path
from service.pages.phone.page import PhonePage, PickPage
from service.pages.reports.routes import ReportsPage
from service.pages.rules.page import RulesPage
from service.pages.sheet.page import SheetPage
from service.storage import visits_view
from service.storage.engine import reading
from tests.pages.conftest import SignIn

DECLARED = {
    "frame/notice.html": Notice,
    "desk/templates/sign_in.html": SignInPage,
    "desk/templates/list.html": ListPage,
    "desk/templates/ticket.html": TicketPage,
    "desk/templates/correct.html": CorrectPage,
    "desk/templates/plan.html": PlanPage,
    "desk/templates/opening.html": OpeningPage,
    "desk/templates/day.html": DayPage,
    "desk/templates/switches.html": SwitchesPage,
    "learning/templates/learning.html": LearningPage,
    "reports/templates/reports.html": ReportsPage,
    "rules/templates/rules.html": RulesPage,
    "sheet/templates/sheet.html": SheetPage,
    "phone/templates/pick.html": PickPage,
    "phone/templates/phone.html": PhonePage,
}
PARTS = {"base", "lines", "talk", "understood", "field", "outcome"}
OFFICE = (
    "/desk", "/desk?show=closed", "/desk?q=maria&show=all", "/desk/tickets/1001", "/desk/tickets/1002", "/desk/tickets/1003",
    "/desk/threads/thbo", "/desk/tickets/1001/visit", "/desk/tickets/1003/visit", "/desk/tickets/1001/correct", "/desk/new",
    "/desk/day", "/desk/day?day=2026-12-03", "/desk/shop", "/desk/reports",
    "/desk/learning",
)  # fmt: skip
OPEN = ("/sign-in", "/phone", "/phone/demo/+15055550142", "/phone/demo/+15055550199")


class Page(HTMLParser):
    """What a test asks of a page."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.heads, self.links, self.forms, self.ids, self.labels, self.fields = 0, [], [], [], set(), []
        self.title = re.search(r"<title>(.+?)</title>", html)
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.heads += tag == "h1"
        if tag in ("a", "link", "script"):
            self.links += [link for link in (told.get("href"), told.get("src")) if link]
        if tag == "form":
            self.forms.append((told.get("method"), told.get("action")))
        if tag == "label":
            self.labels.add(told.get("for"))
        if tag in ("input", "select", "textarea") and told.get("type") not in ("hidden", "radio", "checkbox"):
            self.fields.append(told.get("id"))
        if told.get("id"):
            self.ids.append(told["id"])


def used_names(name: str) -> set[str]:
    """The variables a template and all it takes in print."""
    tree = templates.parse(templates.loader.get_source(templates, name)[0])
    found = meta.find_undeclared_variables(tree) - {macro.name for macro in tree.find_all(nodes.Macro)}
    for other in meta.find_referenced_templates(tree):
        assert other is not None
        found |= used_names(other)
    return found


@pytest.mark.parametrize("name", DECLARED)
def test_a_page_declares_exactly_what_its_template_uses(name: str) -> None:
    loop_names = {"entry", "form"}  # named by the loop that includes the part
    assert used_names(name) - loop_names == {field.name for field in fields(DECLARED[name])}


def test_every_template_belongs_to_a_page() -> None:
    assert set(templates.list_templates(extensions=["html"])) == set(DECLARED) | {
        name for name in templates.list_templates(extensions=["html"]) if name.rsplit("/", 1)[1][:-5] in PARTS
    }


def paths_for(client: TestClient, deps: Deps) -> list[str]:
    with reading(deps.engine) as connection:
        visit = visits_view.visit_by_id(connection, "demo", "vmaria")
    assert visit is not None
    return [*OFFICE, sheet_path(deps, "demo", visit)]


def looked_at(client: TestClient, path: str) -> Page:
    answer = client.get(path)
    assert answer.status_code == 200, (path, answer.text[:300])
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    assert " style=" not in answer.text
    assert not re.search(r"<script(?![^>]*src=)", answer.text)
    page = Page(answer.text)
    assert page.heads == 1, path
    assert page.title, path
    assert len(page.ids) == len(set(page.ids)), (path, [i for i in page.ids if page.ids.count(i) > 1])
    assert set(page.fields) <= page.labels, (path, set(page.fields) - page.labels)
    return page


def test_the_office_s_pages_have_one_heading_labels_and_links_that_resolve(signed_in: SignIn, deps: Deps) -> None:
    client = signed_in("olive")
    links: set[str] = set()
    for path in paths_for(client, deps):
        links |= set(looked_at(client, path).links)
    for link in sorted(links):
        if link.startswith(("tel:", "geo:", "#")):
            continue
        answer = client.get(link)
        assert answer.status_code in (200, 303), (link, answer.status_code)


@pytest.mark.parametrize("path", OPEN)
def test_pages_for_everybody_open_without_signing_in(client: TestClient, path: str) -> None:
    looked_at(client, path)


def test_a_technician_sees_days_and_sheets_and_nothing_of_the_desk(signed_in: SignIn, deps: Deps) -> None:
    client = signed_in("ray")
    day = client.get("/desk/day?day=2026-12-03")
    assert "Ray Ortega" in day.text
    assert "Dee Whitfield" not in day.text
    assert "/desk/tickets/" not in day.text
    looked_at(client, "/desk/day?day=2026-12-03")
    for path in OFFICE:
        if not path.startswith("/desk/day"):
            assert client.get(path).status_code == 403, path


def test_nobody_sees_a_desk_page_without_signing_in(client: TestClient) -> None:
    for path in OFFICE:
        answer = client.get(path)
        assert (answer.status_code, answer.headers["location"][:8]) == (303, "/sign-in"), path


def test_a_ticket_that_is_not_there_is_said_to_be_missing(signed_in: SignIn) -> None:
    answer = signed_in().get("/desk/tickets/9999")
    assert answer.status_code == 404
    assert "no ticket #9999" in answer.text
