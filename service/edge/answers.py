"""Replies that travel in the HTTP answer: taken from the outbox, kept for repeats, written as the gateway wants them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import timedelta

from starlette.responses import JSONResponse, Response

from service.edge.deps import Deps
from service.edge.escaping import filled
from service.edge.inbound import Inbound
from service.edge.profile_receive import Answer
from service.edge.second_look import Drop, Later, look_again
from service.storage import leases
from service.storage.engine import writing
from service.storage.messages import identity_of, keep_answer, kept_answer
from service.wording.segments import count

BETWEEN = "\n\n"
"""Between two replies in one answer."""

KINDS = {"text": "text/plain", "xml": "application/xml", "json": "application/json"}
"""The media type of what is written so."""

WHILE_ANSWERING = timedelta(seconds=60)


def replies_for(deps: Deps, inbound: Inbound, thread: str) -> tuple[str, ...]:
    """
    The replies that the answer to *inbound* carries: what is due on its thread now, or for a repeat what was said then.

    They count as sent with the answer: a gateway that never got it asks again with the same id, and is told the same.
    """
    now = deps.clock()
    with writing(deps.engine) as connection:
        kept = kept_answer(connection, inbound.shop, inbound.gateway, inbound.carrier_id)
        if kept is not None:
            return tuple(kept)
        said: list[str] = []
        shop = deps.rulebook_of(inbound.shop).shop
        rows = leases.lease_of_thread(connection, inbound.shop, thread, now, now + WHILE_ANSWERING)
        # A danger instruction goes alone: what follows it is sent by itself, a moment later.
        dangers = [row for row in rows if row.kind == "danger"]
        for row in dangers or rows:
            look = look_again(row, shop, now)
            if isinstance(look, Drop):
                leases.mark_dropped(connection, row, look.why)
            elif isinstance(look, Later):
                leases.mark_later(connection, row, look.at, look.why, tried=False)
            else:
                leases.mark_sent(connection, row, now)
                said.append(row.text)
        for row in rows[len(dangers) :] if dangers else ():
            leases.mark_later(connection, row, now, "after the danger instruction", tried=False)
        identity = identity_of(connection, inbound.shop, inbound.gateway, inbound.carrier_id)
        if identity is not None:
            keep_answer(connection, identity, said)
    return tuple(said)


def answer(rule: Answer) -> Response:
    """The answer of a delivery that was taken and gets no reply, as the profile wants it."""
    if rule.kind == "json":
        return JSONResponse({"status": "ok"}, status_code=rule.status, headers=rule.headers)
    if rule.kind == "empty":
        return Response(status_code=rule.status, headers=rule.headers)
    if rule.kind == "fixed":
        return _written(rule, rule.template or "", rule.charset, rule.status, rule.headers)
    return _written(rule, rule.nothing_template or "", rule.charset, rule.nothing_status, rule.nothing_headers)


def answer_with(rule: Answer, replies: Sequence[str], inbound: Inbound) -> Response:
    """The answer that carries *replies* to *inbound*, escaped as its template is written."""
    if not replies:
        return answer(rule)
    text = BETWEEN.join(replies)
    beyond = count(text).encoding != "GSM-7"
    charset = (rule.beyond_7_bit_charset if beyond else None) or rule.charset
    values = {"reply": text, "to": inbound.sender, "from": inbound.recipient, "id": inbound.id_as_sent}
    body = filled(rule.template, values, rule.written) if rule.template else text
    return _written(rule, body, charset, rule.status, {**rule.headers, **(rule.beyond_7_bit if beyond else {})})


def _written(rule: Answer, body: str, charset: str, status: int, headers: Mapping[str, str]) -> Response:
    kind = rule.content_type or KINDS[rule.written]
    # What the charset cannot say is a reference in XML, and a question mark in plain text.
    content = body.encode(charset, "xmlcharrefreplace" if rule.written == "xml" else "replace")
    if body and "charset=" not in kind:
        kind += f"; charset={charset}"
    return Response(content, status_code=status, headers={"content-type": kind, **headers})
