"""Figures as the household writes them: its language, and US or metric units.

A printed figure is always shown as printed; a metric one stands beside it as a conversion.
"""

from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from typing import Literal

from babel.dates import format_date, format_time
from babel.numbers import format_decimal

from stillroom.units.clock import clock
from stillroom.units.si import METRES_PER_FOOT, PASCALS_PER_PSI

Units = Literal["us", "metric"]
_EIGHTHS = {1: "⅛", 2: "¼", 3: "⅜", 4: "½", 5: "⅝", 6: "¾", 7: "⅞"}
_CM_PER_INCH = 2.54


@dataclass(frozen=True, slots=True)
class Shown:
    """How figures are written for one household."""

    language: str
    units: Units

    def number(self, value: float) -> str:
        """A number with the language's marks."""
        return str(format_decimal(value, locale=self.language))

    def elevation(self, feet: int) -> str:
        """Feet, or metres rounded to the whole."""
        if self.units == "metric":
            return f"{self.number(round(feet * METRES_PER_FOOT))} m"
        return f"{self.number(feet)} ft"

    def pounds_beside(self, psi: int) -> str:
        """The conversion that stands beside printed pounds; "" in US units."""
        if self.units == "us":
            return ""
        return f"{self.number(round(psi * PASCALS_PER_PSI / 1000))} kPa"

    def headspace(self, inches: float) -> str:
        """Inches in eighths; in metric units with centimetres beside."""
        told = f"{eighths(inches)} in"
        if self.units == "metric":
            told += f" ({self.number(round(inches * _CM_PER_INCH, 1))} cm)"
        return told

    def temperature(self, kelvin: float) -> str:
        """Whole degrees, Fahrenheit or Celsius."""
        if self.units == "metric":
            return f"{self.number(round(kelvin - 273.15))} °C"
        return f"{self.number(round(kelvin * 1.8 - 459.67))} °F"

    def day(self, when: date) -> str:
        """A day with its weekday."""
        return str(format_date(when, "EEEE d MMMM y", locale=self.language))

    def full_date(self, when: date) -> str:
        """A day of any year, short."""
        return str(format_date(when, "d MMM y", locale=self.language))

    def short_day(self, when: date) -> str:
        """A day with its weekday, short."""
        return str(format_date(when, "EEE d MMM", locale=self.language))

    def moment(self, when: datetime) -> str:
        """Day and time."""
        return f"{self.short_day(when.date())}, {format_time(when, 'HH:mm', locale=self.language)}"

    def clock(self, minutes: int) -> str:
        """Minutes after midnight as a clock shows them."""
        return clock(minutes)


def eighths(inches: float) -> str:
    """Inches as a ruler shows them.

    Examples
    --------
    >>> eighths(1.0), eighths(0.5), eighths(1.25)
    ('1', '½', '1¼')
    """
    parts = Fraction(inches).limit_denominator(8) * 8
    whole, rest = divmod(int(parts), 8)
    if parts.denominator != 1 or not (whole or rest):
        return f"{inches:g}"
    return f"{whole or ''}{_EIGHTHS.get(rest, '')}"
