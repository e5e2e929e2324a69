"""The gate: every request passes it before any page, and every answer after.

In order: where the asker sits, the name asked for, whose page sent it, who asks, how much it
carries, and the mark in its form. What fails is refused here; no page is reached.
"""

import re
from http import HTTPStatus
from typing import Any, Literal

from anyio import to_thread
from fastapi import Request
from fastapi.responses import RedirectResponse, Response
from starlette.datastructures import FormData, Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from stillroom.web.security import body, csrf, hosts, tokens
from stillroom.web.security.answers import plain_fault, refusal, way_in
from stillroom.web.security.doors import Doors
from stillroom.web.security.headers import protect
from stillroom.web.security.origin import READING, is_foreign
from stillroom.web.security.visitor import HERE, Visitor, stranger
from stillroom.web.words.mark import _

# All that a stranger may see: the way in, what it looks like, and the certificate's public half.
PUBLIC = re.compile(
    r"/doors/(pair|trust|certificate)|/static/(css/[a-z0-9-]+\.css|mark\.svg)", re.ASCII
)
_SHIPPED = "/static/"
_FOUND = (200, 206, 304)
_FORMS = ("application/x-www-form-urlencoded", "multipart/form-data")


class Refused(Exception):
    """A request that goes no further: an HTTP status and what the asker is told."""

    def __init__(self, status: HTTPStatus, message: str) -> None:
        super().__init__(message)
        self.status = status


