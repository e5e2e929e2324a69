"""Tasks survive a restart as lost; lists read a line of each plan and recipe, and no more."""

from datetime import UTC, datetime, timedelta

from stillroom.store.days import add_day, change_day, save_plan
from stillroom.store.engine import Store
from stillroom.store.lines import plan_lines, recipe_offers
from stillroom.store.plans import plan_of, save_why
from stillroom.store.recipes import add_recipe, remove_recipe
from stillroom.store.tasks import begin_task, end_task, last_task, lose_tasks

AT = datetime(2026, 10, 1, 9, 0, tzinfo=UTC)
DAY = {"date": "2026-10-17", "start": "8:00", "finish_by": "18:00", "order": []}


def test_only_what_was_under_way_is_lost_at_a_start(store: Store) -> None:
    with store.write() as session:
        done = begin_task(session, "a", "plan", made_for={"day": 1}, at=AT)
        end_task(session, done, "failed", at=AT, error="No plan was found.")
        begin_task(session, "b", "rest", made_for={"day": 2}, at=AT)

    with store.write() as session:
        count = lose_tasks(session, at=AT + timedelta(hours=1))
        failed = last_task(session, "a", ("plan", "rest"))
        lost = last_task(session, "b", ("plan", "rest"))
        other = last_task(session, "b", ("plan",))

    assert count == 1
    assert failed is not None and (failed.state, failed.error) == ("failed", "No plan was found.")
    assert lost is not None and (lost.state, lost.made_for) == ("lost", {"day": 2})
    assert other is None


def test_of_a_day_only_the_last_ten_tasks_are_kept(store: Store) -> None:
    with store.write() as session:
        numbers = [begin_task(session, "a", "plan", made_for={"day": n}, at=AT) for n in range(12)]
        last = last_task(session, "a", ("plan",))
        assert lose_tasks(session, at=AT) == 10

    assert last is not None and last.id == numbers[-1]


def test_a_plan_line_tells_the_newest_finish_and_whether_the_day_is_still_the_same(
    store: Store,
) -> None:
    with store.write() as session:
        made = add_day(session, DAY, at=AT, who="Marit")
        for finish in ("2026-10-17T16:00:00", "2026-10-17T15:30:00"):
            answer = {"status": "optimal", "finish": finish}
            save_plan(
                session,
                made.key,
                answer,
                day_version=1,
                kitchen_version=0,
                recipes_version=0,
                at=AT,
            )
        before = plan_lines(session)[made.key]
        change_day(session, made.key, DAY, version=1, at=AT, who="Marit")
        after = plan_lines(session)[made.key]

    assert (before.finish, before.optimal, before.current) == ("2026-10-17T15:30:00", True, True)
    assert not after.current


def test_a_why_is_kept_with_its_own_plan_and_with_no_later_one(store: Store) -> None:
    later = AT + timedelta(minutes=5)
    with store.write() as session:
        made = add_day(session, DAY, at=AT, who="Marit")
        save_plan(session, made.key, {}, day_version=1, kitchen_version=0, recipes_version=0, at=AT)
        save_why(session, made.key, AT, {"chain": []})
        first = plan_of(session, made.key)
        save_plan(
            session, made.key, {}, day_version=1, kitchen_version=0, recipes_version=0, at=later
        )
        save_why(session, made.key, AT, {"chain": []})
        second = plan_of(session, made.key)

    assert first is not None and first.why == {"chain": []}
    assert second is not None and second.why is None


def test_recipes_are_offered_by_title_with_their_jars_and_removed_ones_are_not(
    store: Store,
) -> None:
    with store.write() as session:
        for title, jars in (("Beets", ["pint"]), ("apples", None), ("Carrots", ["quart"])):
            document = {"title": title} | ({"jars": jars} if jars else {})
            made = add_recipe(session, document, "", at=AT, who="Marit")
        remove_recipe(session, made.slug, at=AT, who="Marit")
        offers = recipe_offers(session)

    assert [(one.title, one.jars) for one in offers] == [("apples", ()), ("Beets", ("pint",))]
    assert not any(one.finished for one in offers)  # neither tells what goes in
