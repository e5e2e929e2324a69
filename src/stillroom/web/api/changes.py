"""Every change, undoing one, and all that is kept in one document."""

from typing import Annotated, Any

from fastapi import Path, Query, Request

from stillroom.store.changes import change, changes, undo
from stillroom.store.transfer import export_document
from stillroom.web.api.route import room
from stillroom.web.api.shapes.kept import LARGEST, Change, ChangeList
from stillroom.web.api.told import signed, there

router = room("Changes")


@router.get("/changes", response_model=ChangeList)
def list_changes(
    request: Request,
    limit: Annotated[int, Query(ge=1, le=200, description="At most so many")] = 50,
    before: Annotated[
        int | None, Query(ge=1, le=LARGEST, description="Only those older than this number")
    ] = None,
) -> object:
    """The newest changes, newest first."""
    with request.app.state.store.read() as session:
        return {"changes": changes(session, limit, before=before)}


@router.post("/changes/{number}/undo", response_model=Change)
def undo_change(request: Request, number: Annotated[int, Path(ge=1, le=LARGEST)]) -> object:
    """Put back what stood before a change; 409 where it was changed again since."""
    with request.app.state.store.write() as session:
        there(change(session, number), "change", number)
        return undo(session, number, **signed(request))


@router.get("/export", response_model=dict[str, Any])
def export(request: Request) -> object:
    """All that the household recorded, as ``stillroom export --json``."""
    with request.app.state.store.read() as session:
        return export_document(session)
