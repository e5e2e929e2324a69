"""The steps of the database make the tables that the code has, word for word."""

import re
from pathlib import Path

import pytest
from alembic.script import ScriptDirectory
from sqlalchemy import CheckConstraint, Engine, MetaData, Table, create_engine

from stillroom.store.engine import Store
from stillroom.store.migrate import MARK, NEWEST, STEPS
from stillroom.store.tables import Base


def _made(engine: Engine) -> dict[str, str | None]:
    """How each table and index was made, in the database's own words."""
    asked = "SELECT name, sql FROM sqlite_master WHERE tbl_name <> 'alembic_version'"
    with engine.connect() as connection:
        rows = connection.exec_driver_sql(asked).all()
    return {name: sql and re.sub(r"\s+", " ", sql) for name, sql in rows}


def _fresh(path: Path, metadata: MetaData) -> dict[str, str | None]:
    engine = create_engine(f"sqlite:///{path}")
    metadata.create_all(engine)
    made = _made(engine)
    engine.dispose()
    return made


def test_the_steps_make_the_tables_of_the_code(store: Store, tmp_path: Path) -> None:
    stepped = _made(store._engine)

    assert stepped == _fresh(tmp_path / "fresh", Base.metadata)
    assert {name for name in stepped if not name.startswith(("ix_", "sqlite_"))} >= {
        "kitchen", "recipe", "day", "plan", "plan_file", "setting", "change",
        "task", "passphrase", "device", "pairing", "attempt",
    }  # fmt: skip


def test_the_comparison_sees_a_check_that_was_added(tmp_path: Path) -> None:
    """Alembic's own comparison does not."""
    metadata = MetaData()
    for table in Base.metadata.tables.values():
        table.to_metadata(metadata)
    before = _fresh(tmp_path / "before", metadata)

    metadata.tables["plan"].append_constraint(CheckConstraint("day_version > 0", name="more"))

    differ = before.items() ^ _fresh(tmp_path / "after", metadata).items()
    assert {name for name, _ in differ} == {"plan"}


def test_the_newest_step_is_the_one_that_opening_asks_for() -> None:
    steps = ScriptDirectory(str(STEPS))

    assert steps.get_heads() == [NEWEST]
    for step in steps.walk_revisions():
        assert Path(step.path).name == f"step_{step.revision}.py"


def test_a_store_is_marked_as_ours_and_written_ahead(store: Store) -> None:
    with store.read() as session:
        connection = session.connection()
        assert connection.exec_driver_sql("PRAGMA application_id").scalar() == MARK
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
        # 2 is FULL: sqlite.org/pragma.html#pragma_synchronous.
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
    assert MARK.to_bytes(4, "big") == b"Stil"


@pytest.mark.parametrize("table", Base.metadata.tables.values(), ids=lambda table: table.name)
def test_every_constraint_has_a_name(table: Table) -> None:
    """A later step can change only what it can name."""
    assert table.primary_key.name
    for constraint in table.constraints:
        assert constraint.name, constraint
