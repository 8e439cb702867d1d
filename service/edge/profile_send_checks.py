"""What fits its schema and yet cannot be sent: placeholders nobody can fill, bodies a request has not got."""

from __future__ import annotations

import re
from collections.abc import Iterator

from service.edge.escaping import escaped
from service.edge.filling import LIKE_A_PLACEHOLDER, OF_THE_REQUEST, PLACEHOLDER
from service.edge.numbers import forms_of
from service.edge.places import is_place
from service.edge.profile_mistakes import Mistake, Path, unreadable, unwalkable
from service.edge.profile_proofs import Basic
from service.edge.profile_send import Send, in_characters
from service.rulebook.problems import did_you_mean

KNOWN = (
    *forms_of({"to": "", "from": ""}), "text", "key", "shop", "coding", "receipt_url", "time", "time_unix", "time_unix_ms",
    "time_iso", "nonce",
)  # fmt: skip
"""The placeholders of a send, besides secrets and computed values."""

SHORT = ", ".join([*(name for name in KNOWN if "|" not in name), "secret:NAME and computed:NAME"])


def of_send(send: Send) -> Iterator[Mistake]:
    """Everything in *send* that no text could ever go out by."""
    yield from _of_body(send)
    if any("{text" in template for path, template in templates(send) if path[1] in ("fields", "template")):
        for name, coding in (("seven_bit", send.seven_bit), ("beyond", send.beyond)):
            in_its_own = in_characters(send.body, coding)
            if in_its_own and coding.charset.lower().replace("_", "-") not in ("utf-8", "utf8"):
                found = f"A text in {send.body.upper()} is written in its characters, whatever the charset."
                yield Mistake(
                    ("send", name), found, "Write written: hex or base64 beside the charset, or leave it out."
                )
    yield from _of_success(send)
    seen: set[str] = set()
    for name, rule in send.computed.items():
        at = ("send", "computed", name)
        yield from _of_template((*at, "of"), rule.of, (*KNOWN, *OF_THE_REQUEST), seen)
        if rule.key and rule.digest == "none":
            yield Mistake((*at, "digest"), "A key needs a digest.", "Write digest: sha256.")
        seen.add(name)
    late = _of_the_request(send)
    for path, template in templates(send):
        yield from _of_template(path, template, KNOWN, set(send.computed))
        if path[1] != "headers" and any(name in late for name in re.findall(r"\{computed:([a-z0-9_]+)\}", template)):
            found = "What is computed of the request itself cannot stand in the part it is computed of."
            yield Mistake(path, found, "Put it under headers, or compute it of the values: {to}, {text}, {time_unix}.")
        yield from _of_a_document_within(path, template)
        if "|number}" in template and not (
            path[1] == "fields" and send.body == "json" and PLACEHOLDER.fullmatch(template)
        ):
            found = "A number can only be a JSON field of its own."
            yield Mistake(path, found, "Leave |number out, or write the field as {to|number} and nothing else.")
    if isinstance(send.auth, Basic):
        yield from as_it_stands(("send", "auth", "user"), send.auth.user)


def _of_a_document_within(path: Path, template: str) -> Iterator[Mistake]:
    """A document within a field, or a raw one: nobody but the profile knows that it is one, so it must say so."""
    kind = "xml" if template.lstrip().startswith("<") else "json" if template.lstrip()[:2] in ('{"', "[{", '["') else ""
    if not kind or path[1] not in ("fields", "query"):
        return
    if any(match[1] == "text" and match["within"] != kind for match in PLACEHOLDER.finditer(template)):
        breaks = "& or a <" if kind == "xml" else "quote or a new line"
        found = f"A text with a {breaks} in it would break the {kind.upper()} here."
        yield Mistake(path, found, f"Write {{text|{kind}}}, and the like for whatever else may hold such signs.")


def as_it_stands(at: Path, written: str | None) -> Iterator[Mistake]:
    """*written* is never filled: whoever put a placeholder there waits for it in vain."""
    for match in LIKE_A_PLACEHOLDER.finditer(written or ""):
        yield Mistake(at, f"{match[0]} is not filled here.", "Write the value itself; this is sent as it stands.")


def wants_receipts(send: Send) -> Path | None:
    """The field that tells the gateway where to report, if one does."""
    return next((path for path, template in templates(send) if "{receipt_url" in template), None)


