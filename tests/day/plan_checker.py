"""A checker of printed plans: it reads the JSON a person's tools would read, and nothing else.

It shares no code with the planner: times are parsed again, resources are walked through again.
"""

import tomllib
from collections import Counter, defaultdict
from datetime import datetime
from itertools import combinations
from pathlib import Path
from typing import Any

Json = dict[str, Any]
ORDER = ["load", "heat", "vent", "come-up", "process", "cool", "wait", "unload"]


def _minute(text: str) -> int:
    at = datetime.fromisoformat(text)
    return at.toordinal() * 1440 + at.hour * 60 + at.minute


def _span(of: Json) -> tuple[int, int]:
    return _minute(of["start"]), _minute(of["end"])


def _overlap(one: tuple[int, int], other: tuple[int, int]) -> bool:
    return one[0] < other[1] and other[0] < one[1]


def complaints(plan: Json, holds: dict[str, dict[str, int]]) -> list[str]:
    """Every rule the plan breaks. ``holds`` are the jars of each size a canner takes, by name."""
    told: list[str] = []
    at_canner: dict[str, list[tuple[int, int]]] = defaultdict(list)
    on_burner: dict[str, list[tuple[int, int]]] = defaultdict(list)
    of_person: dict[str, list[tuple[int, int]]] = defaultdict(list)
    filling = {t["load"]: _span(t) for t in plan["tasks"] if t["name"] == "Fill and load"}

    for load in plan["loads"]:
        name = f"load {load['number']}"
        phases = [p["name"] for p in load["phases"]]
        if phases != sorted(phases, key=ORDER.index):
            told.append(f"{name}: phases out of order {phases}")
        for a, b in zip(load["phases"], load["phases"][1:], strict=False):
            if b["name"] != "unload" and _minute(a["end"]) != _minute(b["start"]):
                told.append(f"{name}: {b['name']} does not follow {a['name']}")
            if _minute(b["start"]) < _minute(a["end"]):
                told.append(f"{name}: {b['name']} before {a['name']} is over")
        spans = {p["name"]: _span(p) for p in load["phases"]}
        if spans["process"][1] - spans["process"][0] != load["process_minutes"]:
            told.append(f"{name}: process of the wrong length")
        if load["process_minutes"] != max(j["published_minutes"] for j in load["jars"]):
            told.append(f"{name}: not the longest published time")
        if load["pressure_psi"] and spans["vent"][1] - spans["vent"][0] != 10:
            told.append(f"{name}: not vented for ten minutes")
        # The wait after zero pressure (UF/IFAS FCS8304) and after a boil (FCS8250), as published.
        still, least = ("wait", 10) if load["pressure_psi"] else ("cool", 5)
        if spans[still][1] - spans[still][0] < least:
            told.append(f"{name}: opened before it has waited")
        room = sum(j["count"] / holds[load["canner"]][j["jar"]] for j in load["jars"])
        if room > 1 + 1e-9:
            told.append(f"{name}: {room:.2f} of the canner's room")
        begun = filling[load["number"]]
        if begun[1] != spans["load"][1]:
            told.append(f"{name}: filled jars wait for the lid")
        at_canner[load["canner"]].append((begun[0], spans["unload"][1]))
        if load["burner"] != "own plug":
            on_burner[load["burner"]].append((begun[0], spans["process"][1]))

    for task in plan["tasks"]:
        for person in task["who"]:
            of_person[person].append(_span(task))
        if task["where"].startswith("burner"):
            on_burner[task["where"]].append(_span(task))

    for what, spans_of in (("canner", at_canner), ("burner", on_burner), ("person", of_person)):
        for owner, taken in spans_of.items():
            for one, other in combinations(taken, 2):
                if _overlap(one, other):
                    told.append(f"{what} {owner}: doubled at {max(one[0], other[0]) % 1440}")
    return told


SIZES = ["4 oz", "half-pint", "12 oz", "pint", "1.5-pint", "quart", "half-gallon"]


def _clock(text: str) -> int:
    hours, minutes = text.strip().split(":")
    return int(hours) * 60 + int(minutes)


def _hours(person: Json) -> list[tuple[int, int]]:
    """Spans a person is there, those that touch each other joined."""
    joined: list[tuple[int, int]] = []
    for span in sorted(
        (_clock(a), _clock(b))
        for a, b in (text.split(" to ") for text in person.get("hours", ["0:00 to 24:00"]))
    ):
        if joined and span[0] <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(span[1], joined[-1][1]))
        else:
            joined.append(span)
    return joined


def _room(canner: Json, jar: str) -> int:
    """Jars of a size in all layers; a size not listed takes the count of the next larger one."""
    for size in SIZES[SIZES.index(jar) :]:
        if size in canner["holds"]:
            return int(canner["holds"][size] * canner.get("layers", {}).get(size, 1))
    return 0


