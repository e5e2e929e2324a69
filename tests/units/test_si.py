"""Customary units in SI, against the general library Pint and against the kitchen's exact units."""

import pytest
from pint import UnitRegistry

from stillroom.units import amounts, si


@pytest.mark.parametrize(
    ("value", "unit", "of"),
    [
        (si.METRES_PER_FOOT, "foot", "meter"),
        (si.METRES_PER_INCH, "inch", "meter"),
        (si.KILOGRAMS_PER_POUND, "pound", "kilogram"),
        (si.KILOGRAMS_PER_OUNCE, "ounce", "kilogram"),
        (si.PASCALS_PER_PSI, "psi", "pascal"),
        (si.CUBIC_METRES_PER_FLUID_OUNCE, "fluid_ounce", "meter**3"),
        (si.CUBIC_METRES_PER_QUART, "quart", "meter**3"),
    ],
)
def test_a_unit_is_what_a_general_library_says(value: float, unit: str, of: str) -> None:
    """Pint 0.25; the tolerance is that of double precision."""
    assert value == pytest.approx(UnitRegistry().Quantity(1, unit).to(of).magnitude, rel=1e-14)


def test_a_pound_and_a_quart_are_those_of_the_kitchen() -> None:
    """The exact fractions by which recipes count: grams in a pound, millilitres in a quart."""
    pound = float(amounts.POUND) / 1000
    assert pound == pytest.approx(si.KILOGRAMS_PER_POUND, rel=1e-14)
    quart = float(amounts.QUART / amounts.MILLILITRE) * 1e-6
    assert quart == pytest.approx(si.CUBIC_METRES_PER_QUART, rel=1e-14)
