"""A published instance (.dzn), read into the load engine's terms."""

import re
from dataclasses import dataclass
from pathlib import Path

from stillroom.errors import InputError
from stillroom.loads.problem import Canner, Job, Problem, Weights

Entry = int | list[int] | list[list[int]]


@dataclass(frozen=True, slots=True)
class Instance:
    """An instance and its number."""

    number: int
    name: str
    problem: Problem


def read_dzn(text: str, where: str) -> dict[str, Entry]:
    """The file's values by their own names: numbers, lists, rows of a table, lists of sets.

    Raises
    ------
    InputError
        A value that is none of these; the message names the file and the value.
    """
    values: dict[str, Entry] = {}
    text = re.sub(r"%.*", "", text)
    for name, raw in re.findall(r"(\w+)\s*=\s*([^;]*);", text):
        try:
            values[name] = _entry(raw.strip())
        except ValueError:
            raise InputError(f"{where}: {name} is no number, list, table or list of sets") from None
    return values


def _entry(raw: str) -> Entry:
    if raw.startswith("[|"):
        rows = raw.removeprefix("[|").removesuffix("|]").split("|")
        return [_numbers(row) for row in rows if row.strip()]
    if raw.startswith("[") and "{" in raw:
        return [_numbers(inside) for inside in re.findall(r"\{([^}]*)\}", raw)]
    if raw.startswith("["):
        return _numbers(raw.removeprefix("[").removesuffix("]"))
    return int(raw)


def _numbers(raw: str) -> list[int]:
    return [int(x) for x in raw.split(",") if x.strip()]


def read_instance(path: Path) -> Instance:
    """An instance; its number is that in the file's name.

    Raises
    ------
    InputError
        The file is none, or something in it cannot be meant.
    """
    try:
        values = read_dzn(path.read_text(encoding="utf-8"), path.name)
    except UnicodeDecodeError:
        raise InputError(f"{path.name}: this is no text file") from None
    digits = re.search(r"\d+", path.stem)
    try:
        problem = _problem(values)
    except KeyError as missing:
        raise InputError(f"{path.name}: {missing.args[0]} is missing") from None
    except InputError as fault:
        raise InputError(f"{path.name}: {fault}") from None
    return Instance(int(digits.group()) if digits else 0, path.stem, problem)


def _problem(values: dict[str, Entry]) -> Problem:
    def number(name: str) -> int:
        value = values[name]
        if not isinstance(value, int):
            raise InputError(f"{name} is no number")
        return value

    def row(name: str) -> list[int]:
        value = values[name]
        if isinstance(value, list) and all(isinstance(x, int) for x in value):
            return [x for x in value if isinstance(x, int)]
        raise InputError(f"{name} is no list")

    def table(name: str) -> list[list[int]]:
        value = values[name]
        if isinstance(value, list) and all(isinstance(x, list) for x in value):
            return [x for x in value if isinstance(x, list)]
        raise InputError(f"{name} is no table")

    families = number("a")
    for count, names in (
        ("n", "min_time max_time size earliest_start latest_end attribute eligible_machine"),
        ("m", "max_cap initState m_a_s m_a_e"),
    ):
        for name in names.split():
            entries = values[name]
            if not isinstance(entries, list) or len(entries) != number(count):
                raise InputError(f"{name} is no list of {number(count)} entries ({count})")
    least, most, size = row("min_time"), row("max_time"), row("size")
    release, due, family = row("earliest_start"), row("latest_end"), row("attribute")
    eligible = table("eligible_machine")
    jobs = tuple(
        Job(
            str(j + 1),
            family[j] - 1,
            size[j],
            least[j],
            most[j],
            tuple(sorted(k - 1 for k in eligible[j])),
            release[j],
            due[j],
        )
        for j in range(number("n"))
    )
    room, state = row("max_cap"), row("initState")
    opens, closes = table("m_a_s"), table("m_a_e")
    for k, (begin, end) in enumerate(zip(opens, closes, strict=True)):
        if len(begin) != len(end):
            raise InputError(f"machine {k + 1} has {len(begin)} starts in m_a_s, {len(end)} ends")
    canners = tuple(
        Canner(
            str(k + 1),
            room[k],
            tuple(sorted((a, b) for a, b in zip(opens[k], closes[k], strict=True) if b > a)),
            state[k] - 1 if state[k] <= families else None,
        )
        for k in range(number("m"))
    )
    return Problem(
        jobs,
        canners,
        Weights(
            runtime=number("mult_factor_total_runtime"),
            late=number("mult_factor_finished_toolate"),
            setup_time=number("mult_factor_total_setuptimes"),
            setup_cost=number("mult_factor_total_setupcosts"),
        ),
        setup_time=tuple(tuple(r[:families]) for r in table("setup_times")[:families]),
        setup_cost=tuple(tuple(r[:families]) for r in table("setup_costs")[:families]),
    )
