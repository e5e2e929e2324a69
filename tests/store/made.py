"""Documents of an invented household, as tests keep them."""

import tomllib
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

DEMO = Path(__file__).parents[2] / "src" / "stillroom" / "cli" / "demo"
AT = datetime(2026, 10, 1, 8, 30, 0, 123456, tzinfo=UTC)
BY: dict[str, Any] = {"at": AT, "who": "Marit"}
KITCHEN: dict[str, Any] = {
    "name": "Ridge kitchen (invented)",
    "elevation": "5,430 ft",
    "burners": 4,
    "canner": [{"name": "tall canner", "method": "dial-gauge", "holds": {"quart": 7, "pint": 9}}],
    "person": [{"name": "Marit"}],
}
RECIPE: dict[str, Any] = {
    "title": "Carrots of the garden",
    "source": "USDA AIB-539, Guide 4, carrots",
    "food": "carrots",
    "form": "sliced or diced",
    "pack": "hot",
    "jars": ["pint", "quart"],
    "makes": "7 quarts",
    "ingredients": ["carrots, sliced, 17 1/2 lb"],
    "liquid": "water, boiling, 10 cups",
    "fill": ["hot carrots", "boiling water to the headspace"],
    "work": {"heat": 10, "fill_per_jar": 2, "prep_per_quart": 10},
}
DAY: dict[str, Any] = {
    "date": "2026-10-17",
    "start": "8:00",
    "finish_by": "18:00",
    "order": [{"recipe": "carrots-of-the-garden", "jars": 14, "jar": "pint"}],
}


def later(minutes: float) -> dict[str, Any]:
    """The same person, some minutes later."""
    return BY | {"at": AT + timedelta(minutes=minutes)}


def demo(name: str) -> dict[str, Any]:
    """A file of the demo day, as a table of TOML."""
    return tomllib.loads((DEMO / name).read_text("utf-8"))


# Any JSON that a form, a file or a program may send.
plain = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**53), 2**53)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(),
    lambda below: st.lists(below, max_size=3) | st.dictionaries(st.text(), below, max_size=3),
    max_leaves=8,
)
documents = st.dictionaries(st.text(), plain, max_size=4)
moments = st.datetimes(datetime(1970, 1, 1), datetime(2200, 1, 1), timezones=st.just(UTC))
