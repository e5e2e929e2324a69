"""What customary units are in SI, each exact by its definition or to its last digit here."""

from typing import Final

METRES_PER_FOOT: Final = 0.3048
"""International foot, 1959."""

METRES_PER_INCH: Final = 0.0254
"""International inch, 1959."""

KILOGRAMS_PER_POUND: Final = 0.45359237
"""International avoirdupois pound, 1959."""

KILOGRAMS_PER_OUNCE: Final = KILOGRAMS_PER_POUND / 16

PASCALS_PER_PSI: Final = KILOGRAMS_PER_POUND * 9.80665 / METRES_PER_INCH**2
"""A pound's weight at standard gravity (9.80665 m/s2) on a square inch."""

CUBIC_METRES_PER_FLUID_OUNCE: Final = 231 * METRES_PER_INCH**3 / 128
"""U.S. fluid ounce: the 128th part of a gallon of 231 cubic inches."""

CUBIC_METRES_PER_QUART: Final = 32 * CUBIC_METRES_PER_FLUID_OUNCE
"""U.S. quart."""
