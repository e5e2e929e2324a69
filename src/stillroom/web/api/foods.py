"""Foods, their published processes, and what steam does."""

from typing import Annotated

from fastapi import Query, Request

from stillroom.errors import InputError
from stillroom.processes import library, lookup
from stillroom.processes.told import answer_json
from stillroom.store.household import household
from stillroom.units.elevation import parse_elevation
from stillroom.web.api.route import room
from stillroom.web.api.shapes.processes import FoodList, ProcessAnswer, SteamAnswer
from stillroom.web.views.foods import found

router = room("Foods")

Words = Annotated[str, Query(max_length=200)]
Elevation = Annotated[
    str,
    Query(max_length=60, description='Such as "5200 ft" or "1600 m"; left out, the kitchen\'s own'),
]


@router.get("/foods", response_model=FoodList)
def list_foods(words: Words = "") -> object:
    """The foods that hold all the words in their name or a cut; every food for no words."""
    printed = {row.food for row in library.processes()}
    return {
        "foods": [
            {
                "food": food,
                "forms": [form for form in library.forms()[food] if form],
                "withheld": food not in printed,
            }
            for food in found(words)
        ]
    }


@router.get("/process", response_model=ProcessAnswer)
def ask_process(
    request: Request,
    food: Annotated[str, Query(min_length=1, max_length=200, description="As you say it")],
    elevation: Elevation = "",
    form: Annotated[Words, Query(description="The cut, such as sliced")] = "",
    pack: Annotated[Words, Query(description="raw or hot")] = "",
    jar: Annotated[Words, Query(description="Such as pint or quart")] = "",
    method: Annotated[
        Words, Query(description="boiling-water, dial-gauge, weighted-gauge or pressure")
    ] = "",
) -> object:
    """What is published for a food; a refusal is an answer."""
    return answer_json(
        lookup(
            food,
            elevation=feet_of(request, elevation),
            form=form or None,
            pack=pack or None,
            jar=jar or None,
            method=method or None,
        )
    )


@router.get("/heat/steam", response_model=SteamAnswer)
def tell_steam(
    request: Request,
    psi: Annotated[
        float, Query(ge=0, le=15, description="Gauge reading, psi", allow_inf_nan=False)
    ],
    elevation: Elevation = "",
) -> object:
    """How hot it is inside at a gauge reading, and what air and a wrong gauge take from it."""
    from stillroom.heat.steam import settings, steam
    from stillroom.heat.told import steam_json

    return steam_json(steam(feet_of(request, elevation), psi), settings())


def feet_of(request: Request, said: str) -> int:
    """The elevation asked for, feet, else the kitchen's.

    Raises
    ------
    InputError
        It cannot be read, or neither is written.
    """
    if said.strip():
        return parse_elevation(said, "elevation")
    with request.app.state.store.read() as session:
        feet = household(session).elevation_ft
    if feet is None:
        raise InputError(
            "elevation: missing, and the kitchen's is not written yet. Write a number and its "
            'unit, such as "5200 ft".'
        )
    return feet
