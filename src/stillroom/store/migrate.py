"""Bringing a store to its newest form, step by step (Alembic), in one transaction."""

from pathlib import Path

from sqlalchemy import Connection, Engine

from stillroom.errors import InputError

# The newest step. A store that has taken it is opened without loading Alembic.
NEWEST = "0001"
STEPS = Path(__file__).parent / "migrations"
# "Stil": marks the file as ours, for sqlite3's ``PRAGMA application_id`` and for file(1).
MARK = 0x5374696C


def migrate(engine: Engine, path: Path) -> None:
    """Take the steps that are missing; a store half a step further is never seen.

    Raises
    ------
    InputError
        The file holds something else, or was written by a newer Stillroom.
    """
    with engine.connect() as connection:
        if _taken(connection, path) == NEWEST:
            return
    with engine.connect().execution_options(stillroom_writes=True) as connection:
        # A step may make a table anew; whatever hangs on it is proved at the end instead.
        connection.exec_driver_sql("PRAGMA foreign_keys = OFF")
        connection.commit()
        with connection.begin():
            # Another process may have been faster.
            if _taken(connection, path) != NEWEST:
                take_steps(connection)
            connection.exec_driver_sql(f"PRAGMA application_id = {MARK}")
            hanging = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
            if hanging:
                raise AssertionError(f"a step left {hanging} without what it points to")
        connection.exec_driver_sql("PRAGMA foreign_keys = ON")


def _taken(connection: Connection, path: Path) -> str:
    """The last step a store has taken, "" for an empty file."""
    tables = connection.exec_driver_sql("SELECT name FROM sqlite_master").scalars().all()
    if not tables:
        return ""
    mark = connection.exec_driver_sql("PRAGMA application_id").scalar()
    if mark != MARK or "alembic_version" not in tables:
        raise InputError(f"{path}: this is no Stillroom store. Name another file.")
    step = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()
    known = sorted(file.stem.removeprefix("step_") for file in STEPS.glob("versions/step_*.py"))
    if step not in known:
        raise InputError(
            f"{path}: this store was written by a newer Stillroom (step {step}; this one knows "
            f"up to {known[-1]}). Update Stillroom, or open another file."
        )
    return str(step)


def take_steps(connection: Connection) -> None:
    """Take every step that the store has not taken."""
    from alembic.config import Config
    from alembic.runtime.environment import EnvironmentContext
    from alembic.script import ScriptDirectory

    steps = ScriptDirectory(str(STEPS))
    with EnvironmentContext(
        Config(),
        steps,
        fn=lambda taken, _context: steps._upgrade_revs("head", taken),
    ) as environment:
        environment.configure(connection=connection, transactional_ddl=True, render_as_batch=True)
        environment.run_migrations()
