"""Every example in a docstring runs, and the ground's docstrings are data sheets."""

import doctest
import importlib
import inspect
import pkgutil

import stillroom


def _modules() -> list[str]:
    return [
        m.name
        for m in pkgutil.walk_packages(stillroom.__path__, "stillroom.")
        if not m.name.endswith("__main__")
    ]


def test_examples_in_docstrings_run() -> None:
    tried = failed = 0
    for name in _modules():
        result = doctest.testmod(importlib.import_module(name))
        tried += result.attempted
        failed += result.failed

    assert failed == 0
    assert tried >= 60


def _public(room: str) -> dict[str, str]:
    """Docstrings of the functions a room defines for others, by full name."""
    sheets = {}
    for name in _modules():
        if not name.startswith(f"stillroom.{room}."):
            continue
        for said, thing in vars(importlib.import_module(name)).items():
            # A function behind a cache is no function to ``isfunction``, but public all the same.
            plain = inspect.unwrap(thing) if callable(thing) else thing
            if inspect.isfunction(plain) and plain.__module__ == name and said[0] != "_":
                sheets[f"{name}.{said}"] = plain.__doc__ or ""
    return sheets


def test_every_function_of_physics_tells_units_and_source() -> None:
    sheets = _public("physics")

    assert len(sheets) >= 5
    for name, sheet in sheets.items():
        assert "Source\n" in sheet, name
        assert " K" in sheet or " Pa" in sheet, name


def test_every_function_that_answers_from_the_tables_tells_its_source() -> None:
    sheets = _public("processes")

    for name in ("lookup.lookup", "names.find", "unlisted.unlisted_method"):
        assert "Source\n" in sheets[f"stillroom.processes.{name}"], name
    assert all(sheet.strip() for sheet in sheets.values())
