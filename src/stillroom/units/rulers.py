"""Inches as a ruler has them."""

from fractions import Fraction

from stillroom.units.speech import mixed


def inches(length: float) -> str:
    """Inches with halves, quarters, eighths and sixteenths.

    Examples
    --------
    >>> inches(1.0), inches(0.25), inches(1.25)
    ('1', '1/4', '1 1/4')
    """
    return mixed(Fraction(length).limit_denominator(16))
