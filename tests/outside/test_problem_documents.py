"""Problem documents against RFC 9457 (source A9)."""

from __future__ import annotations

import json
from collections.abc import Iterator
from http import HTTPStatus

import pytest
from fastapi import FastAPI, HTTPException
from starlette.testclient import TestClient

from service.edge.problems import install_problem_documents, problem, whereabouts


@pytest.mark.parametrize("status", [400, 401, 404, 405, 408, 413, 422, 429, 500, 503])
def test_without_a_type_the_title_is_the_status_phrase(status: int) -> None:
    """Sections 3.1 and 4.2.1: type left out means about:blank; status is the real one."""
    response = problem(status)
    document = json.loads(bytes(response.body))
    assert response.headers["content-type"] == "application/problem+json"
    assert response.status_code == document["status"] == status
    assert document.get("type", "about:blank") == "about:blank"
    assert document["title"] == HTTPStatus(status).phrase


def test_not_found_says_not_found() -> None:
    assert json.loads(bytes(problem(404).body)) == {"title": "Not Found", "status": 404}


def test_extensions_are_further_members() -> None:
    """Section 3.2."""
    document = json.loads(bytes(problem(429, "Slow down.", headers={"Retry-After": "30"}, limit=5).body))
    assert document == {"title": "Too Many Requests", "status": 429, "detail": "Slow down.", "limit": 5}
    assert problem(429, headers={"Retry-After": "30"}).headers["retry-after"] == "30"


def test_a_status_nobody_registered_still_makes_a_document() -> None:
    assert json.loads(bytes(problem(499).body))["title"] == "Error"


def test_where_it_broke_never_says_what_it_said() -> None:
    try:
        int("my gate code is 4711")
    except ValueError as wrong:
        said = whereabouts(wrong)
    assert "4711" not in said
    assert "test_problem_documents.py" in said


@pytest.fixture
def web() -> Iterator[TestClient]:
    app = FastAPI()
    install_problem_documents(app)

    @app.get("/number/{n}")
    def number(n: int) -> int:
        if n == 0:
            raise RuntimeError("the gate code is 4711")
        if n == 1:
            raise HTTPException(303, headers={"Location": "/elsewhere"})
        if n == 2:
            raise HTTPException(403, "Only the office may do this.")
        return n

    with TestClient(app, follow_redirects=False) as client:
        yield client


@pytest.mark.parametrize(
    ("method", "path", "status", "detail"),
    [
        ("GET", "/nowhere", 404, None),
        ("POST", "/number/5", 405, None),
        ("GET", "/number/2", 403, "Only the office may do this."),
        ("GET", "/number/0", 500, None),
    ],
)
def test_every_error_of_the_application_is_a_problem_document(
    web: TestClient, method: str, path: str, status: int, detail: str | None
) -> None:
    answer = web.request(method, path)
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.status_code == answer.json()["status"] == status
    assert answer.json().get("detail") == detail


def test_an_unexpected_error_is_logged_by_its_place_alone(web: TestClient, caplog: pytest.LogCaptureFixture) -> None:
    assert "4711" not in web.get("/number/0").text + caplog.text
    (record,) = [r for r in caplog.records if r.name == "plainfault.web"]
    assert "test_problem_documents.py" in record.__dict__["where"]


def test_what_was_typed_is_not_said_back(web: TestClient) -> None:
    answer = web.get("/number/seven")
    assert answer.status_code == 422
    assert answer.json()["errors"][0]["where"] == "path.n"
    assert "seven" not in json.dumps(answer.json()["errors"])


def test_a_redirect_stays_a_redirect(web: TestClient) -> None:
    answer = web.get("/number/1")
    assert (answer.status_code, answer.headers["location"]) == (303, "/elsewhere")
