"""Profiles as files: those we ship can be used, and a mistake in one is named with its line and remedy."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from service.edge.gateways import Gateway, ProfilesMistaken, SecretMissing, load_gateways
from service.edge.profile import Profile
from service.workshop.publish import publish_profile
from tests.conftest import ROOT

GOOD = """
gateway: mine
about: for tests
receive:
  auth: [{kind: bearer}]
  sender: body:from
  text: body:text
  id: body:id
send: {url: "https://carrier.example/send", fields: {to: "{to}", text: "{text}"}}
"""


def load(folder: Path, text: str, name: str = "mine") -> dict[str, Gateway]:
    (folder / f"{name}.yaml").write_text(text)
    return load_gateways(folder, lambda shop, name: None)


def test_the_profiles_we_ship_can_be_used() -> None:
    gateways = load_gateways(ROOT / "deploy" / "gateways", lambda shop, name: None)
    assert set(gateways) == {"loopback", "standard", "form_basic", "query_reply", "raw_text"}
    assert gateways["loopback"].local
    assert [name for name, g in gateways.items() if g.answers_at_once] == ["query_reply"]


def test_a_good_profile_is_read(tmp_path: Path) -> None:
    assert load(tmp_path, GOOD)["mine"].profile.receive is not None


@pytest.mark.parametrize(
    ("was", "put", "line", "words"),
    [
        ("sender: body:from", "sendr: body:from", 6, 'Did you mean "sender"?'),
        ("sender: body:from", "sender: from", 6, 'receive > sender\n  "from" is no place; write body:NAME'),
        ("kind: bearer", "kind: berer", 5, "berer"),
        ("auth: [{kind: bearer}]", "auth: []", 5, "auth"),
        ("gateway: mine", "gateway: yours", 2, "same name"),
        ("id: body:id", "id: {of: [sender, text]}", 4, "repeat_within_s"),
        ("about: for tests", "about: for tests\nlocal: yes", 0, "a local gateway has no receive"),
        ("id: body:id", "id: body:id\n  time: {at: body:t, written: '%d.%m'}", 9, "no year; write %Y"),
        ("id: body:id", "id: body:id\n  time: {at: body:t, zone: Here/There}", 9, "is no time zone"),
        (
            "id: body:id",
            "id: body:id\n  charset: {names: {'8': hex utf61}}",
            9,
            '> names > 8\n  "utf61" is no charset',
        ),
        ("auth: [{kind: bearer}]", "auth: [{kind: hmac}]", 5, "needs header or at"),
        ("auth: [{kind: bearer}]", "auth: [{kind: hmac, header: x, keyed: no}]", 5, "needs {secret} in signs"),
        (
            "auth: [{kind: bearer}]",
            "auth: [{kind: hmac, header: x, signs: '{bdy}'}]",
            5,
            "{bdy} in signs is no placeholder",
        ),
        (
            "id: body:id",
            "id: body:id\n  asks_first: {auth: [{kind: bearer}], echo: 'body:word'}",
            9,
            "A GET request has no body. Write query:word, or method: POST",
        ),
        (
            "id: body:id",
            "id: body:id\n  asks_first: {method: POST, body: json, auth: [{kind: bearer}], echo: 'body:word'}",
            4,
            "to be told from a text",
        ),
        (
            "id: body:id",
            "id: body:id\n  asks_first: {echo: 'query:word'}",
            9,
            "says back only what comes with a proof",
        ),
        ("id: body:id", "id: body:id\n  asks_first: {only: {'query:x': [y]}}", 9, "needs echo, a place, or template"),
        (
            "auth: [{kind: bearer}]",
            "auth: [{kind: hmac, header: x, sorted: {between: '&'}}]",
            5,
            "and signs has neither",
        ),
        ("sender: body:from", "sender: item:from", 6, "Say in each where the list stands"),
        ("sender: body:from", "sender: 'body:a[b'", 6, 'cannot be read from "[b" on'),
        ("  auth:", "  each: body:m\n  auth:", 9, "the same id"),
        ("  auth:", "  each: header:m\n  auth:", 5, "can be no list. Write body:NAME"),
        ("  auth:", "  body: raw\n  auth:", 7, "Write query:from, or say body: json, form or xml"),
        ("  auth:", "  method: GET\n  auth:", 7, "A GET request has no body. Write query:from, or method: POST"),
        ("  id: body:id", "  id: body:id\n  answer: {kind: fixed}", 9, "Write template:"),
        (
            "  id: body:id",
            "  id: body:id\n  answer: {kind: reply, written: xml, template: '<a>{reply}'}",
            9,
            "is no XML",
        ),
        (
            "  id: body:id",
            "  id: body:id\n  answer: {kind: reply, written: json, template: '{\"a\"}{reply}'}",
            9,
            "is no JSON",
        ),
        ("  id: body:id", "  id: body:id\n  answer: {kind: reply, template: hello}", 9, "Write {reply} where it goes"),
        (
            "send: {",
            "send: {method: GET, ",
            9,
            "send > fields\n  A GET request has no body, so its fields are never sent. Write",
        ),
        ("send: {", "send: {body: query, ", 9, "Write them under query"),
        ("send: {", "send: {body: xml, template: '<a>{text}', ", 9, "The template is no XML"),
        ("send: {", "send: {body: xml, ", 9, "An xml body needs its document"),
        ("{to: ", "{zz: '{keyy}', to: ", 9, '{keyy} is no placeholder. Did you mean "key"?'),
        ("{to: ", "{zz: '{body}', to: ", 9, "can only be used in a computed value"),
        ("send: {", "send: {query: {s: '{computed:sgn}'}, computed: {sign: {of: x}}, ", 9, 'Did you mean "sign"?'),
        (
            "send: {",
            "send: {query: {s: '{computed:sign}'}, computed: {sign: {of: '{body}'}}, ",
            9,
            "Put it under headers",
        ),
        ("send: {", "send: {computed: {sign: {of: x, key: k, digest: none}}, ", 9, "A key needs a digest"),
        ("send: {", "send: {success: {at: body, equals: ['(']}, ", 9, 'the pattern "(" cannot be read'),
        ("send: {", "send: {success: {at: body}, ", 9, "Write equals"),
        ("send: {", "send: {success: {equals: ['OK']}, ", 9, "Write at: body"),
        ("send: {", "send: {beyond: {charset: utf-16-be}, ", 9, "Write written: hex or base64"),
    ],
)
def test_a_mistake_is_named_with_file_line_and_remedy(
    tmp_path: Path, was: str, put: str, line: int, words: str
) -> None:
    with pytest.raises(ProfilesMistaken) as wrong:
        load(tmp_path, GOOD.replace(was, put))
    assert f"{tmp_path.name}/mine.yaml" in str(wrong.value)
    assert words in str(wrong.value)
    assert not line or f"line {line}" in str(wrong.value)


def test_a_gateway_that_cannot_send_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ProfilesMistaken, match="send is missing"):
        load(tmp_path, GOOD.split("send:")[0])


def test_all_mistakes_of_all_files_are_told_at_once(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("gateway: a")
    (tmp_path / "b.yaml").write_text("[")
    with pytest.raises(ProfilesMistaken) as wrong:
        load(tmp_path, GOOD)
    assert "a.yaml" in str(wrong.value)
    assert "b.yaml" in str(wrong.value)


def test_an_empty_folder_is_a_mistake(tmp_path: Path) -> None:
    with pytest.raises(ProfilesMistaken, match="PLAINFAULT_GATEWAYS"):
        load_gateways(tmp_path, lambda shop, name: None)


@pytest.mark.parametrize("kept", ["demo/mine.token", "mine.token", "demo/mine", "mine"])
def test_a_secret_is_found_by_shop_gateway_and_name(tmp_path: Path, kept: str) -> None:
    secrets = {kept: "s3cret"}
    gateway = Gateway(
        load(tmp_path, GOOD)["mine"].profile, lambda shop, name: secrets.get(f"{shop}/{name}") or secrets.get(name)
    )
    assert gateway.secret("demo", "token") == "s3cret"


def test_a_missing_secret_says_how_to_give_it(tmp_path: Path) -> None:
    with pytest.raises(SecretMissing, match=r"mine\.token.*PLAINFAULT_GATEWAY_SECRETS"):
        load(tmp_path, GOOD)["mine"].secret("demo", "token")


def test_no_profile_holds_a_secret() -> None:
    for path in (ROOT / "deploy" / "gateways").glob("*.yaml"):
        assert "whsec_" not in path.read_text().replace("(whsec_...)", "")


def test_receipts_at_the_hook_must_be_told_from_texts() -> None:
    with pytest.raises(ValueError, match="need only"):
        Profile.model_validate(
            {
                "gateway": "g",
                "about": "x",
                "send": {"url": "https://carrier.example"},
                "receipts": {"key": "body:k", "state": "body:s", "delivered": ["ok"], "at_the_hook": "yes"},
            }
        )


def test_several_texts_cannot_be_replied_to_in_one_answer(tmp_path: Path) -> None:
    text = GOOD.replace("  auth:", "  each: body:m\n  answer: {kind: reply}\n  auth:").replace(
        "id: body:id", "id: item:id"
    )
    with pytest.raises(ProfilesMistaken, match="cannot carry the replies to several people"):
        load(tmp_path, text)


@pytest.mark.parametrize(
    ("was", "put", "line", "words"),
    [
        ("sender: body:from", "sender: body:from?", 6, '"body:from?" says that it may be missing'),
        ("id: body:id", "id: body:id?", 8, "only the places under also can say; write body:id"),
        ("id: body:id", "id: body:id\n  media: [body:m?]", 9, "write body:m"),
        ("id: body:id", "id: body:id\n  only: {'body:type?': [x]}", 9, "write body:type"),
        ("id: body:id", "id: {of: [sender, text], also: [body:n??]}", 8, "says that it may be missing"),
        ("id: body:id", "id: body:id\n  parts: {reference: body:r, number: body:n}", 9, '"of" is missing'),
        (
            "id: body:id",
            "id: body:id\n  parts: {reference: body:r, number: body:n, of: item:of}",
            9,
            'receive > parts > of\n  "item:of" is within one of several',
        ),
        ("  auth:", "  asks_first: {auth: {kind: bearer}, echo: query:x}\n  auth:", 5, "not a list"),
        (
            "send: {",
            "receipts: {key: body:k, state: body:s, delivered: ok}\nsend: {",
            9,
            '"ok" is not a list. Write [ok]',
        ),
        (
            "send: {",
            "receipts: {key: body:k, state: body:s, delivered: [ok], answer: {kind: reply}}\nsend: {",
            9,
            "receipts > answer > kind\n  Nobody is replied to",
        ),
        (
            "send: {",
            "receipts: {key: body:k, state: body:s, delivered: [ok], answer: {kind: fixed}}\nsend: {",
            9,
            "Write template:",
        ),
    ],
)
def test_a_mistake_in_what_comes_in_is_named_with_its_remedy(
    tmp_path: Path, was: str, put: str, line: int, words: str
) -> None:
    with pytest.raises(ProfilesMistaken) as wrong:
        load(tmp_path, GOOD.replace(was, put))
    assert words in str(wrong.value)
    assert f"line {line}" in str(wrong.value)


def test_one_place_may_stand_where_several_may(tmp_path: Path) -> None:
    text = GOOD.replace("id: body:id", "id: {of: [sender, text], also: body:n}\n  media: query:mm")
    receive = load(tmp_path, text)["mine"].profile.receive
    assert receive is not None
    assert receive.media == ("query:mm",)


def test_the_published_schema_of_profiles_is_in_step_and_named_by_every_profile(tmp_path: Path) -> None:
    folder = ROOT / "deploy" / "gateways"
    assert publish_profile(folder) == (), "run: plainfault workshop publish"
    assert [path.name for path in publish_profile(tmp_path)] == ["profile.json"]
    schema = json.loads((folder / "schema" / "profile.json").read_text("utf-8"))
    assert set(schema["properties"]) == set(Profile.model_fields)
    assert schema["$defs"]["Send"]["properties"]["plus"]["enum"] == [True, False, "yes", "no"]
    for path in folder.glob("*.yaml"):
        assert path.read_text("utf-8").startswith("# yaml-language-server: $schema=schema/profile.json\n")
