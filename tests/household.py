"""A small invented household for tests of the pages: a kitchen, five recipes, four days.

Its clock stands at ``NOW``. Nothing in it is for canning.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from benchmarks.pages.household import INVENTED, from_file, keep, kitchen_document, solved
from stillroom.recipes.read import STARTERS
from stillroom.store.days import add_day
from stillroom.store.engine import Store, open_store
from stillroom.store.kitchens import save_kitchen
from stillroom.store.recipes import add_recipe, remove_recipe

NOW = datetime(2026, 10, 14, 17, 30, tzinfo=UTC)
BEFORE = NOW - timedelta(days=20)
WHO = "Marit"
TITLES = {
    "past": "Late August (invented)",
    "planned": "Bean Saturday (invented)",
    "unplanned": "Apple day (invented)",
    "impossible": "Venison in two hours (invented)",
}
BEANS_TEXT = """\
Ridge beans (invented)
Makes 7 pints

2 lb snap beans, trimmed and cut in 1 in pieces
1 tsp canning salt, optional

Pack hot, cover with boiling water, leave 1 in headspace.
"""


@dataclass(frozen=True, slots=True)
class Household:
    """What was written: slugs and keys, to make addresses of."""

    own: str
    barred: str
    unfinished: str
    removed: str
    planned: str
    past: str
    unplanned: str
    impossible: str


# Made of titles and dates; ``fill`` holds it to be so.
HOUSEHOLD = Household(
    own="ridge-beans-invented",
    barred="thick-soup-invented",
    unfinished="grandmother-s-relish-invented",
    removed="beans-nobody-liked-invented",
    planned="2026-10-17",
    past="2026-08-22",
    unplanned="2026-10-24",
    impossible="2026-10-31",
)


def recipe_documents() -> dict[str, dict[str, Any]]:
    """The household's recipes by what they are here for."""
    beans = from_file(STARTERS / "snap-beans.toml") | {"source": INVENTED}
    soup = from_file(STARTERS / "garden-chicken-soup.toml") | {"source": INVENTED}
    return {
        "own": beans | {"title": "Ridge beans (invented)"},
        "barred": soup
        | {
            "title": "Thick soup (invented)",
            "ingredients": [*soup["ingredients"], "flour, 1 cup"],
        },
        "unfinished": {"title": "Grandmother's relish (invented)", "ingredients": ["corn, 2 cups"]},
        "removed": beans | {"title": "Beans nobody liked (invented)"},
    }


def day_document(date: str, finish: str, *orders: tuple[str, int, str]) -> dict[str, Any]:
    """A day as a household writes it."""
    return {
        "date": date,
        "start": "8:00",
        "finish_by": finish,
        "order": [{"recipe": name, "jars": jars, "jar": jar} for name, jars, jar in orders],
    }


def fill(store: Store) -> None:
    """Write the household into an empty store."""
    with store.write() as s:
        save_kitchen(s, kitchen_document(), version=0, at=BEFORE, who=WHO)
        slugs = {
            kind: add_recipe(
                s, document, BEANS_TEXT if kind == "own" else "", at=BEFORE, who=WHO
            ).slug
            for kind, document in recipe_documents().items()
        }
        remove_recipe(s, slugs["removed"], at=BEFORE + timedelta(days=1), who=WHO)
        beans = (slugs["own"], 7, "quart")
        written = {
            "past": day_document("2026-08-22", "18:00", beans),
            "planned": day_document("2026-10-17", "18:00", beans, ("dilled-beans", 5, "pint")),
            "unplanned": day_document("2026-10-24", "18:00", ("applesauce", 14, "pint")),
            "impossible": day_document("2026-10-31", "10:00", ("venison-cubes", 28, "pint")),
        }
        keys = {
            kind: add_day(s, document, at=BEFORE, who=WHO, title=TITLES[kind]).key
            for kind, document in written.items()
        }
    wanted = [keys[kind] for kind in ("past", "planned", "impossible")]
    for key, answer in solved(store, wanted, seconds=3).items():
        keep(store, key, answer)
    if Household(**slugs, **keys) != HOUSEHOLD:
        raise ValueError(f"the household is kept under other names: {slugs}, {keys}")


@cache
def filled() -> bytes:
    """The household's store, as the bytes of its file; made once, and planned once."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "store.sqlite3"
        store = open_store(path)
        fill(store)
        store.close()
        return path.read_bytes()
