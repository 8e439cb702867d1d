"""Placeholders: those that can be filled are, in every form, and the others are refused at the start with line and remedy."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.edge.filling import PLACEHOLDER
from service.edge.gateways import ProfilesMistaken, load_gateways
from service.edge.numbers import FORMS, forms_of
from service.edge.places import in_json, steps
from tests.edge.test_odd_sends import made

GOOD = """
gateway: mine
about: for tests
receive:
  body: form
  auth: [{kind: bearer}]
  sender: body:from
  text: body:text
  id: body:id
  answer: {kind: reply, template: "{reply} {body:id}", nothing_template: "{query:x}"}
  asks_first: {auth: [{kind: bearer}], echo: "query:x"}
send:
  url: "https://carrier.example/send"
  fields: {to: "{to}", text: "{text}"}
"""


def load(folder: Path, text: str) -> None:
    (folder / "mine.yaml").write_text(text)
    load_gateways(folder, lambda shop, name: None)


def test_the_profile_that_is_spoilt_below_is_good(tmp_path: Path) -> None:
    load(tmp_path, GOOD)


ASKS = 'echo: "query:x"'
ANSWER = 'template: "{reply} {body:id}"'


@pytest.mark.parametrize(
    ("was", "put", "where", "words"),
    [
        ("{to}", "{to|nationl}", "send > fields > to", 'Did you mean "to|national"?'),
        ("{to}", "{to|e164}", "send > fields > to", "{to|national}, {to|bare}, {to|00} or {to|number}"),
        ("{to}", "{text|national}", "send > fields > to", "{text|national} is no placeholder"),
        ("{to}", "{ to }", "send > fields > to", "{ to } is no placeholder"),
        ("{to}", "{To}", "send > fields > to", "{To} is no placeholder"),
        ("{to}", "{to?}", "send > fields > to", "{to?} is no placeholder"),
        ("{to}", "+{to|number}", "send > fields > to", "A number can only be a JSON field of its own"),
        ("{to}", "{secret:Key-1}", "send > fields > to", "A name is lower-case letters"),
        ("{to}", "{computed:sign}", "send > fields > to", "Nothing called sign is computed"),
        ("{to}", "{computed:Sign}", "send > fields > to", "A name is lower-case letters"),
        ("{to}", "{body:from}", "send > fields > to", "Places are of what comes in"),
        ("{to}", "{reply}", "send > fields > to", "{reply} is no placeholder"),
        ("{to}", "{receipt_url}", "send > fields > to", "the profile has no receipts"),
        ("{to}", "<a>{text}</a>", "send > fields > to", "Write {text|xml}"),
        ("{to}", "<a>{text|json}</a>", "send > fields > to", "Write {text|xml}"),
        ("{to}", "{to|xml|json}", "send > fields > to", "{to|xml|json} is no placeholder"),
        ("{to}", "{to|number|xml}", "send > fields > to", "{to|number|xml} is no placeholder"),
        (ASKS, f"{ASKS}, template: hello", "asks_first > template", "has no place in it. Write {echo} where it goes"),
        (ASKS, f"{ASKS}, template: '{{echo}} {{id}}'", "asks_first > template", "{id} is not filled here"),
        (ASKS, f"{ASKS}, template: '<a>{{echo}}', written: xml", "asks_first > template", "is no XML"),
        (ASKS, "template: '{echo}'", "asks_first > template", "Nothing is said of what {echo} is"),
        ("example/send", "example/{too}", "send > url", 'Did you mean "to"?'),
        ("  url:", "  auth: {kind: basic, user: '{secret:user}'}\n  url:", "send > auth > user", "sent as it stands"),
        ("  url:", "  reference: item:id\n  url:", "send > reference", "no place of an answer. Write body, body:NAME"),
        ("  url:", "  reference: 'body:a[b'\n  url:", "send > reference", 'cannot be read from "[b" on'),
        (ANSWER, 'template: "{reply} {rply}"', "answer > template", 'Did you mean "reply"?'),
        (ANSWER, 'template: "{reply} {receipt_url}"', "answer > template", "{receipt_url} is no placeholder here"),
        (ANSWER, 'template: "{reply} {secret:url}"', "answer > template", "and places of the delivery, such as {query:id}"),
        (ANSWER, 'template: "{reply} {item:id}"', "answer > template", '"item:id" is within one of several'),
        (ANSWER, 'template: "{reply} {body:id?}"', "answer > template", "The ? in {body:id?} means nothing"),
        (ANSWER, 'template: "{reply|national}"', "answer > template", "{reply|national} is no placeholder here"),
        ("{query:x}", "{reply}", "answer > nothing_template", "{reply} is no placeholder here"),
        ("{query:x}", "{key}", "answer > nothing_template", "{key} is no placeholder here"),
        (ANSWER, f"{ANSWER}, headers: {{x-id: '{{id}}'}}", "answer > headers > x-id", "{id} is not filled here"),
        (ANSWER, f"{ANSWER}, content_type: '{{id}}'", "answer > content_type", "{id} is not filled here"),
        ("kind: reply", "kind: fixed", "answer > template", "{reply} is no placeholder here. Here only places are filled"),
        ("kind: reply", "reference: 'query:m', kind: json", "answer > reference", "Write kind: reply, or leave"),
    ],
)  # fmt: skip
def test_a_placeholder_that_can_never_be_filled_is_refused(
    tmp_path: Path, was: str, put: str, where: str, words: str
) -> None:
    assert was in GOOD
    with pytest.raises(ProfilesMistaken) as wrong:
        load(tmp_path, GOOD.replace(was, put, 1))
    assert words in str(wrong.value)
    assert any(line.endswith(where) and "mine.yaml, line " in line for line in str(wrong.value).splitlines())


def test_a_pair_of_a_path_may_have_several_values() -> None:
    found = in_json(
        [{"type": "mo", "n": 1}, {"type": "dlr", "n": 2}, {"type": "mms", "n": 3}], steps("[type=mo|mms].n", "json")
    )
    assert found == [1, 3]


@pytest.mark.parametrize(
    "pair", ["[type=mo|]", "[type= mo]", "[type='mo']", '[type="mo"]', "[type==mo]", "[type =mo]", "[type]"]
)
def test_a_pair_that_nothing_has_is_refused(tmp_path: Path, pair: str) -> None:
    quoted = f"body:m{pair}.from".replace("'", "''")
    text = GOOD.replace("body: form", "body: json").replace("sender: body:from", f"sender: '{quoted}'")
    with pytest.raises(ProfilesMistaken, match=r"line 7, receive > sender"):
        load(tmp_path, text)


def test_a_number_is_written_in_every_form() -> None:
    fields: dict[str, Any] = {form: f"{{to|{form}}}" for form in ("national", "bare", "00")}
    fields |= {"both": "{to|national|number}", "number": "{to|number}", "plain": "{from}", "00 of ours": "x{from|00}"}
    assert made("hi", fields=fields, plus=False).body.decode() == (
        '{"national": "5055550142", "bare": "15055550142", "00": "0015055550142", "both": 5055550142, '
        '"number": 15055550142, "plain": "15055550100", "00 of ours": "x0015055550100"}'
    )


@pytest.mark.parametrize(
    ("number", "national"),
    [
        ("+15055550142", "5055550142"), ("+442079460018", "02079460018"), ("+390612345678", "0612345678"),
        ("72345", "72345"), ("SHOP", "SHOP"),
    ],
)  # fmt: skip
def test_the_national_form_is_what_is_dialled_within_the_country(number: str, national: str) -> None:
    """London's and Rome's numbers keep the 0 that is dialled there; a short code has one form (source N1)."""
    assert FORMS["national"](number) == national


@given(number=st.text(alphabet="+0123456789 aZ", max_size=18))
def test_any_number_has_all_forms_and_all_of_them_are_placeholders(number: str) -> None:
    for name in forms_of({"to": number}):
        assert PLACEHOLDER.fullmatch(f"{{{name}}}")
