"""A saved web page's recipe, from its schema.org data alone. No script is ever run."""

import json
import re
from collections.abc import Iterator
from contextlib import suppress
from functools import lru_cache
from html import unescape
from html.parser import HTMLParser
from typing import Any

from stillroom.errors import InputError

# A page holds a few hundred things; a page made to be slow holds more.
_MOST_NODES = 20_000
_MOST_TEXT = 2_000


class _Tag(HTMLParser):
    """The attributes of one opening tag."""

    def __init__(self) -> None:
        super().__init__()
        self.kind = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the type of a script."""
        if tag == "script":
            self.kind = (dict(attrs).get("type") or "").lower()


def is_page(text: str) -> bool:
    """Whether a text is the source of a web page.

    Examples
    --------
    >>> is_page("<!DOCTYPE html><html>"), is_page("2 cups beans < 1 lb")
    (True, False)
    """
    start = text[:4000].lower()
    return bool(_page().search(start))


@lru_cache(maxsize=1)
def _page() -> re.Pattern[str]:
    return re.compile(r"<(?:!doctype html|html|head|body|script|meta|div|title)\b[^<]{0,400}>")


@lru_cache(maxsize=1)
def _tags() -> re.Pattern[str]:
    return re.compile(r"<(?P<block>/?(?:p|br|li|div|ul|ol|h[1-6])\b)?[^<>]{0,300}>", re.IGNORECASE)


def page_text(html: str, name: str = "page") -> str:
    """The recipe of a page as plain text: title, ingredients, method, yield.

    Parameters
    ----------
    html : the source of a saved page
    name : what to name in an error

    Raises
    ------
    InputError
        The page carries no schema.org Recipe; the message says to paste the words instead.

    Source
    ------
    schema.org, type Recipe: name, recipeIngredient, recipeInstructions, recipeYield.

    Examples
    --------
    >>> page_text('<script type="application/ld+json">{"@type": "Recipe", "name": "Pears",'
    ...           '"recipeIngredient": ["2 lb pears"]}</script>')
    'Pears\\nIngredients\\n2 lb pears'
    """
    found = [one for block in _blocks(html) for one in _recipes(block)]
    best = max(found, key=lambda one: bool(_texts(_ingredients(one))), default=None)
    if best is None:
        raise InputError(
            f"{name}: nothing on it is marked as a recipe. Copy the recipe's own words from the "
            "page and paste them as text."
        )
    lines = _texts(best.get("name"))[:1]
    ingredients = _texts(_ingredients(best))
    if ingredients:
        lines += ["Ingredients", *ingredients]
    steps = _texts(best.get("recipeInstructions"))
    # Pages often give "8" beside "8 pints": the longer tells more.
    made = sorted(_texts(best.get("recipeYield")), key=len, reverse=True)[:1]
    if steps or made:
        lines += ["Method", *steps]
    if made:
        lines.append(f"Makes {made[0]}." if not made[0].lower().startswith("make") else made[0])
    if not lines:
        raise InputError(
            f"{name}: what is marked as a recipe on it is empty. Copy the recipe's own words from "
            "the page and paste them as text."
        )
    return "\n".join(lines)


def _blocks(html: str) -> Iterator[Any]:
    """What the page's application/ld+json scripts hold."""
    low = html.lower()
    at = low.find("<script")
    while at >= 0:
        opened = html.find(">", at, at + 2000)
        if opened < 0:
            at = low.find("<script", at + 7)
            continue
        closed = low.find("</script", opened)
        closed = closed if closed >= 0 else len(html)
        tag = _Tag()
        tag.feed(html[at : opened + 1])
        if "ld+json" in tag.kind:
            held = html[opened + 1 : closed].strip()
            held = held.removeprefix("<!--").removesuffix("-->")
            held = held.strip().removeprefix("//<![CDATA[").removesuffix("//]]>")
            # Broken data is no data: the page is told to have none.
            with suppress(ValueError, RecursionError):
                yield json.loads(held, strict=False)
        at = low.find("<script", closed)


def _recipes(block: Any) -> Iterator[dict[str, Any]]:
    """Every Recipe in a block, however deep, nearest first."""
    waiting, seen = [block], 0
    while waiting and seen < _MOST_NODES:
        seen += 1
        one = waiting.pop(0) if len(waiting) < 200 else waiting.pop()
        if isinstance(one, list):
            waiting += one[:_MOST_NODES]
        elif isinstance(one, dict):
            kinds = one.get("@type")
            said = kinds if isinstance(kinds, list) else [kinds]
            if any(isinstance(kind, str) and kind.rsplit("/", 1)[-1] == "Recipe" for kind in said):
                yield one
            waiting += [value for value in one.values() if isinstance(value, (dict, list))]


def _ingredients(recipe: dict[str, Any]) -> Any:
    return recipe.get("recipeIngredient") or recipe.get("ingredients")


def _texts(value: Any) -> list[str]:
    """The lines of a field: a text, steps, sections of steps, or lists of any of them."""
    made: list[str] = []
    waiting, seen = [value], 0
    while waiting and len(made) < _MOST_TEXT and seen < _MOST_NODES:
        seen += 1
        one = waiting.pop(0)
        if isinstance(one, str):
            made += _clean(one)
        elif isinstance(one, (int, float)) and not isinstance(one, bool):
            made.append(f"{one:g}")
        elif isinstance(one, list):
            waiting[:0] = one[:_MOST_TEXT]
        elif isinstance(one, dict):
            steps = one.get("itemListElement") or one.get("steps")
            name = one.get("name")
            if steps:
                headed = [f"{name}:"] if isinstance(name, str) and name.strip() else []
                waiting[:0] = [*headed, steps]
            else:
                waiting[:0] = [one.get("text") or name or one.get("@value") or ""]
    return made


def _clean(text: str) -> list[str]:
    """Plain lines of a text that may hold entities and marks."""
    # Some pages encode twice, so that "&amp;frac12;" stands for one half.
    plain = unescape(unescape(text)) if "&" in text else text
    if "<" in plain:
        plain = _without_scripts(plain)
        plain = _tags().sub(lambda m: "\n" if m["block"] else "", plain)
    return [line for piece in plain.splitlines() if (line := " ".join(piece.split()))]


def _without_scripts(text: str) -> str:
    """Scripts and styles inside a text are cut out whole."""
    for name in ("script", "style"):
        low, made, at = text.lower(), [], 0
        while (start := low.find(f"<{name}", at)) >= 0:
            made.append(text[at:start])
            end = low.find(f"</{name}", start)
            close = low.find(">", end) if end >= 0 else -1
            at = close + 1 if close >= 0 else len(text)
        text = "".join([*made, text[at:]])
    return text
