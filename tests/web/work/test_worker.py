"""One real worker process: plans, news, stop, a killed process, queueing. Days are invented."""

import os
import signal
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

import stillroom
from stillroom.day.model import Day
from stillroom.day.read import read_day
from stillroom.web.work.asked import Asked
from stillroom.web.work.tasks import CRASHED, Task
from stillroom.web.work.worker import REMEMBERED, Worker

DEMO = Path(stillroom.__file__).parent / "cli" / "demo" / "day.toml"
# Longer than anything here takes, on a machine that is busy with other work.
LONG = 120.0


@pytest.fixture(scope="module")
def over() -> list[Task]:
    return []


@pytest.fixture(scope="module")
def worker(over: list[Task]) -> Iterator[Worker]:
    made = Worker(over.append)
    made.warm()
    yield made
    made.close()


@pytest.fixture(scope="module")
def day() -> Day:
    """The demo day's beans alone, which are planned to the proof in a moment."""
    whole = read_day(DEMO)
    return replace(whole, orders=tuple(o for o in whole.orders if o.recipe.name == "dilled-beans"))


def running(worker: Worker, task: Task) -> Task:
    """The task once it has a first plan."""
    until = time.monotonic() + LONG
    while time.monotonic() < until:
        now = worker.task(task.number)
        assert now is not None
        if now.news or now.over:
            return now
        time.sleep(0.02)
    raise AssertionError("no news came")


def test_a_plan_comes_with_its_document_its_files_and_news_on_the_way(
    worker: Worker, day: Day, over: list[Task]
) -> None:
    task = worker.wait(worker.ask("one", Asked("plan", day)).number, LONG)

    assert task.state == "done" and task.answer is not None
    assert task.answer.document["status"] == "optimal"
    assert task.answer.document["said"]["counts"] == "8 jars in 1 load"
    assert task.answer.files["pdf"].startswith(b"%PDF")
    assert task.answer.files["people"].startswith(b"%PDF")
    assert task.answer.files["calendar"].startswith(b"BEGIN:VCALENDAR")
    assert task.answer.files["chart"].startswith(b"<svg")
    assert task.news[0].aim == "first plan"
    assert task.news[-1].aim == "printing"
    assert over[-1].number == task.number


def test_a_day_without_a_plan_is_answered_not_failed(worker: Worker, day: Day) -> None:
    """The only canner of vinegar pickles is the one that boils; without it nothing is published."""
    kitchen = replace(
        day.kitchen, canners=tuple(c for c in day.kitchen.canners if c.method == "dial-gauge")
    )

    task = worker.wait(worker.ask("one", Asked("plan", replace(day, kitchen=kitchen))).number, LONG)

    assert task.state == "done" and task.answer is not None
    assert not task.answer.planned
    assert task.answer.document["infeasible"]["because"]


def test_stop_keeps_the_best_plan_so_far(worker: Worker) -> None:
    task = worker.ask("big", Asked("plan", read_day(DEMO), seconds=60))
    running(worker, task)

    worker.stop(task.number)
    ended = worker.wait(task.number, LONG)

    assert ended.state == "done" and ended.answer is not None
    assert ended.answer.document["loads"]


def test_a_killed_process_is_told_and_the_next_question_is_answered(
    worker: Worker, day: Day
) -> None:
    task = worker.ask("big", Asked("plan", read_day(DEMO), seconds=60))
    running(worker, task)
    before = worker.process_id
    assert before is not None

    os.kill(before, signal.SIGKILL)
    ended = worker.wait(task.number, LONG)
    again = worker.wait(worker.ask("one", Asked("plan", day)).number, LONG)

    assert ended.state == "failed" and ended.wrong == CRASHED
    assert again.state == "done"
    assert worker.process_id not in (None, before)


def test_a_second_plan_of_a_day_replaces_the_first_and_another_day_waits_its_turn(
    worker: Worker, day: Day
) -> None:
    first = worker.ask("big", Asked("plan", read_day(DEMO), seconds=60))
    running(worker, first)

    other = worker.ask("one", Asked("plan", day))
    second = worker.ask("big", Asked("plan", replace(day, date=date(2026, 10, 18))))
    ended = worker.wait(second.number, LONG)

    dropped, waited = worker.task(first.number), worker.task(other.number)
    assert dropped is not None and dropped.state == "dropped" and dropped.answer is None
    assert waited is not None and waited.state == "done"
    assert ended.answer is not None
    assert ended.answer.document["start"].startswith("2026-10-18")


def test_a_what_if_and_a_why_are_answered(worker: Worker, day: Day) -> None:
    earlier = worker.ask("one", Asked("what-if", day, change="earlier 60"))
    why = worker.ask("one", Asked("why", day))

    tried = worker.wait(earlier.number, LONG)
    told = worker.wait(why.number, LONG)

    assert tried.answer is not None and told.answer is not None
    assert tried.answer.document["day_start"] == "2026-10-17T06:00:00"
    assert told.answer.document["chain"]


def test_a_slip_in_what_was_asked_is_told_in_its_own_words(worker: Worker, day: Day) -> None:
    task = worker.wait(worker.ask("one", Asked("what-if", day, change="a miracle")).number, LONG)

    assert task.state == "failed"
    assert task.wrong == 'change: "a miracle" cannot be tried of this day.'


def test_a_task_that_is_forgotten_while_it_runs_does_not_end_the_worker(day: Day) -> None:
    """Somebody presses "plan" so often that the first one is no longer remembered."""
    alone = Worker(patience=1.0)
    first = alone.ask("one", Asked("plan", day))
    while (at := alone.task(first.number)) and at.state == "waiting":
        time.sleep(0.02)

    for _ in range(REMEMBERED + 2):
        last = alone.ask("one", Asked("plan", day))

    assert alone.task(first.number) is None
    assert alone.wait(last.number, LONG).state == "done"
    alone.close()