class Gate:
    """Wraps the whole application, its answers to errors included."""

    def __init__(self, inner: ASGIApp, doors: Doors) -> None:
        self.inner = inner
        self.doors = doors

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or answer it."""
        if scope["type"] == "lifespan":
            await self.inner(scope, receive, send)
        elif scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
        else:
            await _Visit(self, scope, receive, send).answer()


class _Visit:
    """One request on its way through the gate."""

    def __init__(self, gate: Gate, scope: Scope, receive: Receive, send: Send) -> None:
        self.inner, self.doors = gate.inner, gate.doors
        self.scope, self.receive, self._send = scope, receive, send
        self.headers = Headers(scope=scope)
        self.is_begun = False
        self.renewed = ""

    async def answer(self) -> None:
        try:
            await self._answer()
        except Exception:
            # The application has answered its own faults; this one is of the gate.
            if not self.is_begun:
                await plain_fault()(self.scope, self.receive, self.send)
            raise

    async def _answer(self) -> None:
        try:
            receive = await self._let_in()
        except Refused as refused:
            await self._refuse(refused)
        except body.Gone:
            return
        else:
            if receive is not None:
                await self.inner(self.scope, receive, self.send)

    async def _let_in(self) -> Receive | None:
        """What the application may read, or None where the way in was shown instead."""
        state = self.scope.setdefault("state", {})
        state["visitor"], state["csrf"] = stranger(""), ""
        host = self._checked_host()
        visitor = await self._visitor(host)
        state["visitor"] = visitor
        state["csrf"] = csrf.mark(self.doors.key, visitor.holder)
        method = self.scope["method"]
        if is_foreign(method, self.headers, self.scope["scheme"], host):
            raise Refused(
                HTTPStatus.FORBIDDEN,
                _("Another site's page sent this. Open the page here instead."),
            )
        if visitor.kind == "stranger" and not PUBLIC.fullmatch(self.scope["path"]):
            await self._send_away()
            return None
        if method in READING:
            return body.without_body(self.receive)
        return await self._checked_body(visitor)

    def _checked_host(self) -> hosts.Host:
        settings = self.doors.settings
        if not hosts.may_ask(self.scope, settings):
            raise Refused(
                HTTPStatus.FORBIDDEN, _("These pages are for the household's network only.")
            )
        host = hosts.asked_host(self.scope)
        if host is None or not hosts.is_ours(host, settings):
            raise Refused(
                HTTPStatus.MISDIRECTED_REQUEST,
                _(
                    "These pages are not kept under that name. Use the address that Stillroom "
                    "printed when it started."
                ),
            )
        return host

    async def _visitor(self, host: hosts.Host) -> Visitor:
        settings = self.doors.settings
        if hosts.is_at_this_computer(self.scope, host, settings):
            return HERE
        token = Request(self.scope).cookies.get(tokens.cookie_name(secure=settings.https), "")
        found = await to_thread.run_sync(self.doors.recognise, token) if token else None
        if found is None:
            return stranger(hosts.peer_of(self.scope))
        visitor, is_noted = found
        self.renewed = token if is_noted else ""
        return visitor

    async def _checked_body(self, visitor: Visitor) -> Receive:
        kind = self.headers.get("content-type", "").partition(";")[0].strip().lower()
        if visitor.kind == "stranger":
            most = body.STRANGERS_BYTES
        else:
            most = body.UPLOAD_BYTES if kind == "multipart/form-data" else body.FORM_BYTES
        try:
            sent = await body.read_body(self.receive, self.headers.get("content-length"), most)
        except body.TooLarge:
            raise Refused(
                HTTPStatus.REQUEST_ENTITY_TOO_LARGE,
                _("That is too much at once. Send it in parts, or make it smaller."),
            ) from None
        except body.TooSlow:
            raise Refused(
                HTTPStatus.REQUEST_TIMEOUT,
                _("What was sent did not come in time. Send it again."),
            ) from None
        if kind in _FORMS:
            await self._check_mark(visitor, sent)
        elif csrf.HEADER not in self.headers:
            raise Refused(
                HTTPStatus.FORBIDDEN,
                _('A change that is no form needs the header "X-Stillroom: 1".'),
            )
        return body.again(sent, self.receive)

    async def _check_mark(self, visitor: Visitor, sent: bytes) -> None:
        form = await _form_of(self.scope, body.again(sent, self.receive))
        told = form.get(csrf.FIELD)
        await form.close()
        if not isinstance(told, str) or not csrf.is_mark(self.doors.key, visitor.holder, told):
            raise Refused(
                HTTPStatus.FORBIDDEN,
                _(
                    "This form is not one of ours, or was opened before this device was let in. "
                    "Go back, load the page again and send it once more."
                ),
            )

    async def _send_away(self) -> None:
        """Show a stranger the way in; a program is told that it may not."""
        opens_a_page = self.scope["method"] in ("GET", "HEAD") and "text/html" in self.headers.get(
            "accept", ""
        )
        answer: Response
        if opens_a_page and not self.scope["path"].startswith("/api/"):
            answer = RedirectResponse(way_in(self.scope), HTTPStatus.SEE_OTHER)
        else:
            answer = await self._told(
                HTTPStatus.UNAUTHORIZED, _("This device has not been let in.")
            )
        await answer(self.scope, self.receive, self.send)

    async def _refuse(self, refused: Refused) -> None:
        answer = await self._told(refused.status, str(refused))
        if refused.status in (HTTPStatus.REQUEST_ENTITY_TOO_LARGE, HTTPStatus.REQUEST_TIMEOUT):
            # The rest of what was sent is still on its way, and nobody will read it.
            answer.headers["connection"] = "close"
        await answer(self.scope, self.receive, self.send)

    async def _told(self, status: HTTPStatus, message: str) -> Response:
        request = Request(self.scope)
        return await to_thread.run_sync(refusal, request, status, message)

    async def send(self, message: Message) -> None:
        """Send, with what every answer carries."""
        if message["type"] == "http.response.start":
            self.is_begun = True
            headers = MutableHeaders(scope=message)
            protect(headers, kept=self._kept(message["status"]))
            if self.renewed and "set-cookie" not in headers:
                tokens.set_cookie(headers, self.renewed, secure=self.doors.settings.https)
        await self._send(message)

    def _kept(self, status: int) -> Literal["long", "checked", "never"]:
        """How the browser may keep an answer: a shipped file of known content for long."""
        if status not in _FOUND or not self.scope["path"].startswith(_SHIPPED):
            return "never"
        return "long" if b"v=" in self.scope.get("query_string", b"") else "checked"


async def _form_of(scope: Any, receive: Receive) -> FormData:
    """The fields of a form.

    Raises
    ------
    Refused
        It cannot be read.
    """
    try:
        return await Request(scope, receive).form()
    except (HTTPException, MultiPartException, ValueError):
        raise Refused(
            HTTPStatus.BAD_REQUEST, _("What was sent cannot be read as a form.")
        ) from None
