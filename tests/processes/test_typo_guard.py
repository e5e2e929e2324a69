"""A typo guard for the pressures in the guides: what they give must lie where pressures give it.

Every test here is a typo guard. A figure that fails was copied wrongly, or stands in the wrong
band: compare it with the printed page. Nothing here is a reason to change a setting or a time,
which only a publication does.
"""

import csv
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from importlib.resources import files
from typing import Final

import pytest

from stillroom.physics.atmosphere import GaugePressure, canner_temperature

METRES_PER_FOOT: Final = 0.3048  # definition
PASCALS_PER_PSI: Final = 0.45359237 * 9.80665 / 0.0254**2  # pound, standard gravity, inch

# Bands printed "above 1,000 ft" have no upper edge; 10,000 ft takes in all but a few kitchens.
TOP_OF_AN_OPEN_BAND_FT: Final = 10_000

Band = tuple[int, int | None]
Steps = dict[Band, float]

DIAL_BANDS: Final[tuple[Band, ...]] = ((0, 2_000), (2_001, 4_000), (4_001, 6_000), (6_001, 8_000))
WEIGHT_BANDS: Final[tuple[Band, ...]] = ((0, 1_000), (1_001, None))

# USDA Complete Guide to Home Canning, AIB-539, tables of Guides 2 to 5: these and no others.
LADDERS: Final[dict[str, tuple[Steps, ...]]] = {
    "dial-gauge": (
        dict(zip(DIAL_BANDS, (11, 12, 13, 14), strict=True)),
        dict(zip(DIAL_BANDS, (6, 7, 8, 9), strict=True)),
    ),
    "weighted-gauge": (
        dict(zip(WEIGHT_BANDS, (10, 15), strict=True)),
        dict(zip(WEIGHT_BANDS, (5, 10), strict=True)),
        {(0, 1_000): 15},  # tomatoes, guide 3: "not recommended" above 1,000 ft
    ),
}


@dataclass(frozen=True, slots=True)
class Step:
    """One row with a pressure: a process, one band of elevation, its gauge reading."""

    process: str
    method: str
    band: Band
    psi: float

    def __str__(self) -> str:
        low, high = self.band
        return f"{self.process}, {low}-{high or ''} ft, {self.psi:g} psi"


def pressure_steps() -> Iterator[Step]:
    """Every row of the guides whose method is not boiling water."""
    data = files("stillroom") / "processes" / "data"
    for guide in sorted(data.iterdir(), key=lambda file: file.name):
        if not (guide.name.startswith("guide") and guide.name.endswith(".csv")):
            continue
        for row in csv.DictReader(guide.read_text(encoding="utf-8").splitlines()):
            if row["method"] == "boiling-water":
                continue
            fields = ("food", "form", "pack", "jar", "method", "option")
            yield Step(
                ", ".join([guide.name, *(row[field] for field in fields if row[field])]),
                row["method"],
                (int(row["from_ft"]), int(row["to_ft"]) if row["to_ft"] else None),
                float(row["psi"]),
            )


def is_high_dial(step: Step) -> bool:
    """A dial figure meant for the ladder of 11 to 14: 10 parts it from the ladder of 6 to 9."""
    return step.method == "dial-gauge" and step.psi >= 10


def is_low_dial(step: Step) -> bool:
    """A dial figure meant for the ladder of 6 to 9."""
    return step.method == "dial-gauge" and step.psi < 10


def is_high_weight(step: Step) -> bool:
    """A weight of the ladder 10, 15 or of 15 alone; 10 lb above 1,000 ft is of the ladder 5, 10."""
    return step.method == "weighted-gauge" and (
        step.psi == 15 or (step.psi == 10 and step.band == (0, 1_000))
    )


def temperature_f(psi: float, elevation_ft: float) -> float:
    """Temperature of saturated steam in a canner at a gauge reading and an elevation."""
    gauge = GaugePressure(psi * PASCALS_PER_PSI)
    return canner_temperature(gauge, elevation_ft * METRES_PER_FOOT) * 1.8 - 459.67


def outside_temperatures(steps: Iterable[Step], lowest_f: float, highest_f: float) -> list[str]:
    """A line for each step that leaves the temperatures at either edge of its band."""
    found = []
    for step in steps:
        low, high = step.band
        for feet in (low, TOP_OF_AN_OPEN_BAND_FT if high is None else high):
            reached = temperature_f(step.psi, feet)
            if not lowest_f <= reached <= highest_f:
                found.append(f"{step}: {reached:.2f} F at {feet} ft")
    return found


def off_the_ladders(steps: Iterable[Step]) -> list[str]:
    """A line for each process whose bands and pressures are no published ladder of its method."""
    ladders: dict[tuple[str, str], Steps] = defaultdict(dict)
    found = []
    for step in steps:
        ladder = ladders[step.process, step.method]
        if step.band in ladder:
            found.append(f"{step}: the band stands there twice")
        ladder[step.band] = step.psi
    found += [
        f"{process}: {ladder} is no published ladder"
        for (process, method), ladder in ladders.items()
        if ladder not in LADDERS.get(method, ())
    ]
    return found


