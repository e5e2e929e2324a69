"""What a gauge tells of the heat inside, in plain data."""

from stillroom.heat.steam import Case, Setting, Steam
from stillroom.physics.lethality import APPROVES_NOTHING
from stillroom.units.temperature import celsius, fahrenheit


def steam_json(told: Steam, printed: tuple[Setting, ...]) -> dict[str, object]:
    """Temperatures in F and C, shares in percent; keys may be added."""
    return {
        "elevation_ft": told.elevation_ft,
        "psi": told.psi,
        "boiling_f": round(fahrenheit(told.boiling), 2),
        "boiling_c": round(celsius(told.boiling), 2),
        "inside_f": round(fahrenheit(told.inside), 2),
        "inside_c": round(celsius(told.inside), 2),
        "air": [{"air_percent": round(100 * case.how, 4), **_case_json(case)} for case in told.air],
        "gauge": [{"reads_high_psi": case.how, **_case_json(case)} for case in told.off],
        "printed": [
            {
                "method": setting.method,
                "pressure_psi": setting.psi,
                "band_ft": [setting.from_ft, setting.to_ft],
                "inside_f": [
                    round(fahrenheit(setting.at_from), 2), round(fahrenheit(setting.at_to), 2)
                ],
                "source": setting.source,
            }
            for setting in printed
        ],
        "approves": APPROVES_NOTHING,
    }  # fmt: skip


def _case_json(case: Case) -> dict[str, object]:
    return {
        "inside_f": round(fahrenheit(case.inside), 2),
        "inside_c": round(celsius(case.inside), 2),
        "lethal_rate_percent": round(100 * case.rate, 2),
    }
