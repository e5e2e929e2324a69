"""The days of the benchmark are what it says, and each has a first plan at once."""

from benchmarks.days.__main__ import days, gap
from benchmarks.days.one import plain, planner, read, rule


def test_there_are_twelve_days_from_seven_jars_to_six_hundred_and_twenty_canners() -> None:
    problems = [read(path) for path in days()]

    jars = [sum(job.count for job in problem.jobs) for problem in problems]
    assert len(problems) == 12
    assert (min(jars), max(jars)) == (7, 600)
    assert len(problems[-1].ovens) == 20
    assert all(rule(problem) for problem in problems)


def test_both_ways_prove_the_same_finish_of_the_smallest_days() -> None:
    for path in days()[:2]:
        problem = read(path)
        ours, proved = planner(problem, 10)
        theirs, proved_too = plain(problem, 10)

        assert proved
        assert proved_too
        assert ours[-1][1:] == theirs[-1][1:]
        assert ours[-1][1] <= (rule(problem) or 0)


def test_a_gap_is_told_in_percent_of_the_finish() -> None:
    assert gap(500, 450) == "10 %"
    assert gap(None, 450) == "none"
