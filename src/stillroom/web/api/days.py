"""Canning days as documents."""

from typing import Annotated

from fastapi import Path, Request

from stillroom.store.days import add_day, change_day, day, days, remove_day
from stillroom.store.household import household
from stillroom.web.api.route import room
from stillroom.web.api.shapes.kept import DayList, KeptDay, NewDay, Removed, RewrittenDay
from stillroom.web.api.told import day_told, signed, there

router = room("Days")
Key = Annotated[str, Path(max_length=200)]


@router.get("/days", response_model=DayList)
def list_days(request: Request) -> object:
    """All days, the latest date first."""
    with request.app.state.store.read() as session:
        return {"days": days(session)}


@router.post("/days", response_model=KeptDay, status_code=201)
def add(request: Request, asked: NewDay) -> object:
    """Keep a new day, under a key made from its date."""
    with request.app.state.store.write() as session:
        home = household(session)
        if not asked.draft:
            home.day_of(asked.document)
        return day_told(
            add_day(session, asked.document, title=asked.title, **signed(request)), home
        )


@router.get("/days/{key}", response_model=KeptDay)
def show(request: Request, key: Key) -> object:
    """One day."""
    with request.app.state.store.read() as session:
        return day_told(there(day(session, key), "day", key), household(session))


@router.put("/days/{key}", response_model=KeptDay)
def write(request: Request, key: Key, asked: RewrittenDay) -> object:
    """Write a day anew; 409 where somebody changed it meanwhile."""
    with request.app.state.store.write() as session:
        there(day(session, key), "day", key)
        home = household(session)
        if not asked.draft:
            home.day_of(asked.document)
        changed = change_day(
            session,
            key,
            asked.document,
            version=asked.version,
            title=asked.title,
            **signed(request),
        )
        return day_told(changed, home)


@router.delete("/days/{key}", response_model=Removed)
def remove(request: Request, key: Key) -> object:
    """Take a day off the list; it can be undone."""
    with request.app.state.store.write() as session:
        there(day(session, key), "day", key)
        return {"change": remove_day(session, key, **signed(request))}
