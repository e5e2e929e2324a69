"""Write the second half of reference/api.md, from OpenAPI: ``python docs/make_api.py``."""

import re
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from stillroom.store.engine import open_store
from stillroom.web.app import create_app
from stillroom.web.settings import Settings

PAGE = Path(__file__).parent / "reference" / "api.md"
MARK = "<!-- From here on: python docs/make_api.py -->\n"
Told = dict[str, Any]


def made() -> str:
    """What stands below the mark: every operation, then every shape."""
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(Path(folder) / "stillroom.sqlite3")
        document = create_app(store, Settings(data=Path(folder))).openapi()
        store.close()
    shapes: Told = document["components"]["schemas"]
    lines = ["", *_operations(document["paths"]), "", "## Shapes", "", *_shapes(shapes)]
    return "\n".join(lines).rstrip() + "\n"


def _operations(paths: Told) -> Iterator[str]:
    room = ""
    for path, methods in paths.items():
        for method, told in methods.items():
            if told["tags"][0] != room:
                room = told["tags"][0]
                yield from (
                    "",
                    f"## {room}",
                    "",
                    "| ask | body | answer | what |",
                    "|---|---|---|---|",
                )
            body = told.get("requestBody", {}).get("content", {})
            status = next(code for code in told["responses"] if code.startswith("2"))
            answer = told["responses"][status]["content"]
            cells = [
                f"`{method.upper()} {path}`{_queries(told)}",
                _kind(body["application/json"]["schema"]) if body else "",
                f"{status} {_kind(answer['application/json']['schema'])}",
                _line(told["description"]),
            ]
            yield f"| {' | '.join(cells)} |"


def _queries(told: Told) -> str:
    names = [one["name"] for one in told.get("parameters", ()) if one["in"] == "query"]
    return f" with {', '.join(f'`{name}`' for name in names)}" if names else ""


def _shapes(shapes: Told) -> Iterator[str]:
    for name, shape in sorted(shapes.items()):
        yield from (f"### {name}", "", _line(shape.get("description", "")), "")
        yield from ("| key | kind | means |", "|---|---|---|")
        for key, told in shape["properties"].items():
            yield f"| `{key}` | {_kind(told)} | {_line(told.get('description', ''))} |"
        yield ""


def _kind(told: Told) -> str:
    """A kind in words; a shape as a link to it."""
    if "$ref" in told:
        name = told["$ref"].rpartition("/")[2]
        return f"[{name}](#{name.lower()})"
    for several in ("anyOf", "oneOf"):
        if several in told:
            return " or ".join(_kind(one) for one in told[several])
    if "enum" in told or "const" in told:
        words = told.get("enum", [told.get("const")])
        return ", ".join(f"`{word}`" if word else '""' for word in words)
    match told.get("type"):
        case "array":
            return f"list of {_kind(told['items'])}" if "items" in told else "list"
        case "integer":
            return "whole number"
        case "boolean":
            return "true or false"
        case "string":
            return {"date": "date", "date-time": "moment"}.get(told.get("format", ""), "text")
        case str(kind):
            return kind
        case _:
            return "anything"


def _line(text: str) -> str:
    return re.sub(r"\s+", " ", text.replace("``", "`").replace("|", "\\|")).strip()


if __name__ == "__main__":
    by_hand = PAGE.read_text(encoding="utf-8").partition(MARK)[0]
    PAGE.write_text(by_hand + MARK + made(), encoding="utf-8")
