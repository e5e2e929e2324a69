"""Ten thousand wrong inputs to pages and interface: each is answered, none by a fault of ours."""

from itertools import islice
from pathlib import Path
from random import Random

import pytest

from tests.household import HOUSEHOLD
from tests.web.api.asking import Answer, asker
from tests.web.fuzz.questions import questions
from tests.web.fuzz.seen import look_round
from tests.web.fuzz.values import MARK

ROUNDS, EACH = 8, 1250
# Seconds of work, however busy the machine is. A reader that goes over its input again and again
# takes longer.
PATIENCE = 5.0
START = (
    "/", "/foods", "/recipes", "/recipes/new", "/days", "/days/new", "/kitchen", "/changes",
    "/doors", "/foods/snap%20beans", f"/recipes/{HOUSEHOLD.own}", f"/days/{HOUSEHOLD.planned}",
    f"/recipes/{HOUSEHOLD.own}/edit", f"/days/{HOUSEHOLD.planned}/edit",
)  # fmt: skip


@pytest.mark.parametrize("seed", range(ROUNDS))
def test_wrong_input_is_answered_and_nothing_breaks(tmp_path: Path, seed: int) -> None:
    """Each round has a household of its own, since some of what is asked changes it."""
    wrong = []

    with asker(tmp_path) as home:
        seen = look_round(home, START)
        assert len(seen.addresses) > 20
        assert len(seen.forms) > 5
        for asked in islice(questions(seen, Random(seed)), EACH):
            answer = home.ask(asked.method, asked.target, asked.body, asked.headers)
            slip = slip_of(answer)
            if slip:
                wrong.append(f"{slip}: {asked!r}\n{answer.raised!r}")

    assert not wrong, f"{len(wrong)} of {EACH}:\n" + "\n\n".join(wrong)


def slip_of(answer: Answer) -> str:
    """What is wrong with an answer, "" where nothing is."""
    if answer.status >= 500 or answer.raised:
        return f"fault {answer.status}"
    if answer.seconds > PATIENCE:
        return f"slow, {answer.seconds:.1f} s"
    if answer.kind == "text/html" and MARK.encode() in answer.body:
        return "what was typed is on the page as it is"
    if answer.kind == "application/json" and answer.status >= 400:
        assert answer.fault["message"]
    return ""
