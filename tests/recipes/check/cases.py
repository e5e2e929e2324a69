"""The case set of the checker: recipes as people write them, each with the verdict it must get.

Both files were written from the published rules and tables, not from the checker's answers; a case
cites its rule. ``also_ok`` holds verdicts that can be argued for as well. The checker was mended on
``cases.jsonl``; ``second.jsonl`` was written later and seen by it only then.
"""

import json
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from stillroom.recipes.check.verdict import Checked, check
from stillroom.recipes.text.page import read_paste

HERE = Path(__file__).parent
SEVERITY = {"tested": 0, "unconfirmed": 1, "barred": 2}


@dataclass(frozen=True, slots=True)
class Case:
    """One recipe with how it is asked about, and what must come of it."""

    id: str
    title: str
    recipe_text: str
    base: str
    jar: str
    method: str
    pack: str
    expected: str
    must_flag: tuple[str, ...]
    must_not_flag: tuple[str, ...]
    also_ok: tuple[str, ...]
    source: str

    @property
    def right(self) -> frozenset[str]:
        """Verdicts that are right."""
        return frozenset((self.expected, *self.also_ok))


def cases() -> tuple[Case, ...]:
    """Every case of both files."""
    return (*first_set(), *second_set())


def first_set() -> tuple[Case, ...]:
    """The cases the checker was mended on."""
    return _read("cases.jsonl")


def second_set() -> tuple[Case, ...]:
    """The cases written after it."""
    return _read("second.jsonl")


@lru_cache
def _read(name: str) -> tuple[Case, ...]:
    made = []
    for line in (HERE / name).read_text("utf-8").splitlines():
        row = json.loads(line)
        made.append(
            Case(
                row["id"], row["title"], row["recipe_text"], row["base"], row["jar"],
                row["method"], row["pack"], row["expected"], tuple(row["must_flag"]),
                tuple(row["must_not_flag"]), tuple(row.get("also_ok", ())), row["source"],
            )
        )  # fmt: skip
    return tuple(made)


def judged(case: Case, text: str | None = None) -> Checked:
    """A case judged, with another text where one is given."""
    pasted = read_paste(case.recipe_text if text is None else text, base=case.base)
    return check(pasted, base=case.base, jar=case.jar, method=case.method, pack=case.pack)