def broken_promises(plan: Json, day_file: Path) -> list[str]:
    """What the plan breaks of its own day file and kitchen file, both read anew as plain TOML."""
    day = tomllib.loads(day_file.read_text(encoding="utf-8"))
    kitchen = tomllib.loads((day_file.parent / day["kitchen"]).read_text(encoding="utf-8"))
    midnight = day["date"].toordinal() * 1440
    told = complaints(
        plan,
        {c["name"]: {j: _room(c, j) for j in SIZES if _room(c, j)} for c in kitchen["canner"]},
    )
    told += _orders(plan, day)
    told += _canners_and_perishables(plan, day, kitchen)
    told += _people(plan, day, kitchen, midnight)
    told += _burners(plan, kitchen)
    told += _pins(plan, day, midnight)
    told += _leaves(plan, day, kitchen)
    cuts = [(_span(t), len(t["who"])) for t in plan["tasks"] if t["name"] == "Prepare"]
    for (at, _), _ in cuts:
        if sum(n for (a, b), n in cuts if a <= at < b) > kitchen.get("counters", 99):
            told.append(f"more hands at the counter than places at {at % 1440}")
    finish = _minute(plan["finish"])
    if finish != max(_minute(load["phases"][-1]["end"]) for load in plan["loads"]):
        told.append("finish is not the last unloading")
    if finish - midnight - _clock(day["start"]) != plan["makespan_minutes"]:
        told.append("makespan does not reach from the day's start to the finish")
    if plan["bound_minutes"] > plan["makespan_minutes"]:
        told.append("the bound lies above the plan")
    if finish > midnight + _clock(day["finish_by"]):
        told.append("the day ends late")
    return told


def _orders(plan: Json, day: Json) -> list[str]:
    wanted: Counter[tuple[str, str]] = Counter()
    placed: Counter[tuple[str, str]] = Counter()
    for order in day["order"]:
        wanted[order["recipe"], order["jar"]] += order["jars"]
    for load in plan["loads"]:
        for jars in load["jars"]:
            placed[jars["recipe"], jars["jar"]] += jars["count"]
    return [] if wanted == placed else [f"jars placed {dict(placed)}, ordered {dict(wanted)}"]


def _canners_and_perishables(plan: Json, day: Json, kitchen: Json) -> list[str]:
    told = []
    method = {c["name"]: c["method"] for c in kitchen["canner"]}
    for load in plan["loads"]:
        name = f"load {load['number']}"
        if load["method"] != method[load["canner"]]:
            told.append(f"{name}: by a method its canner has not")
        printed = [j["published_minutes"] for j in load["jars"]]
        if max(printed) - min(printed) > day.get("most_extra_minutes", 20):
            told.append(f"{name}: a food processed longer than allowed")
        lid_on = _minute(load["phases"][0]["end"])
        cut = [t for t in plan["tasks"] if t["load"] == load["number"] and t["name"] == "Prepare"]
        # Of the starter recipes only venison goes in raw and spoils; it meets heat under the lid.
        raw = any(j["recipe"] == "venison-cubes" for j in load["jars"])
        if raw and not all(lid_on - _minute(t["start"]) <= 120 for t in cut):
            told.append(f"{name}: raw venison stands out")
        if raw and not cut:
            told.append(f"{name}: nobody cuts the venison")
    return told


def _people(plan: Json, day: Json, kitchen: Json, midnight: int) -> list[str]:
    people = {p["name"]: _hours(p) for p in [*kitchen.get("person", []), *day.get("helper", [])]}
    first, last = midnight + _clock(day["start"]), midnight + _clock(day["finish_by"])
    told = []
    for task in plan["tasks"]:
        start, end = _span(task)
        if not first <= start < end <= last:
            told.append(f"{task['name']}: outside the day")
        if not task["who"] and not task["where"].startswith("burner"):
            told.append(f"{task['name']}: nobody does it")
        told += [
            f"{who}: at work outside their hours"
            for who in task["who"]
            if not any(a + midnight <= start and end <= b + midnight for a, b in people[who])
        ]
    # Somebody is in the kitchen while a canner is on heat.
    for load in plan["loads"]:
        spans = {p["name"]: _span(p) for p in load["phases"]}
        heated = range(spans["heat"][0], spans["process"][1])
        there = {m for hours in people.values() for a, b in hours for m in range(a, b)}
        if not all(minute - midnight in there for minute in heated):
            told.append(f"load {load['number']}: on heat while nobody is there")
    return told


