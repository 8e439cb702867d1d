"""What was typed in a form that lacked something, carried over the redirect by the phone itself: nothing is sent twice."""

from __future__ import annotations

import base64
import binascii
import zlib
from urllib.parse import parse_qsl, urlencode

from fastapi import Request, Response
from starlette.datastructures import FormData, UploadFile

from service.access.guard import Form

COOKIE = "typed"
LIVES_S = 3600
LONGEST = 3_800
"""Browsers keep cookies of some 4,000 characters. What is longer stands in the page's own copy on the phone."""
FIELDS = ("ticket", "found", "ended", "minutes", "early", "why", "did", "found_words")
WIDE = 20_000


def keep_typed(answer: Response, form: Form, path: str, *, secure: bool) -> Response:
    """*answer* with what *form* holds, for the sheet at *path* alone; what is too long stays out. secure: over HTTPS only."""
    fields = [("parts", part) for part in form.all("parts")]
    for name in FIELDS:
        more = [*fields, (name, form.text(name, 500))]
        fields = more if len(_packed(more)) <= LONGEST else fields
    answer.set_cookie(
        COOKIE, _packed(fields), max_age=LIVES_S, path=path, secure=secure, httponly=True, samesite="strict"
    )
    return answer


def forget_typed(answer: Response, path: str) -> Response:
    """*answer*, after which nothing typed is kept for the sheet at *path*."""
    answer.delete_cookie(COOKIE, path=path)
    return answer


def typed_of(request: Request) -> Form | None:
    """What was kept, if anything was and it can be read."""
    try:
        packed = base64.urlsafe_b64decode(request.cookies.get(COOKIE, ""))
        text = zlib.decompressobj().decompress(packed, WIDE).decode()
    except (binascii.Error, ValueError, zlib.error):
        return None
    told: list[tuple[str, str | UploadFile]] = [*parse_qsl(text, keep_blank_values=True)]
    return Form(FormData(told)) if told else None


def _packed(fields: list[tuple[str, str]]) -> str:
    return base64.urlsafe_b64encode(zlib.compress(urlencode(fields).encode())).decode()
