"""Clock times of a day as programs read them."""

from datetime import datetime, time, timedelta

from stillroom.day.model import Day


def iso(day: Day, minutes: int) -> str:
    """Minutes after midnight as an ISO 8601 local time; 24:00 is the next day's 0:00."""
    return (datetime.combine(day.date, time()) + timedelta(minutes=minutes)).isoformat()
