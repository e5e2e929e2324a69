"""All that was recorded goes out in one document and comes back with nothing changed."""

import copy
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.store.changes import undo
from stillroom.store.days import add_day, change_day, day, plan_file, plan_of, remove_day, save_plan
from stillroom.store.engine import Store, open_store
from stillroom.store.kitchens import kitchen, save_kitchen
from stillroom.store.recipes import add_recipe, change_recipe, recipe, remove_recipe
from stillroom.store.settings import set_setting
from stillroom.store.tables import Base, DeviceRow, PassphraseRow
from stillroom.store.transfer import Counts, counts, export_document, import_document
from tests.store.made import AT, BY, DAY, KITCHEN, RECIPE, documents, later, moments, plain

NOTHING = Counts(0, 0, 0, 0, 0, 0)


def _fill(session: Session) -> None:
    """A year of an invented household: things added, changed, removed, undone, planned."""
    save_kitchen(session, KITCHEN, version=0, **BY)
    save_kitchen(session, KITCHEN | {"lids": 7}, version=1, **later(1))
    made = add_recipe(session, RECIPE, " pasted\r\n", **BY)
    change_recipe(session, made.slug, RECIPE | {"title": "Möhren"}, version=1, **later(2))
    gone = add_recipe(session, {"title": "Gone"}, "", **BY)
    remove_recipe(session, gone.slug, **later(3))
    when = add_day(session, DAY, **BY, title="Carrots")
    removal = remove_day(session, when.key, **later(4))
    undo(session, removal, **later(5))
    for minutes, files in ((6, {"pdf": b"old"}), (7, {"pdf": b"%PDF\0\xff", "chart": b""})):
        save_plan(
            session, when.key, {"status": "optimal", "finish": 1.5}, why={"trades": []},
            files=files, day_version=3, kitchen_version=2, recipes_version=2,
            at=later(minutes)["at"],
        )  # fmt: skip
    set_setting(session, "units", "metric")
    set_setting(session, "checked", {"gauge": None})


def _exported(store: Store) -> dict[str, Any]:
    with store.read() as session:
        document: dict[str, Any] = json.loads(json.dumps(export_document(session)))
    return document


def _into(path: Path, document: dict[str, Any]) -> Store:
    store = open_store(path)
    try:
        with store.write() as session:
            import_document(session, document)
    except BaseException:
        store.close()
        raise
    return store


def _rows(store: Store) -> dict[str, list[Any]]:
    """Every row of every table, in no order that counts."""
    with store.read() as session:
        connection = session.connection()
        return {
            name: sorted((tuple(row) for row in connection.execute(table.select())), key=repr)
            for name, table in Base.metadata.tables.items()
        }


def test_an_export_comes_back_with_nothing_changed(store: Store, tmp_path: Path) -> None:
    with store.write() as session:
        _fill(session)
        expected = counts(session)

    document = _exported(store)
    back = _into(tmp_path / "back.sqlite3", document)

    assert _exported(back) == document
    assert _rows(back) == _rows(store)
    assert expected == Counts(kitchens=1, recipes=2, days=1, plans=2, changes=9, settings=2)
    with back.write() as session:
        assert counts(session) == expected
        own, gone, when = kitchen(session), recipe(session, "gone"), day(session, "2026-10-17")
        assert own
        assert own.document == KITCHEN | {"lids": 7}
        assert gone is None
        assert when
        plan = plan_of(session, when.key)
        assert plan
        assert plan.current
        assert plan_file(session, when.key, "pdf") == b"%PDF\0\xff"
        # What was recorded can still be undone there.
        change_day(session, when.key, DAY, version=when.version, **later(9))
        undo(session, own.change, **later(10))
    back.close()


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(documents, st.text(), documents), max_size=3),
    st.dictionaries(st.text(), plain, max_size=3),
    documents | st.none(),
    moments,
)
def test_the_records_of_any_household_come_back_with_nothing_changed(
    empty: Path,
    written: list[tuple[dict[str, Any], str, dict[str, Any]]],
    chosen: dict[str, Any],
    own: dict[str, Any] | None,
    at: Any,
) -> None:
    by: dict[str, Any] = {"at": at, "who": "Jonas"}
    with TemporaryDirectory() as folder:
        store = open_store(Path(shutil.copy(empty, folder)))
        with store.write() as session:
            if own is not None:
                save_kitchen(session, own, version=0, **by)
            for document, text, answer in written:
                made = add_recipe(session, document | {"title": f"T {text} x"}, text, **by)
                when = add_day(session, document, **by, title=text)
                save_plan(session, when.key, answer, day_version=1, kitchen_version=1,
                          recipes_version=0, at=at, why=answer or None,
                          files={text[:9]: text.encode()})  # fmt: skip
                remove_recipe(session, made.slug, **by)
            for key, value in chosen.items():
                set_setting(session, key, value)

        document = _exported(store)
        back = _into(Path(shutil.copy(empty, Path(folder) / "back.sqlite3")), document)

        # As text, so that 1 and 1.0, or another order of keys, would show.
        assert json.dumps(_exported(back)) == json.dumps(document)
        assert _rows(back) == _rows(store)
        store.close()
        back.close()


