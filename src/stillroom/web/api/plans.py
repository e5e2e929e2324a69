"""Plans of days, and the tasks in the background that make them."""

from typing import Annotated, Any

from fastapi import Path, Request

from stillroom.day.told import iso
from stillroom.store.days import day, plan_of
from stillroom.web.api.days import Key
from stillroom.web.api.route import room
from stillroom.web.api.shapes.kept import LARGEST
from stillroom.web.api.shapes.plans import Ask, KeptPlan, Solve
from stillroom.web.api.told import there
from stillroom.web.work.desk import PLANS, desk_of
from stillroom.web.work.tasks import Task

router = room("Plans")
Number = Annotated[int, Path(ge=1, le=LARGEST)]


@router.get("/days/{key}/plan", response_model=KeptPlan)
def show_plan(request: Request, key: Key) -> object:
    """The newest plan of a day; that it cannot be planned is an answer."""
    with request.app.state.store.read() as session:
        there(day(session, key), "day", key)
        plan = there(plan_of(session, key), "plan of day", key)
    return {
        "day": plan.day_key,
        "made_at": plan.made_at,
        "day_version": plan.day_version,
        "current": plan.current,
        "answer": plan.answer,
        "why": plan.why,
        "files": plan.files,
    }


@router.post("/days/{key}/plan", response_model=Solve, status_code=202)
def ask_plan(request: Request, key: Key, asked: Ask) -> object:
    """Begin to solve; the task tells how far it is. A plan being made of the day is dropped."""
    with request.app.state.store.read() as session:
        there(day(session, key), "day", key)
    desk = desk_of(request)
    match asked.kind:
        case "plan":
            return task_told(desk.plan(key, asked.seconds))
        case "rest":
            return task_told(desk.rest(key, asked.status))
        case "what-if":
            return task_told(desk.what_if(key, asked.change))
        case "why":
            return task_told(desk.why(key))


@router.get("/tasks/{number}", response_model=Solve)
def show_task(request: Request, number: Number) -> object:
    """How far a task is, and what came of it."""
    return task_told(there(desk_of(request).worker.task(number), "task", number))


@router.delete("/tasks/{number}", response_model=Solve)
def stop_task(request: Request, number: Number) -> object:
    """End a task with the best plan so far."""
    desk = desk_of(request)
    task = there(desk.worker.task(number), "task", number)
    if task.asked.kind in PLANS and not task.over:
        desk.stop(task.key)
    else:
        desk.worker.stop(number)
    return task_told(there(desk.worker.task(number), "task", number))


def task_told(task: Task) -> dict[str, Any]:
    """A task in the shape of the interface."""
    news, of = task.latest, task.asked.day
    return {
        "id": task.number,
        "day": task.key,
        "kind": task.asked.kind,
        "change": task.asked.change,
        "state": task.state,
        "stopping": task.stopping,
        "news": news
        and {
            "aim": news.aim,
            "finish": iso(of, news.finish),
            "bound": iso(of, news.bound) if news.bound else None,
            "seconds": news.seconds,
        },
        "wrong": task.wrong,
        "answer": task.answer.document if task.answer else None,
    }
