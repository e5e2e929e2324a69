"""One finding of a check, and the rules from which findings are worded."""

import csv
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Literal

from stillroom.errors import DataError

Kind = Literal["barred", "unconfirmed", "note"]
DATA = Path(__file__).parent / "data"


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
    with (DATA / "rules.csv").open(encoding="utf-8", newline="") as f:
        for row in csv.DictReader(f):
            if row["kind"] not in ("barred", "unconfirmed", "note") or row["rule"] in made:
                raise DataError(f"rules.csv, {row['rule']}: its kind or its name does not fit.")
            made[row["rule"]] = Rule(**row)  # type: ignore[arg-type]
    return made


@lru_cache(maxsize=1)
def _titles() -> dict[str, str]:
    with (DATA / "sources.csv").open(encoding="utf-8", newline="") as f:
        return {row["source"]: _short(row) for row in csv.DictReader(f)}


def _short(row: dict[str, str]) -> str:
    """A source as a finding names it: the bulletin by its number and guide."""
    bulletin, _, guide = row["source"].partition("-g")
    if bulletin == "usda-aib539":
        return f"USDA AIB-539, Guide {guide}"
    return f"{row['author']}, {row['title']}"


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
        source = f"{_titles()[known.source]}: {known.place}"
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