def ladder(method: str, *pounds: float) -> list[Step]:
    """An invented process with these pressures, band by band, as the guides would print it."""
    bands = DIAL_BANDS if method == "dial-gauge" else WEIGHT_BANDS
    return [Step("invented", method, band, psi) for band, psi in zip(bands, pounds, strict=True)]


def test_every_pressure_in_the_guides_stands_on_a_published_ladder_of_its_method_and_band() -> None:
    """Typo guard, not a reason to change a setting. Ladders: AIB-539, Guides 2 to 5."""
    steps = list(pressure_steps())

    assert {step.method for step in steps} == set(LADDERS)
    assert off_the_ladders(steps) == []


def test_dial_gauges_of_the_11_to_14_ladder_stay_within_2_f_of_240_f_at_both_band_edges() -> None:
    """Typo guard, not a reason to change a setting.

    The true figures give 239.29 to 241.73 F; a pound more or less moves about 2.1 F, so that one
    wrong pound leaves 238 to 242 F at an edge.
    """
    steps = [step for step in pressure_steps() if is_high_dial(step)]

    assert {step.band for step in steps} == set(DIAL_BANDS)
    assert outside_temperatures(steps, 238, 242) == []


def test_weights_of_10_and_15_lb_never_fall_below_238_f_over_their_bands() -> None:
    """Typo guard, not a reason to change a setting.

    10 lb gives 238.18 F at 1,000 ft, 15 lb 240.27 F at 10,000 ft. At most 250 F: 15 lb by the sea
    gives 249.72 F.
    """
    steps = [step for step in pressure_steps() if is_high_weight(step)]

    assert {step.band for step in steps} == set(WEIGHT_BANDS)
    assert {step.psi for step in steps} == {10, 15}
    assert outside_temperatures(steps, 238, 250) == []


def test_dial_gauges_of_the_6_to_9_ladder_stay_between_227_and_230_f_at_both_band_edges() -> None:
    """Typo guard, not a reason to change a setting.

    The true figures give 227.02 to 229.96 F; a pound more or less moves about 2.6 F, so that one
    wrong pound leaves 227 to 230 F at an edge.
    """
    steps = [step for step in pressure_steps() if is_low_dial(step)]

    assert {step.band for step in steps} == set(DIAL_BANDS)
    assert outside_temperatures(steps, 227, 230) == []


def test_12_psi_printed_for_4001_to_6000_ft_is_reported_by_temperature_and_by_ladder() -> None:
    """Typo guard, not a reason to change a setting: the guard itself must be able to fail.

    12 psi is the figure of the band below. At 6,000 ft: 11.778 psia of air (ASHRAE) and 12 make
    23.778 psia, where steam has 237.3 F.
    """
    wrong = ladder("dial-gauge", 11, 12, 12, 14)

    too_cold = outside_temperatures(wrong, 238, 242)

    assert too_cold == ["invented, 4001-6000 ft, 12 psi: 237.27 F at 6000 ft"]
    assert len(off_the_ladders(wrong)) == 1


@pytest.mark.parametrize("slip", [-1, 1])
@pytest.mark.parametrize("position", range(4))
@pytest.mark.parametrize(
    ("pounds", "lowest_f", "highest_f"), [((11, 12, 13, 14), 238, 242), ((6, 7, 8, 9), 227, 230)]
)
def test_one_wrong_pound_on_a_dial_is_reported_in_every_band(
    pounds: tuple[float, ...], lowest_f: float, highest_f: float, position: int, slip: int
) -> None:
    """Typo guard, not a reason to change a setting: the guard itself must be able to fail."""
    true = ladder("dial-gauge", *pounds)
    wrong = replace(true[position], psi=true[position].psi + slip)

    assert outside_temperatures(true, lowest_f, highest_f) == []
    assert off_the_ladders(true) == []

    assert outside_temperatures([wrong], lowest_f, highest_f) != []
    assert off_the_ladders([*true[:position], wrong, *true[position + 1 :]]) != []


def test_a_10_lb_weight_kept_above_1000_ft_is_reported() -> None:
    """Typo guard, not a reason to change a setting: the guard itself must be able to fail.

    At 10,000 ft 10.108 psia of air (ASHRAE) and 10 make 20.108 psia, where steam has 228.2 F.
    """
    wrong = ladder("weighted-gauge", 10, 10)

    assert outside_temperatures(wrong, 238, 250) == [
        "invented, 1001- ft, 10 psi: 228.21 F at 10000 ft"
    ]
    assert len(off_the_ladders(wrong)) == 1


@pytest.mark.parametrize(
    "wrong",
    [
        ladder("weighted-gauge", 5, 15),
        ladder("weighted-gauge", 15, 15),
        ladder("weighted-gauge", 15, 10),
        ladder("dial-gauge", 11, 12, 13, 14)[:3],
        [*ladder("weighted-gauge", 10, 15), Step("invented", "weighted-gauge", (0, 1_000), 10)],
        [Step("invented", "dial-gauge", (0, 1_000), 11)],
        [Step("invented", "steam", (0, 1_000), 10)],
    ],
    ids=["5-15", "15-15", "15-10", "band lost", "band twice", "wrong band", "unknown method"],
)
def test_a_ladder_that_no_guide_prints_is_reported(wrong: list[Step]) -> None:
    """Typo guard, not a reason to change a setting: the guard itself must be able to fail."""
    assert len(off_the_ladders(wrong)) == 1
