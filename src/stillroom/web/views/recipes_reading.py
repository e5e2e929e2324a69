"""A paste read and judged: each line with what was understood of it and what was found."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from stillroom.errors import InputError
from stillroom.recipes.check.finding import Finding
from stillroom.recipes.check.verdict import Checked, check
from stillroom.recipes.pasted import Pasted
from stillroom.recipes.text.page import read_paste
from stillroom.recipes.told.words import facts_told, understood
from stillroom.recipes.write import Open, to_document
from stillroom.web.views.recipes import Kept
from stillroom.web.views.recipes_paste import Paste, facts_of, of_document, plain

Sort = Literal["title", "ingredient", "method", "heading"]
MOST_LETTERS = 30_000
_WORST = {"barred": 0, "unconfirmed": 1, "tested": 2}
_LINE = re.compile(r"line (\d+): ")


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a paste.

    ``read`` is what was understood, a text for each ingredient; ``left`` the pieces that nobody
    understood, and ``unused`` the words that say nothing of ingredients or method. ``open`` tells
    what to settle, "" where nothing is.
    """

    number: int
    text: str
    sorts: tuple[Sort, ...]
    read: tuple[str, ...]
    left: tuple[str, ...]
    unused: str
    findings: tuple[Finding, ...]
    open: str = ""

    @property
    def mendable(self) -> bool:
        """Whether its page shows a field to mend it in at once."""
        return bool(self.open or self.left or any(f.kind != "note" for f in self.findings))


@dataclass(frozen=True, slots=True)
class Reading:
    """A paste, read and judged. ``open`` are things to settle before it is a recipe of ours."""

    paste: Paste
    pasted: Pasted
    judged: Checked
    rows: tuple[Row, ...]
    whole: tuple[Finding, ...]
    facts: tuple[str, ...]
    open: tuple[str, ...]


def reading(paste: Paste) -> Reading:
    """Read a paste and judge it as the form asks.

    Raises
    ------
    InputError
        Empty, too long, not text, or a page without recipe data.
    """
    paste = plain(paste)
    if len(paste.text) > MOST_LETTERS:
        raise InputError(
            f"{len(paste.text):,} letters are too many for one recipe (at most {MOST_LETTERS:,}). "
            "Paste only the recipe itself."
        )
    pasted = read_paste(paste.text, base=paste.base)
    if paste.title:
        pasted = replace(pasted, title=pasted.title or paste.title)
    judged = judge_paste(pasted, paste)
    things = opens(pasted, paste)
    rows = _rows(paste, pasted, judged.findings, things)
    beside = {row.number for row in rows}
    return Reading(
        paste,
        pasted,
        judged,
        rows,
        tuple(one for one in judged.findings if one.line not in beside),
        tuple(facts_told(pasted.facts)),
        tuple(thing for thing in things if not _LINE.match(thing)),
    )


def of_kept(kept: Kept) -> Reading | None:
    """An unfinished recipe's paste, read and judged as it stands; ``None`` where it has none."""
    if not kept.source_text:
        return None
    try:
        return reading(of_document(kept.document, kept.source_text, kept.version))
    except InputError:
        return None


def judge_paste(pasted: Pasted, paste: Paste) -> Checked:
    """The verdict for every jar that was chosen, the worst deciding."""
    asked = {"base": paste.judged_as, "method": paste.method, "pack": paste.pack}
    every = [check(pasted, jar=jar, **asked) for jar in paste.jars or ("",)]
    worst = min(every, key=lambda one: _WORST[one.verdict])
    once = {(f.rule, f.about, f.line): f for one in (worst, *every) for f in one.findings}
    found = sorted(once.values(), key=lambda one: ("barred", "unconfirmed", "note").index(one.kind))
    return replace(worst, findings=tuple(found))


def opens(pasted: Pasted, paste: Paste) -> tuple[str, ...]:
    """What is open before the paste can be written as a recipe of ours."""
    try:
        to_document(pasted, **facts_of(paste))
    except Open as wrong:
        return wrong.things
    return ()


def _rows(
    paste: Paste, pasted: Pasted, findings: Sequence[Finding], things: Sequence[str]
) -> tuple[Row, ...]:
    to_settle = {int(m.group(1)): thing for thing in things if (m := _LINE.match(thing))}
    sentences = list(pasted.method)
    title = pasted.title
    rows = []
    for number, line in enumerate(paste.lines, 1):
        text = " ".join(line.split())
        if not text:
            continue
        sorts: list[Sort] = []
        left_text = text
        if title and text.startswith(title):
            sorts.append("title")
            left_text, title = left_text.replace(title, " ", 1), ""
        here = [one for one in pasted.lines if one.line == number]
        if here:
            sorts.append("ingredient")
        for one in here:
            left_text = left_text.replace(one.text, " ", 1)
        for sentence in list(sentences):
            if sentence in text:
                sorts += [] if "method" in sorts else ["method"]
                left_text = left_text.replace(sentence, " ", 1)
                sentences.remove(sentence)
        unused = left_text.strip(" ,;:.-–—→•*")
        if not sorts:
            sorts, unused = ["heading"], ""
        told = [piece for at, piece in pasted.not_understood if at == number]
        rows.append(
            Row(
                number,
                line.strip(),
                tuple(sorts),
                tuple(understood(one) for one in here),
                tuple(dict.fromkeys(told)),
                unused if re.search(r"\w", unused) else "",
                tuple(one for one in findings if one.line == number),
                to_settle.get(number, ""),
            )
        )
    return tuple(rows)