def _of_success(send: Send) -> Iterator[Mistake]:
    if send.success.at is not None and not send.success.equals:
        found = "Nothing is said of what stands there when the text was taken."
        yield Mistake(("send", "success", "at"), found, 'Write equals: ["^OK"] with what the gateway says.')
    if send.success.at is None and (send.success.equals or send.success.later):
        yield Mistake(("send", "success"), "It is not said where the answer tells it.", "Write at: body, or body:NAME.")
    if send.reference_pattern and send.reference is None:
        yield Mistake(("send", "reference_pattern"), "There is nothing to take a part of.", "Write reference: body.")
    for path, place in ((("send", "success", "at"), send.success.at), (("send", "reference"), send.reference)):
        where, _, name = (place or "body").partition(":")
        if where not in ("body", "header"):
            found = f'"{place}" is no place of an answer.'
            yield Mistake(path, found, "Write body, body:NAME or header:NAME.")
        elif where == "body":
            yield from unwalkable(path, name, "json")


def _of_body(send: Send) -> Iterator[Mistake]:
    if send.fields and (send.method == "GET" or send.body == "query"):
        found = "A GET request has no body" if send.method == "GET" else "A request that is all query has no body"
        yield Mistake(("send", "fields"), f"{found}, so its fields are never sent.", "Write them under query:.")
    if send.template is not None and (send.method == "GET" or send.body != "xml"):
        yield Mistake(("send", "template"), "Only an xml body has a template.", "Write body: xml and method: POST.")
    if send.body == "xml" and send.method != "GET":
        if send.template is None:
            yield Mistake(
                ("send", "body"), "An xml body needs its document.", "Write template: with placeholders in it."
            )
        elif unreadable(PLACEHOLDER.sub(escaped("1", "xml"), send.template), "xml"):
            yield Mistake(("send", "template"), "The template is no XML.", "Close every element and quote.")
        if send.fields:
            yield Mistake(("send", "fields"), "An xml body has a template, no fields.", "Put them into the template.")
    if isinstance(send.fields, list) and send.body != "json":
        yield Mistake(("send", "fields"), "Only a JSON body can be a list.", "Write NAME: value.")
    if send.body == "raw" and isinstance(send.fields, dict) and set(send.fields) - {"text"}:
        yield Mistake(("send", "fields"), "A raw body has one field, text.", "Put the others under query: or headers:.")


def _of_the_request(send: Send) -> set[str]:
    """The computed values that are made of the request, directly or by others."""
    late: set[str] = set()
    for name, rule in send.computed.items():
        used = {match[1] for match in PLACEHOLDER.finditer(rule.of)}
        if used & set(OF_THE_REQUEST) or used & {f"computed:{one}" for one in late}:
            late.add(name)
    return late


def templates(send: Send) -> Iterator[tuple[Path, str]]:
    """Every template of *send* that is filled for a text, with its field."""
    yield ("send", "url"), send.url
    if send.template:
        yield ("send", "template"), send.template
    for part in ("query", "headers"):
        yield from ((("send", part, name), template) for name, template in getattr(send, part).items())
    yield from _strings(("send", "fields"), send.fields)


def _strings(at: Path, value: object) -> Iterator[tuple[Path, str]]:
    if isinstance(value, str):
        yield at, value
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from _strings((*at, key), item)
    elif isinstance(value, list):
        for number, item in enumerate(value):
            yield from _strings((*at, number), item)


def _of_template(at: Path, template: str, known: tuple[str, ...], computed: set[str]) -> Iterator[Mistake]:
    for match in LIKE_A_PLACEHOLDER.finditer(template):
        read = PLACEHOLDER.fullmatch(match[0])
        whole = read[1] if read else match[0].strip("{ }")
        kind, _, name = whole.partition(":")
        if read and (whole in known or (kind == "secret" and name)):
            continue
        if read and kind == "computed" and name:
            if name not in computed:
                remedy = did_you_mean(name, computed) or "Say it under computed:, before what uses it."
                yield Mistake(at, f"Nothing called {name} is computed.", remedy)
        elif whole in OF_THE_REQUEST:
            yield Mistake(at, f"{match[0]} can only be used in a computed value.", "Say it under computed:.")
        else:
            yield Mistake(at, f"{match[0]} is no placeholder.", _instead(whole, known))


def _instead(written: str, known: tuple[str, ...]) -> str:
    """What to write for a placeholder that is none."""
    if written.startswith(("secret:", "computed:")):
        return "A name is lower-case letters, digits and underscores, and begins with a letter."
    if is_place(written):
        return "Places are of what comes in; write what goes out."
    meant = did_you_mean(written, known)
    if "|" in written and not meant:
        return (
            "A number may be written {to|national}, {to|bare}, {to|00} or {to|number}, and what stands in a document or an "
            "address within a field {text|xml}, {text|json}, {text|percent} or {text|form}; there are no other forms."
        )
    return meant or f"The placeholders are {SHORT}."
