"""What stood before a change comes back exactly, and never over somebody's later work."""

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.errors import Conflict, InputError
from stillroom.store.changes import change, changes, undo
from stillroom.store.days import add_day, change_day, day, days, remove_day
from stillroom.store.engine import Store, open_store
from stillroom.store.kitchens import kitchen, save_kitchen
from stillroom.store.recipes import (
    StoredRecipe,
    add_recipe,
    change_recipe,
    recipe,
    recipes,
    remove_recipe,
)
from tests.store.made import BY, DAY, KITCHEN, RECIPE, documents, later


def test_a_removed_recipe_comes_back_as_it_was(store: Store) -> None:
    with store.write() as session:
        made = add_recipe(session, RECIPE, "17 1/2 lb carrots\r\n  and water ", **BY)
        removal = remove_recipe(session, made.slug, **later(1))
        assert recipes(session) == []
        assert recipe(session, made.slug) is None

    with store.write() as session:
        undone = undo(session, removal, **later(2))

    with store.read() as session:
        back = recipe(session, made.slug)
        assert back
        assert (back.document, back.source_text, back.title) == (
            RECIPE,
            "17 1/2 lb carrots\r\n  and water ",
            RECIPE["title"],
        )
        assert (back.created_at, back.changed_at) == (BY["at"], later(2)["at"])
        assert back.change == undone.id
        first = change(session, removal)
        assert first
        assert first.undone_at == later(2)["at"]


def test_undoing_is_a_change_and_can_be_undone(store: Store) -> None:
    with store.write() as session:
        made = add_day(session, DAY, **BY, title="Carrots")
        removal = remove_day(session, made.key, **later(1))
        first = undo(session, removal, **later(2))
        assert [line.key for line in days(session)] == [made.key]

        undo(session, first.id, **later(3))

        assert days(session) == []
        assert [c.what for c in changes(session)] == ["undo", "undo", "remove", "add"]


def test_the_first_writing_can_be_undone_and_done_again(store: Store) -> None:
    with store.write() as session:
        made = save_kitchen(session, KITCHEN, version=0, **BY)
        undo(session, made.change, **later(1))
        assert kitchen(session) is None

        again = save_kitchen(session, {"name": "B"}, version=0, **later(2))

        assert kitchen(session) == again
        assert again.version == 3


def test_a_later_change_is_undone_first(store: Store) -> None:
    with store.write() as session:
        made = add_day(session, DAY, **BY)
        first = change_day(session, made.key, DAY | {"start": "9:00"}, version=1, **later(1))
        second = change_day(session, made.key, DAY | {"start": "10:00"}, version=2, **later(2))

        with pytest.raises(Conflict, match="changed again since") as told:
            undo(session, first.change, **later(3))
        assert told.value.stands == second.document
        assert told.value.version == second.version

        undo(session, second.change, **later(4))
        undo(session, first.change, **later(5))
        back = day(session, made.key)
        assert back
        assert back.document == DAY
        assert back.version == 5


def test_a_change_is_undone_once(store: Store) -> None:
    with store.write() as session:
        made = add_day(session, DAY, **BY)
        undo(session, made.change, **later(1))

        with pytest.raises(Conflict, match="undone already"):
            undo(session, made.change, **later(2))


def test_an_unknown_change_is_told(store: Store) -> None:
    with store.write() as session, pytest.raises(InputError, match="no change number 17"):
        undo(session, 17, **BY)


def test_nobody_writes_over_what_another_wrote_meanwhile(store: Store) -> None:
    """Two browsers have the same page open; the second one to save is told."""
    with store.write() as session:
        own = save_kitchen(session, KITCHEN, version=0, **BY)
        food = add_recipe(session, RECIPE, "", **BY)
        when = add_day(session, DAY, **BY)
    with store.write() as session:
        save_kitchen(session, {"name": "first"}, version=own.version, **later(1))
        change_recipe(session, food.slug, {"title": "first"}, version=1, **later(1))
        change_day(session, when.key, {"start": "first"}, version=1, **later(1))

    for save, stands in (
        (lambda s: save_kitchen(s, {}, version=1, **later(2)), {"name": "first"}),
        (lambda s: save_kitchen(s, {}, version=0, **later(2)), {"name": "first"}),
        (lambda s: change_recipe(s, food.slug, RECIPE, version=1, **later(2)), {"title": "first"}),
        (lambda s: change_day(s, when.key, DAY, version=1, **later(2)), {"start": "first"}),
    ):
        with pytest.raises(Conflict, match="Somebody changed") as told, store.write() as session:
            save(session)
        assert told.value.stands == stands
        assert told.value.version == 2


def test_what_was_removed_meanwhile_is_told_as_gone(store: Store) -> None:
    with store.write() as session:
        made = add_recipe(session, RECIPE, "", **BY)
        remove_recipe(session, made.slug, **later(1))

        with pytest.raises(Conflict) as told:
            change_recipe(session, made.slug, RECIPE, version=1, **later(2))

    assert told.value.stands is None


def test_removing_twice_is_one_change(store: Store) -> None:
    """A double tap on a phone."""
    with store.write() as session:
        made = add_recipe(session, RECIPE, "", **BY)

        assert remove_recipe(session, made.slug, **later(1)) == remove_recipe(
            session, made.slug, **later(1)
        )
        assert len(changes(session)) == 2


def test_the_record_says_who_and_what_newest_first_and_page_by_page(store: Store) -> None:
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, **BY)
        made = add_recipe(session, RECIPE, "", **BY | {"who": "Jonas"})
        add_day(session, DAY, **later(1), title="Carrots")

        told = [(c.who, c.what, c.kind, c.row, c.title) for c in changes(session)]

        assert told == [
            ("Marit", "add", "day", "2026-10-17", "Carrots"),
            ("Jonas", "add", "recipe", made.slug, RECIPE["title"]),
            ("Marit", "add", "kitchen", "", KITCHEN["name"]),
        ]
        newest, *older = changes(session)
        assert changes(session, 1) == [newest]
        assert changes(session, before=newest.id) == older


@settings(max_examples=25, deadline=None)
@given(st.lists(documents, min_size=1, max_size=5), st.data())
def test_undoing_all_changes_newest_first_passes_every_state_again(
    empty: Path, written: list[dict[str, Any]], data: st.DataObject
) -> None:
    with TemporaryDirectory() as folder:
        store = open_store(Path(shutil.copy(empty, folder)))
        with store.write() as session:
            made = add_recipe(session, {"title": "T"}, "", **BY)
            states, done = [(made.document, made.title, False)], []
            for minute, document in enumerate(written):
                title = data.draw(st.text("abc ", min_size=1).filter(str.strip))
                now = recipe(session, made.slug, removed=True)
                assert now
                if now.removed_at is None and data.draw(st.booleans()):
                    done.append(remove_recipe(session, made.slug, **later(minute)))
                    states.append((now.document, now.title, True))
                else:
                    whole = document | {"title": title}
                    saved = change_recipe(
                        session, made.slug, whole, version=now.version, **later(minute)
                    )
                    done.append(saved.change)
                    states.append((whole, " ".join(title.split()), False))

        for number in reversed(done):
            assert states.pop() == _state(store, made.slug)
            with store.write() as session:
                undo(session, number, **later(60))
        assert [_state(store, made.slug)] == states
        store.close()


def _state(store: Store, slug: str) -> tuple[dict[str, Any], str, bool]:
    with store.read() as session:
        row: StoredRecipe | None = recipe(session, slug, removed=True)
        assert row
        return row.document, row.title, row.removed_at is not None
