"""What comes back is what was written; what cannot come back is told, with its key."""

import json
import shutil
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.recipes.read import starters
from stillroom.store.days import add_day, day, days
from stillroom.store.documents import checked, slug
from stillroom.store.engine import Store, open_store
from stillroom.store.kitchens import kitchen, save_kitchen
from stillroom.store.recipes import add_recipe, change_recipe, recipe, recipes
from stillroom.store.settings import set_setting, setting
from stillroom.store.settings import settings as all_settings
from tests.store.made import BY, DAY, RECIPE, demo, documents, later, plain


@settings(max_examples=40, deadline=None)
@given(documents, st.text(), plain)
@example({"": [{}], "a\0b": "\0", "n": -0.0}, "\0\r\n", None)
@example({}, "", 1.0)
def test_any_document_comes_back_as_it_was_written(
    empty: Path, document: dict[str, Any], text: str, value: Any
) -> None:
    with TemporaryDirectory() as folder:
        store = open_store(Path(shutil.copy(empty, folder)))
        with store.write() as session:
            save_kitchen(session, document, version=0, **BY)
            made = add_recipe(session, document | {"title": "T"}, text, **BY)
            when = add_day(session, document, **BY)
            set_setting(session, "units", value)

        with store.read() as session:
            own, food, that = kitchen(session), recipe(session, "t"), day(session, when.key)
            assert own
            assert (own.document, own.changed_at) == (document, BY["at"])
            assert food == made
            assert (made.document, made.source_text) == (document | {"title": "T"}, text)
            assert that == when
            # Written out, a whole number and a number with a point are not the same.
            assert json.dumps(when.document) == json.dumps(document)
            assert json.dumps(setting(session, "units", "default")) == json.dumps(value)
        store.close()


@pytest.mark.parametrize(
    ("held", "place"),
    [
        ({"order": [{"jars": float("nan")}]}, "order[1].jars"),
        ({"lids": float("inf")}, "lids"),
        ({"lids": 10**5000}, "lids"),
        ({"name": "\ud800"}, "name"),
        ({"jars": {"\udfff": {"x": object()}}}, "jars"),
        ({"jars": {7: 1}}, "jars"),
        ({"photo": b"x"}, "photo"),
    ],
)
def test_what_json_cannot_give_back_is_told_with_its_key(held: dict[str, Any], place: str) -> None:
    with pytest.raises(InputError) as told:
        checked(held, "day")

    assert told.value.place == place
    str(told.value).encode()


def test_a_document_as_large_as_no_person_writes_is_refused() -> None:
    with pytest.raises(InputError, match="too large"):
        checked({"notes": "x" * 1_000_001}, "recipe")


def test_a_document_nested_as_no_file_is_is_refused() -> None:
    deep: dict[str, Any] = {}
    for _ in range(5000):
        deep = {"a": deep}

    with pytest.raises(InputError, match="nested too deep"):
        checked(deep, "recipe")


def test_files_of_the_demo_are_kept_with_their_date_as_text(store: Store) -> None:
    file = demo("day.toml")
    with store.write() as session:
        made = add_day(session, file, **BY)

    assert made.date == file["date"]
    assert made.document == file | {"date": file["date"].isoformat()}
    assert made.key == file["date"].isoformat()


@given(st.text())
def test_a_slug_is_fit_for_an_address_and_one_of_its_kind(title: str) -> None:
    taken = {"recipe", "recipe-2", "a", "new"}

    made = slug(title, taken.__contains__)

    assert made not in taken
    assert made == "".join(c for c in made if c in "abcdefghijklmnopqrstuvwxyz0123456789-")
    assert 0 < len(made) < 80
    assert made.strip("-") == made


def test_recipes_of_one_title_have_slugs_of_their_own_and_none_is_a_starters(store: Store) -> None:
    with store.write() as session:
        made = [add_recipe(session, {"title": t}, "", **BY).slug for t in ("Kraut",) * 3]
        named = [add_recipe(session, {"title": t}, "", **BY).slug for t in ("New", *starters())]

    assert made == ["kraut", "kraut-2", "kraut-3"]
    assert not {*starters(), "new"} & {*named}


def test_a_slug_stays_when_the_title_changes(store: Store) -> None:
    with store.write() as session:
        made = add_recipe(session, RECIPE, "pasted", **BY)
        changed = change_recipe(session, made.slug, {"title": "Roots"}, version=1, **later(1))

    assert (changed.slug, changed.title, changed.source_text) == (made.slug, "Roots", "pasted")


def test_recipes_are_found_by_words_of_title_and_food_whatever_their_case(store: Store) -> None:
    with store.write() as session:
        for title, food in (
            ("Éclair beans", "snap beans"),
            ("beets", "beets"),
            ("Äpfel", "apples"),
        ):
            add_recipe(session, {"title": title, "food": food}, "", **BY)

        found = {words: [r.title for r in recipes(session, words)] for words in ("", "ÉCLAIR snap")}

    assert found == {"": ["beets", "Äpfel", "Éclair beans"], "ÉCLAIR snap": ["Éclair beans"]}


def test_a_recipe_without_a_title_is_told_at_its_key(store: Store) -> None:
    for document in ({}, {"title": "  "}, {"title": 7}):
        with pytest.raises(InputError) as told, store.write() as session:
            add_recipe(session, document, "", **BY)
        assert told.value.place == "title"


def test_days_stand_latest_first_and_undated_ones_before_them(store: Store) -> None:
    with store.write() as session:
        for said in ("2026-08-01", "2026-10-17", "soon", "2026-10-17", "2025-09-09"):
            add_day(session, DAY | {"date": said}, **BY)

        told = [(line.key, line.date) for line in days(session)]

    assert told == [
        ("day", None),
        ("2026-10-17-2", date(2026, 10, 17)),
        ("2026-10-17", date(2026, 10, 17)),
        ("2026-08-01", date(2026, 8, 1)),
        ("2025-09-09", date(2025, 9, 9)),
    ]


def test_a_setting_that_was_not_made_is_the_default(store: Store) -> None:
    with store.write() as session:
        assert setting(session, "units", "us") == "us"
        set_setting(session, "units", "metric")
        set_setting(session, "units", None)
        set_setting(session, "language", "en")

        assert setting(session, "units", "us") is None
        assert all_settings(session) == {"language": "en", "units": None}
