"""The room Foods: the page says what the printed row says, and refuses as clearly."""

from datetime import UTC, datetime

import pytest
from fastapi.testclient import TestClient

from stillroom.processes import lookup
from stillroom.store.engine import Store
from stillroom.store.kitchens import save_kitchen
from stillroom.web.views.foods import Asked, ask, path_of
from stillroom.web.views.inside import inside

NOW = datetime(2026, 9, 12, 9, tzinfo=UTC)
KITCHEN = {
    "name": "Alder Fork kitchen (invented)",
    "elevation": "5,430 ft",
    "burners": 4,
    "canner": [{"name": "big canner", "method": "weighted-gauge", "holds": {"quart": 7}}],
    "person": [{"name": "Marit"}],
}


@pytest.fixture
def kept(store: Store) -> None:
    """A kitchen with one weighted-gauge canner at 5,430 ft."""
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, at=NOW, who="Marit")


def test_a_typed_food_has_an_address_of_its_own(client: TestClient) -> None:
    answer = client.get("/foods", params={"food": " green beans ", "elevation": "5430 ft"})

    assert answer.status_code == 303
    assert answer.headers["location"] == "/foods/green%20beans?elevation=5430+ft"


def test_without_a_kitchen_the_elevation_is_asked_and_no_figure_given(client: TestClient) -> None:
    answer = client.get("/foods/snap%20beans")

    assert answer.status_code == 200
    assert "Where is your kitchen?" in answer.text
    assert 'class="figure"' not in answer.text


def test_quarts_of_snap_beans_at_5430_ft_are_25_minutes_at_13_lb_per_usda_guide_4(
    client: TestClient,
) -> None:
    """AIB-539 Guide 4 p. 4-8: dial gauge, quarts, 4,001 to 6,000 ft: 25 min, 13 lb."""
    answer = client.get("/foods/snap%20beans", params={"jar": "quart", "elevation": "5430 ft"})

    dial = answer.text.split('aria-label="dial-gauge"')[1].split("</section>")[0]
    assert "<b>25</b> min" in dial
    assert "<b>13</b> lb" in dial
    assert "Guide 4 p. 4-8" in answer.text


def test_the_kitchens_canner_comes_first_and_the_other_kind_is_a_tap_away(
    client: TestClient, kept: None
) -> None:
    page = client.get("/foods/snap%20beans").text

    own, others = page.split("Other kinds of canner")
    assert "big canner" in own
    assert 'aria-label="weighted-gauge"' in own
    assert 'aria-label="dial-gauge"' not in own
    assert 'aria-label="dial-gauge"' in others


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ("/foods/snap%20beans?jar=half-gallon&elevation=0+ft", "the largest printed is quart"),
        ("/foods/snap%20beans?elevation=8400+ft&pack=hot", "15</b> lb"),
        ("/foods/pumpkin%20butter?elevation=0+ft", "No published process"),
        ("/foods/marzipan?elevation=0+ft", "is not a food of the process library"),
    ],
)
def test_refusals_are_told_as_the_tables_tell_them(
    client: TestClient, path: str, told: str
) -> None:
    answer = client.get(path)

    assert answer.status_code == 200
    assert told in answer.text


@pytest.mark.parametrize("wrong", ["5430", "high", "99,999 ft", "1.600 m"])
def test_an_elevation_that_cannot_be_read_keeps_what_was_typed(
    client: TestClient, wrong: str
) -> None:
    answer = client.get("/foods/snap%20beans", params={"elevation": wrong, "jar": "pint"})

    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
    assert f'value="{wrong}"' in answer.text
    assert '<input type="hidden" name="jar" value="pint">' in answer.text


def test_several_cuts_are_offered_before_any_figure(client: TestClient) -> None:
    page = client.get("/foods/tomatoes?elevation=0+ft").text

    assert "Which one?" in page
    assert 'class="figure"' not in page
    assert "form=crushed" in page


def test_the_page_shows_what_the_lookup_answers_for_every_jar_of_a_food() -> None:
    """The page narrows by pack and jar on its own; it must end at the rows of one lookup."""
    for jar in ("pint", "quart"):
        for feet in (0, 3000, 7000):
            told = ask(Asked("carrots", pack="raw", jar=jar), feet, ())
            straight = lookup("carrots", pack="raw", jar=jar, elevation=feet)

            assert tuple(s.match for s in told.printed.own) == straight.matches


