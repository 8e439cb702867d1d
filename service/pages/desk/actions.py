"""What the office does on a ticket or a conversation with one press: each a form, each in the audit trail."""

from __future__ import annotations

from collections.abc import Callable

from fastapi import APIRouter, Depends, Response
from sqlalchemy import Connection
from starlette.concurrency import run_in_threadpool

from service.access.guard import Acting, Form, Guard, SignedOut
from service.access.sessions import SignedIn
from service.conversation.step import Step
from service.edge.deps import Deps
from service.pages import words
from service.pages.answer import Lost, PageRoute
from service.pages.desk.place import Where, at_thread, at_ticket, back
from service.pages.desk.writing import draft, keep_typed, own_reply, signed_out, write
from service.storage import alarms, comebacks, outbox, threads, visits_view
from service.storage.engine import reading

Deed = Callable[[Where, Form], Response]
DANGER_STANDS = (
    "A danger was named on this ticket and nobody has cleared it. Clear it first, or say in the field beside the reason why "
    "the ticket may be closed all the same."
)


def actions_router(deps: Deps, guard: Guard) -> APIRouter:
    """``POST /desk/tickets/{number}/{deed}`` and the same for a conversation without a ticket."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    acting_office = Depends(guard.acting_or_out("act_desk"))

    @router.post("/desk/tickets/{number}/{deed}")
    async def on_ticket(number: int, deed: str, acting: Acting | SignedOut = acting_office) -> Response:
        return await run_in_threadpool(_do, deed, acting, lambda session: at_ticket(deps, session, number))

    @router.post("/desk/threads/{thread}/{deed}")
    async def on_thread(thread: str, deed: str, acting: Acting | SignedOut = acting_office) -> Response:
        return await run_in_threadpool(_do, deed, acting, lambda session: at_thread(deps, session, thread))

    return router


def _do(deed: str, acting: Acting | SignedOut, at: Callable[[SignedIn], Where]) -> Response:
    if isinstance(acting, SignedOut):
        return signed_out(acting, at)
    where = at(acting.session)
    found = DEEDS.get(deed)
    if found is None:
        raise Lost("There is no such action.")
    keep_typed(where, acting.form)
    return found(where, acting.form)


def _keep(_where: Where, _form: Form) -> Response:
    """Nothing but to keep what was typed, which every deed does: the page was left."""
    return Response(status_code=204)


def _acknowledge(where: Where, form: Form) -> Response:
    def change(connection: Connection) -> bool:
        return alarms.acknowledge(
            connection, shop=where.session.shop, identity=form.text("alarm"), by=where.session.user.login,
            now=where.deps.clock(),
        )  # fmt: skip

    return back(where, where.only_rows("acknowledged", change), "Somebody else has it in hand already.")


def _clear(where: Where, form: Form) -> Response:
    if not where.danger_stands:
        return back(where, False, "No danger stands here. One named on another ticket of this number is cleared there.")
    if not form.text("note"):
        return back(where, False, "To clear a danger, say who told you that all is safe.")

    def also(connection: Connection, _step: Step | None) -> None:
        where.quiet_alarms(connection, "danger")

    return back(where, where.act("clear_danger", also=also, note=form.text("note", 200)))


def _hold(where: Where, _form: Form) -> Response:
    return back(where, where.act("hold"))


def _release(where: Where, _form: Form) -> Response:
    return back(where, where.act("release"))


def _park(where: Where, _form: Form) -> Response:
    """Answer this number no more: its texts are kept, and danger and consent words are heard all the same."""

    def change(connection: Connection) -> bool:
        threads.park(connection, where.thread.id, f"by {where.session.user.login}"[:64])
        return True

    return back(where, where.thread.parked is None and where.only_rows("park", change), "It is parked already.")


def _unpark(where: Where, _form: Form) -> Response:
    why = where.thread.parked

    def change(connection: Connection) -> bool:
        threads.park(connection, where.thread.id, None)
        return True

    return back(where, why is not None and where.only_rows("unpark", change, was=why), "It is not parked any more.")


def _done(where: Where, _form: Form) -> Response:
    def also(connection: Connection, _step: Step | None) -> None:
        where.quiet_alarms(
            connection, "danger", "person", "trouble"
        )  # a danger stands until it is cleared, in hand now

    return back(where, where.act("person_done", also=also))


def _again(where: Where, form: Form) -> Response:
    reply = form.text("reply")

    def change(connection: Connection) -> bool:
        again = own_reply(connection, where, reply) and outbox.send_again(
            connection, where.session.shop, reply, where.deps.clock(), by=where.holder
        )
        if again:
            where.quiet_alarms(connection, "undelivered")
        return again

    return back(where, where.only_rows("sent_again", change), "This text is not among the undelivered any more.")


def _confirm(where: Where, form: Form) -> Response:
    with reading(where.deps.engine) as connection:
        visit = visits_view.visit_by_id(connection, where.session.shop, form.text("visit"))
    if visit is None or visit.status != "tentative" or str(visit.version) != form.text("version"):
        return back(where, False, "The visit has changed in the meantime. Look at it again.")

    def also(connection: Connection, _step: Step | None) -> None:
        visits_view.make_stand(connection, where.session.shop, visit.id, where.deps.clock())

    return back(where, where.act("book", also=also, confirmed=visit.id))


def _close(where: Where, form: Form) -> Response:
    reason = form.text("reason")
    if reason not in words.CLOSED:
        return back(where, False, "Choose a reason to close the ticket.")
    danger, note = where.danger_stands, form.text("danger", 200)
    if danger and not note:
        return back(where, False, DANGER_STANDS)

    def also(connection: Connection, _step: Step | None) -> None:
        where.quiet_alarms(connection, "person", "trouble", "undelivered", *(("danger",) if danger else ()))

    noted = {"danger_not_cleared": note} if danger else {}
    return back(where, where.act("close", {"reason": reason}, also=also, reason=reason, **noted))


def _reopen(where: Where, _form: Form) -> Response:
    if where.ticket.open:
        return back(where, False, "The ticket is open.")
    return back(where, where.act("reopen", {"ticket": where.row.state if where.row else {}}))


def _comeback(where: Where, form: Form) -> Response:
    """Say that the ticket is the same fault as one of another number, or that it is not."""
    wanted, row = form.text("earlier"), where.row
    if row is None:
        raise Lost("This conversation has no ticket yet.")
    if form.text("not"):
        return back(where, where.act("comes_back", {}, not_from=wanted))
    with reading(where.deps.engine) as connection:
        known = comebacks.possible(connection, where.session.shop, row)
    if not any(str(one.number) == wanted for one in known):
        return back(where, False, "That ticket is no longer one this may come back from. Look at both again.")
    return back(where, where.act("comes_back", {"earlier": comebacks.named(int(wanted))}, comes_back_from=wanted))


DEEDS: dict[str, Deed] = {
    "keep": _keep,
    "acknowledge": _acknowledge,
    "clear": _clear,
    "hold": _hold,
    "release": _release,
    "park": _park,
    "unpark": _unpark,
    "done": _done,
    "write": write,
    "draft": draft,
    "again": _again,
    "confirm": _confirm,
    "close": _close,
    "reopen": _reopen,
    "comeback": _comeback,
}
