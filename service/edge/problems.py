"""Errors over HTTP as problem documents (RFC 9457, source A9): what is wrong, never how we are built."""

from __future__ import annotations

from collections.abc import Mapping
from http import HTTPStatus
from pathlib import Path
from traceback import walk_tb

from starlette.responses import JSONResponse

MEDIA_TYPE = "application/problem+json"


def problem(status: int, detail: str = "", *, headers: Mapping[str, str] | None = None, **more: object) -> JSONResponse:
    """
    A problem document with that *status*; ``type`` is left out, so the title is the status phrase (RFC 9457, 4.2.1).

    *detail*: one sentence for whoever runs the other side; it must not hold what a customer wrote. *more*: further
    members.
    """
    try:
        title = HTTPStatus(status).phrase
    except ValueError:
        title = "Error"
    document: dict[str, object] = {"title": title, "status": status}
    if detail:
        document["detail"] = detail
    return JSONResponse(document | more, status_code=status, media_type=MEDIA_TYPE, headers=dict(headers or {}))


def whereabouts(wrong: BaseException) -> str:
    """
    Where in the code *wrong* was raised, innermost first, for a log.

    Never its message: that may quote what a customer wrote, or the parameters of a statement.
    """
    frames = [(frame.f_code.co_filename, line, frame.f_code.co_name) for frame, line in walk_tb(wrong.__traceback__)]
    return " < ".join(f"{Path(file).name}:{line} {name}" for file, line, name in reversed(frames[-6:]))
