"""What a person writes on a thread: their own words, the line's drafts, and what they typed and have not sent yet."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from fastapi import Response
from sqlalchemy import Connection

from service.access.guard import Form, SignedOut
from service.access.sessions import SignedIn
from service.conversation.step import Step
from service.pages.answer import Lost, notice
from service.pages.desk.place import Where, back
from service.storage import desk, outbox, unsent
from service.storage.engine import new_id, writing
from service.storage.outbox import Standing
from service.wording.segments import count

LONGEST_TEXT = 1_600
DRAFT = "draft."
"""A draft's field is named so, and then by the draft's id."""
OVERTAKEN = "overtaken by a later reply"
_GONE = ("waiting", "leased", "sent", "delivered", "unsure")


def overtaken(replies: Sequence[Standing], turn_of: Mapping[str, str | None], identity: str) -> bool:
    """Whether a later turn's answer has gone out or is about to: the draft would come after what answers it."""
    place = next((n for n, reply in enumerate(replies) if reply.id == identity), len(replies))
    turns = (turn_of.get(r.id) for r in replies[place + 1 :] if r.kind == "answer" and r.status in _GONE)
    return any(turn is not None and turn != turn_of.get(identity) for turn in turns)


def earlier_drafts(replies: Sequence[Standing], identity: str) -> tuple[Standing, ...]:
    """The drafts that were written before this one and still wait."""
    place = next((n for n, reply in enumerate(replies) if reply.id == identity), 0)
    return tuple(reply for reply in replies[:place] if reply.status == "draft")


def keep_typed(where: Where, form: Form) -> None:
    """Keep the reply and the drafts that were changed, whatever was pressed: they stand in their fields again afterwards."""
    changed = {name.removeprefix(DRAFT): form.text(name, LONGEST_TEXT) for name in form.names if name.startswith(DRAFT)}
    own = "text" in form.names
    if not own and not changed:
        return
    with writing(where.deps.engine) as connection:
        if own:
            _keep(connection, where, where.subject, form.text("text", LONGEST_TEXT))
        for reply in outbox.of_thread(connection, where.session.shop, where.thread.id) if changed else ():
            if reply.id in changed:
                text = changed[reply.id]
                _keep(connection, where, reply.id, "" if text == reply.text.strip() else text)


def _keep(connection: Connection, where: Where, about: str, text: str) -> None:
    unsent.keep(
        connection, shop=where.session.shop, thread=where.thread.id, login=where.session.user.login, about=about,
        text=text, now=where.deps.clock(),
    )  # fmt: skip


def signed_out(posted: SignedOut, at: Callable[[SignedIn], Where]) -> Response:
    """Nothing is done; what they typed is kept for them alone, or shown to be copied if nobody knows whose it is."""
    typed = posted.form.text("text", LONGEST_TEXT)
    if posted.was is None:
        said = "You were signed out, so nothing was done. Sign in and try again."
        return notice(403, "Signed out", said, "/sign-in", "Sign in", typed=typed)
    where = at(posted.was)
    keep_typed(where, posted.form)
    said = "You were signed out, so nothing was done or sent."
    if typed or any(name.startswith(DRAFT) for name in posted.form.names):
        said += f" What you typed is kept: sign in as {posted.was.user.login} again and it stands where you typed it."
    return notice(403, "Signed out", said, f"/sign-in?next={where.base}", "Sign in")


def write(where: Where, form: Form) -> Response:
    """Send a person's own words; the person holds the thread from then on."""
    text = form.text("text", LONGEST_TEXT)
    if not text:
        return back(where, False, "There was nothing to send.")
    if where.thread.consent == "out":
        return back(where, False, "They opted out of texts. Call them instead.")

    def also(connection: Connection, _step: Step | None) -> None:
        outbox.put(connection, _own_words(where, text, form.text("once", 40)), where.deps.clock())
        where.quiet_alarms(connection, "person")
        _keep(connection, where, where.subject, "")

    asked = where.row is not None and where.row.needs_person is not None
    if where.thread.held_by == where.session.user.login and not asked:

        def change(connection: Connection) -> bool:
            also(connection, None)
            return True

        return back(where, where.only_rows("wrote", change, characters=len(text)))
    return back(where, where.act("hold", {"wrote": True}, also=also, characters=len(text)))


def _own_words(where: Where, text: str, once: str) -> outbox.Outgoing:
    now = where.deps.clock()
    return outbox.Outgoing(
        shop=where.session.shop, thread=where.thread.id, key=f"desk:{once or new_id()}", number=where.thread.phone,
        gateway=where.thread.gateway, kind="answer", text=text, segments=len(count(text).parts), due_at=now,
        author=where.session.user.login, ticket=where.row.id if where.row else None,
    )  # fmt: skip


def draft(where: Where, form: Form) -> Response:
    """Send a draft (in other words if the office gave some) or discard it. Those before it go out no more."""
    if reply := form.text("discard"):
        return back(where, where.only_rows("draft_discarded", lambda c: _discard(c, where, reply)), _TOO_LATE)
    reply = form.text("send")
    text = form.text(f"{DRAFT}{reply}", LONGEST_TEXT)
    if not reply:
        raise Lost("No draft was named.")
    if not text:
        return back(where, False, "The text was empty. Discard the draft if nothing should go out.")
    return back(where, where.only_rows("draft_sent", lambda c: _send(c, where, reply, text)), _TOO_LATE)


_TOO_LATE = "This draft was sent or dropped in the meantime, or a later reply went out and it would come after that."


def _discard(connection: Connection, where: Where, reply: str) -> bool:
    shop = where.session.shop
    done = own_reply(connection, where, reply) and outbox.discard(connection, shop, reply, "discarded by the office")
    if done:
        _keep(connection, where, reply, "")
    return done


def _send(connection: Connection, where: Where, reply: str, text: str) -> bool:
    shop, now = where.session.shop, where.deps.clock()
    replies = outbox.of_thread(connection, shop, where.thread.id)
    if overtaken(replies, desk.turn_of_replies(connection, shop, where.thread.id), reply):
        return False
    done = own_reply(connection, where, reply) and outbox.release(
        connection, shop, reply, now, text=text, segments=len(count(text).parts), by=where.holder
    )
    if done:
        _keep(connection, where, reply, "")
        for earlier in earlier_drafts(replies, reply):
            outbox.discard(connection, shop, earlier.id, OVERTAKEN)
    return done


def own_reply(connection: Connection, where: Where, reply: str) -> bool:
    """The reply belongs to this very thread."""
    return any(row.id == reply for row in outbox.of_thread(connection, where.session.shop, where.thread.id))
