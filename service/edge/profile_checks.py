"""What fits its schema and yet cannot work: places a request has not got, lists without ids, templates nobody can fill."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass

from service.edge.bodies import Malformed, xml_of
from service.edge.escaping import escaped, filled
from service.edge.filling import OF_THE_REQUEST, PLACEHOLDER
from service.edge.places import Source, place_of, steps
from service.edge.profile import Profile
from service.edge.profile_proofs import Hmac, SharedSecret
from service.edge.profile_receive import Answer, AsksFirst, Composed, Receipts, Receive
from service.edge.profile_send import Send
from service.rulebook.problems import did_you_mean

KNOWN = (
    "to", "from", "text", "key", "shop", "coding", "receipt_url", "time", "time_unix", "time_unix_ms", "time_iso", "nonce",
)  # fmt: skip
"""The placeholders of a send, besides secrets and computed values."""

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Mistake:
    """One thing that cannot work: at which field, what it is, what to do."""

    path: Path
    found: str
    remedy: str


def mistakes(profile: Profile) -> Iterator[Mistake]:
    """Everything in *profile* that no request could ever meet."""
    if profile.receive:
        yield from _of_receive(profile.receive)
    if profile.receipts:
        rule = profile.receipts
        if rule.at_the_hook and not rule.only and profile.receive and rule.each == profile.receive.each:
            found = "Receipts in the list of the texts cannot be told from texts."
            yield Mistake(("receipts", "at_the_hook"), found, 'Write only: {"item:NAME": [what receipts say there]}.')
        yield from _of_places(("receipts",), profile.receipts, _places(profile.receipts))
        if rule.answer:
            yield from _of_answer(("receipts", "answer"), rule.answer)
            if rule.answer.kind == "reply":
                found = "Nobody is replied to in the answer to a receipt."
                yield Mistake(("receipts", "answer", "kind"), found, "Write fixed, json or empty.")
    if profile.send:
        yield from _of_send(profile.send)


def segments(profile: Profile) -> int:
    """How many segments the hook's address may have after its own: as many as the profile has places for."""
    first = profile.receive.asks_first if profile.receive else None
    both = [rule for rule in (profile.receive, profile.receipts, first) if rule]
    numbers = [int(place[5:]) for rule in both for _, place in _places(rule) if place.startswith("path:")]
    signed = [way.signs for rule in both for way in rule.auth if isinstance(way, Hmac)]
    return max([*numbers, *(int(n) for pattern in signed for n in re.findall(r"\{path:([1-9])\}", pattern))], default=0)


def _places(rule: Receive | Receipts | AsksFirst) -> Iterator[tuple[Path, Source]]:
    """Every place that *rule* names, with its field."""
    for name in ("echo", "each", "sender", "recipient", "text", "key", "reference", "state"):
        if isinstance(place := getattr(rule, name, None), str):
            yield (name,), place
    for place in rule.only:
        yield ("only", place), place
    for number, way in enumerate(rule.auth):
        if isinstance(way, SharedSecret):
            yield ("auth", number, "at"), way.at
        elif isinstance(way, Hmac):
            yield from ((("auth", number, name), at) for name in ("at", "time") if (at := getattr(way, name)))
    if isinstance(rule, Receive):
        yield from ((("media", number), place) for number, place in enumerate(rule.media))
        also = rule.id.also if isinstance(rule.id, Composed) else ()
        yield from ((("id", "also", n), place_of(written)[0]) for n, written in enumerate(also))
        for name in ("reference", "number", "of") if rule.parts else ():
            yield ("parts", name), getattr(rule.parts, name)
        yield from [(("id",), rule.id)] if isinstance(rule.id, str) else []
        yield from [(("time", "at"), rule.time.at)] if rule.time else []
        yield from [(("charset", "told_by"), rule.charset.told_by)] if rule.charset.told_by else []


def _of_places(
    at: Path, rule: Receive | Receipts | AsksFirst, places: Iterator[tuple[Path, Source]]
) -> Iterator[Mistake]:
    for path, place in places:
        where, _, name = place.partition(":")
        each = None if isinstance(rule, AsksFirst) else rule.each
        if where == "item" and (each is None or path[0] in ("each", "auth")):
            no_list = each is None and not isinstance(rule, AsksFirst)
            remedy = "Say in each where the list stands." if no_list else "Write a place of the whole request."
            yield Mistake((*at, *path), f'"{place}" is within one of several, and here is none.', remedy)
        elif path == ("each",) and where not in ("body", "query"):
            yield Mistake((*at, *path), f'"{place}" can be no list.', "Write body:NAME or query:NAME.")
        elif where == "body" and rule.method == "GET":
            yield Mistake((*at, *path), "A GET request has no body.", f"Write query:{name or 'NAME'}, or method: POST.")
        elif where == "body" and name and rule.body in ("query", "raw"):
            found = f"A body that is {rule.body} has no fields."
            yield Mistake((*at, *path), found, f"Write query:{name}, or say body: json, form or xml.")
        elif path == ("each",) and where == "body" and not name and rule.body != "json":
            yield Mistake((*at, *path), "Only a JSON body can be a list itself.", "Write body:NAME.")
        else:
            yield from _of_path((*at, *path), rule, where, name)


def _of_path(at: Path, rule: Receive | Receipts | AsksFirst, where: str, name: str) -> Iterator[Mistake]:
    if name and where in ("body", "item") and rule.body in ("json", "xml"):
        try:
            steps(name, rule.body)
        except ValueError as wrong:
            yield Mistake(
                at,
                f"{str(wrong)[0].upper()}{str(wrong)[1:]}.",
                "Write names with dots between, such as data.from[0].number.",
            )


