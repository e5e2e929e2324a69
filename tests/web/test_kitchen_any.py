"""Whatever is typed into a form of the kitchen, it is kept as the readers take it, or told."""

from datetime import date
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.kitchen import kitchen_from
from stillroom.toml_file import table_of
from stillroom.web.views.fields import Counts, Field, Rows, Ticks
from stillroom.web.views.kitchen_form import form, read
from stillroom.web.views.kitchen_parts import FIRST_PART, PARTS, Part, canner_part, care_part

TODAY = date(2026, 8, 1)
CANNER: dict[str, Any] = {"name": "big", "method": "dial-gauge", "holds": {"quart": 7}}
KITCHEN: dict[str, Any] = {
    "name": "Ridge",
    "elevation": "900 ft",
    "burners": 4,
    "canner": [CANNER, {**CANNER, "name": "other"}],
}
ALL = (*PARTS.values(), FIRST_PART, canner_part(1), canner_part(3), care_part(2, "dial-gauge"))
SAID = st.one_of(
    st.text(max_size=30),
    st.sampled_from(
        ["7", "-1", "1,000", "9" * 30, "²", "1e3", "5,430 ft", "dial-gauge", "quart", "hot", "gas",
         "8:00 to 12:00", "18 lb", "1.29 per lb", "sugar", "yes", "2026-06-01", "2026-13-99", "\0",
         "9,000 Btu/h", "3 quarts", "nan", "-inf", " ", "a.b[1]: c, item 2"]
    ),
)  # fmt: skip


def _names(fields: tuple[Field, ...], above: str = "") -> list[str]:
    names = []
    for one in fields:
        if isinstance(one, Rows):
            names += [
                n for row in (1, 2, 7) for n in _names(one.fields, f"{above}{one.name}.{row}.")
            ]
        elif isinstance(one, Counts | Ticks):
            names += [f"{above}{one.name}.{word}" for word, _ in one.options]
        else:
            names.append(above + one.name)
    return names


@st.composite
def _sent(draw: st.DrawFn) -> tuple[Part, dict[str, str]]:
    part = draw(st.sampled_from(ALL))
    stands = form(part, KITCHEN).values if draw(st.booleans()) else {}
    return part, {**stands} | draw(st.dictionaries(st.sampled_from(_names(part.fields)), SAID))


@given(_sent())
@settings(max_examples=400, deadline=None)
def test_any_form_is_read_or_its_slip_has_a_field(sent: tuple[Part, dict[str, str]]) -> None:
    part, typed = sent
    try:
        values = read(part, typed, KITCHEN, today=TODAY)
    except InputError as wrong:
        assert wrong.place in {"", *_names(part.fields)}
        assert not str(wrong).startswith("kitchen,")
        return

    made = part.into(KITCHEN, values)
    kitchen_from(table_of(made, "kitchen"))
    # What was kept stands in the form again, and sent once more it is the same.
    assert read(part, form(part, made).values, made, today=TODAY) == values
