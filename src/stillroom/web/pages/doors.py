"""The doors: passphrase, codes and devices at this computer, and the way in for a stranger."""

from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from stillroom.errors import InputError
from stillroom.web.render import page
from stillroom.web.security import tokens
from stillroom.web.security.answers import place_here
from stillroom.web.security.certificate import authority_file, fingerprint
from stillroom.web.security.doors import Doors, TryLater
from stillroom.web.security.passphrase import LEAST, MOST, as_typed, is_too_plain, is_too_short
from stillroom.web.security.qr import square
from stillroom.web.security.visitor import visitor

router = APIRouter()
Field = Annotated[str, Form()]
_NAME_SIGNS = 40


def _doors(request: Request) -> Doors:
    doors = request.app.state.doors
    assert isinstance(doors, Doors)
    return doors


def _at_this_computer(request: Request) -> Doors:
    """The doors, for who sits at this computer.

    Raises
    ------
    HTTPException
        Somebody else asks.
    """
    if visitor(request).kind != "here":
        raise HTTPException(403, "This is done at the computer that runs Stillroom.")
    return _doors(request)


@router.get("/doors", response_model=None)
def show(request: Request) -> Response:
    """Who may come in; a device sees itself only."""
    if visitor(request).kind != "here":
        return page(request, "doors/device.html", visitor=visitor(request))
    return _shown(request)


def _shown(request: Request, *, status: int = 200, wrong: dict[str, str] | None = None) -> Response:
    doors = _doors(request)
    settings, code = doors.settings, doors.code()
    url = settings.household_url
    return page(
        request,
        "doors/here.html",
        status=status,
        wrong=wrong or {},
        settings=settings,
        devices=doors.devices(),
        has_passphrase=doors.has_passphrase(),
        least=LEAST,
        code=code,
        minutes=int(tokens.CODE_HOLDS.total_seconds() // 60),
        unused_days=tokens.UNUSED.days,
        pair_url=f"{url}/doors/pair?{urlencode({'code': code.text})}" if url and code else "",
        trust_url=f"{url}/doors/trust" if url and settings.https else "",
        fingerprint=fingerprint(doors.folder) if settings.https else "",
        square=square,
    )


@router.post("/doors/passphrase", response_model=None)
async def choose_passphrase(
    request: Request, passphrase: Field = "", again: Field = ""
) -> Response:
    """Take a passphrase, typed twice."""
    doors = _at_this_computer(request)
    wrong = _wrong_passphrase(passphrase, again)
    if wrong:
        return await run_in_threadpool(_shown, request, status=422, wrong=wrong)
    await doors.choose_passphrase(passphrase)
    return RedirectResponse("/doors", 303)


def _wrong_passphrase(passphrase: str, again: str) -> dict[str, str]:
    """What is wrong, by field."""
    if is_too_short(passphrase):
        return {"passphrase": "short"}
    if len(passphrase) > MOST:
        return {"passphrase": "long"}
    if is_too_plain(passphrase):
        return {"passphrase": "plain"}
    return {} if as_typed(passphrase) == as_typed(again) else {"again": "differs"}


@router.post("/doors/code", response_model=None)
def show_code(request: Request) -> Response:
    """Show a code for one more device."""
    doors = _at_this_computer(request)
    if not doors.settings.open_to_household:
        raise InputError("These pages are open to this computer only; no code would let one in.")
    doors.new_code()
    return RedirectResponse("/doors#code", 303)


@router.post("/doors/devices/{device}/revoke", response_model=None)
def revoke(request: Request, device: int) -> Response:
    """Let a device in no more."""
    if not _at_this_computer(request).revoke(device):
        raise HTTPException(404, "There is no such device. It may have been turned away already.")
    return RedirectResponse("/doors#devices", 303)


@router.post("/doors/leave", response_model=None)
def leave(request: Request) -> Response:
    """A device gives its own way in back."""
    doors, device = _doors(request), visitor(request).device
    if not device:
        raise HTTPException(404, "This is no paired device.")
    doors.revoke(device)
    answer = RedirectResponse("/doors/pair", 303)
    tokens.set_cookie(answer.headers, "", secure=doors.settings.https)
    return answer


@router.get("/doors/pair", response_model=None)
def ask_in(request: Request, code: str = "", then: str = "") -> Response:
    """The form that lets a device in."""
    if visitor(request).kind == "device":
        return RedirectResponse(place_here(then), 303)
    return _asked_in(request, {"code": code, "name": "", "then": then})


def _asked_in(
    request: Request,
    typed: dict[str, str],
    *,
    status: int = 200,
    wrong: str = "",
    seconds: int = 0,
) -> Response:
    answer = page(
        request,
        "doors/pair.html",
        status=status,
        wrong=wrong,
        minutes=-(-seconds // 60),
        typed=typed,
        settings=_doors(request).settings,
    )
    if seconds:
        answer.headers["retry-after"] = str(seconds)
    return answer


@router.post("/doors/pair", response_model=None)
async def come_in(
    request: Request, code: Field = "", passphrase: Field = "", name: Field = "", then: Field = ""
) -> Response:
    """Let a device in that knows the code on this computer's screen and the passphrase."""
    doors = _doors(request)
    if visitor(request).kind == "here" or not doors.settings.open_to_household:
        raise InputError("This computer needs no code. Open the code's address on the device.")
    typed = {"code": code[:_NAME_SIGNS], "name": name[:_NAME_SIGNS], "then": then}
    address = request.client.host if request.client else ""
    called = " ".join(name.split())[:_NAME_SIGNS] or f"Device at {address}"
    try:
        token = await doors.pair(code, passphrase, called, address)
    except TryLater as later:
        return await run_in_threadpool(
            _asked_in, request, typed, status=429, wrong="wait", seconds=later.seconds
        )
    if token is None:
        return await run_in_threadpool(_asked_in, request, typed, status=403, wrong="no")
    answer = RedirectResponse(place_here(then), 303)
    tokens.set_cookie(answer.headers, token, secure=doors.settings.https)
    return answer


@router.get("/doors/trust", response_model=None)
def tell_steps(request: Request) -> Response:
    """How a phone learns to trust the certificate made on this computer."""
    _need_https(_doors(request))
    return page(request, "doors/trust.html")


@router.get("/doors/certificate", response_model=None)
def hand_out_certificate(request: Request) -> Response:
    """The authority's certificate: its public half, for phones to trust."""
    doors = _doors(request)
    _need_https(doors)
    return Response(
        authority_file(doors.folder).read_bytes(),
        media_type="application/x-x509-ca-cert",
        headers={"content-disposition": 'attachment; filename="stillroom-authority.crt"'},
    )


def _need_https(doors: Doors) -> None:
    if not doors.settings.https:
        raise HTTPException(404, "Stillroom was started without --https; no certificate is needed.")
