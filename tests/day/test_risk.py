"""When a day is likely to end: the plan is kept, the published process never varies."""

from dataclasses import replace

from stillroom.day.plan import Jars, Load, Phase, Task
from stillroom.day.risk import Pot, spread
from stillroom.heat.durations import Span, Times
from tests.day.small import row

START = 7 * 60


def load(number: int, at: int, canner: str = "canner") -> Load:
    """Boiling water, pints: load 5, heat 30, process 20, cool 5, unload 10."""
    phases = []
    for name, length in (("load", 5), ("heat", 30), ("process", 20), ("cool", 5), ("unload", 10)):
        phases.append(Phase(name, at, at + length))
        at += length
    jars = (Jars("food", "Food", "pint", 7, "hot", row(20)),)
    return Load(number, canner, "boiling-water", None, 20, "burner 1", jars, tuple(phases))


def tasks(of: Load, who: str) -> tuple[Task, ...]:
    start, lift = of.start, of.phases[-1]
    return (
        Task("Fill and load", "Food", (who,), of.canner, start, start + 5, of.number),
        Task("Unload", "Food", (who,), of.canner, lift.start, lift.end, of.number),
    )


def test_one_load_ends_within_what_its_ranges_allow() -> None:
    """Fill 4-7.5, heat 20-30, process 20, cool 5; unload not before 60, 8-15: end at 68 to 77.5."""
    one = load(1, START)

    likely = spread((one,), tasks(one, "Ada"), ())

    assert START + 68 <= likely.p50 <= likely.p90 <= START + 78


def test_nine_days_in_ten_end_no_earlier_than_half_of_them() -> None:
    first, second = load(1, START), load(2, START + 70)

    likely = spread((first, second), (*tasks(first, "Ada"), *tasks(second, "Ada")), ())

    assert likely.p50 <= likely.p90


def test_a_canner_emptied_late_makes_its_next_load_late() -> None:
    """One canner twice ends later on the whole than the same two loads on two canners."""
    first, second = load(1, START), load(2, START + 70)
    apart = load(2, START + 70, canner="another")

    shared = spread((first, second), (*tasks(first, "Ada"), *tasks(second, "Ben")), ())
    separate = spread((first, apart), (*tasks(first, "Ada"), *tasks(apart, "Ben")), ())

    assert shared.p90 > separate.p90


def test_a_load_waits_for_its_pot() -> None:
    """A pot of 60 minutes: nothing is filled before 60 and 8 minutes of cutting."""
    one = load(1, START + 10)
    cut = Task("Prepare", "Food", ("Ada",), "counter", START, START + 10, 0)

    likely = spread((one,), (cut, *tasks(one, "Ben")), (Pot("Food", 60),))

    # 68 until ready, 4 filling, 20 + 20 + 5 in the canner, 8 unloading, at the very least.
    assert likely.p50 >= START + 68 + 4 + 45 + 8


def foretold(*draws: tuple[float, float, float]) -> Times:
    """What the heat model says, in made-up canners; only the draws matter here."""
    none = Span(0, 0, 0)
    return Times(none, none, none, none, draws, (), 0, ())


def test_a_day_is_played_with_one_kitchen_s_lengths_as_the_heat_model_draws_them() -> None:
    """Heat-up 30 planned; drawn 10 or 90 for the whole day, and once in three 90.

    Filling 4 to 7.5 min, process 20, cool 5, unloading 8 to 15 min, and not before 60: half the
    days end as planned, and nine in ten with the long one: 4 + 90 + 20 + 5 + 8 = 127 at least.
    """
    short, long = (10.0, 0.0, 0.0), (90.0, 0.0, 0.0)
    one = replace(load(1, START), warming=foretold(short, short, long))

    likely = spread((one,), tasks(one, "Ada"), ())

    assert START + 68 <= likely.p50 <= START + 78
    assert START + 127 <= likely.p90 <= START + 138


def test_two_loads_of_a_day_are_slow_together() -> None:
    """One canner in four takes 90 instead of 30: two such loads in a row end 120 min late, or
    not at all; were they drawn apart, one of them would be late in three days of eight."""
    usual, slow = (30.0, 0.0, 0.0), (90.0, 0.0, 0.0)
    model = foretold(usual, usual, usual, slow)
    first, second = (replace(load(n, at), warming=model) for n, at in ((1, START), (2, START + 70)))

    ends = [
        spread((first, second), (*tasks(first, "A"), *tasks(second, "A")), (), runs=1, seed=n).p50
        for n in range(200)
    ]

    # Late by one slow load only would be 60 min and what hands vary, at most some 30.
    late = sorted(end - (START + 140) for end in ends)
    assert not any(45 < minutes < 105 for minutes in late)
    assert 30 <= sum(minutes > 100 for minutes in late) <= 70  # 50 of 200, three deviations


def test_the_same_seed_tells_the_same_times() -> None:
    one = load(1, START)

    assert spread((one,), tasks(one, "Ada"), (), seed=3) == spread(
        (one,), tasks(one, "Ada"), (), seed=3
    )


def test_the_step_that_most_threatens_the_finish_is_the_one_that_makes_it_late() -> None:
    """Warming is planned as 30 and takes 90 in one kitchen of three; hands vary by minutes."""
    usual, slow = (30.0, 0.0, 0.0), (90.0, 0.0, 0.0)
    first = replace(load(1, START), warming=foretold(usual, usual, slow))
    second = load(2, START + 5, canner="another")

    threat = spread((first, second), (*tasks(first, "Ada"), *tasks(second, "Ben")), ()).threat

    assert threat is not None
    assert threat.step == "Warming, canner (load 1)"
    assert threat.over == 60
    # In the other two days of three the second load is last, or the first waits for nothing.
    assert 0.25 < threat.share < 0.75


def test_where_another_canner_is_always_later_a_slow_one_is_no_threat() -> None:
    """The slow load ends by 138 at the latest, the other begins at 200."""
    slow = replace(load(1, START), warming=foretold((30.0, 0.0, 0.0), (90.0, 0.0, 0.0)))
    later = load(2, START + 200, canner="another")

    threat = spread((slow, later), (*tasks(slow, "Ada"), *tasks(later, "Ben")), ()).threat

    assert threat is not None
    assert "load 2" in threat.step
