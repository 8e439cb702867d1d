"""The files that pages need: looks, scripts, icon. Only what lies in the folder when the service starts."""

from __future__ import annotations

import hashlib
import mimetypes
from pathlib import Path

from fastapi import APIRouter, Request, Response

from service.pages.answer import Lost, PageRoute

FOLDER = Path(__file__).parent / "static"
_TYPES = {".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8", ".svg": "image/svg+xml"}


def static_router() -> APIRouter:
    """``/static/...``: read once, sent with an entity tag so that a browser asks but does not load again."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    held = {path.relative_to(FOLDER).as_posix(): _file(path) for path in FOLDER.rglob("*") if path.is_file()}

    @router.get("/static/{name:path}")
    def file(request: Request, name: str) -> Response:
        found = held.get(name)
        if found is None:
            raise Lost("There is no such file.")
        body, kind, tag = found
        headers = {"ETag": tag, "Cache-Control": "no-cache", "X-Content-Type-Options": "nosniff"}
        if request.headers.get("if-none-match") == tag:
            return Response(status_code=304, headers=headers)
        return Response(body, media_type=kind, headers=headers)

    return router


def _file(path: Path) -> tuple[bytes, str, str]:
    body = path.read_bytes()
    kind = _TYPES.get(path.suffix) or mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    return body, kind, f'"{hashlib.sha256(body).hexdigest()[:20]}"'
