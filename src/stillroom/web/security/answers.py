"""What the gate says when it lets a request go no further."""

from http import HTTPStatus
from typing import Any
from urllib.parse import quote, urlencode

from fastapi import Request
from fastapi.responses import JSONResponse, PlainTextResponse, Response

_ALONE = "Stillroom: this is a fault of ours, not yours. Nothing that was kept is lost."


def refusal(request: Request, status: HTTPStatus, message: str) -> Response:
    """JSON below /api and for those who ask for it, else a page that needs nothing but itself."""
    wants_json = "application/json" in request.headers.get("accept", "")
    if wants_json or request.url.path.startswith("/api/"):
        told = {"error": {"status": int(status), "message": message, "place": ""}}
        return JSONResponse(told, int(status))
    from stillroom.web.render import page

    return page(
        request, "doors/refused.html", status=int(status), number=int(status), message=message
    )


def plain_fault() -> Response:
    """When nothing else can be said."""
    return PlainTextResponse(_ALONE, HTTPStatus.INTERNAL_SERVER_ERROR)


def way_in(scope: Any) -> str:
    """The pairing page, which then leads to where the asker meant to go."""
    query = scope.get("query_string", b"").decode("latin-1")
    wanted = quote(scope["path"]) + (f"?{query}" if query else "")
    return f"/doors/pair?{urlencode({'then': wanted})}" if wanted != "/" else "/doors/pair"


def place_here(wanted: str) -> str:
    """A place among our pages, or the first page: never another site.

    Examples
    --------
    >>> place_here("/days/3?x=1"), place_here("//elsewhere.example/"), place_here("/\\\\elsewhere")
    ('/days/3?x=1', '/', '/')
    """
    is_path = wanted.startswith("/") and not wanted.startswith("//")
    is_plain = wanted.isascii() and wanted.isprintable() and "\\" not in wanted
    return wanted if is_path and is_plain and not wanted.startswith("/doors/pair") else "/"
