"""Words on a page: what somebody typed stays text, whatever signs are in it."""

from fastapi.testclient import TestClient
from markupsafe import Markup

from stillroom.web.render import saying


def test_words_without_values_are_text_and_no_format() -> None:
    told = saying(str)('"<b>5 %s %</b>" is not a number of burners.')

    assert told == '"<b>5 %s %</b>" is not a number of burners.'
    assert not isinstance(told, Markup)


def test_values_are_put_in_escaped_and_so_are_the_words() -> None:
    assert saying(str)("%(n)s < 7", n=Markup("<i>")) == Markup("<i> &lt; 7")
    assert saying(str)("%(n)s of 7", n="<i>") == Markup("&lt;i&gt; of 7")


def test_nothing_to_say_stays_nothing() -> None:
    """A catalogue answers "" with what it tells of itself."""
    assert saying(lambda text: "Project-Id-Version: 1")("") == ""


def test_a_kitchen_form_shows_what_was_typed_as_text(client: TestClient) -> None:
    page = client.get("/kitchen/stove")
    marks = page.text.partition('name="csrf" value="')[2].partition('"')[0]

    answer = client.post("/kitchen/stove", data={"csrf": marks, "burners": "<x-mark> 100 %d"})

    assert answer.status_code == 422
    assert "<x-mark>" not in answer.text
    assert "&lt;x-mark&gt; 100 %d" in answer.text
