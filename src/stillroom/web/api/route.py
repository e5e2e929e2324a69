"""A route of the interface: strict JSON in, one shape of error out."""

from collections.abc import Callable, Coroutine
from typing import Any

from fastapi import APIRouter, Request, Response
from fastapi.exceptions import HTTPException
from fastapi.routing import APIRoute

from stillroom.web.api.body import JsonRequest
from stillroom.web.api.shapes.errors import ERRORS

Handle = Callable[[Request], Coroutine[Any, Any, Response]]


class JsonRoute(APIRoute):
    """Takes JSON only where a body is asked for, and names what may go wrong in OpenAPI."""

    def get_route_handler(self) -> Handle:
        """The handler, with the body read by ``JsonRequest``."""
        answer = super().get_route_handler()
        takes_body = self.body_field is not None

        async def handle(request: Request) -> Response:
            asked = JsonRequest(request.scope, request.receive)
            if takes_body and not _is_json(asked) and await asked.body():
                raise HTTPException(
                    415, 'Send JSON, and say so in the header "Content-Type: application/json".'
                )
            return await answer(asked)

        return handle


def _is_json(request: Request) -> bool:
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    return kind == "application/json"


def room(name: str) -> APIRouter:
    """A router for one room; its name heads the room's operations in OpenAPI."""
    return APIRouter(route_class=JsonRoute, tags=[name], responses=ERRORS)
