"""The reference page of the interface is that of today's OpenAPI document."""

import runpy

from fastapi import FastAPI

from stillroom.web.api.shapes.errors import ERRORS
from stillroom.web.security.body import FORM_BYTES
from tests.docs.pages import DOCS, text
from tests.web.api.asking import Asker

PAGE = DOCS / "reference" / "api.md"


def test_the_page_is_made_from_the_document_of_today() -> None:
    make = runpy.run_path(str(DOCS / "make_api.py"))

    by_hand, mark, made = text(PAGE).partition(make["MARK"])

    assert mark
    assert made == make["made"]()
    assert f"{FORM_BYTES:,} bytes" in by_hand
    assert all(f"| {status} |" in by_hand for status in ERRORS)


def test_every_operation_and_key_has_its_words(empty: Asker) -> None:
    """Units stand in the words of a key or in its name."""
    document = empty.get("/api/openapi.json").json()

    operations = [told for path in document["paths"].values() for told in path.values()]
    assert len(operations) > 20
    for told in operations:
        assert told["description"].endswith(".")
        assert set(told["responses"]) >= {str(status) for status in ERRORS}
    for name, shape in document["components"]["schemas"].items():
        assert shape["description"], name
        for key, told in shape["properties"].items():
            measured = key.endswith(("_ft", "_in", "_psi", "_ml", "_f", "_c", "minutes", "seconds"))
            if measured:
                assert told.get("description"), f"{name}.{key}"


def test_the_document_is_for_those_who_may_come_in(empty: Asker) -> None:
    """It lists no page, and no address that the application does not answer."""
    document = empty.get("/api/openapi.json").json()

    assert isinstance(empty.app, FastAPI)
    assert all(path.startswith("/api/") for path in document["paths"])
