"""What a load's jars need told in few words, the same on every sheet."""

from collections.abc import Iterator
from fractions import Fraction

from stillroom.day.plan import Jars
from stillroom.processes import library


def inches(length: float) -> str:
    """Inches with halves, quarters and eighths as a ruler has them.

    Examples
    --------
    >>> inches(1.0), inches(0.25), inches(1.25)
    ('1', '1/4', '1 1/4')
    """
    whole, part = divmod(Fraction(length).limit_denominator(16), 1)
    return " ".join(str(n) for n in (whole, part) if n) or "0"


def care(jars: Jars) -> Iterator[str]:
    """What must not be forgotten at the filling, in two or three words.

    Source
    ------
    The product facts and the published row that the jars rest on.
    """
    fact = library.product(jars.process.food, jars.process.form)
    if fact and fact.acid.startswith("every jar"):
        yield "acid in every jar"
    if jars.pack == "raw" and "no liquid" in jars.process.note.lower():
        yield "no liquid"
