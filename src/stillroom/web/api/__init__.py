"""The JSON interface: what the pages can do, for programs of the household.

One router for each room, each answer a shape of ``shapes``; docs/reference/api.md lists them all.
"""

from fastapi import APIRouter

from stillroom.web.api import changes, days, foods, judging, kitchen, plans, recipes

ROUTERS: tuple[APIRouter, ...] = (
    foods.router,
    judging.router,
    recipes.router,
    kitchen.router,
    days.router,
    plans.router,
    changes.router,
)
