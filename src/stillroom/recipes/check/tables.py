"""The tables of the recipe checker: what each published product may hold, in what proportions."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal, cast

from stillroom.foods.vocabulary import Food
from stillroom.recipes.check.rows import Row, names, one_of, read, source_of, sources
from stillroom.units.amounts import Amount, parse_amount
from stillroom.units.jars import quarts

Rule = Literal["at least", "at most", "exactly", "about", "may vary"]
Per = Literal["batch", "half-pint", "pint", "quart"]
Swap = Literal["both ways", "one way"]
WordKind = Literal["unconfirmed", "barred"]
# What "may" says where any food with canning directions of its own may go in.
OWN_PROCESS = "*own process"
# Never let in by a role alone: a rule of its own asks about them.
_ASKED_APART = frozenset(
    "alcohol bread condiment dairy egg flour grain pasta rice starch thickener".split()
) | {"ready sauce"}


@dataclass(frozen=True, slots=True)
class Base:
    """What a published product may hold.

    ``always`` are the foods that make it what it is, any of them; ``may`` those that may go in
    besides; ``may_roles`` roles that vary freely as dry seasoning or sugar; ``own_roles`` roles a
    food must have one of to go in by directions of its own. ``never`` and ``never_roles`` are kept
    out even where a role would let them in. ``acid`` is "none", "per jar" or "in the recipe".
    ``pasteurization`` tells whether the recipe offers low-temperature pasteurization.
    """

    food: str
    form: str
    family: str
    always: tuple[str, ...]
    may: tuple[str, ...]
    may_roles: frozenset[str]
    own_roles: frozenset[str]
    never: frozenset[str]
    never_roles: frozenset[str]
    acid: str
    solids_limit: str
    jars_limit: str
    method: str
    pasteurization: bool
    source: str
    place: str
    status: str
    notes: str

    @property
    def takes_own_process(self) -> bool:
        """Whether any food with canning directions of its own may go in, as in a soup."""
        return OWN_PROCESS in self.may

    def holds(self, food: Food, *, fresh: bool = False) -> bool:
        """Whether the published product may hold this food.

        Parameters
        ----------
        food : from the food list
        fresh : whether it is written as fresh: a fresh herb does not count as dry seasoning

        Returns
        -------
        bool : named in the row; or dry seasoning by its role; or, where the row lets that in, a
            food with canning directions of its own
        """
        if food.food in self.always or food.food in self.may:
            return True
        # "Beans", said of snap beans, are those beans.
        loose, _, untold = food.food.partition(", ")
        if untold == "kind not told" and any(loose in name for name in (self.food, *self.always)):
            return True
        if food.food in self.never or food.roles & self.never_roles or food.canning == "never":
            return False
        by_role = food.roles & self.may_roles and not food.roles & _ASKED_APART
        if by_role and food.canning == "flavoring" and not (fresh and "herb" in food.roles):
            return True
        own = food.canning == "own process" and bool(food.roles & self.own_roles)
        return self.takes_own_process and own


@dataclass(frozen=True, slots=True)
class Proportion:
    """One printed amount of a recipe, or of one jar.

    ``ingredient`` holds the foods that may be counted together for it. ``group`` tells what it
    does in the recipe ("acid", "peppers", "salt"); rows of one ``group`` with ``choice`` told are
    alternatives, any one of which will do. ``makes`` is the printed yield of the batch, "" where
    none is printed.
    """

    food: str
    form: str
    ingredient: tuple[str, ...]
    group: str
    choice: str
    written: str
    amount: Amount
    rule: Rule
    per: Per
    makes: str
    source: str
    place: str
    status: str
    note: str


@dataclass(frozen=True, slots=True)
class Substitution:
    """A change that a publication allows: ``instead`` may stand for ``of``.

    Either is a food, or a role where it starts with "role:". ``families`` are those of ``Base``
    in which it holds; ``share`` is the largest part of ``of`` that may be exchanged, and 0 where
    it may be left out; ``measure`` says by what it is equal.
    """

    of: tuple[str, ...]
    instead: tuple[str, ...]
    families: tuple[str, ...]
    share: Fraction
    direction: Swap
    measure: str
    message: str
    source: str
    place: str
    status: str


@dataclass(frozen=True, slots=True)
class OwnWord:
    """A word by which a recipe names a preserve that no published product covers by itself."""

    word: str
    kind: WordKind
    why: str
    instead: str
    source: str
    place: str
    status: str

    @property
    def cited(self) -> str:
        """Its source and the place in it."""
        return f"{sources()[self.source].short}: {self.place}"


@dataclass(frozen=True, slots=True)
class JarAcid:
    """The acid that every jar of a product needs, if this one is the acid chosen."""

    acid: Literal["lemon juice", "citric acid", "vinegar"]
    teaspoons_per_quart: Fraction

    def said(self, jar: str) -> str:
        """The amount for one jar, in kitchen spoons.

        Examples
        --------
        >>> JarAcid("lemon juice", Fraction(6)).said("pint")
        '1 Tbsp'
        >>> JarAcid("citric acid", Fraction(1, 2)).said("pint")
        '1/4 tsp'
        """
        spoons = self.teaspoons_per_quart * Fraction(quarts(jar)).limit_denominator(64)
        if spoons >= 3:
            return f"{_mixed(spoons / 3)} Tbsp"
        return f"{_mixed(spoons)} tsp"


def _mixed(value: Fraction) -> str:
    whole, part = divmod(value, 1)
    return " ".join(str(one) for one in (whole, part) if one) or "0"


def _base(row: Row) -> Base:
    return Base(
        row["food"], row["form"], row["family"], names(row["always"]), names(row["may"]),
        frozenset(names(row["may_roles"])), frozenset(names(row["own_roles"])),
        frozenset(names(row["never"])), frozenset(names(row["never_roles"])),
        row["acid"], row["solids_limit"], row["jars_limit"], row["method"],
        row["pasteurization"] == "yes", source_of(row), row["place"], row["status"], row["notes"],
    )  # fmt: skip


@lru_cache(maxsize=1)
def bases() -> dict[tuple[str, str], Base]:
    """Every row of what a product may hold, by food and form ("" for all forms)."""
    return {(one.food, one.form): one for one in read("bases.csv", _base)}


def base_for(food: str, form: str = "") -> Base | None:
    """What a product of the library may hold.

    Parameters
    ----------
    food : a food of the process library
    form : one of its forms; "" for any

    Returns
    -------
    Base : the row of this form, else that of all forms; ``None`` for no food of the library
    """
    return bases().get((food, form)) or bases().get((food, ""))


def _proportion(row: Row) -> Proportion:
    return Proportion(
        row["food"], row["form"], names(row["ingredient"]), row["group"], row["choice"],
        f"{row['amount']} {row['unit']}", parse_amount(f"{row['amount']} {row['unit']}"),
        cast(Rule, one_of(Rule, row["rule"])), cast(Per, one_of(Per, row["per"])), row["makes"],
        source_of(row), row["place"], row["status"], row["note"],
    )  # fmt: skip


@lru_cache(maxsize=1)
def all_proportions() -> tuple[Proportion, ...]:
    """Every printed amount, in file order."""
    return read("proportions.csv", _proportion)


@lru_cache(maxsize=256)
def proportions(food: str, form: str = "") -> tuple[Proportion, ...]:
    """The printed amounts of a product.

    Parameters
    ----------
    food : a food of the process library
    form : one of its forms; "" for any, and then ``choice`` tells the recipes of the forms apart

    Returns
    -------
    tuple : the rows of this form and those of all forms; empty where no amount was read
    """
    return tuple(
        one
        for one in all_proportions()
        if one.food == food and (not form or one.form in ("", form))
    )


_ACIDS = {"bottled lemon juice": "lemon juice", "citric acid": "citric acid"}


@lru_cache(maxsize=256)
def jar_acid(food: str, form: str = "") -> tuple[JarAcid, ...]:
    """The acid that every jar needs, any one of these; empty where none goes in by the jar."""
    base = base_for(food, form)
    if base is None or base.acid != "per jar":
        return ()
    made: dict[str, JarAcid] = {}
    for one in proportions(food, form):
        if one.group == "acid" and one.per != "batch":
            acid = cast(
                Literal["lemon juice", "citric acid", "vinegar"],
                _ACIDS.get(one.ingredient[0], "vinegar"),
            )
            each = one.amount.value / Fraction(quarts(one.per)).limit_denominator(64)
            # Where the jars differ a little by the quart, the most counts.
            if acid not in made or each > made[acid].teaspoons_per_quart:
                made[acid] = JarAcid(acid, each)
    return tuple(made.values())


def _substitution(row: Row) -> Substitution:
    return Substitution(
        names(row["of"]), names(row["instead"]), names(row["families"]), Fraction(row["share"]),
        cast(Swap, one_of(Swap, row["direction"])), row["measure"], row["message"],
        source_of(row), row["place"], row["status"],
    )  # fmt: skip


@lru_cache(maxsize=1)
def substitutions() -> tuple[Substitution, ...]:
    """Every change that a publication allows."""
    return read("substitutions.csv", _substitution)


def _word(row: Row) -> OwnWord:
    return OwnWord(
        row["word"], cast(WordKind, one_of(WordKind, row["kind"])), row["why"], row["instead"],
        source_of(row), row["place"], row["status"],
    )  # fmt: skip


@lru_cache(maxsize=1)
def own_words() -> tuple[OwnWord, ...]:
    """Words of preserves that no published product covers by itself."""
    return read("products_words.csv", _word)
