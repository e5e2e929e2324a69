"""Judges a plan of loads by the rules as printed, jar by jar and minute by minute.

Shares no code with the engine. Rules: Lackner, Mrkvicka, Musliu, Walkiewicz, Winter, "Exact
methods for the Oven Scheduling Problem", Constraints 28 (2023).
"""

from stillroom.loads.problem import Problem
from stillroom.loads.result import Result


def complaints(problem: Problem, result: Result) -> list[str]:
    """Every rule that the plan breaks, its objective among them."""
    bad = []
    for j, job in enumerate(problem.jobs):
        got = sum(n for load in result.loads for i, n in load.jars if i == j)
        if got != job.count:
            bad.append(f"{job.name}: {got} of {job.count} jars")
    runtime = late = setup_time = setup_cost = last = 0
    for k, canner in enumerate(problem.canners):
        taken: dict[int, str] = {}
        state = canner.state
        for load in sorted((x for x in result.loads if x.canner == k), key=lambda x: x.start):
            jobs = [problem.jobs[j] for j, _ in load.jars]
            family = jobs[0].family
            for job in jobs:
                if job.family != family:
                    bad.append(f"{job.name} is mixed with another family")
                if k not in job.canners:
                    bad.append(f"{job.name} is in {canner.name}")
                if load.start < job.release:
                    bad.append(f"{job.name} starts at {load.start}")
                if not job.least <= load.end - load.start <= job.most:
                    bad.append(f"{job.name} runs for {load.end - load.start}")
            if sum(problem.jobs[j].size * n for j, n in load.jars) > canner.room:
                bad.append(f"{canner.name} is too full at {load.start}")
            known = state is not None
            takes = problem.setup_time[state][family] if known and problem.setup_time else 0  # type: ignore[index]
            costs = problem.setup_cost[state][family] if known and problem.setup_cost else 0  # type: ignore[index]
            begin = load.start - takes
            if not any(a <= begin and load.end <= b for a, b in canner.windows):
                bad.append(f"{canner.name} is closed within {begin}-{load.end}")
            for minute in range(begin, load.end):
                if minute in taken:
                    bad.append(f"{canner.name} does two things at {minute}")
                taken[minute] = "load" if minute >= load.start else "setup"
            setup_time += takes
            setup_cost += costs
            runtime += load.end - load.start
            last = max(last, load.end)
            late += sum(
                n
                for j, n in load.jars
                if (due := problem.jobs[j].due) is not None and load.end > due
            )
            state = family
    w = problem.weights
    objective = (
        w.runtime * runtime
        + w.late * late
        + w.setup_time * setup_time
        + w.setup_cost * setup_cost
        + w.makespan * last
    )
    if objective != result.objective:
        bad.append(f"costs {objective}, not {result.objective}")
    return bad
