"""What a template shows of its own: the visible words that no catalogue knows."""

from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

from jinja2 import Environment, nodes

SHOWN = {"alt", "aria-label", "aria-description", "placeholder", "title", "content"}
# Not shown, or shown as it is typed: commands and addresses.
UNSHOWN = {"style", "script", "code", "kbd", "samp"}


def own_words(path: Path) -> list[str]:
    """Text and shown attributes of a template that stand outside of gettext."""
    environment = Environment(
        trim_blocks=True,
        lstrip_blocks=True,
        extensions=["jinja2.ext.i18n", "jinja2.ext.do"],
    )
    environment.install_null_translations(newstyle=True)  # type: ignore[attr-defined]
    tree = environment.parse(path.read_text(encoding="utf-8"))
    reader = _Reader()
    reader.feed("".join(_literal(tree)))
    reader.close()
    return reader.found


def _literal(node: nodes.Node) -> Iterator[str]:
    """The template's own text in its order, whatever way it is taken through it."""
    if isinstance(node, nodes.TemplateData):
        yield node.data
    elif isinstance(node, nodes.Expr):
        yield from _constants(node)
    elif isinstance(node, nodes.If):
        for part in (*node.body, *node.elif_, *node.else_):
            yield from _literal(part)
    elif isinstance(node, nodes.Output):
        for part in node.nodes:
            yield from _literal(part)
    elif isinstance(node, nodes.For):
        for part in (*node.body, *node.else_):
            yield from _literal(part)
    elif isinstance(node, nodes.Assign):
        # A name may be given words, and shown later.
        yield from _constants(node.node)
    else:
        body: list[nodes.Node] = getattr(node, "body", [])
        for part in body:
            yield from _literal(part)


def _constants(node: nodes.Node) -> Iterator[str]:
    """Strings that an expression shows as they stand; those given to a function are not."""
    if isinstance(node, nodes.Const) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, nodes.CondExpr):
        yield from _constants(node.expr1)
        if node.expr2 is not None:
            yield from _constants(node.expr2)
    elif isinstance(node, nodes.Concat):
        for part in node.nodes:
            yield from _constants(part)
    elif isinstance(node, nodes.Add | nodes.Or | nodes.And):
        yield from _constants(node.left)
        yield from _constants(node.right)
    elif isinstance(node, nodes.Filter) and node.node is not None:
        yield from _constants(node.node)


def _shows_value(tag: str, sort: str | None) -> bool:
    """A button shows what stands in it, a box to tick nothing: their values are for the server."""
    return tag == "input" and sort not in ("hidden", "checkbox", "radio")


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._open.append(tag)
        given = dict(attrs)
        name = given.get("name")
        for key, value in attrs:
            shown = key in SHOWN and not (tag == "meta" and name != "description")
            if shown or (key == "value" and _shows_value(tag, dict(attrs).get("type"))):
                self.handle_data(value or "")

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if any(letter.isalpha() for letter in data) and not UNSHOWN & set(self._open):
            self.found.append(" ".join(data.split()))
