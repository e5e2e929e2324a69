"""A plan, the reasons for it, or why there is none, in plain data: what a command prints as JSON.

A page keeps and shows the same document.
"""

from datetime import datetime, time, timedelta
from typing import TYPE_CHECKING

from stillroom.day.model import Day

if TYPE_CHECKING:
    # A reader of plans needs neither the heat model nor the solver behind these.
    from stillroom.day.orders import Unplannable
    from stillroom.day.plan import Load, Plan
    from stillroom.day.why import Why


def iso(day: Day, minutes: int) -> str:
    """Minutes after midnight as an ISO 8601 local time; 24:00 is the next day's 0:00."""
    return (datetime.combine(day.date, time()) + timedelta(minutes=minutes)).isoformat()


def plan_json(plan: "Plan") -> dict[str, object]:
    """The plan in the shape outside checks read; keys may be added, never taken away."""
    day = plan.day
    lists = plan.lists
    threat = plan.likely.threat
    return {
        "status": "optimal" if plan.optimal else "feasible",
        "start": iso(day, plan.start),
        "finish": iso(day, plan.finish),
        "makespan_minutes": plan.finish - day.start,
        "bound_minutes": plan.bound - day.start,
        "finish_p50": iso(day, plan.likely.p50),
        "finish_p90": iso(day, plan.likely.p90),
        "threat": threat
        and {"step": threat.step, "share": round(threat.share, 3), "minutes_over": threat.over},
        "loads": [_load_json(day, load) for load in plan.loads],
        "tasks": [
            {
                "name": task.name,
                "recipe": task.recipe,
                "who": list(task.who),
                "where": task.where,
                "load": task.load or None,
                "order": task.order or None,
                "start": iso(day, task.start),
                "end": iso(day, task.end),
            }
            for task in plan.tasks
        ],
        "lists": {
            "buy": [entry.text for entry in lists.buy],
            "from_shelf": [entry.text for entry in lists.from_shelf],
            "prep": [entry.text for entry in lists.prep],
            "liquids": [entry.text for entry in lists.liquids],
            "jars": [entry.text for entry in lists.jars],
            "lids": [entry.text for entry in (*lists.lids, *lists.bands)],
        },
        "make_first": [made.text for made in lists.first],
        "cost": list(lists.cost.lines) if lists.cost else [],
        "warnings": list(plan.warnings),
        "stand_ins": list(plan.stand_ins),
        "aims": [
            {
                "aim": aim.aim,
                "value": aim.value,
                "unit": aim.unit,
                "bound": aim.bound,
                "proved": aim.proved,
            }
            for aim in plan.reached
        ],
        "stopped": plan.stopped,
        "day_start": iso(day, day.start),
        "now": None if plan.now is None else iso(day, plan.now),
        "done": [
            {
                "number": number or None,
                "jars": [
                    {
                        "recipe": j.recipe,
                        "jar": j.jar,
                        "count": j.count,
                        "published_minutes": j.minutes,
                        "order": j.order or None,
                    }
                    for j in jars
                ],
            }
            for number, jars in plan.done
        ],
        "elevation_ft": day.kitchen.elevation_ft,
        "solver_seconds": round(plan.seconds, 3),
    }


def _load_json(day: Day, load: "Load") -> dict[str, object]:
    return {
        "number": load.number,
        "canner": load.canner,
        "method": load.method,
        "burner": load.burner,
        "pressure_psi": load.psi,
        "process_minutes": load.minutes,
        "source": load.rules.citation,
        "jars": [
            {
                "recipe": jars.recipe,
                "jar": jars.jar,
                "count": jars.count,
                "pack": jars.pack,
                "order": jars.order or None,
                "published_minutes": jars.process.minutes,
                "headspace_in": jars.process.headspace_in,
                "source": jars.process.citation,
            }
            for jars in load.jars
        ],
        "phases": [
            {"name": p.name, "start": iso(day, p.start), "end": iso(day, p.end)}
            for p in load.phases
        ],
        "durations": [
            {
                "phase": length.phase,
                "minutes": length.minutes,
                "low": length.low,
                "high": length.high,
                "basis": length.basis,
                "source": length.source,
            }
            for length in load.lengths
        ],
    }


def why_json(day: Day, why: "Why") -> dict[str, object]:
    """The explanation for other programs."""
    return {
        "chain": [
            {
                "start": iso(day, link.start),
                "end": iso(day, link.end),
                "what": link.what,
                "busy": link.holds,
            }
            for link in why.links
        ],
        "binds": [{"busy": what, "minutes": minutes} for what, minutes in why.binds],
        "trades": list(why.trades),
        "more": list(why.more),
    }


def unplannable_json(answer: "Unplannable") -> dict[str, object]:
    """Why a day cannot be planned, and what was found to mend it."""
    return {"infeasible": {"because": list(answer.because), "try": list(answer.mend)}}
