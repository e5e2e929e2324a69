"""Words in letters that the type has."""

import pytest

from stillroom.paper.letters import printable


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("Snap\n\tbeans", "Snap beans"),
        ("# $x$ <b> \\ * \"q\" 'q'", "# $x$ <b> \\ * \"q\" 'q'"),
        ("Salsa \N{HOT PEPPER}\N{VARIATION SELECTOR-16}!", "Salsa (hot pepper)!"),
        ("\N{THUMBS UP SIGN}\N{EMOJI MODIFIER FITZPATRICK TYPE-3}", "(thumbs up sign)"),
        ("jalapeño ½ 5 °F", "jalapeño ½ 5 °F"),
        ("bell\a", "bell"),
    ],
)
def test_text_prints_on_one_line_with_emoji_in_words(typed: str, printed: str) -> None:
    assert printable(typed) == printed
