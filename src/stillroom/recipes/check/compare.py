"""A recipe and its changed copy: what each change does, one line a change.

Each change is tried alone on the first recipe, so that what it does can be told apart from what the
others do. What touches neither verdict, time, pressure, headspace nor liquid is a matter of taste
only.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import zip_longest
from typing import Literal

from stillroom.errors import InputError
from stillroom.foods.vocabulary import find_food
from stillroom.recipes.check.verdict import Checked, check
from stillroom.recipes.pasted import Facts, Pasted, PastedLine
from stillroom.recipes.text.facts import read_facts

Effect = Literal["verdict", "time", "pressure", "headspace", "liquid", "taste only"]
# Each change is judged by itself; a changed copy has a handful.
_MOST_CHANGES = 100
_LIQUIDS = ("acid", "water", "broth", "juice", "alcohol", "oil")


@dataclass(frozen=True, slots=True)
class Asked:
    """How a recipe is to be judged: see ``verdict.check``."""

    base: str = ""
    jar: str = ""
    method: str = ""
    pack: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """One change: what it is about, before and after as written ("" where it was not there).

    ``effects`` lists what it touches, and ``says`` tells it in one line.
    """

    about: str
    before: str
    after: str
    effects: tuple[Effect, ...]
    says: str


@dataclass(frozen=True, slots=True)
class Compared:
    """Both judged, and every change."""

    before: Checked
    after: Checked
    changes: tuple[Change, ...]


def compare(
    first: Pasted, second: Pasted, asked: Asked, asked_after: Asked | None = None
) -> Compared:
    """What the changes from one recipe to another do.

    Parameters
    ----------
    first, second : as read
    asked : how the first is to be judged
    asked_after : how the second is, where that differs (another jar, say)

    Returns
    -------
    Compared; changes in the order of the lines, then of the directions

    Raises
    ------
    InputError
        More than 100 lines differ.

    Source
    ------
    ``check``: each effect comes from judging the change, none from a rule of its own.
    """
    then = asked_after or asked
    before, after = _judge(first, asked), _judge(second, then)
    made: list[Change] = []
    pairs = list(_lines(first, second))
    if len(pairs) > _MOST_CHANGES:
        raise InputError(
            f"{len(pairs)} lines differ: these are two recipes, not one and its changed copy. "
            "Check each by itself."
        )
    for old, new in pairs:
        alone = _with(first, old, new)
        made.append(_of_line(old, new, before, _judge(alone, asked)))
    made += _directions(first, second, asked, then, before, after)
    made += _sentences(first, second, asked, before)
    return Compared(before, after, tuple(made))


def _judge(pasted: Pasted, asked: Asked) -> Checked:
    return check(pasted, base=asked.base, jar=asked.jar, method=asked.method, pack=asked.pack)


def _lines(first: Pasted, second: Pasted) -> Iterator[tuple[PastedLine | None, PastedLine | None]]:
    """Pairs of lines that differ, by food; what stays the same is left out."""
    rest = list(second.lines)
    gone: list[PastedLine] = []
    for old in first.lines:
        same = next((n for n in rest if _key(n) == _key(old)), None)
        if same is not None:
            rest.remove(same)
            continue
        gone.append(old)
    for old in gone:
        new = next((n for n in rest if n.food and n.food == old.food), None) or next(
            (n for n in rest if _alike(old, n)), None
        )
        if new is not None:
            rest.remove(new)
        yield old, new
    for new in rest:
        yield None, new


_SWAPPED = ("pepper", "onion", "vinegar", "acid", "broth", "mushroom", "tomato", "salt", "sugar",
            "sweetener", "dried bean", "root", "fruit", "starch", "juice")  # fmt: skip


def _alike(old: PastedLine, new: PastedLine) -> bool:
    """Whether one food stands in for another of its kind."""
    if not (old.food and new.food):
        return False
    shared = find_food(old.food).roles & find_food(new.food).roles
    return any(role in shared for role in _SWAPPED)


def _key(line: PastedLine) -> tuple[object, ...]:
    return (line.food or line.text.lower(), line.low, line.high, line.prep, line.per, line.remark)


def _with(first: Pasted, old: PastedLine | None, new: PastedLine | None) -> Pasted:
    """The first recipe with one line changed, its mentions with it."""
    lines = [line for line in first.lines if line is not old]
    mentions = list(first.mentions)
    if old is not None and not any(line.line == old.line for line in lines):
        mentions = [m for m in mentions if m.line != old.line]
    elif old is not None:
        mentions = [m for m in mentions if m.line != old.line or m.food != old.food]
    at = first.lines.index(old) if old is not None else len(lines)
    if new is not None:
        lines.insert(at, replace(new, line=old.line if old is not None else -1))
    return replace(first, lines=tuple(lines), mentions=tuple(mentions))


def _of_line(
    old: PastedLine | None, new: PastedLine | None, before: Checked, alone: Checked
) -> Change:
    line = new or old
    assert line is not None
    about = line.food_said or line.food or line.text
    effects = _effects(before, alone)
    if "liquid" not in effects and _liquid(old) != _liquid(new):
        effects = (*effects, "liquid")
    return Change(
        about=about,
        before=old.text if old else "",
        after=new.text if new else "",
        effects=effects or ("taste only",),
        says=_says(about, old, new, before, alone, effects),
    )


def _liquid(line: PastedLine | None) -> tuple[str, object]:
    """The kind of liquid a line is and how much of it; one acid for another is the same kind."""
    if line is None or not line.food:
        return ("", None)
    roles = find_food(line.food).roles
    kind = next((one for one in _LIQUIDS if one in roles), "")
    return (kind, line.high if kind else None)


def _effects(before: Checked, alone: Checked) -> tuple[Effect, ...]:
    made: list[Effect] = []
    if before.verdict != alone.verdict:
        made.append("verdict")
    a, b = before.process, alone.process
    if a and b:
        if a.process.minutes != b.process.minutes:
            made.append("time")
        if a.process.psi != b.process.psi:
            made.append("pressure")
        if a.process.headspace_in != b.process.headspace_in:
            made.append("headspace")
    for one in alone.findings:
        if one in before.findings:
            continue
        effect = _EFFECT_OF_RULE.get(one.rule)
        if effect and effect not in made:
            made.append(effect)
    return tuple(made)


_EFFECT_OF_RULE: dict[str, Effect] = {
    "short-time": "time",
    "soup-short": "time",
    "long-time": "time",
    "low-pressure": "pressure",
    "high-pressure": "pressure",
    "boiling-low-acid": "pressure",
    "boiling-mixture": "pressure",
    "headspace": "headspace",
    "soup-half": "liquid",
    "raw-liquid": "liquid",
    "alcohol": "liquid",
}


def _says(
    about: str,
    old: PastedLine | None,
    new: PastedLine | None,
    before: Checked,
    alone: Checked,
    effects: tuple[Effect, ...],
) -> str:
    done = "added" if old is None else "left out" if new is None else "changed"
    swapped = old is not None and new is not None and old.food != new.food
    lead = f"{about} for {old.food_said or old.food}" if swapped and old else f"{about} {done}"
    fresh = [f for f in alone.findings if f not in before.findings and f.kind != "note"]
    if "verdict" in effects and alone.verdict == "tested":
        return f"{lead}: with this the recipe is tested."
    if fresh:
        advice = f" {fresh[0].instead}" if fresh[0].instead else ""
        return f"{lead}: {fresh[0].kind}. {fresh[0].message}{advice}"
    if not effects:
        return f"{lead}: a matter of taste; verdict, time and pressure stay."
    return f"{lead}: touches {', '.join(effects)}."


def _directions(
    first: Pasted, second: Pasted, asked: Asked, then: Asked, before: Checked, after: Checked
) -> Iterator[Change]:
    """Jar, pack, method, minutes, pounds and headspace, where they differ."""
    told = (
        ("jar", _jar(first, asked), _jar(second, then), "jar"),
        ("pack", _pack(first, asked), _pack(second, then), "pack"),
        ("method", _method(first, asked), _method(second, then), "method"),
    )
    for name, old, new, key in told:
        if old != new:
            # A time belongs to its jar and pack: it is taken along with them.
            tried = _judge(_moved(first, second, "minutes"), replace(asked, **{key: new}))
            about = {"pack": f"{new} pack", "method": new.replace("-", " ")}.get(name, new)
            effects = _effects(before, tried)
            yield Change(about, old, new, effects or ("taste only",),
                         _directed(about, before, tried, effects))  # fmt: skip
    for name, pick in (("minutes", _minutes), ("pressure", _psi), ("headspace", _headspace),
                       ("strength", _percent), ("way", _ways), ("solids", _solids)):  # fmt: skip
        old_said, new_said = pick(first), pick(second)
        if old_said == new_said:
            continue
        moved = _moved(first, second, name)
        tried = _judge(moved, asked if name != "minutes" else then)
        effects = _effects(before, tried) or _effects(before, after)
        usual: dict[str, Effect] = {"minutes": "time", "pressure": "pressure",
                                    "headspace": "headspace", "solids": "liquid"}  # fmt: skip
        if name in usual and usual[name] not in effects:
            effects = (*effects, usual[name])
        yield Change(new_said or old_said, old_said, new_said, effects or ("taste only",),
                     _directed(new_said or old_said, before, tried, effects))  # fmt: skip


def _sentences(first: Pasted, second: Pasted, asked: Asked, before: Checked) -> Iterator[Change]:
    """Sentences of the method that differ in something other than what ``_directions`` tells."""
    gone = [one for one in first.method if one not in second.method and not _tells_facts(one)]
    new = [one for one in second.method if one not in first.method and not _tells_facts(one)]
    for old, instead in zip_longest(gone, new, fillvalue=""):
        tried = _judge(_reworded(first, second, old, instead), asked)
        effects = _effects(before, tried)
        yield Change(instead or old, old, instead, effects or ("taste only",),
                     _reworded_says(old, instead, before, tried, effects))  # fmt: skip


def _tells_facts(sentence: str) -> bool:
    """Whether a sentence tells pack, jar, time or the like, whose change is told by itself."""
    return read_facts("", [(1, sentence)], []) != Facts()


def _reworded(first: Pasted, second: Pasted, old: str, new: str) -> Pasted:
    """The first recipe with one sentence of its method changed, and the foods it names."""
    told = [m for m in second.mentions if new and m.where == "method" and m.sentence == new]
    kept = [m for m in first.mentions if not (m.where == "method" and m.sentence == old)]
    method = [new if one == old else one for one in first.method] if old else [*first.method, new]
    text = first.source_text
    text = text.replace(old, new) if old and old in text else f"{text}\n{new}"
    return replace(
        first,
        method=tuple(one for one in method if one),
        mentions=(*kept, *(replace(m, line=0) for m in told)),
        source_text=text,
    )


def _reworded_says(
    old: str, new: str, before: Checked, tried: Checked, effects: tuple[Effect, ...]
) -> str:
    lead = f'"{old}" left out' if not new else f'"{new}"' + (f' for "{old}"' if old else " added")
    return _directed(lead, before, tried, effects)


def _moved(first: Pasted, second: Pasted, name: str) -> Pasted:
    fields = {
        "minutes": ("minutes",), "pressure": ("psi",), "headspace": ("headspaces",),
        "strength": ("vinegar_percent",), "way": ("methods",), "solids": ("half_solids",),
    }[name]  # fmt: skip
    changed = {field: getattr(second.facts, field) for field in fields}
    if name != "solids":
        return replace(first, facts=replace(first.facts, **changed))
    return replace(first, facts=replace(first.facts, **changed), method=second.method)


def _directed(about: str, before: Checked, tried: Checked, effects: tuple[Effect, ...]) -> str:
    fresh = [f for f in tried.findings if f not in before.findings and f.kind != "note"]
    if fresh:
        advice = f" {fresh[0].instead}" if fresh[0].instead else ""
        return f"{about}: {fresh[0].kind}. {fresh[0].message}{advice}"
    a, b = before.process, tried.process
    if a and b and a.process.minutes != b.process.minutes:
        return f"{about}: {b.process.minutes} min are printed instead of {a.process.minutes}."
    if not effects:
        return f"{about}: verdict, time and pressure stay."
    return f"{about}: touches {', '.join(effects)}."


def _jar(pasted: Pasted, asked: Asked) -> str:
    return asked.jar or (pasted.facts.jars[0] if pasted.facts.jars else "")


def _pack(pasted: Pasted, asked: Asked) -> str:
    return asked.pack or (pasted.facts.packs[0] if pasted.facts.packs else "")


def _method(pasted: Pasted, asked: Asked) -> str:
    return asked.method or (pasted.facts.methods[0] if pasted.facts.methods else "")


def _minutes(pasted: Pasted) -> str:
    told = [m.minutes for m in pasted.facts.minutes if m.what == "process"]
    return f"{max(told)} min" if told else ""


def _psi(pasted: Pasted) -> str:
    return f"{max(pasted.facts.psi):g} lb" if pasted.facts.psi else ""


def _headspace(pasted: Pasted) -> str:
    return f"headspace of {pasted.facts.headspaces[0]:g} in." if pasted.facts.headspaces else ""


def _percent(pasted: Pasted) -> str:
    told = pasted.facts.vinegar_percent
    return f"vinegar of {min(told):g} %" if told else ""


def _ways(pasted: Pasted) -> str:
    heats = {"boiling-water", "pressure", "dial-gauge", "weighted-gauge"}
    return ", ".join(m for m in pasted.facts.methods if m not in heats)


def _solids(pasted: Pasted) -> str:
    return {True: "solids half", False: "solids more than half", None: ""}[pasted.facts.half_solids]