def test_at_sea_level_11_lb_is_about_240_f_and_air_takes_from_it() -> None:
    """242 F at 11 lb from saturated-steam tables (IAPWS-IF97: 116.4 C at 177.2 kPa)."""
    drawn = inside(0, 11)

    assert drawn.bars[0].air == 0
    assert drawn.bars[0].kelvin - 273.15 == pytest.approx(116.4, abs=0.1)
    assert [b.kelvin for b in drawn.bars] == sorted((b.kelvin for b in drawn.bars), reverse=True)
    assert [b.length for b in drawn.bars] == sorted((b.length for b in drawn.bars), reverse=True)


def test_a_name_with_a_slash_or_a_question_mark_comes_back_whole(client: TestClient) -> None:
    path = path_of(Asked("a/b?c", elevation="0 ft"))

    assert "a/b?c" in client.get(path).text


def test_the_address_of_a_question_is_read_back_as_the_same_question() -> None:
    asked = Asked("snap beans", "pieces", "hot", "quart", "1,655 m")

    assert path_of(asked).count("=") == 4


@pytest.mark.parametrize("pack", ["raw", "../..", "warm"])
def test_a_pack_that_is_not_printed_is_told_without_a_jar_named(
    client: TestClient, pack: str
) -> None:
    """Applesauce is printed hot only (AIB-539, Guide 2)."""
    answer = client.get("/foods/applesauce", params={"pack": pack, "elevation": "0 ft"})

    assert answer.status_code == (200 if pack == "raw" else 422)
    assert "No raw-pack process is published" in answer.text or "is not a pack" in answer.text


DIAL_ALONE = KITCHEN | {
    "elevation": "9,000 ft",
    "canner": [{"name": "needle canner", "method": "dial-gauge", "holds": {"quart": 7}}],
}
KETTLE_ALONE = KITCHEN | {
    "canner": [{"name": "jam kettle", "method": "boiling-water", "holds": {"quart": 7}}],
}


@pytest.mark.parametrize(
    ("kitchen", "canner", "told"),
    [
        (DIAL_ALONE, "needle canner", "the table ends at 8,000 ft"),
        (KETTLE_ALONE, "jam kettle", "Boiling water does not reach the heat"),
    ],
)
def test_who_has_no_canner_for_a_food_is_told_so_before_figures_of_another_kind(
    client: TestClient, store: Store, kitchen: dict[str, object], canner: str, told: str
) -> None:
    """AIB-539 Guide 4 prints dial gauges up to 8,000 ft, and no boiling water for low acid."""
    with store.write() as session:
        save_kitchen(session, kitchen, version=0, at=NOW, who="Marit")

    page = client.get("/foods/carrots?pack=hot&jar=quart").text

    theirs, others = page.split("Other kinds of canner")
    assert canner in theirs
    assert told in theirs
    assert "No published process" in theirs
    assert 'class="figure"' not in theirs
    assert 'aria-label="weighted-gauge"' in others


def test_without_a_kitchen_a_kind_that_is_barred_or_ends_below_is_told_beside_the_others(
    client: TestClient,
) -> None:
    page = client.get("/foods/carrots?elevation=9,000+ft").text

    assert "the table ends at 8,000 ft" in page
    assert "Boiling water does not reach the heat" in page
    assert 'aria-label="weighted-gauge"' in page


def test_no_page_of_a_food_speaks_of_the_command_line(client: TestClient) -> None:
    for path in ("/foods/carrots?elevation=9000+ft", "/foods/carrots?elevation=0+ft&jar=bucket"):
        assert "--method" not in client.get(path).text
        assert "--jar" not in client.get(path).text


def test_an_elevation_that_is_written_is_not_asked_again_where_the_canners_are_not(
    client: TestClient, store: Store
) -> None:
    with store.write() as session:
        save_kitchen(session, KITCHEN | {"canner": []}, version=0, at=NOW, who="Marit")

    page = client.get("/foods/carrots?jar=quart").text

    assert "at 5,430 ft" in page
    assert "<b>13</b> lb" in page


def test_a_food_that_nobody_knows_leads_on_to_all_that_are_known(client: TestClient) -> None:
    page = client.get("/foods/marzipan?elevation=0+ft").text

    assert '<a class="way" href="/foods?elevation=0%20ft">All foods of the tables</a>' in page