def _burners(plan: Json, kitchen: Json) -> list[str]:
    """Burner numbers that exist, canners on those that carry one, never more at once."""
    last: int = kitchen["burners"]
    carrying: int = kitchen.get("burners_for_canners", last)
    plugged = {c["name"] for c in kitchen["canner"] if c.get("own_plug")}
    begun = {t["load"]: _minute(t["start"]) for t in plan["tasks"] if t["name"] == "Fill and load"}
    canners: list[tuple[int, int]] = []
    told = []
    for load in plan["loads"]:
        if (load["burner"] == "own plug") != (load["canner"] in plugged):
            told.append(f"load {load['number']}: burner and plug mixed up")
        if load["burner"] == "own plug":
            continue
        number = int(load["burner"].removeprefix("burner "))
        if number > carrying:
            told.append(f"load {load['number']}: on a burner that carries no canner")
        off = next(_minute(p["end"]) for p in load["phases"] if p["name"] == "process")
        canners.append((begun[load["number"]], off))
    for at in {start for start, _ in canners}:
        if sum(start <= at < end for start, end in canners) > carrying:
            told.append(f"more canners on heat than burners for them at {at % 1440}")
    told += [
        f"{task['name']}: on {task['where']} of {last}"
        for task in plan["tasks"]
        if task["where"].startswith("burner") and int(task["where"].removeprefix("burner ")) > last
    ]
    return told


def _pins(plan: Json, day: Json, midnight: int) -> list[str]:
    """Pins of the day file: hours of orders and of heat, what goes in first, kept canners, breaks.

    Orders are told apart by recipe and jar; a day that orders the same twice is not for this.
    """
    told = []
    work = defaultdict(list)
    for task in plan["tasks"]:
        work[task["load"]].append(task)
    off = midnight + _clock(day.get("heat_off_by", "24:00"))
    for load in plan["loads"]:
        name = f"load {load['number']}"
        spans = {p["name"]: _span(p) for p in load["phases"]}
        inside = {(j["recipe"], j["jar"]) for j in load["jars"]}
        begun = min(_minute(t["start"]) for t in work[load["number"]] if t["name"][:4] == "Fill")
        if spans["load"][1] - begun > day.get("jars_wait_minutes", 24 * 60):
            told.append(f"{name}: filled jars wait too long")
        if spans["process"][1] > off:
            told.append(f"{name}: on heat after heat_off_by")
        for order in day["order"]:
            if (order["recipe"], order["jar"]) not in inside:
                continue
            begun = min(_minute(t["start"]) for t in work[load["number"]])
            if begun < midnight + _clock(order.get("not_before", "0:00")):
                told.append(f"{name}: work on it before not_before")
            if spans["unload"][1] > midnight + _clock(order.get("done_by", "24:00")):
                told.append(f"{name}: out after done_by")
        for keep in day.get("keep", []):
            if keep["canner"] == load["canner"]:
                fits = all(
                    jar in keep.get("jars", [jar]) and recipe in keep.get("recipes", [recipe])
                    for recipe, jar in inside
                )
                told += [] if fits else [f"{name}: in a canner kept for others"]
    first = {(o["recipe"], o["jar"]) for o in day["order"] if o.get("first")}
    filled = {t["load"]: _minute(t["start"]) for t in plan["tasks"] if t["name"] == "Fill and load"}
    own = [x for x in plan["loads"] if first & {(j["recipe"], j["jar"]) for j in x["jars"]}]
    for load in plan["loads"]:
        at = filled[load["number"]]
        if own and load not in own:
            before = at < min(filled[x["number"]] for x in own)
            same = [x for x in own if x["canner"] == load["canner"]]
            if before or any(filled[x["number"]] > at for x in same):
                told.append(f"load {load['number']}: goes in before the first order")
    everybody = {who for task in plan["tasks"] for who in task["who"]}
    for rest in day.get("break", []):
        span = (midnight + _clock(rest["from"]), midnight + _clock(rest["to"]))
        told += [
            f"{who}: works in a break"
            for task in plan["tasks"]
            for who in set(rest.get("who", everybody)) & set(task["who"])
            if _overlap(_span(task), span)
        ]
    return told


def _leaves(plan: Json, day: Json, kitchen: Json) -> list[str]:
    """Work done by somebody who leaves it to others."""
    told = []
    leaves = {p["name"]: p.get("leaves", []) for p in [*kitchen["person"], *day.get("helper", [])]}
    method = {load["number"]: load["method"] for load in plan["loads"]}
    for task in plan["tasks"]:
        if task["name"] not in ("Fill and load", "Unload"):
            continue
        pressure = method[task["load"]] != "boiling-water"
        told += [
            f"{who}: {task['name']} is left to others"
            for who in task["who"]
            if "lifting" in leaves[who] or (pressure and "pressure canner" in leaves[who])
        ]
    return told
