"""The screens of the docs: each page of the guide's list is drawn and shown in both sizes."""

from docs.make_screens import PICTURES, SCREENS, SIZES
from tests.docs.pages import DOCS, text


def test_every_screen_is_drawn_and_shown() -> None:
    guide = text(DOCS / "guides" / "kitchen-screen.md")
    wanted = {f"screen-{name}-{device}.png" for name in SCREENS for device in SIZES}

    assert {path.name for path in PICTURES.glob("screen-*.png")} == wanted
    assert [name for name in wanted if f"../pictures/{name})" not in guide] == []


def test_screens_are_small() -> None:
    """A guide is read on a phone, too."""
    for path in PICTURES.glob("screen-*.png"):
        assert path.stat().st_size < 100_000, path.name
