"""A secret that is not there: told at the start, no text lost by it, and everything goes out once it is given."""

from __future__ import annotations

import logging
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner
from pydantic import SecretStr
from sqlalchemy import Engine

from service.app import build_deps
from service.cli import main
from service.edge.deps import Deps
from service.edge.gateways import Gateway
from service.edge.network import Network
from service.edge.outbox import Sent, send_due
from service.edge.profile import Profile
from service.edge.readiness import GatewaysNotReady, look_over, names_of
from service.rulebook.loading import load_rulebook
from service.settings import Settings
from service.storage import alarms
from service.storage.engine import reading, writing
from tests.conftest import RULES, Clock
from tests.edge.conftest import Carrier, Line, json_gateway

MakeDeps = Callable[..., Deps]

MINE = """
gateway: mine
about: for tests
receive:
  auth: [{kind: hmac, secret: sign, header: x-sign, key_written: hex}]
  sender: body:from
  text: body:text
  id: body:id
  asks_first: {auth: [{kind: shared_secret, secret: word, at: "query:w"}], echo: "query:e"}
receipts: {auth: [{kind: shared_secret, at: "query:t"}], key: body:k, state: body:s, delivered: [ok]}
send:
  url: "{secret:url}/{secret:account}"
  auth: {kind: basic, user: u, secret: password}
  headers: {x-sign: "{computed:s}"}
  computed: {s: {of: "{body}{secret:salt}", key: send_key, key_written: base64}}
  fields: {to: "{to}", text: "{text}", tell: "{receipt_url}"}
"""
ALL = {
    "mine.sign": "00ff", "mine.word": "w", "mine.token": "t", "mine.url": "https://carrier.example", "mine.account": "a",
    "mine.password": "p", "mine.salt": "s", "mine.send_key": "a2V5",
}  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with the profile ``mine`` and the simulated phone."""
    (tmp_path / "mine.yaml").write_text(MINE)
    (tmp_path / "loopback.yaml").write_text("gateway: loopback\nabout: inside\nlocal: yes\n")
    return tmp_path


def environment(folder: Path, secrets: str, **more: str) -> dict[str, str]:
    return {"PLAINFAULT_GATEWAYS": str(folder), "PLAINFAULT_GATEWAY_SECRETS": secrets} | more


def ready(secrets: dict[str, str], **shops: str) -> tuple[str, ...]:
    """What is told of the gateway ``mine`` and *shops*, each with the gateway it sends through."""
    settings = Settings.model_validate({"database": "sqlite://", "secret": "s" * 32, "gateway_secrets": secrets})
    profile = Profile.model_validate(yaml.safe_load(MINE))
    phone = Profile(gateway="loopback", about="inside", local=True)
    gateways = {p.gateway: Gateway(p, settings.gateway_secret) for p in (profile, phone)}
    return look_over(gateways, shops, secrets)


def test_every_secret_a_profile_names_is_known() -> None:
    names = names_of(Profile.model_validate(yaml.safe_load(MINE)))
    assert set(names.send) == {"url", "account", "password", "salt", "send_key"}
    assert set(names.take) == {"sign", "word", "token"}


def test_a_gateway_without_any_secret_is_left_alone_and_a_ready_one_too() -> None:
    assert ready({}, demo="loopback") == ()
    assert ready(ALL, demo="mine") == ()
    assert ready({"mine": "one-for-all"}, demo="loopback")[0].count("mine.") == 2, "not an address, and not hex"


def test_a_gateway_half_set_up_is_told_with_all_that_is_missing() -> None:
    some = {name: value for name, value in ALL.items() if name not in ("mine.account", "mine.salt", "mine.word")}
    (told,) = ready(some, demo="loopback")
    assert told == (
        'Gateway mine is half set up for shop demo: it cannot send without "mine.account", "mine.salt"; '
        'it takes no delivery without "mine.word". Set them in PLAINFAULT_GATEWAY_SECRETS.'
    )


@pytest.mark.parametrize("gone", ["mine.account", "mine.url", "mine.send_key"])
def test_a_shop_whose_gateway_cannot_send_is_refused_and_the_other_shop_is_not(gone: str) -> None:
    own = {f"demo/{name}": value for name, value in ALL.items() if name != gone}
    with pytest.raises(GatewaysNotReady) as wrong:
        ready(own, demo="mine", second="loopback")
    assert str(wrong.value) == (
        f'Shop demo sends through gateway mine: it cannot send without "{gone}". Set it in PLAINFAULT_GATEWAY_SECRETS.'
    )


def test_a_shop_that_can_send_and_not_take_is_told_and_starts() -> None:
    (told,) = ready({name: value for name, value in ALL.items() if name != "mine.sign"}, demo="mine")
    assert 'it takes no delivery without "mine.sign"' in told


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("mine.url", "s3cr.example", "no address; it begins with https://"),
        ("mine.send_key", "s3cr*t", "not base64"),
        ("mine.sign", "s3cr-t", "not hex"),
    ],
)
def test_a_secret_that_cannot_be_used_is_told_without_its_value(name: str, value: str, words: str) -> None:
    (told,) = ready(ALL | {name: value}, demo="loopback")
    assert f'"{name}" is ' in told
    assert words in told
    assert value not in told


def test_a_secret_nobody_asks_for_and_a_gateway_that_is_not_there_are_told() -> None:
    (told,) = ready(ALL | {"mine.acount": "x"}, demo="mine")
    assert told.endswith('holds "mine.acount", and no profile asks for it. Did you mean "mine.account"?')
    with pytest.raises(GatewaysNotReady, match=r'"mime", and there is no profile.*Did you mean "mine"\?.*demo\.yaml'):
        ready({}, demo="mime")


def test_a_shop_that_names_no_gateway_where_there_is_no_simulated_phone_is_told_and_starts() -> None:
    gateway = Gateway(json_gateway(gateway="mine"), lambda shop, name: None)
    (told,) = look_over({"mine": gateway}, {"demo": "loopback"}, ())
    assert "texts to the on-call phones do not go out. Set gateway: in rules/shops/demo.yaml" in told


def test_the_service_starts_with_a_warning_in_the_log_or_not_at_all(
    folder: Path, engine: Engine, clock: Clock, caplog: pytest.LogCaptureFixture
) -> None:
    def start(rules: Path, **secrets: str) -> Deps:
        given = {name.replace("__", "."): value for name, value in secrets.items()}
        settings = Settings(
            database="sqlite://", secret=SecretStr("s" * 32), rules=rules, gateways=folder,
            gateway_secrets={name: SecretStr(value) for name, value in given.items()},
        )  # fmt: skip
        return build_deps(settings, engine=engine, clock=clock)

    caplog.set_level(logging.WARNING)
    start(RULES)
    assert not caplog.records
    start(RULES, mine__url="https://carrier.example")
    (record,) = caplog.records
    assert '"mine.account"' in vars(record)["why"]


def test_the_command_says_how_every_gateway_stands(folder: Path) -> None:
    said = CliRunner().invoke(main, ["gateways"], env=environment(folder, '{"mine.url": "https://carrier.example"}'))
    assert said.exit_code == 0, said.output
    assert "loopback: inside\n  ready for demo, which sends through it\n" in said.output
    assert "Gateway mine is half set up for shop demo" in said.output
    assert said.output.endswith("The line starts on this.\n")
    (folder / "mine.yaml").write_text(MINE.replace("{text}", "{txt}"))
    said = CliRunner().invoke(main, ["gateways"], env=environment(folder, "{}"))
    assert said.exit_code == 1
    assert "mine.yaml, line 16, send > fields > text" in said.output
    assert 'Did you mean "text"?' in said.output
    assert "loopback: inside" in said.output, "the others are told all the same"


def test_neither_command_starts_for_a_shop_whose_gateway_lacks_a_secret(folder: Path, tmp_path: Path) -> None:
    """With the rules of the house, and a shop that sends through ``mine``."""
    rules = Path(shutil.copytree(RULES, tmp_path / "rules", ignore=shutil.ignore_patterns(".kept")))
    demo = rules / "shops" / "demo.yaml"
    demo.write_text(demo.read_text() + "\ngateway: mine\n")
    more = {
        "PLAINFAULT_RULES": str(rules), "PLAINFAULT_DATABASE": f"sqlite:///{tmp_path / 'line.sqlite3'}",
        "PLAINFAULT_SECRET": "s" * 40,
    }  # fmt: skip
    for command in ("gateways", "serve"):
        said = CliRunner().invoke(main, [command], env=environment(folder, '{"mine.url": "https://c.example"}', **more))
        assert said.exit_code == 1
        assert 'Shop demo sends through gateway mine: it cannot send without "mine.account"' in said.output
        assert "Traceback" not in said.output
    assert load_rulebook(rules, "demo").shop.gateway == "mine"


def without_secret(deps: Deps) -> Deps:
    """As *deps*, and the gateway ``plain`` has lost its address."""
    return replace(deps, gateways={**deps.gateways, "plain": Gateway(json_gateway(), lambda shop, name: None)})


@pytest.fixture
def line(make_deps: MakeDeps) -> Line:
    return Line(make_deps(json_gateway())).begin()


def standing(line: Line) -> list[tuple[str, str]]:
    with reading(line.deps.engine) as connection:
        return [(row.kind, row.text) for row in alarms.open_alarms(connection)]


def test_a_text_without_a_secret_waits_is_told_once_and_goes_out_after_the_next_start(
    line: Line, network: Network, carrier: Carrier, clock: Clock, caplog: pytest.LogCaptureFixture
) -> None:
    line.write("one")
    line.write("two")
    mistaken = without_secret(line.deps)
    for _ in range(30):  # more often than any gateway is tried
        send_due(mistaken, network)
        clock.forward(seconds=60)
    row = line.row("one")
    assert (row.status, row.attempts) == ("waiting", 0)
    assert 'needs its secret "url"' in row.reason
    ((kind, words),) = standing(line)
    assert kind == "trouble"
    assert "PLAINFAULT_GATEWAY_SECRETS" in words
    assert len([record for record in caplog.records if "secret is missing" in record.message]) == 1
    assert not carrier.requests

    while send_due(line.deps, network) != Sent():
        clock.forward(seconds=60)
    assert carrier.texts() == ["one", "two"]
    assert line.states() == {"one": "sent", "two": "sent"}


def test_a_person_who_has_seen_it_is_not_told_again_for_the_same_text(
    line: Line, network: Network, clock: Clock
) -> None:
    line.write("one")
    mistaken = without_secret(line.deps)
    send_due(mistaken, network)
    with writing(line.deps.engine) as connection:
        (alarm,) = alarms.open_alarms(connection)
        alarms.acknowledge(connection, shop="demo", identity=alarm.id, by="office", now=clock())
    clock.forward(seconds=60)
    send_due(mistaken, network)
    assert standing(line) == []


def test_a_danger_that_waits_for_a_secret_rings_as_one_that_did_not_arrive(line: Line, network: Network) -> None:
    line.write("Leave now.", "danger")
    send_due(without_secret(line.deps), network)
    assert line.row("Leave now.").status == "waiting"
    assert standing(line) == [("danger", "A danger instruction did not reach the customer. Call them.")]


def test_a_key_that_cannot_be_read_is_a_setting_to_mend_too(line: Line, network: Network) -> None:
    send: dict[str, Any] = {
        "url": "{secret:url}", "headers": {"x": "{computed:s}"},
        "computed": {"s": {"of": "{text}", "key": "k", "key_written": "hex"}},
    }  # fmt: skip
    gateway = Gateway(json_gateway(send=send), lambda shop, name: "http://carrier.example")
    line.write("one")
    send_due(replace(line.deps, gateways={"plain": gateway}), network)
    assert line.row("one").status == "waiting"
    assert line.row("one").reason.startswith("Gateway plain: a secret is not hex")
