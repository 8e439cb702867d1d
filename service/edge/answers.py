"""Replies that travel in the HTTP answer: taken from the outbox, kept for repeats, written as the gateway wants them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta

from starlette.responses import JSONResponse, Response

from service.edge.bodies import Malformed
from service.edge.codings import holds, spelled
from service.edge.delivery import Delivery
from service.edge.deps import Deps
from service.edge.escaping import filled
from service.edge.inbound import Inbound
from service.edge.numbers import forms_of
from service.edge.places import Shape
from service.edge.profile_receive import Answer, Receive
from service.edge.second_look import Drop, Later, look_again
from service.storage import arrivals, leases
from service.storage.engine import writing
from service.storage.messages import identity_of, keep_answer, kept_answer
from service.wording.segments import count

BETWEEN = "\n\n"
"""Between two replies in one answer."""

KINDS = {"text": "text/plain", "xml": "application/xml", "json": "application/json"}
"""The media type of what is written so."""

WHILE_ANSWERING = timedelta(seconds=60)


@dataclass(frozen=True, slots=True)
class Said:
    """What an answer carries. key: of the first of its replies, for all of them together; empty if there are none."""

    replies: tuple[str, ...] = ()
    key: str = ""


def replies_for(deps: Deps, inbound: Inbound, thread: str, reference: str | None = None) -> Said:
    """
    The replies that the answer to *inbound* carries: what is due on its thread now, or for a repeat what was said then.

    They count as sent with the answer: a gateway that never got it asks again with the same id, and is told the same.
    reference: what receipts will call them; the delivery's own id if not given.
    """
    now = deps.clock()
    with writing(deps.engine) as connection:
        kept = kept_answer(connection, inbound.shop, inbound.gateway, inbound.carrier_id)
        if kept is not None:
            return _kept(kept)
        said: list[leases.Leased] = []
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
                called = arrivals.together_with(said[0].key) if said else (reference or inbound.carrier_id)[:200]
                leases.mark_sent(connection, row, now, called)
                said.append(row)
        for row in rows[len(dangers) :] if dangers else ():
            leases.mark_later(connection, row, now, "after the danger instruction", tried=False)
        answer_ = Said(tuple(row.text for row in said), said[0].key if said else "")
        identity = identity_of(connection, inbound.shop, inbound.gateway, inbound.carrier_id)
        if identity is not None:
            keep_answer(connection, identity, {"replies": answer_.replies, "key": answer_.key})
    return answer_


def _kept(answer_: object) -> Said:
    """What a repeat is told; of early rows the replies alone were kept, as a list."""
    if isinstance(answer_, dict):
        return Said(tuple(answer_["replies"]), str(answer_["key"]))
    return Said(tuple(answer_)) if isinstance(answer_, list) else Said()


def answer(
    rule: Answer, came: Delivery | None = None, shape: Shape = "raw", inbound: Inbound | None = None
) -> Response:
    """The answer of a delivery that was taken and gets no reply, as the profile wants it, with what stands in *came*."""
    if rule.kind == "json":
        return JSONResponse({"status": "ok"}, status_code=rule.status, headers=rule.headers)
    if rule.kind == "empty":
        return Response(status_code=rule.status, headers=rule.headers)
    fill = _Fill(came, shape, _of(inbound))
    if rule.kind == "fixed":
        body = filled(rule.template or "", fill, rule.written)
        return _written(rule, body, rule.charset, rule.status, rule.headers)
    body = filled(rule.nothing_template or "", fill, rule.written)
    return _written(rule, body, rule.charset, rule.nothing_status, rule.nothing_headers)


def answer_with(
    rule: Answer,
    replies: Sequence[str],
    inbound: Inbound,
    came: Delivery | None = None,
    shape: Shape = "raw",
    key: str = "",
) -> Response:
    """The answer that carries *replies* to *inbound*, escaped as its template is written, with what stands in *came*."""
    if not replies:
        return answer(rule, came, shape, inbound)
    text = BETWEEN.join(replies)
    beyond = _goes_beyond(rule, text)
    charset = (rule.beyond_7_bit_charset if beyond else None) or rule.charset
    if rule.reply_written != "plain":
        text, charset = spelled(text.encode(charset, "replace"), rule.reply_written), "utf-8"
    fill = _Fill(came, shape, _of(inbound) | {"reply": text, "key": key})
    body = filled(rule.template, fill, rule.written) if rule.template else text
    return _written(rule, body, charset, rule.status, {**rule.headers, **(rule.beyond_7_bit if beyond else {})})


def reference_in(came: Delivery, rule: Receive) -> str | None:
    """What receipts will call the reply to *came*; None for the text's own id."""
    return came.value(rule.answer.reference, rule.body) if rule.answer.reference else None


def _goes_beyond(rule: Answer, text: str) -> bool:
    """Whether *text* needs the way beyond the 7-bit alphabet, also for a sign the charset of 7-bit texts has not got."""
    if count(text).encoding != "GSM-7":
        return True
    other = rule.beyond_7_bit_charset
    in_references = rule.written == "xml" and rule.reply_written == "plain"
    return other is not None and not in_references and not holds(rule.charset, text) and holds(other, text)


def _of(inbound: Inbound | None) -> dict[str, str]:
    if inbound is None:
        return {}
    return forms_of({"to": inbound.sender, "from": inbound.recipient}) | {"id": inbound.id_as_sent}


@dataclass(frozen=True, slots=True)
class _Fill:
    """What stands for a placeholder of an answer; nothing for what is not there, for an answer must be had."""

    came: Delivery | None
    shape: Shape
    values: Mapping[str, str]

    def __call__(self, name: str) -> str:
        if name in self.values or ":" not in name or self.came is None:
            return self.values.get(name, "")
        try:
            return self.came.value(name, self.shape) or ""
        except Malformed:
            return ""


def _written(rule: Answer, body: str, charset: str, status: int, headers: Mapping[str, str]) -> Response:
    kind = rule.content_type or KINDS[rule.written]
    # What the charset cannot say is a reference in XML, and a question mark in plain text.
    content = body.encode(charset, "xmlcharrefreplace" if rule.written == "xml" else "replace")
    if body and "charset=" not in kind:
        kind += f"; charset={charset}"
    return Response(content, status_code=status, headers={"content-type": kind, **headers})
