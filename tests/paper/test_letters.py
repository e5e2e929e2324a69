"""Words in letters that the type has."""

import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from stillroom.paper.letters import one_line, printable, respelled
from stillroom.paper.typeset import FOLDER


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


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("borș αβγ борщ", "borș αβγ борщ"),
        ("梅", "Mei"),
        ("한국", "HanGug"),
        ("ひらがな", "hiragana"),
        ("梅 \N{RED APPLE}", "Mei (red apple)"),
        ("1\N{VARIATION SELECTOR-16}\N{COMBINING ENCLOSING KEYCAP}", "1"),
        ("e\N{COMBINING ACUTE ACCENT}", "é"),
    ],
)
def test_letters_that_have_no_type_are_spelled(typed: str, printed: str) -> None:
    """Readings from memory: Mei (Pinyin), Hanguk (letter by letter Han-Gug), hiragana."""
    assert printable(typed) == printed


# Marks after a letter of another type are where a box may come in unseen.
MARKED = st.tuples(st.sampled_from("0aя梅"), st.characters(categories=["Mn", "Mc", "Me"]))


@given(st.text(st.characters(codec="utf-8"), max_size=12) | MARKED.map("".join))
def test_whatever_is_printed_has_type(text: str) -> None:
    """The archive's standard (PDF/A-2b, ISO 19005-2) bars a box in place of a letter."""
    typst.compile(
        FOLDER / "letters.typ",
        format="pdf",
        font_paths=[FOLDER / "fonts"],
        ignore_system_fonts=True,
        sys_inputs={"word": printable(text)},
        pdf_standards="a-2b",
    )


def test_the_standard_does_bar_boxes() -> None:
    """Else the test above would hold whatever was printed."""
    with pytest.raises(typst.TypstError, match="could not be displayed"):
        typst.compile(
            b'#set document(title: "t")\n#set text(lang: "en")\n#sys.inputs.words',
            format="pdf",
            ignore_system_fonts=True,
            sys_inputs={"words": "梅"},
            pdf_standards="a-2b",
        )


def test_only_names_that_changed_are_named() -> None:
    assert respelled(["Ada", "梅", "борщ", "梅", "Salsa \N{HOT PEPPER}"]) == ["Mei"]


def test_a_line_keeps_any_writing_but_no_control_signs() -> None:
    assert one_line(" 梅\r\n\x00\x1b[1m\tbeans ") == "梅 [1m beans"
