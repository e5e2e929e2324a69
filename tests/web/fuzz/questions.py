"""Questions made at random out of good ones: JSON, forms, addresses, headers."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from random import Random
from typing import Any
from urllib.parse import quote, quote_from_bytes, urlencode, urlsplit

from benchmarks.pages.household import from_file, kitchen_document
from stillroom.recipes.read import STARTERS
from tests.household import BEANS_TEXT, HOUSEHOLD, day_document
from tests.web.api.asking import FORM, JSON
from tests.web.fuzz.seen import Form, Seen
from tests.web.fuzz.values import any_text, any_value, as_bytes, broken, changed

KINDS = (
    JSON,
    "application/json; charset=utf-16",
    "text/plain",
    FORM,
    "multipart/form-data",
    "",
    "\xff",
)
# These start the solver; its own tests ask for it.
SOLVES = ("/plan", "/rest", "/what-if", "/why")


@dataclass(frozen=True)
class Question:
    """One request."""

    method: str
    target: str | bytes
    body: bytes
    headers: dict[str, str]

    def __repr__(self) -> str:
        return f"{self.method} {self.target!r:.300} {self.headers} {self.body[:1500]!r}"


@cache
def good_bodies() -> tuple[tuple[str, str, Any], ...]:
    """For each operation with a body: one that is taken."""
    beans = from_file(STARTERS / "snap-beans.toml")
    soup = from_file(STARTERS / "garden-chicken-soup.toml")
    demo = kitchen_document()
    day = day_document("2026-11-14", "18:00", (HOUSEHOLD.own, 7, "quart")) | {
        "helper": [{"name": "Ada", "hours": ["8:00 to 12:00"], "leaves": ["lifting"]}],
        "break": [{"from": "12:00", "to": "12:30"}],
        "aims": ["finish"],
        "prices": {"snap beans": "1.29 per lb"},
        "heat_off_by": "17:00",
        "jars_wait_minutes": 30,
    }
    written = {"document": beans, "version": 1, "draft": False}
    judged = {"base": "snap beans", "jar": "quart", "method": "pressure", "pack": "hot"}
    return (
        ("POST", "/api/check", {"recipe": BEANS_TEXT, **judged}),
        ("POST", "/api/check", {"recipe": {"document": soup}}),
        ("POST", "/api/compare", {"before": BEANS_TEXT, "after": {"name": "snap-beans"}, **judged}),
        (
            "POST",
            "/api/build",
            {
                "recipe": {"document": soup},
                "jar": "quart",
                "jars": 7,
                "order": ["corn"],
                "elevation": "5200 ft",
            },
        ),
        ("PUT", "/api/kitchen", {"document": demo, "version": 1, "draft": False}),
        ("PUT", "/api/kitchen", {"document": demo, "version": 1, "draft": True}),
        ("POST", "/api/recipes", {"document": beans, "source_text": "x", "draft": False}),
        ("POST", "/api/recipes", {"document": soup, "draft": True}),
        ("PUT", f"/api/recipes/{HOUSEHOLD.own}", written),
        ("POST", "/api/days", {"document": day, "title": "Beans", "draft": False}),
        ("PUT", f"/api/days/{HOUSEHOLD.planned}", {"document": day, "version": 1, "title": None}),
        (
            "POST",
            f"/api/days/{HOUSEHOLD.planned}/plan",
            {
                "kind": "rest",
                "status": {
                    "now": "11:00",
                    "load": [{"number": 1, "started": "9:00"}, {"number": 2, "done": "10:30"}],
                },
            },
        ),
    )


READS: tuple[tuple[str, dict[str, str]], ...] = (
    ("/api/process", {"food": "snap beans", "elevation": "5200 ft", "form": "pieces", "pack": "hot",
                      "jar": "quart", "method": "dial-gauge"}),
    ("/api/foods", {"words": "beans"}),
    ("/api/heat/steam", {"psi": "11", "elevation": "5200 ft"}),
    ("/api/recipes", {"words": "beans"}),
    ("/api/changes", {"limit": "5", "before": "4"}),
    (f"/api/recipes/{HOUSEHOLD.own}", {}),
    (f"/api/days/{HOUSEHOLD.planned}", {}),
    (f"/api/days/{HOUSEHOLD.planned}/plan", {}),
    ("/api/tasks/1", {}),
    ("/api/days", {}),
    ("/api/kitchen", {}),
)  # fmt: skip


def questions(seen: Seen, dice: Random) -> Iterator[Question]:
    """Questions without end."""
    posts = [
        form
        for form in seen.forms
        if form.method == "POST" and not urlsplit(form.action).path.endswith(SOLVES)
    ]
    asks: tuple[tuple[float, Callable[[], Question]], ...] = (
        (0.32, lambda: a_body(dice)),
        (0.30, lambda: a_form(dice.choice(posts), dice)),
        (0.20, lambda: a_read(dice)),
        (0.18, lambda: an_address(dice.choice(seen.addresses), seen.forms, dice)),
    )
    weights, makers = [weight for weight, _ in asks], [make for _, make in asks]
    while True:
        yield dice.choices(makers, weights)[0]()


def a_body(dice: Random) -> Question:
    """A JSON body with one to three places changed."""
    method, target, value = dice.choice(good_bodies())
    for _ in range(dice.choice((1, 1, 1, 2, 3))):
        value = changed(value, dice)
    if isinstance(value, dict) and target.endswith(SOLVES):
        value["kind"] = "rest"
    kind = dice.choice(KINDS) if dice.random() < 0.05 else JSON
    if dice.random() < 0.05:
        target = an_other_path(target, dice)
    return Question(
        method, target, as_bytes(value, dice), {"content-type": kind, "x-stillroom": "1"}
    )


def a_read(dice: Random) -> Question:
    """A query or path of the interface with something else in it."""
    path, query = dice.choice(READS)
    if dice.random() < (0.1 if query else 0.4):
        path = an_other_path(path, dice)
    return Question("GET", f"{path}?{a_query(list(query.items()), dice)}", b"", {})


def an_address(address: str, forms: list[Form], dice: Random) -> Question:
    """A page's address with something else in it, or a form that only asks."""
    path, _, query = address.partition("?")
    pairs = [(p.partition("=")[0], p.partition("=")[2]) for p in query.split("&") if p]
    gets = [form for form in forms if form.method == "GET"]
    if gets and dice.random() < 0.4:
        form = dice.choice(gets)
        path, pairs = urlsplit(form.action).path, list(form.fields)
    if dice.random() < 0.15:
        path = an_other_path(path, dice)
    pairs = pairs or [(dice.choice(("food", "jar", "form", "pack", "elevation", "changed")), "")]
    method = dice.choice(("GET",) * 12 + ("HEAD", "PUT", "OPTIONS"))
    return Question(method, f"{path}?{a_query(pairs, dice)}", b"", {"x-stillroom": "1"})


