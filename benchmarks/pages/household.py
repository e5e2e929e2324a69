"""An invented household of five years, to load the pages with: 200 recipes, 60 days, 2,000 jars.

Nothing in it is for canning: the amounts of its recipes are made up, and every title, source and
kitchen says so. Each of its six kinds of day is solved once; the plan then stands on each date of
that kind, with its dates moved, since the same orders in the same kitchen have the same plan.
"""

import json
import tomllib
from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import stillroom.cli
from stillroom.errors import InputError
from stillroom.processes import library
from stillroom.recipes.read import STARTERS, recipe_from, starters
from stillroom.store.days import add_day, change_day, day, save_plan
from stillroom.store.engine import Store
from stillroom.store.household import household
from stillroom.store.kitchens import save_kitchen
from stillroom.store.plans import recipes_version
from stillroom.store.recipes import add_recipe, change_recipe
from stillroom.toml_file import table_of
from stillroom.web.work.asked import Answer, Asked
from stillroom.web.work.worker import Worker

Document = dict[str, Any]
DEMO = Path(stillroom.cli.__file__).parent / "demo"
INVENTED = "Invented for trials; its amounts are not for canning."
WHO = "trial"
YEARS, DAYS, RECIPES = 5, 60, 200
FIRST = datetime(2022, 1, 8, 9, tzinfo=UTC)
# The day the household is looked at: within its last season.
TODAY = datetime(2026, 10, 14, 17, 30, tzinfo=UTC)
# Kinds of day, by what is put up: recipe, jars, jar. About 33 jars each, so 60 days are 2,000.
KINDS: tuple[tuple[tuple[str, int, str], ...], ...] = (
    (("snap-beans", 14, "pint"), ("carrots", 14, "pint"), ("dilled-beans", 7, "pint")),
    (
        ("crushed-tomatoes", 14, "quart"),
        ("whole-tomatoes", 14, "quart"),
        ("berry-jam", 8, "half-pint"),
    ),
    (("applesauce", 18, "pint"), ("peaches", 14, "quart")),
    (("venison-cubes", 18, "pint"), ("chicken-stock", 14, "quart")),
    (("bread-and-butter-pickles", 16, "pint"), ("dilled-beans", 16, "pint")),
    (("carrots", 18, "pint"), ("chicken-stock", 7, "quart"), ("applesauce", 9, "pint")),
)


def from_file(path: Path) -> Document:
    """A file's keys as a document: dates as text."""
    read = tomllib.loads(path.read_text(encoding="utf-8"))
    plain: Document = json.loads(json.dumps(read, default=str))
    return plain


def kitchen_document() -> Document:
    """The demo kitchen, with jars and lids for a season."""
    return from_file(DEMO / "kitchen.toml") | {
        "lids": 480,
        "bands": 240,
        "jars": {"pint": 240, "quart": 120, "half-pint": 60},
    }


def recipe_documents(count: int = RECIPES) -> list[Document]:
    """So many recipes that can be read: the starters, then one for each published food and pack."""
    made = [from_file(STARTERS / f"{name}.toml") | {"source": INVENTED} for name in starters()]
    for recipe in made:
        recipe["title"] += " (our way, invented)"
    simple = [document for document in _simple() if _reads(document)]
    rounds = ("", ", second sowing", ", late", ", from the neighbor")
    for said in rounds:
        made += [one | {"title": f"{one['title']}{said} (invented)"} for one in simple]
    if len(made) < count:
        raise ValueError(f"{len(made)} recipes can be made of the tables, not {count}")
    return made[:count]


def fill(store: Store, *, recipes: int = RECIPES, days: int = DAYS, seconds: float = 5.0) -> None:
    """Write the household into an empty store.

    Parameters
    ----------
    recipes, days : how many
    seconds : the solver's limit for each kind of day
    """
    with store.write() as s:
        save_kitchen(s, kitchen_document(), version=0, at=FIRST, who=WHO)
        for number, document in enumerate(recipe_documents(recipes)):
            at = FIRST + timedelta(days=number * 365 * YEARS / recipes)
            kept = add_recipe(s, document, _pasted(document), at=at, who=WHO)
            if number % 2:
                notes = [*document.get("notes", []), "Went well (invented)."]
                change_recipe(
                    s,
                    kept.slug,
                    document | {"notes": notes},
                    version=kept.version,
                    at=at + timedelta(days=30),
                    who=WHO,
                )
        keys = [_add_day(s, number, days) for number in range(days)]
    _plans(store, keys, seconds)