def _of_receive(rule: Receive) -> Iterator[Mistake]:
    yield from _of_places(("receive",), rule, _places(rule))
    if rule.each is not None:
        places = [rule.id] if isinstance(rule.id, str) else list(rule.id.also)
        made = isinstance(rule.id, Composed) and (bool(rule.id.of) or any(place[:4] == "item" for place in places))
        if not made and not any(place.startswith("item") for place in places):
            found = "All texts of one request would have the same id, and all but the first be taken for repeats."
            yield Mistake(
                ("receive", "id"), found, "Write item:NAME, or compose it: {of: [sender, text], also: [...]}."
            )
        if rule.answer.kind == "reply":
            found = "One answer cannot carry the replies to several people."
            yield Mistake(
                ("receive", "answer", "kind"), found, "Write json, empty or fixed, and send replies by themselves."
            )
    yield from _of_answer(("receive", "answer"), rule.answer)
    if rule.asks_first:
        yield from _of_places(("receive", "asks_first"), rule.asks_first, _places(rule.asks_first))


def _of_answer(at: Path, rule: Answer) -> Iterator[Mistake]:
    if rule.kind == "fixed" and rule.template is None:
        yield Mistake((*at, "kind"), "A fixed answer needs what it says.", "Write template: with the whole body.")
    if rule.template is not None and rule.kind in ("json", "empty"):
        yield Mistake(
            (*at, "template"), f"An answer of the kind {rule.kind} has no template.", "Write kind: fixed or reply."
        )
    if rule.kind == "reply" and rule.template is not None and "{reply}" not in rule.template:
        yield Mistake((*at, "template"), "The reply has no place in it.", "Write {reply} where it goes.")
    if rule.kind == "reply" and rule.template is None and rule.written != "text":
        yield Mistake(
            (*at, "written"), "There is no template to write the reply into.", "Write template: with {reply} in it."
        )
    sample = dict.fromkeys(("reply", "to", "from", "id"), "1")
    for name, template in (("template", rule.template), ("nothing_template", rule.nothing_template)):
        if template and (wrong := _unreadable(filled(template, sample, rule.written), rule.written)):
            yield Mistake((*at, name), f"The template is {wrong}.", "Close every element, bracket and quote.")


def _unreadable(document: str, written: str) -> str:
    """What is wrong with *document*, or nothing."""
    try:
        if written == "xml":
            xml_of(document.encode())
        elif written == "json":
            json.loads(document)
    except Malformed:
        return "no XML"
    except ValueError:
        return "no JSON"
    return ""


def _of_send(send: Send) -> Iterator[Mistake]:
    yield from _of_body(send)
    if any("{text}" in template for path, template in _templates(send) if path[1] in ("fields", "template")):
        for name, coding in (("seven_bit", send.seven_bit), ("beyond", send.beyond)):
            in_characters = send.body in ("json", "xml") and coding.written == "plain"
            if in_characters and coding.charset.lower().replace("_", "-") not in ("utf-8", "utf8"):
                found = f"A text in {send.body.upper()} is written in its characters, whatever the charset."
                yield Mistake(
                    ("send", name), found, "Write written: hex or base64 beside the charset, or leave it out."
                )
    if send.success.at is not None and not send.success.equals:
        found = "Nothing is said of what stands there when the text was taken."
        yield Mistake(("send", "success", "at"), found, 'Write equals: ["^OK"] with what the gateway says.')
    if send.success.at is None and (send.success.equals or send.success.later):
        yield Mistake(("send", "success"), "It is not said where the answer tells it.", "Write at: body, or body:NAME.")
    if send.reference_pattern and send.reference is None:
        yield Mistake(("send", "reference_pattern"), "There is nothing to take a part of.", "Write reference: body.")
    seen: set[str] = set()
    for name, rule in send.computed.items():
        at = ("send", "computed", name)
        yield from _of_template((*at, "of"), rule.of, (*KNOWN, *OF_THE_REQUEST), seen)
        if rule.key and rule.digest == "none":
            yield Mistake((*at, "digest"), "A key needs a digest.", "Write digest: sha256.")
        seen.add(name)
    late = _of_the_request(send)
    for path, template in _templates(send):
        yield from _of_template(path, template, KNOWN, set(send.computed))
        if path[1] != "headers" and any(name in late for name in re.findall(r"\{computed:([a-z0-9_]+)\}", template)):
            found = "What is computed of the request itself cannot stand in the part it is computed of."
            yield Mistake(path, found, "Put it under headers, or compute it of the values: {to}, {text}, {time_unix}.")


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
        elif _unreadable(PLACEHOLDER.sub(escaped("1", "xml"), send.template), "xml"):
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


def _templates(send: Send) -> Iterator[tuple[Path, str]]:
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
    for match in PLACEHOLDER.finditer(template):
        kind, _, name = match[1].partition(":")
        if match[1] in known or (kind == "secret" and name):
            continue
        if kind == "computed" and name:
            if name not in computed:
                remedy = did_you_mean(name, computed) or "Say it under computed:, before what uses it."
                yield Mistake(at, f"Nothing called {name} is computed.", remedy)
            continue
        if match[1] in OF_THE_REQUEST:
            yield Mistake(at, f"{match[0]} can only be used in a computed value.", "Say it under computed:.")
        else:
            remedy = did_you_mean(match[1], known) or f"The placeholders are {', '.join(known)}."
            yield Mistake(at, f"{match[0]} is no placeholder.", remedy)
