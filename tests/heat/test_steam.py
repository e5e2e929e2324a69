"""What a gauge tells of the heat inside, against the project's reference of computed values."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.heat.steam import settings, steam
from stillroom.units.temperature import fahrenheit


def test_air_left_in_is_as_cold_and_as_weak_as_the_reference_says() -> None:
    """science.md 3.4: 11 psig at the sea, computed there from IAPWS-IF97 and Dalton's law.

    It prints a tenth of a degree, and the rate to half a percent.
    """
    told = {round(case.how, 2): case for case in steam(0, 11).air}

    for share, degrees in ((0, 241.6), (0.01, 241.0), (0.02, 240.4), (0.05, 238.7), (0.1, 235.7),
                           (0.2, 229.4), (0.3, 222.3)):  # fmt: skip
        assert fahrenheit(told[share].inside) == pytest.approx(degrees, abs=0.1)
    for share, rate in ((0.01, 0.931), (0.02, 0.866), (0.05, 0.695), (0.1, 0.476), (0.2, 0.211)):
        assert told[share].rate == pytest.approx(rate, rel=5e-3)


def test_a_gauge_that_reads_high_costs_what_the_reference_says() -> None:
    """science.md 1.4: at the sea, lethal rate at 9 psig is 0.747 of that at 10, at 8 psig 0.553."""
    told = {case.how: case.rate for case in steam(0, 10).off}

    # The reference prints three digits and asks for one percent.
    assert told[1.0] == pytest.approx(0.747, rel=0.01)
    assert told[2.0] == pytest.approx(0.553, rel=0.01)
    assert told[0.0] == 1.0


def test_water_boils_as_printed_at_five_thousand_feet() -> None:
    """science.md 3.2: 202.83 F computed; 203.0 F in the NASA/NOAA table, within 0.2 F."""
    assert fahrenheit(steam(5_000, 0).boiling) == pytest.approx(203.0, abs=0.2)


def test_printed_pressures_give_the_band_edges_of_the_reference() -> None:
    """science.md 3.3, in F, at the lower and upper edge of each band; it asks for 0.05 F."""
    edges = {
        ("dial-gauge", 11): (241.56, 239.29), ("dial-gauge", 12): (241.49, 239.35),
        ("dial-gauge", 13): (241.55, 239.54), ("dial-gauge", 14): (241.73, 239.85),
        ("weighted-gauge", 10): (239.36, 238.18), ("weighted-gauge", 15): (248.70, 240.27),
    }  # fmt: skip

    found = {(s.method, s.psi): s for s in settings()}

    assert found.keys() == edges.keys()
    for key, (low, high) in edges.items():
        assert fahrenheit(found[key].at_from) == pytest.approx(low, abs=0.05)
        assert fahrenheit(found[key].at_to) == pytest.approx(high, abs=0.05)


def test_what_was_asked_beside_the_usual_cases_is_among_them() -> None:
    told = steam(5_430, 13, air=0.03, off=-1.5)

    assert 0.03 in [case.how for case in told.air]
    assert -1.5 in [case.how for case in told.off]


@pytest.mark.parametrize(
    ("psi", "air", "off", "option"),
    [(15.5, None, None, "--psi"), (-1, None, None, "--psi"), (10, 0.95, None, "--air"),
     (10, -0.1, None, "--air"), (10, None, 6, "--reads-high"), (3, None, 4, "--reads-high")],
)  # fmt: skip
def test_what_no_canner_has_is_told(
    psi: float, air: float | None, off: float | None, option: str
) -> None:
    with pytest.raises(InputError, match=f"^{option}: .* does not fit"):
        steam(0, psi, air=air, off=off)
    with pytest.raises(InputError, match="lower than any dry land"):
        steam(-7_000, 10)


@given(st.integers(-1_000, 10_000), st.floats(0, 15), st.floats(0, 0.9))
def test_more_air_is_never_hotter_and_never_stronger(feet: int, psi: float, air: float) -> None:
    cases = steam(feet, psi, air=air).air

    # Shares closer than rounding give one temperature to its last digits.
    assert [c.how for c in cases] == sorted(c.how for c in cases)
    for less, more in pairwise(cases):
        assert more.inside <= less.inside + 1e-9
        assert more.rate <= less.rate + 1e-9
