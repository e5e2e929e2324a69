"""What a kitchen file may tell of a canner as a heated pot, and how slips are told."""

from fractions import Fraction
from pathlib import Path

import pytest

from stillroom.errors import InputError
from stillroom.kitchen import Canner, Fire, TimedRun, read_kitchen

KITCHEN = """\
name = "Creek kitchen (invented)"
elevation = "2,100 ft"
burners = 4
{top}
[[canner]]
name = "big canner"
method = "{method}"
holds = {{ quart = 7, pint = 9 }}
{canner}
"""


def canner(folder: Path, *, top: str = "", canner: str = "", method: str = "dial-gauge") -> Canner:
    file = folder / "kitchen.toml"
    file.write_text(KITCHEN.format(top=top, canner=canner, method=method), encoding="utf-8")
    return read_kitchen(file).canners[0]


def test_a_file_that_says_nothing_of_fire_is_read_as_before(tmp_path: Path) -> None:
    assert canner(tmp_path).fire == Fire()


def test_burner_weight_and_water_are_read_in_watts_kilograms_and_quarts(tmp_path: Path) -> None:
    """12,000 Btu/h are 3,517 W, 22 lb are 9.979 kg, 3 quarts are 3."""
    fire = canner(
        tmp_path,
        top='burner_kind = "gas"\nburner_power = "12,000 Btu/h"',
        canner='wall = "heavy"\nweighs = "22 lb"\nwater = "3 quarts"',
    ).fire

    assert (fire.kind, fire.wall, fire.water) == ("gas", "heavy", 3.0)
    assert fire.watts == pytest.approx(3_517, abs=0.5)
    assert fire.kilograms == pytest.approx(9.979, abs=5e-4)


def test_a_canner_on_a_burner_of_its_own_does_not_take_the_kitchen_s_power(tmp_path: Path) -> None:
    top = 'burner_kind = "gas"\nburner_power = "12,000 Btu/h"'

    assert canner(tmp_path, top=top, canner='burner_kind = "induction"').fire == Fire(
        kind="induction"
    )
    assert canner(tmp_path, top=top, canner="own_plug = true").fire == Fire()
    own = canner(tmp_path, top=top, canner='own_plug = true\nburner_power = "1,500 W"')
    assert own.fire == Fire(watts=1_500.0)


def test_runs_that_were_timed_are_read_in_order(tmp_path: Path) -> None:
    runs = (
        '[[canner.timed]]\njar = "quart"\njars = 7\npack = "hot"\nlb = 12\nheat = 14\n'
        "come_up = 6.5\ncool = 41\nliquid = false\n"
        '[[canner.timed]]\njar = "pint"\njars = 9\npack = "raw"\nheat = 22\n'
    )

    assert canner(tmp_path, canner=runs).fire.timed == (
        TimedRun("quart", 7, "hot", 12, 14.0, 6.5, 41.0, liquid=False),
        TimedRun("pint", 9, "raw", 0, 22.0, 0.0, 0.0),
    )


RUN = '[[canner.timed]]\njar = "pint"\njars = 9\npack = "raw"\n'


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"top": 'burner_kind = "wood"'}, 'line 4, burner_kind: "wood" is not one of gas, coil'),
        ({"top": 'burner_power = "strong"'}, "line 4, burner_power: .* not the power of a burner"),
        ({"canner": 'wall = "fat"'}, r'line 9, canner\[1\].wall: "fat" is not one of thin, heavy'),
        ({"canner": 'weighs = "3 quarts"'}, r"line 9, canner\[1\].weighs: .* is no weight"),
        ({"canner": 'weighs = "3 oz"'}, r"line 9, canner\[1\].weighs: .* no weight of a canner"),
        ({"canner": 'water = "3 lb"'}, r"line 9, canner\[1\].water: .* is no volume"),
        (
            {"canner": 'own_plug = true\nburner_kind = "gas"'},
            r"line 10, canner\[1\].burner_kind: .* own plug",
        ),
        ({"canner": 'wall = "thin"', "method": "boiling-water"}, r"line 9, .*wall: .* weighs"),
        (
            {"canner": 'water = "30 quarts"'},
            r"line 9, canner\[1\].water: 30 quarts .*pressure canner",
        ),
        (
            {"canner": RUN + "heat = 9\nlb = 0"},
            r"line 14, canner\[1\].timed\[1\].lb: 0 does not fit",
        ),
        ({"canner": RUN.replace("9", "10") + "heat = 9"}, r"line 11, .*jars: .*holds 9 pint jars"),
        ({"canner": "timed = 4"}, r"line 9, .* headed \[\[canner.timed\]\]"),
        ({"canner": "timed = [4]"}, r"line 9, .* Head it \[\[canner.timed\]\]"),
        ({"canner": RUN}, r"line 9, canner\[1\].timed\[1\]: nothing was timed"),
        ({"canner": RUN + "heat = 900"}, r"line 13, canner\[1\].timed\[1\].heat: 900 does not fit"),
        ({"canner": RUN + "heats = 20"}, r'line 13, .*"heats" is not a key that belongs here'),
        (
            {"canner": RUN + "cool = 20", "method": "boiling-water"},
            r"line 13, canner\[1\].timed\[1\].cool: a boiling-water canner has no cool",
        ),
    ],
)
def test_a_slip_is_told_with_its_line(tmp_path: Path, given: dict[str, str], told: str) -> None:
    with pytest.raises(InputError, match=rf"kitchen\.toml, {told}"):
        canner(tmp_path, **given)


def test_prices_are_read_by_the_names_of_the_food_list(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.toml"
    prices = '[prices]\n"green beans" = "2.50 per lb"\ngarlic = "$0.75 per head"\n'
    file.write_text(
        KITCHEN.format(top="", canner="", method="dial-gauge") + prices, encoding="utf-8"
    )

    read = read_kitchen(file).prices

    assert {food: price.money for food, price in read.items()} == {
        "snap beans": Fraction(5, 2),
        "garlic": Fraction(3, 4),
    }


@pytest.mark.parametrize(
    ("price", "told"),
    [
        ('carrots = "dear"', r'line \d+, prices.carrots: "dear" is not a price'),
        ('carots = "1 per lb"', "carots.*not in the food list.*carrots"),
        ('carrots = "1 per lb"\n"carrot roots" = "2 per lb"', "which is written already"),
        ("carrots = 1.29", "1.29 does not fit"),
    ],
)
def test_a_slip_in_a_price_is_told_with_its_line(tmp_path: Path, price: str, told: str) -> None:
    file = tmp_path / "kitchen.toml"
    file.write_text(
        KITCHEN.format(top="", canner="", method="dial-gauge") + f"[prices]\n{price}\n",
        encoding="utf-8",
    )

    with pytest.raises(InputError, match=told):
        read_kitchen(file)
