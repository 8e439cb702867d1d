"""
What a delivery brings, one by one: texts to the exchange, receipts to the outbox.

One request may bring several. A bad one never loses the others: they are all taken first, and then the answer says what is
wrong, so that the gateway repeats; what was taken is then a repeat and changes nothing.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Protocol

from sqlalchemy.exc import DBAPIError
from starlette.responses import Response

from service.edge.answers import KINDS, answer, answer_with, reference_in, replies_for
from service.edge.bodies import Malformed
from service.edge.delivery import Delivery
from service.edge.deps import Deps
from service.edge.escalation import taken_as_answer
from service.edge.escaping import ECHO, escaped
from service.edge.gateways import Gateway
from service.edge.inbound import Inbound
from service.edge.parse import inbound_of, meant, meant_alone, receipt_of
from service.edge.places import Source
from service.edge.problems import problem, whereabouts
from service.edge.profile_receive import Answer, AsksFirst, Receipts, Receive
from service.edge.receipts import settle
from service.edge.verify import verify

log = logging.getLogger("plainfault.webhook")


REPORTED = Answer(kind="empty", status=200)
"""What a receipt is answered."""

LONGEST_ECHO = 1_000
"""Characters said back to a gateway that asks whether the address is ours."""

Job = Callable[[], Response]


class ReceivedLike(Protocol):
    """What the exchange says of a delivery: the thread it belongs to."""

    @property
    def thread(self) -> str:
        """The thread's id."""
        ...


Receive_ = Callable[[Deps, Inbound], ReceivedLike]
"""``exchange.receive``."""


@dataclass(frozen=True, slots=True)
class Hook:
    """One gateway of one shop, found."""

    shop: str
    number: str
    gateway: Gateway
    receive: Receive


class SomeNotTaken(Exception):
    """Of several in one request, some could not be taken for a fault of ours; the others are kept."""


def take_texts(deps: Deps, receive: Receive_, hook: Hook, came: Delivery) -> Response:
    """
    Take all texts of *came*, and the receipts in it where they come to the hook of the texts.

    Raises NotProven, Malformed, SomeNotTaken, SecretMissing, SecretUnusable and the database's errors.
    """
    rule = hook.receive
    asked = rule.asks_first
    if asked and came.method == asked.method and _asks(came, asked):
        return _said_back(deps, hook, asked, came)
    if came.method != rule.method:
        return problem(405, f"Deliver by {rule.method}.", headers={"Allow": rule.method})
    verify(came, rule.body, rule.auth, lambda name: hook.gateway.secret(hook.shop, name), deps.clock())
    jobs = _jobs(deps, receive, hook, came)
    if rule.each is not None:
        _all(hook, jobs)
        return answer(rule.answer, came, rule.body)
    return jobs[0]() if len(jobs) == 1 else _all(hook, jobs)[0]


def _asks(came: Delivery, asked: AsksFirst) -> bool:
    """Whether *came* is the question; a body that cannot be read as one is something else, and read as that."""
    try:
        return meant(came, asked.body, asked.only)
    except Malformed:
        return False


def _said_back(deps: Deps, hook: Hook, asked: AsksFirst, came: Delivery) -> Response:
    """The answer to a gateway that asks whether the address is ours."""
    if asked.auth:
        verify(came, asked.body, asked.auth, lambda name: hook.gateway.secret(hook.shop, name), deps.clock())
    said = came.value(asked.echo, asked.body) if asked.echo else ""
    if said is None:
        raise Malformed(f"what is to be said back is missing at {asked.echo}")
    template = ECHO if asked.template is None else asked.template
    body = template.replace(ECHO, escaped(said[:LONGEST_ECHO], asked.written))
    headers = {"X-Content-Type-Options": "nosniff"}  # it is a stranger's, and no page of ours
    return Response(body, headers=headers, media_type=KINDS[asked.written])


def take_reports(deps: Deps, hook: Hook, receipts: Receipts, came: Delivery) -> Response:
    """Keep what the receipts of *came* say. Raises as ``take_texts``."""
    if receipts.each is None:
        return _report(deps, hook, receipts, came)
    if meant(came, receipts.body, _of_the_whole(receipts.only)):
        items = came.items(receipts.each, receipts.body)
        _all(hook, [partial(_report, deps, hook, receipts, item) for item in items])
    return answer(receipts.answer or REPORTED)


