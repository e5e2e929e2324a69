"""A checker of printed plans: it reads the JSON a person's tools would read, and nothing else.

It shares no code with the planner: times are parsed again, resources are walked through again.
"""

from collections import defaultdict
from datetime import datetime
from itertools import combinations
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
