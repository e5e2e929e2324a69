"""What is thought of an untimed canner: every figure sourced, drawn as its law says."""

import numpy as np
import pytest
from scipy.special import jn_zeros

from stillroom.physics.priors import drawn, priors

KELVIN = 273.15


def test_half_of_a_log_normal_figure_lies_within_its_factor() -> None:
    """The quartiles of a standard normal lie 0.6745 off: a published property of the law."""
    loss = priors()["loss", "thin"]

    low, middle, high = drawn(loss, np.array([-0.6745, 0.0, 0.6745]))

    assert middle == 4.0  # as the table's row says
    assert high / middle == pytest.approx(np.exp(0.25 * 0.6745))
    assert low * high == pytest.approx(middle**2)


def test_temperatures_are_drawn_on_a_straight_scale_in_kelvin() -> None:
    hot = priors()["food start", "hot"]

    assert drawn(hot, np.array([0.0, -1.0])) == pytest.approx([77 + KELVIN, 74 + KELVIN])


def test_minutes_are_kept_as_seconds() -> None:
    assert priors()["fh", "brothy pint"].median == 9 * 60


def test_a_figure_from_memory_says_so_and_a_published_one_names_a_publication() -> None:
    told = {(p.status, p.source) for p in priors().values()}
    nobody = {"from-memory", "computed", "science-placeholder"}

    assert {status for status, _ in told} <= {
        "published", "from memory", "computed", "common practice",
    }  # fmt: skip
    assert not {source for status, source in told if status == "published"} & nobody
    assert all(p.place and p.spread > 0 for p in priors().values())


def test_efficiencies_lie_in_the_spans_of_the_science_reference() -> None:
    """Section 4.2: gas 40-44 %, electric resistance 74-80 %, induction 84-90 %."""
    spans = {"gas": (0.40, 0.44), "coil": (0.74, 0.80), "smooth-top": (0.74, 0.80)}
    spans["induction"] = (0.84, 0.90)

    for stove, (low, high) in spans.items():
        assert low <= priors()["efficiency", stove].median <= high


@pytest.mark.parametrize(
    ("kind", "wide", "high"),
    [("dense half-pint", 65, 80), ("dense pint", 80, 110), ("dense quart", 95, 150),
     ("dense half-gallon", 115, 185)],
)  # fmt: skip
def test_a_dense_jar_takes_up_heat_as_the_series_of_a_cylinder_says(
    kind: str, wide: int, high: int
) -> None:
    """ln 10 times the mean lag of a cylinder of 1.6e-7 m2/s plunged in steam, and a tenth more.

    The mean of each mode of slab and cylinder is 2/z^2 and 4/r^2 of its start (Carslaw and Jaeger,
    Conduction of Heat in Solids, 2nd ed., 3.3 and 7.6). The table keeps two digits: 3 %.
    """
    slab, ring = (np.arange(200) + 0.5) * np.pi, jn_zeros(0, 200)
    rates = 1.6e-7 * ((slab[:, None] / (high / 2_000)) ** 2 + (ring[None] / (wide / 2_000)) ** 2)
    lag = float((8 / slab[:, None] ** 2 / ring[None] ** 2 / rates).sum())

    assert priors()["fh", kind].median == pytest.approx(1.1 * np.log(10) * lag, rel=0.03)


@pytest.mark.parametrize(
    ("kind", "high", "jars", "held", "glass"),
    [("bath half-pint", 95, 12, 0.237, 0.17), ("bath pint", 130, 9, 0.473, 0.25),
     ("bath quart", 175, 7, 0.946, 0.42)],
)  # fmt: skip
def test_water_over_the_jars_fills_the_kettle_less_their_room(
    kind: str, high: int, jars: int, held: float, glass: float
) -> None:
    """A kettle 13 in. wide, a rack of 10 mm, 35 mm of water over jars.

    Outside heights and glass: science reference, 4.3 and 5 (half-pint from memory); glass is 2.5
    kg a liter. The table keeps two digits and the sizes are rough: 5 %.
    """
    kettle = np.pi / 4 * (13 * 0.254) ** 2 * (high + 45) / 100  # L, lengths in dm
    room = jars * (held + glass / 2.5)

    assert priors()["water", kind].median == pytest.approx(kettle - room, rel=0.05)
