"""What was changed, by whom and when, and the way back."""

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from stillroom.errors import Conflict, InputError
from stillroom.store.changes import changes, undo
from stillroom.web.clock import now
from stillroom.web.render import page
from stillroom.web.security import who
from stillroom.web.undo import translate
from stillroom.web.views.changes import lines, place_of, told

router = APIRouter()
AT_ONCE = 30
# The largest number of a row that the database knows.
_LAST = 2**63 - 1


@router.get("/changes", response_model=None)
def list_changes(request: Request, before: int | None = None) -> Response:
    """The last changes, newest first; ``before`` leads on to older ones."""
    return _shown(request, before)


@router.post("/changes/{number}/undo", response_model=None)
def undo_change(request: Request, number: int) -> Response:
    """Put back what stood before, and go where that is seen."""
    try:
        with request.app.state.store.write() as session:
            made = undo(session, min(number, _LAST), at=now(request), who=who(request))
    except (Conflict, InputError) as wrong:
        return _shown(request, None, wrong=str(wrong), status=_status(wrong))
    return RedirectResponse(f"{place_of(made)}?changed={made.id}", 303)


def _status(wrong: Exception) -> int:
    return 409 if isinstance(wrong, Conflict) else 404


def _shown(request: Request, before: int | None, *, wrong: str = "", status: int = 200) -> Response:
    older = None if before is None else max(0, min(before, _LAST))
    with request.app.state.store.read() as session:
        found = changes(session, AT_ONCE + 1, before=older)
    words = translate(request)
    listed = lines(found[:AT_ONCE])
    return page(
        request,
        "changes/list.html",
        status=status,
        lines=[(line, told(line.change, words)) for line in listed],
        older=listed[-1].change.id if len(found) > AT_ONCE else None,
        is_newest=before is None,
        wrong=wrong,
        zone=now(request).tzinfo,
    )
