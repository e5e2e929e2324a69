"""Reading when the parts of a canner were last looked at."""

from datetime import date, datetime

from stillroom.errors import InputError
from stillroom.kitchen.model import Care
from stillroom.processes.model import PRESSURE
from stillroom.toml_file import Table
from stillroom.words import did_you_mean

# Gauges are tested against a master gauge to a few pounds; more is a slip or a broken gauge.
MOST_OFF = 5.0
_OF_PRESSURE = ("gasket", "gasket_checked", "vent_checked", "plug_checked")
_OF_DIAL = ("gauge_tested", "gauge_reads_high")


def read_care(table: Table, method: str) -> Care:
    """The care of a canner from its [canner.care] table.

    Parameters
    ----------
    table : empty where nothing is written
    method : of the canner, as the library names it

    Raises
    ------
    InputError
        A date that is none, or a part that this kind of canner has not.
    """
    # A key that is there or not is unknown to ``no_more`` where it is not.
    known = (*_OF_DIAL, *_OF_PRESSURE, "rack_checked")
    for key in table.names():
        if key not in known:
            raise InputError(
                f'{table.where(key)}: "{key}" is not a key that belongs here.'
                f"{did_you_mean(key, known)} Keys: {', '.join(known)}."
            )
    for key in (*_OF_DIAL, *_OF_PRESSURE):
        has_part = method == "dial-gauge" if key in _OF_DIAL else method in PRESSURE
        if table.has(key) and not has_part:
            raise InputError(
                f"{table.where(key)}: a {method} canner has no such part. Leave it out."
            )
    has_gasket = table.flag("gasket", True)
    if table.has("gasket_checked") and not has_gasket:
        raise InputError(
            f"{table.where('gasket_checked')}: this canner is said to have no gasket. Leave it "
            "out, or gasket = false."
        )
    if table.has("gauge_reads_high") and not table.has("gauge_tested"):
        raise InputError(
            f"{table.where('gauge_reads_high')}: write beside it when that was tested, such as "
            "gauge_tested = 2026-06-01."
        )
    return Care(
        gauge_tested=_day(table.date("gauge_tested")) if table.has("gauge_tested") else None,
        gauge_reads_high=table.number("gauge_reads_high", 0.0, least=-MOST_OFF, most=MOST_OFF),
        has_gasket=has_gasket,
        gasket_checked=_day(table.date("gasket_checked")) if table.has("gasket_checked") else None,
        vent_checked=_day(table.date("vent_checked")) if table.has("vent_checked") else None,
        plug_checked=_day(table.date("plug_checked")) if table.has("plug_checked") else None,
        rack_checked=_day(table.date("rack_checked")) if table.has("rack_checked") else None,
    )


def _day(told: date) -> date:
    """The day alone, where TOML was given a time beside it."""
    return told.date() if isinstance(told, datetime) else told