def _add_day(s: Any, number: int, days: int) -> str:
    """A Saturday from June on, twelve a year; it is changed once, as days are."""
    a_year = -(-days // YEARS)
    year, week = divmod(number, a_year)
    first = date(FIRST.year + year, 6, 4)
    saturday = first + timedelta(days=(5 - first.weekday()) % 7 + 14 * week)
    orders = [
        {"recipe": recipe, "jars": jars, "jar": jar}
        for recipe, jars, jar in KINDS[number % len(KINDS)]
    ]
    document: Document = {
        "date": saturday.isoformat(),
        "start": "7:00",
        "finish_by": "19:00",
        "order": orders,
    }
    at = datetime(saturday.year, saturday.month, saturday.day, 8, tzinfo=UTC) - timedelta(days=9)
    kept = add_day(s, document, at=at, who=WHO, title=f"Day {number + 1} (invented)")
    changed = document | {"finish_by": "20:00"}
    change_day(s, kept.key, changed, version=kept.version, at=at + timedelta(hours=2), who=WHO)
    return kept.key


def _plans(store: Store, keys: list[str], seconds: float) -> None:
    dates: dict[str, str] = {}
    for key in keys:
        with store.read() as s:
            stored = day(s, key)
        assert stored is not None and stored.date is not None
        dates[key] = stored.date.isoformat()
    first = solved(store, keys[: len(KINDS)], seconds)
    for number, key in enumerate(keys):
        like = keys[number % len(KINDS)]
        answer = json.dumps(first[like].document).replace(dates[like], dates[key])
        keep(store, key, Answer(json.loads(answer), first[like].files))


def solved(store: Store, keys: Iterable[str], seconds: float) -> dict[str, Answer]:
    """Answers of days, by the pages' own worker, so that a solver that ends takes nobody along.

    Raises
    ------
    RuntimeError
        No answer came at the third asking.
    """
    worker = Worker()
    try:
        return {key: _asked(worker, store, key, seconds) for key in keys}
    finally:
        worker.close()


def _asked(worker: Worker, store: Store, key: str, seconds: float) -> Answer:
    with store.read() as s:
        stored = day(s, key)
        assert stored is not None
        written = household(s).day(stored)
    for seed in (1, 2, 3):
        number = worker.ask(key, Asked("plan", written, seconds=seconds, seed=seed)).number
        task = worker.wait(number, 60 + 10 * seconds)
        if task.answer:
            return task.answer
    raise RuntimeError(f"{key}: {task.state}, {task.wrong}")


def keep(store: Store, key: str, answer: Answer) -> None:
    """An answer kept as the plan of a day, made now for the day as it stands."""
    with store.write() as s:
        stored = day(s, key)
        assert stored is not None
        kitchen = household(s).stored
        save_plan(
            s,
            key,
            dict(answer.document),
            day_version=stored.version,
            kitchen_version=kitchen.version if kitchen else 0,
            recipes_version=recipes_version(s, stored.document),
            at=stored.changed_at + timedelta(days=1),
            files=answer.files,
        )


def _simple() -> list[Document]:
    """A made-up recipe for each food, cut and pack of the tables."""
    jars: dict[tuple[str, str, str], list[str]] = {}
    for row in library.processes():
        for pack in row.pack.split(" or "):
            sizes = jars.setdefault((row.food, row.form, pack), [])
            if row.jar not in sizes:
                sizes.append(row.jar)
    made = []
    for (food, form, pack), sizes in jars.items():
        document: Document = {
            "title": f"{food.capitalize()}{f', {form}' if form else ''}, {pack} pack",
            "source": INVENTED,
            "food": food,
            "pack": pack,
            "jars": sizes,
            "makes": "7 quarts",
            "ingredients": [f"{food}, 14 lb", "canning salt, 7 tsp, optional"],
            "liquid": "water, boiling, 10 cups",
            "fill": [food, "boiling water to the headspace"],
            "work": {"heat": 10, "fill_per_jar": 2, "prep_per_quart": 5},
        }
        made.append(document | ({"form": form} if form else {}))
    return made


def _reads(document: Document) -> bool:
    try:
        recipe_from(table_of(document, "recipe"), "recipe")
    except InputError:
        return False
    return True


def _pasted(document: Document) -> str:
    lines = [document["title"], "", "Ingredients", *document["ingredients"], "", "Method"]
    return "\n".join([*lines, *document["fill"], *document.get("notes", [])])
