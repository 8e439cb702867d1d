"""What the office has the customer told of its own deed: said in the shop's sentences, but a person's word."""

from __future__ import annotations

from service.conversation.compose import compose
from service.conversation.events import OfficeDid
from service.conversation.step import Reply
from service.conversation.underway import Said, Turn


def tell_deed(
    turn: Turn, event: OfficeDid, id: str, *, needs_visit: tuple[str, int] | None = None, **values: object
) -> None:
    """
    Tell the customer the sentence *id*, unless the office left it out or they opted out.

    It goes out though a person holds the thread, and is no draft: whoever ticked it has read what it tells.
    """
    if event.data.get("quiet") or turn.state.consent == "out":
        return
    pieces = [Said(id, turn.words(id, **values))]
    first = not turn.state.introduced
    if first:
        pieces.insert(0, Said("intro", turn.words("intro")))
        turn.put(introduced=True)
    turn.replies.extend(
        Reply(
            kind="started", text=text.text, wording=text.wording, ticket=event.ticket or turn.state.focus,
            needs_visit=needs_visit, by=event.by,
        )
        for text in compose(pieces, turn.language, first=first)
    )  # fmt: skip
