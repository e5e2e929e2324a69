"""One finding of a check, and the rules from which findings are worded."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from stillroom.errors import DataError
from stillroom.recipes.check.rows import Row, one_of, read, source_of, sources

Kind = Literal["barred", "unconfirmed", "note"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One cause: what it is about, as written; plain words, the source, the nearest tested thing.

    ``line`` is the line of the paste it concerns, 0 where it concerns the whole.
    """

    rule: str
    about: str
    kind: Kind
    message: str
    source: str
    instead: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Rule:
    """A published rule in our words, with places for what a recipe says."""

    rule: str
    kind: Kind
    message: str
    instead: str
    source: str
    place: str
    status: str


@lru_cache(maxsize=1)
def rules() -> dict[str, Rule]:
    """Every rule by its name.

    Raises
    ------
    DataError
        A kind that is none, or a rule written twice.
    """
    made: dict[str, Rule] = {}
    for rule in read("rules.csv", _rule):
        if rule.rule in made:
            raise DataError(f"rules.csv, {rule.rule}: it is written twice.")
        made[rule.rule] = rule
    return made


def _rule(row: Row) -> Rule:
    one_of(Kind, row["kind"])
    source_of(row)
    return Rule(**row)  # type: ignore[arg-type]  # the kind was asked above


def finding(rule: str, about: str, *, line: int = 0, source: str = "", **words: str) -> Finding:
    """A finding in the words of a rule.

    Parameters
    ----------
    rule : its name in ``data/rules.csv``
    about : what of the recipe it concerns, as written
    line : of the paste
    source : where the rule's own row leaves it to the caller
    words : what fills the places of the rule's message

    Source
    ------
    ``data/rules.csv``; each row names its own.
    """
    known = rules()[rule]
    told = {"about": about, "said": about, "near": "", **words}
    if not source:
        source = f"{sources()[known.source].short}: {known.place}"
        if known.status == "from memory":
            source += " (from memory)"
    return Finding(
        rule=rule,
        about=about,
        kind=known.kind,
        message=_sentence(known.message.format(**told)),
        source=source,
        instead=_sentence(known.instead.format(**told)),
        line=line,
    )


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]
