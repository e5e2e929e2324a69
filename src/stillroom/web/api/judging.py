"""Recipes judged, compared and built, whether they are kept or not."""

from dataclasses import replace

from fastapi import Request

from stillroom.recipes.build import build, reordered
from stillroom.recipes.check.compare import Asked, compare
from stillroom.recipes.check.own import as_pasted, base_of, judge, process_of
from stillroom.recipes.check.verdict import check
from stillroom.recipes.first import make_first
from stillroom.recipes.model import Recipe
from stillroom.recipes.pasted import Pasted
from stillroom.recipes.read import recipe_from
from stillroom.recipes.text.page import read_paste
from stillroom.recipes.told.built import build_json
from stillroom.recipes.told.judged import checked_json, compared_json
from stillroom.store.household import household
from stillroom.toml_file import table_of
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import SIZES, parse_jar
from stillroom.web.api.route import room
from stillroom.web.api.shapes.asked import Build, Check, Compare, Named, Written
from stillroom.web.api.shapes.judged import Built, Comparison, Verdict

router = room("Judging recipes")


@router.post("/check", response_model=Verdict)
def check_recipe(request: Request, asked: Check) -> object:
    """A recipe judged by the published processes."""
    pasted, base = _pasted(request, asked.recipe, asked.base)
    jar = parse_jar(asked.jar) if asked.jar else ""
    return checked_json(check(pasted, base=base, jar=jar, method=asked.method, pack=asked.pack))


@router.post("/compare", response_model=Comparison)
def compare_recipes(request: Request, asked: Compare) -> object:
    """What each change between two recipes does to verdict, time, pressure and liquid."""
    first, base = _pasted(request, asked.before, asked.base)
    second, _ = _pasted(request, asked.after, asked.base)
    jar = parse_jar(asked.jar) if asked.jar else ""
    after = parse_jar(asked.jar_after, "jar_after") if asked.jar_after else jar
    before = Asked(base, jar, asked.method, asked.pack)
    return compared_json(compare(first, second, before, replace(before, jar=after)))


@router.post("/build", response_model=Built)
def build_jar(request: Request, asked: Build) -> object:
    """One jar of a recipe layer by layer, with its process where it is tested."""
    recipe, feet = _recipe(request, asked.recipe), _feet(request, asked.elevation)
    jar = parse_jar(asked.jar) if asked.jar else max(recipe.jars, key=SIZES.index)
    made = reordered(build(recipe, jar), asked.order)
    first, answer = make_first([(recipe, jar, asked.jars)]), process_of(recipe, jar, feet)
    return build_json(made, first, asked.jars, judge(recipe).verdict, answer)


def _pasted(request: Request, said: str | Named | Written, base: str) -> tuple[Pasted, str]:
    """A recipe in whatever way it was told, and the published food it is to follow."""
    if isinstance(said, str):
        return read_paste(said, base=base), base
    recipe = _recipe(request, said)
    return as_pasted(recipe), base or base_of(recipe)


def _recipe(request: Request, said: Named | Written) -> Recipe:
    if isinstance(said, Written):
        return recipe_from(table_of(said.document, "recipe"), "recipe")
    with request.app.state.store.read() as session:
        return household(session).recipe(said.name, "recipe")


def _feet(request: Request, said: str) -> int | None:
    if said.strip():
        return parse_elevation(said, "elevation")
    with request.app.state.store.read() as session:
        return household(session).elevation_ft
