"""What fits its schema and yet cannot work: places a request has not got, lists without ids, answers nobody can fill."""

from __future__ import annotations

import re
from collections.abc import Iterator

from service.edge.escaping import ANSWERED, ECHO, filled
from service.edge.filling import LIKE_A_PLACEHOLDER
from service.edge.places import MAY_BE_MISSING, Source, is_place, place_of
from service.edge.profile import Profile
from service.edge.profile_mistakes import Mistake, Path, unreadable, unwalkable
from service.edge.profile_proofs import Hmac, SharedSecret
from service.edge.profile_receive import Answer, AsksFirst, Composed, Receipts, Receive
from service.edge.profile_send_checks import as_it_stands, of_send, wants_receipts
from service.rulebook.problems import did_you_mean


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
        yield from of_send(profile.send)
        told = wants_receipts(profile.send)
        if told and not profile.receipts:
            found = "{receipt_url} leads nowhere: the profile has no receipts."
            yield Mistake(told, found, "Say how they come under receipts:, or leave {receipt_url} out.")


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
            told = (("at", way.at), ("time", way.time_at))
            yield from ((("auth", number, name), place) for name, place in told if place)
    if isinstance(rule, Receive):
        yield from ((("media", number), place) for number, place in enumerate(rule.media))
        also = rule.id.also if isinstance(rule.id, Composed) else ()
        yield from ((("id", "also", n), place_of(written)[0]) for n, written in enumerate(also))
        for name in ("reference", "number", "of") if rule.parts else ():
            yield ("parts", name), getattr(rule.parts, name)
        yield from [(("id",), rule.id)] if isinstance(rule.id, str) else []
        yield from [(("time", "at"), rule.time.at)] if rule.time else []
        yield from [(("charset", "told_by"), rule.charset.told_by)] if rule.charset.told_by else []
        yield from _of_the_answer(rule.answer)


def _of_the_answer(rule: Answer) -> Iterator[tuple[Path, Source]]:
    """The places of the delivery that its answer names."""
    yield from [(("answer", "reference"), rule.reference)] if rule.reference else []
    for name, template in (("template", rule.template), ("nothing_template", rule.nothing_template)):
        yield from ((("answer", name), place) for place in ANSWERED.findall(template or "") if is_place(place))


def _of_places(
    at: Path, rule: Receive | Receipts | AsksFirst, places: Iterator[tuple[Path, Source]]
) -> Iterator[Mistake]:
    for path, place in places:
        where, _, name = place.partition(":")
        each = None if isinstance(rule, AsksFirst) else rule.each
        if where == "item" and (each is None or path[0] in ("each", "auth", "answer")):
            no_list = each is None and not isinstance(rule, AsksFirst) and path[0] != "answer"
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
        yield from unwalkable(at, name, rule.body)


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
        yield from _of_question(("receive", "asks_first", "template"), rule.asks_first)


def _of_question(at: Path, rule: AsksFirst) -> Iterator[Mistake]:
    template = ECHO if rule.template is None else rule.template
    if (ECHO in template) != (rule.echo is not None):
        found = "What is to be said back has no place in it." if rule.echo else "Nothing is said of what {echo} is."
        yield Mistake(at, found, "Write {echo} where it goes." if rule.echo else "Write echo: with its place.")
    yield from as_it_stands(at, template.replace(ECHO, ""))
    if wrong := unreadable(template.replace(ECHO, "1"), rule.written):
        yield Mistake(at, f"The template is {wrong}.", "Close every element, bracket and quote.")


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
    if rule.reference is not None and rule.kind != "reply":
        found = "Only a reply has a name by which receipts can call it."
        yield Mistake((*at, "reference"), found, "Write kind: reply, or leave reference out.")
    for name, template in (("template", rule.template), ("nothing_template", rule.nothing_template)):
        yield from _of_answer_template((*at, name), rule, template or "")
        filled_in = filled(template or "", lambda _: "1", rule.written)
        if template and (wrong := unreadable(filled_in, rule.written)):
            yield Mistake((*at, name), f"The template is {wrong}.", "Close every element, bracket and quote.")
    for name in ("headers", "nothing_headers", "beyond_7_bit"):
        for header, value in getattr(rule, name).items():
            yield from as_it_stands((*at, name, header), value)
    yield from as_it_stands((*at, "content_type"), rule.content_type)


def _of_answer_template(at: Path, rule: Answer, template: str) -> Iterator[Mistake]:
    known = ("to", "from", "id", *(("reply", "key") if at[-1] == "template" else ()))
    if rule.kind == "fixed":
        known = ()
    for match in LIKE_A_PLACEHOLDER.finditer(template):
        written = match[0].strip("{ }")
        read = ANSWERED.fullmatch(match[0])
        if read and is_place(written.rstrip(MAY_BE_MISSING)):
            if written.endswith(MAY_BE_MISSING):
                found = f"The ? in {match[0]} means nothing: what is not there is filled with nothing anyway."
                yield Mistake(at, found, "Leave it out.")
        elif not read or written.partition("|")[0] not in known:
            names = f"The placeholders are {', '.join(known)} and places" if known else "Here only places are filled"
            remedy = (
                did_you_mean(written, known) or f"{names} of the delivery, such as {{query:id}} or {{header:X-Id}}."
            )
            yield Mistake(at, f"{match[0]} is no placeholder here.", remedy)
