"""The interface does what its own OpenAPI document says, whatever is asked.

schemathesis makes the questions from the document: those that fit it, those that do not, those at
the edges, and chains of them; and holds every answer to it.
"""

from collections import Counter
from pathlib import Path

import schemathesis
from schemathesis.config import SchemathesisConfig
from schemathesis.engine.events import NonFatalError, ScenarioFinished

from tests.web.api.asking import asker

# Enough to meet every kind of question; the fuzz tests ask many more.
EXAMPLES = 12
CONFIG = {
    "seed": 20261017,
    "base-url": "http://localhost:8642",
    "headers": {"X-Stillroom": "1"},
    "generation": {"max-examples": EXAMPLES, "deterministic": True, "no-shrink": True},
    "phases": {"stateful": {"generation": {"max-examples": EXAMPLES}}},
    "checks": {
        # A text that fits the document may still be no elevation or no recipe: 422 tells why.
        "positive_data_acceptance": {"expected-statuses": ["2xx", "404", "409", "422"]},
    },
}


def test_every_answer_is_as_the_document_says(tmp_path: Path) -> None:
    """No 500; status, content type, headers and shape as declared; nothing wrong is taken."""
    asked: Counter[str] = Counter()
    wrong: list[str] = []

    with asker(tmp_path) as home:
        schema = schemathesis.openapi.from_dict(
            home.get("/api/openapi.json").json(), config=SchemathesisConfig.from_dict(CONFIG)
        )
        schema.app = home.app
        for event in schemathesis.engine.from_schema(schema).execute():
            if isinstance(event, NonFatalError):
                wrong.append(str(event.info))
            if isinstance(event, ScenarioFinished):
                asked[event.phase.value] += len(event.recorder.cases)
                wrong += failures(event)

    assert not wrong, "\n\n".join(wrong)
    # Edges of every parameter, questions at random, and chains of them were all asked.
    assert asked["coverage"] > 500
    assert asked["fuzzing"] > 200
    assert asked["stateful"] > 50


def failures(event: ScenarioFinished) -> list[str]:
    """What was asked and answered, and what was wrong with it."""
    told = []
    for number, checks in event.recorder.checks.items():
        for check in checks:
            if check.failure_info is None:
                continue
            asked = event.recorder.cases[number].value
            answer = event.recorder.interactions[number].response
            failure = check.failure_info.failure
            told.append(
                f"{event.phase.value}: {asked.method} {asked.formatted_path} {asked.query} "
                f"{asked.body!r:.500}\n{failure.title}: {failure.message}\n"
                f"{answer and answer.status_code} {answer and answer.content[:500]!r}"
            )
    return told
