"""The kitchen as a document."""

from fastapi import Request

from stillroom.store.kitchens import kitchen, save_kitchen
from stillroom.web.api.route import room
from stillroom.web.api.shapes.kept import KeptKitchen, Rewritten
from stillroom.web.api.told import kitchen_told, read_kitchen, signed

router = room("Kitchen")


@router.get("/kitchen", response_model=KeptKitchen)
def show_kitchen(request: Request) -> object:
    """The kitchen; version 0 where nothing is written of it yet."""
    with request.app.state.store.read() as session:
        return kitchen_told(kitchen(session))


@router.put("/kitchen", response_model=KeptKitchen)
def write_kitchen(request: Request, asked: Rewritten) -> object:
    """Write the kitchen; 409 where somebody changed it meanwhile."""
    if not asked.draft:
        read_kitchen(asked.document)
    with request.app.state.store.write() as session:
        return kitchen_told(
            save_kitchen(session, asked.document, version=asked.version, **signed(request))
        )
