"""A price as a shop writes it: so much money for an amount."""

import re
from dataclasses import dataclass
from fractions import Fraction

from stillroom.errors import InputError
from stillroom.units.amounts import Amount, parse_amount

_PRICE = re.compile(
    r"\s*\$?\s*(\d{1,6}(?:\.\d{1,2})?)\s*(?:(?:per|/|for|a)\s*(.+)|(each))\s*$", re.I
)


@dataclass(frozen=True, slots=True)
class Price:
    """``money`` for the amount ``per``, in the money of whoever wrote it."""

    money: Fraction
    per: Amount

    def of(self, amount: Amount) -> Fraction:
        """What an amount in the unit of ``per`` costs.

        Examples
        --------
        >>> carrots = parse_price("1.30 per lb", "prices")
        >>> money(carrots.of(parse_amount("2 1/2 lb")))
        '3.25'
        """
        if amount.unit != self.per.unit:
            raise ValueError(f"{amount.unit} is not sold by {self.per.unit}.")
        return self.money * amount.value / self.per.value


def parse_price(text: str, where: str) -> Price:
    """A price from its text.

    Parameters
    ----------
    text : "1.29 per lb", "$3.99 per 5 lb", "0.75 each"; a sign of money may be left out
    where : what to name in an error

    Raises
    ------
    InputError
        No price, no amount, or an amount of nothing.

    Examples
    --------
    >>> parse_price("$3.99 per 5 lb", "prices").money
    Fraction(399, 100)
    >>> parse_price("0.75 each", "prices").per
    Amount(value=Fraction(1, 1), unit='each')
    """
    found = _PRICE.match(text)
    if found:
        said = (found.group(2) or found.group(3)).strip()
        try:
            per = parse_amount(said if said[0].isdigit() else f"1 {said}", where)
        except InputError:
            per = Amount(Fraction(0), "each")
        if per.value:
            return Price(Fraction(found.group(1)), per)
    raise InputError(
        f'{where}: "{text}" is not a price. Write money and what it buys, such as "1.29 per lb", '
        '"3.99 per 5 lb" or "0.75 each".'
    )


def money(value: Fraction) -> str:
    """Money with two decimals, rounded up to a cent.

    Examples
    --------
    >>> money(Fraction(1, 3))
    '0.34'
    """
    return f"{float(-(-value * 100 // 1)) / 100:,.2f}"