def test_who_may_come_in_stays_on_its_own_computer(store: Store) -> None:
    with store.write() as session:
        session.add(PassphraseRow(id=1, hash="$argon2id$hidden", changed_at=AT))
        session.add(DeviceRow(name="phone", token_hash="hidden", created_at=AT, seen_at=AT))

    assert "hidden" not in json.dumps(_exported(store))


def test_a_store_that_holds_anything_takes_no_import_and_stays_as_it_is(
    store: Store, tmp_path: Path
) -> None:
    with store.write() as session:
        _fill(session)
    document = _exported(store)

    beginnings: tuple[Callable[[Session], object], ...] = (
        lambda s: save_kitchen(s, {}, version=0, **BY),
        lambda s: add_day(s, {}, **BY),
        lambda s: set_setting(s, "units", "metric"),
        lambda s: remove_recipe(s, add_recipe(s, RECIPE, "", **BY).slug, **BY),
    )
    for number, begin in enumerate(beginnings):
        other = open_store(tmp_path / f"{number}.sqlite3")
        with other.write() as session:
            begin(session)
        before = _rows(other)

        with pytest.raises(InputError, match="not empty"), other.write() as session:
            import_document(session, document)

        assert _rows(other) == before
        other.close()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda d: d.clear(), "export, stillroom.format: missing"),
        (lambda d: d["stillroom"].update(format=2), "newer Stillroom"),
        (lambda d: d.update(jars=[]), '"jars" is not a key'),
        (lambda d: d["recipes"][1].pop("slug"), r"export, recipes\[2\].slug: missing"),
        (lambda d: d["recipes"][1].update(slug=d["recipes"][0]["slug"]), "do not fit together"),
        (lambda d: d["days"][0].update(created_at="yesterday"), '"yesterday" is not a moment'),
        (lambda d: d["days"][0].update(created_at="2026-10-17T08:00:00"), "time zone"),
        (lambda d: d["days"][0].update(change_id=99), "do not fit together"),
        (lambda d: d["days"][0].update(version=0), "do not fit together"),
        (lambda d: d["days"][0]["plans"][1]["files"].update(pdf="%%"), "base64"),
        (lambda d: d["days"][0]["plans"][1].update(extra=1), '"extra" is not a key'),
        (lambda d: d["changes"][0].update(kind="jar"), "do not fit together"),
        (lambda d: d["changes"][0].update(after=None), r"changes\[1\].after: None does not fit"),
        (lambda d: d.update(kitchen=[]), r"export, kitchen: \[\] does not fit"),
        (lambda d: d["kitchen"].update(document="x"), "export, kitchen.document"),
    ],
)
def test_an_export_that_was_tampered_with_is_told_and_nothing_is_taken(
    store: Store, tmp_path: Path, change: Any, says: str
) -> None:
    with store.write() as session:
        _fill(session)
    document = _exported(store)
    change(document)

    with pytest.raises(InputError, match=says):
        _into(tmp_path / "back.sqlite3", document)

    back = open_store(tmp_path / "back.sqlite3")
    with back.read() as session:
        assert counts(session) == NOTHING
    back.close()


@pytest.fixture(scope="module")
def filled(empty: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    store = open_store(Path(shutil.copy(empty, tmp_path_factory.mktemp("filled"))))
    with store.write() as session:
        _fill(session)
    document = _exported(store)
    store.close()
    return document


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_no_document_ends_an_import_otherwise_than_with_a_message(
    empty: Path, filled: dict[str, Any], data: st.DataObject
) -> None:
    """One value anywhere in an export is put out for any other, or taken away."""
    with TemporaryDirectory() as folder:
        document = copy.deepcopy(filled)
        at: Any = document
        while True:
            keys = list(at) if isinstance(at, dict) else range(len(at))
            key = data.draw(st.sampled_from(keys))
            if not (isinstance(at[key], dict | list) and at[key] and data.draw(st.booleans())):
                break
            at = at[key]
        if data.draw(st.booleans()):
            del at[key]
        else:
            at[key] = data.draw(plain | st.just("\ud800") | st.just(10**30) | st.just(-1))

        try:
            back = _into(Path(shutil.copy(empty, Path(folder) / "back.sqlite3")), document)
        except InputError as wrong:
            str(wrong).encode()
        else:
            _exported(back)
            back.close()
