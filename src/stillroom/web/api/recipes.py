"""The household's recipes as documents."""

from typing import Annotated

from fastapi import Path, Query, Request

from stillroom.recipes.read import starter, starters
from stillroom.store.recipes import (
    add_recipe,
    change_recipe,
    recipe,
    recipes,
    remove_recipe,
)
from stillroom.web.api.route import room
from stillroom.web.api.shapes.kept import (
    KeptRecipe,
    NewRecipe,
    RecipeList,
    Removed,
    RewrittenRecipe,
)
from stillroom.web.api.told import read_recipe, recipe_told, signed, there

router = room("Recipes")
Slug = Annotated[str, Path(max_length=200)]


@router.get("/recipes", response_model=RecipeList)
def list_recipes(request: Request, words: Annotated[str, Query(max_length=200)] = "") -> object:
    """Recipes that hold all the words in title or food, by title; every starter."""
    with request.app.state.store.read() as session:
        return {
            "recipes": recipes(session, words),
            "starters": [starter(name) for name in starters()],
        }


@router.post("/recipes", response_model=KeptRecipe, status_code=201)
def add(request: Request, asked: NewRecipe) -> object:
    """Keep a new recipe, under a slug made from its title."""
    if not asked.draft:
        read_recipe(asked.document)
    with request.app.state.store.write() as session:
        return recipe_told(
            add_recipe(session, asked.document, asked.source_text, **signed(request))
        )


@router.get("/recipes/{slug}", response_model=KeptRecipe)
def show(request: Request, slug: Slug) -> object:
    """One recipe of the household's own."""
    with request.app.state.store.read() as session:
        return recipe_told(there(recipe(session, slug), "recipe", slug))


@router.put("/recipes/{slug}", response_model=KeptRecipe)
def write(request: Request, slug: Slug, asked: RewrittenRecipe) -> object:
    """Write a recipe anew; 409 where somebody changed it meanwhile."""
    if not asked.draft:
        read_recipe(asked.document)
    with request.app.state.store.write() as session:
        there(recipe(session, slug), "recipe", slug)
        changed = change_recipe(
            session,
            slug,
            asked.document,
            version=asked.version,
            source_text=asked.source_text,
            **signed(request),
        )
        return recipe_told(changed)


@router.delete("/recipes/{slug}", response_model=Removed)
def remove(request: Request, slug: Slug) -> object:
    """Take a recipe off the list; it can be undone."""
    with request.app.state.store.write() as session:
        there(recipe(session, slug), "recipe", slug)
        return {"change": remove_recipe(session, slug, **signed(request))}
