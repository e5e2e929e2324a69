"""The application: rooms, doors and static files joined in one place."""

from pathlib import Path

from fastapi import APIRouter, Depends, FastAPI
from fastapi.middleware.gzip import GZipMiddleware
from fastapi.staticfiles import StaticFiles

from stillroom.store.engine import Store
from stillroom.web import api, faults, security, undo
from stillroom.web.pages import (
    canners,
    changes,
    days,
    days_plan,
    doors,
    foods,
    kitchen,
    now,
    recipes,
)
from stillroom.web.settings import Settings
from stillroom.web.ways import ways

STATIC = Path(__file__).parent / "static"
PAGES: tuple[APIRouter, ...] = (
    now.router,
    foods.router,
    recipes.router,
    days.router,
    days_plan.router,
    canners.router,
    kitchen.router,
    changes.router,
    doors.router,
)


def create_app(store: Store, settings: Settings) -> FastAPI:
    """The pages and the JSON interface over one store.

    Parameters
    ----------
    store : an open store; the caller closes it
    settings : how the pages are served, and the clock they go by
    """
    app = FastAPI(
        title="Stillroom",
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
        description="Published processes, recipes, days and the kitchen of one household.",
    )
    app.state.store = store
    app.state.settings = settings
    app.state.ways = ways(
        [*(("", page) for page in PAGES), *(("/api", router) for router in api.ROUTERS)]
    )
    for page in PAGES:
        app.include_router(page, include_in_schema=False, dependencies=[Depends(undo.offered)])
    for router in api.ROUTERS:
        app.include_router(router, prefix="/api")
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    # The mark in a form looks different each time (security.csrf), so a page may be compressed.
    app.add_middleware(GZipMiddleware, minimum_size=2_000, compresslevel=4)
    faults.install(app)
    security.install(app, store, settings)
    return app
