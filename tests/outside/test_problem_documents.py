"""Problem documents against RFC 9457 (source A9)."""

from __future__ import annotations

import json
from http import HTTPStatus

import pytest

from service.edge.problems import problem, whereabouts


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