def a_form(form: Form, dice: Random) -> Question:
    """A form with fields changed, left out, doubled and added; its mark stays."""
    pairs = list(form.fields) + ([dice.choice(form.buttons)] if form.buttons else [])
    for _ in range(dice.choice((0, 1, 1, 1, 2, 3))):
        places = [place for place, (name, _) in enumerate(pairs) if name != "csrf"]
        if not places:
            break
        place = dice.choice(places)
        name, value = pairs[place]
        match dice.randrange(10):
            case 0:
                del pairs[place]
            case 4 if form.choices:
                name, value = dice.choice(form.choices)
                pairs = [pair for pair in pairs if pair[0] != name] + [(name, value)]
            case 1:
                pairs.insert(place, (name, any_text(dice)))
            case 2:
                pairs.append((any_text(dice)[:200], any_text(dice)))
            case 3:
                pairs.append(
                    (f"{name}{dice.choice(('.0', '.999999999999', '-1', '[]', '.x', '1'))}", value)
                )
            case _:
                pairs[place] = (name, any_text(dice))
    path = form.action if dice.random() > 0.04 else an_other_path(form.action, dice)
    if dice.random() < 0.1:
        return Question(
            "POST",
            path,
            _in_parts(pairs, dice),
            {"content-type": "multipart/form-data; boundary=x"},
        )
    body = urlencode(pairs, errors="replace").encode()
    if dice.random() < 0.05:
        body = broken(body, dice)
    return Question("POST", path, body, {"content-type": FORM})


def _in_parts(pairs: list[tuple[str, str]], dice: Random) -> bytes:
    parts = b""
    for name, value in pairs:
        told = f'Content-Disposition: form-data; name="{quote(name)}"'
        if dice.random() < 0.2 and name != "csrf":
            told += '; filename="x.txt"\r\nContent-Type: text/plain'
        parts += f"--x\r\n{told}\r\n\r\n".encode() + value.encode("utf-8", "replace") + b"\r\n"
    return parts + b"--x--\r\n"


def an_other_path(path: str, dice: Random) -> str:
    """A path with one of its parts something else."""
    address, _, query = path.partition("?")
    parts = address.split("/")
    place = dice.randrange(1, len(parts)) if len(parts) > 1 else 0
    parts[place] = _written(any_text(dice)[:3000], dice)
    return "/".join(parts) + (f"?{query}" if query else "")


def a_query(pairs: list[tuple[str, str]], dice: Random) -> str:
    """A query with one or two values changed, or a value twice."""
    made = [(name, value) for name, value in pairs if dice.random() > 0.1]
    for _ in range(dice.choice((1, 1, 2))):
        if made:
            name, _ = made[dice.randrange(len(made))]
            made.append((name, _plain(any_value(dice))))
            if dice.random() < 0.8:
                made = [pair for pair in made[:-1] if pair[0] != name] + made[-1:]
    made.append((any_text(dice)[:50], "")) if dice.random() < 0.1 else None
    return "&".join(f"{_written(name, dice)}={_written(value, dice)}" for name, value in made)


def _plain(value: Any) -> str:
    return value if isinstance(value, str) else str(value)[:5000]


def _written(text: str, dice: Random) -> str:
    """Percent-encoded, now and then wrongly."""
    if dice.random() < 0.04:
        return dice.choice(("%", "%zz", "%ff%fe", "%00", "%ed%a0%80", "%25%32%66", "+", "%2f..%2f"))
    return quote_from_bytes(text.encode("utf-8", "replace"), safe="")