def _jobs(deps: Deps, receive: Receive_, hook: Hook, came: Delivery) -> list[Job]:
    """What there is to do for *came*: its texts one by one, then its receipts. One that is bad stops none of the others."""
    rule, receipts = hook.receive, hook.gateway.profile.receipts
    reports: list[Job] = []
    if receipts and receipts.at_the_hook and receipts.each != rule.each:
        reports = _reports(deps, hook, receipts, came)
    if rule.each is None:
        if reports and not _has_a_text(came, rule):
            return reports
        return [partial(_text_or_report, deps, receive, hook, came), *reports]
    if reports and not came.has_items(rule.each, rule.body):
        return reports
    if not meant(came, rule.body, _of_the_whole(rule.only)):
        return reports
    texts: list[Job] = [partial(_text_or_report, deps, receive, hook, it) for it in came.items(rule.each, rule.body)]
    return texts + reports


def _reports(deps: Deps, hook: Hook, receipts: Receipts, came: Delivery) -> list[Job]:
    """
    The receipts in a list of their own, if there is one; one job that says why if it cannot be taken apart, for texts may
    be beside it.
    """
    each, shape = receipts.each, receipts.body
    if each is None or not meant(came, shape, _of_the_whole(receipts.only)) or not came.has_items(each, shape):
        return []
    try:
        return [partial(_report, deps, hook, receipts, item) for item in came.items(each, shape)]
    except Malformed as wrong:
        return [partial(_refuse, wrong)]


def _refuse(wrong: Malformed) -> Response:
    raise wrong


def _has_a_text(came: Delivery, rule: Receive) -> bool:
    return came.value(rule.sender, rule.body) is not None or came.text(rule.text, rule.body, rule.charset) is not None


def _of_the_whole(only: Mapping[Source, tuple[str, ...]]) -> dict[Source, tuple[str, ...]]:
    return {place: said for place, said in only.items() if not place.startswith("item")}


def _report(deps: Deps, hook: Hook, receipts: Receipts, came: Delivery) -> Response:
    if meant(came, receipts.body, receipts.only):
        settle(deps, hook.shop, hook.gateway.name, receipt_of(came, receipts))
    return answer(receipts.answer or REPORTED)


def _text_or_report(deps: Deps, receive: Receive_, hook: Hook, came: Delivery) -> Response:
    """What *came* is; where it holds both, which only a condition across a list can tell, both are taken."""
    rule, receipts = hook.receive, hook.gateway.profile.receipts
    here = receipts is not None and receipts.at_the_hook and receipts.each in (None, rule.each)
    if receipts is None or not here or not meant(came, receipts.body, receipts.only):
        return _text(deps, receive, hook, came)
    report = partial(_report, deps, hook, receipts, came)
    if meant_alone(came, receipts.body, receipts.only):
        return report()
    return _all(hook, [partial(_text, deps, receive, hook, came), report])[0]


def _text(deps: Deps, receive: Receive_, hook: Hook, came: Delivery) -> Response:
    rule = hook.receive
    if not meant(came, rule.body, rule.only):
        return answer(rule.answer, came, rule.body)
    inbound = inbound_of(came, rule, shop=hook.shop, gateway=hook.gateway.name, number=hook.number, now=deps.clock())
    if taken_as_answer(deps, inbound):
        return answer(rule.answer, came, rule.body, inbound)
    received = receive(deps, inbound)
    if rule.answer.kind != "reply":
        return answer(rule.answer, came, rule.body, inbound)
    said = replies_for(deps, inbound, received.thread, reference_in(came, rule))
    return answer_with(rule.answer, said.replies, inbound, came, rule.body, said.key)


def _all(hook: Hook, jobs: Sequence[Job]) -> list[Response]:
    """
    Do every job; what each is answered. Raises Malformed or SomeNotTaken once all have been tried, or the database's error
    at once.
    """
    answers: list[Response] = []
    bad: list[str] = []
    failed = 0
    for place, job in enumerate(jobs, 1):
        try:
            answers.append(job())
        except Malformed as wrong:
            bad.append(f"number {place}: {wrong}")
        except DBAPIError:
            raise  # the next would meet the same, and the gateway repeats them all
        except Exception as wrong:
            failed += 1
            why = {"why": type(wrong).__name__, "where": whereabouts(wrong)}
            log.error("one of several failed", extra={"shop": hook.shop, "gateway": hook.gateway.name, **why})
    if failed:
        raise SomeNotTaken(f"{failed} of {len(jobs)} could not be taken; the others are kept")
    if bad:
        raise Malformed(f"{len(bad)} of {len(jobs)} cannot be read, and the others are kept; {'; '.join(bad[:5])}")
    return answers
