"""The door: other sites' forms, missing tokens, idle sessions, cookies, where one lands after signing in."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from fastapi.testclient import TestClient

from service.edge.deps import Deps
from service.storage import shops
from service.storage.engine import reading, writing
from tests.conftest import Clock
from tests.pages import makers
from tests.pages.conftest import SignIn
from tests.pages.small_rules import small_rulebook


def token_of(client: TestClient) -> str:
    found = re.search(r'name="csrf" value="([^"]+)"', client.get("/desk/day").text)
    assert found
    return found.group(1)


def paused(deps: Deps) -> bool:
    with reading(deps.engine) as connection:
        row = shops.shop_row(connection, "demo")
    assert row is not None
    return row.paused


def test_a_form_with_its_token_is_taken(signed_in: SignIn, deps: Deps) -> None:
    client = signed_in()
    answer = client.post("/desk/shop/pause", data={"csrf": token_of(client), "paused": "yes"})
    assert answer.status_code == 303
    assert paused(deps)


def test_a_form_without_a_token_is_refused(signed_in: SignIn, deps: Deps) -> None:
    """Source X7."""
    assert signed_in().post("/desk/shop/pause", data={"paused": "yes"}).status_code == 403
    assert not paused(deps)


def test_a_form_with_somebody_else_s_token_is_refused(signed_in: SignIn, client: TestClient, deps: Deps) -> None:
    theirs = token_of(signed_in("ada"))
    client.cookies.clear()
    assert signed_in("olive").post("/desk/shop/pause", data={"csrf": theirs, "paused": "yes"}).status_code == 403
    assert not paused(deps)


@pytest.mark.parametrize(
    "headers",
    [
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {"origin": "https://elsewhere.example"},
        {"origin": "null"},
    ],
)
@pytest.mark.parametrize("path", ["/desk/shop/pause", "/sign-in", "/phone/demo/+15055550142"])
def test_a_form_of_another_site_is_refused(signed_in: SignIn, path: str, headers: dict[str, str]) -> None:
    """Source X7: also with the right token."""
    client = signed_in()
    data = {"csrf": token_of(client), "paused": "yes", "login": "olive", "password": makers.PASSWORD, "text": "hello"}
    assert client.post(path, data=data, headers=headers).status_code == 403


def test_a_form_of_our_own_page_may_say_so(signed_in: SignIn) -> None:
    client = signed_in()
    data = {"csrf": token_of(client), "paused": "yes"}
    assert client.post("/desk/shop/pause", data=data, headers={"sec-fetch-site": "same-origin"}).status_code == 303


def test_the_cookie_is_secure_hidden_from_scripts_and_bound_to_the_host(client: TestClient) -> None:
    answer = client.post("/sign-in", data={"login": "olive", "password": makers.PASSWORD})
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith("__Host-plainfault=")
    for flag in ("Secure", "HttpOnly", "SameSite=Lax", "Path=/"):
        assert flag in cookie
    assert "Domain" not in cookie


def test_plain_http_from_elsewhere_is_refused_before_a_password_is_looked_at(client: TestClient) -> None:
    answer = client.post("http://192.0.2.7/sign-in", data={"login": "olive", "password": makers.PASSWORD})
    assert answer.status_code == 403
    assert "needs https" in answer.text
    assert "set-cookie" not in answer.headers


def test_plain_http_on_the_machine_itself_works(client: TestClient) -> None:
    answer = client.post("http://127.0.0.1/sign-in", data={"login": "olive", "password": makers.PASSWORD})
    assert answer.headers["set-cookie"].startswith("plainfault=")


def test_an_idle_session_is_led_to_the_sign_in(signed_in: SignIn, clock: Clock) -> None:
    client = signed_in()
    clock.forward(minutes=31)
    assert client.get("/desk").headers["location"] == "/sign-in?next=/desk"


def test_looking_at_pages_keeps_a_session_alive(signed_in: SignIn, clock: Clock) -> None:
    client = signed_in()
    for _ in range(4):
        clock.forward(minutes=20)
        assert client.get("/desk").status_code == 200


def test_what_a_page_fetches_by_itself_does_not_keep_a_session_alive(signed_in: SignIn, clock: Clock) -> None:
    client = signed_in()
    clock.forward(minutes=20)
    assert client.get("/desk", headers={"hx-request": "true"}).status_code == 200
    clock.forward(minutes=20)
    answer = client.get("/desk", headers={"hx-request": "true"})
    assert answer.headers["hx-redirect"] == "/sign-in"
    stream = client.get("/desk/changes", headers={"accept": "text/event-stream"})
    assert stream.status_code == 200  # refused, a browser would not ask again, and the page would stand there for ever
    assert "event: changed" in stream.text


def test_after_signing_in_one_is_where_one_wanted_to_go(client: TestClient) -> None:
    data = {"login": "olive", "password": makers.PASSWORD, "next": "/desk/tickets/1001"}
    assert client.post("/sign-in", data=data).headers["location"] == "/desk/tickets/1001"


@pytest.mark.parametrize(
    "elsewhere", ["https://elsewhere.example/", "//elsewhere.example", "/desk\\@x", "/desk//x", "javascript:x"]
)
def test_signing_in_leads_to_no_other_site(client: TestClient, elsewhere: str) -> None:
    data = {"login": "olive", "password": makers.PASSWORD, "next": elsewhere}
    assert client.post("/sign-in", data=data).headers["location"] == "/sign-in"


def test_a_wrong_password_is_said_beside_the_field_and_the_login_is_kept(client: TestClient) -> None:
    answer = client.post("/sign-in", data={"login": "olive", "password": "not this one at all"})
    assert answer.status_code == 401
    assert 'value="olive"' in answer.text
    assert re.search(r'id="password"[^>]*aria-describedby="wrong"', answer.text)
    assert "not this one at all" not in answer.text


def test_signing_out_ends_the_session(signed_in: SignIn) -> None:
    client = signed_in()
    token, cookie = token_of(client), dict(client.cookies)
    assert client.post("/sign-out", data={"csrf": token}).headers["location"] == "/sign-in"
    client.cookies.clear()
    client.cookies.update(cookie)  # somebody kept the cookie
    assert client.get("/desk").status_code == 303


def test_a_form_too_long_is_refused(signed_in: SignIn) -> None:
    client = signed_in()
    assert client.post("/desk/shop/pause", data={"csrf": token_of(client), "text": "x" * 300_000}).status_code == 403


def test_a_technician_can_post_nothing_of_the_office(signed_in: SignIn, deps: Deps) -> None:
    client = signed_in("ray")
    data = {"csrf": token_of(client), "paused": "yes", "reason": "repaired"}
    for path in ("/desk/shop/pause", "/desk/tickets/1001/close", "/desk/new", "/desk/tickets/1001/visit"):
        assert client.post(path, data=data).status_code == 403, path
    assert not paused(deps)


def test_a_shop_that_is_served_no_longer_is_no_choice_at_the_door(client: TestClient, deps: Deps) -> None:
    rulebook = replace(
        small_rulebook(), shop=small_rulebook().shop.model_copy(update={"shop": "gone", "number": "+15055550109"})
    )
    with writing(deps.engine) as connection:
        shops.install(connection, rulebook, deps.clock())
    assert "gone" not in client.get("/sign-in").text
    answer = client.post("/sign-in", data={"login": "olive", "password": makers.PASSWORD, "shop": "gone"})
    assert answer.status_code == 303
