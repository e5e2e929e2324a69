"""What a jar stands in over time: the temperature of a canner as a line of straight pieces."""

from dataclasses import dataclass

import numpy as np

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array

COLDEST, HOTTEST = 250.0, 500.0
"""Temperatures a canning day can hold, K: below lies deep frost, above no home canner goes."""


@dataclass(frozen=True, slots=True, eq=False)
class History:
    """Temperatures at instants, straight in between, held before the first and after the last.

    ``times`` has shape (k,), s, each later than the one before. ``temperatures`` has shape (k,),
    or (n, k) for n canners that share the instants, K from 250 to 500. Anything else raises
    ``OutOfRange``, which names the first wrong value and its place.

    >>> History(np.array([0.0, 600.0]), np.array([300.0, 372.0])).at(np.array([300.0, 900.0]))
    array([336., 372.])
    """

    times: Array
    temperatures: Array

    def __post_init__(self) -> None:
        """Refuse instants out of order and temperatures out of range."""
        times, temperatures = self.times, self.temperatures
        if times.ndim != 1 or not len(times) or temperatures.shape[-1:] != times.shape:
            raise OutOfRange(
                f"A history needs one temperature for each instant: there are {times.size} "
                f"instants and temperatures of shape {temperatures.shape}."
            )
        if not np.isfinite(times).all():
            at = int(np.argmin(np.isfinite(times)))
            raise OutOfRange(f"Instant {at} of a history is {times[at]} s, which is no time.")
        if (np.diff(times) <= 0).any():
            at = int(np.argmax(np.diff(times) <= 0)) + 1
            raise OutOfRange(
                f"Instant {at} of a history, {times[at]} s, is not later than the one before it, "
                f"{times[at - 1]} s."
            )
        fits = (temperatures >= COLDEST) & (temperatures <= HOTTEST)
        if not fits.all():
            place = tuple(int(i) for i in np.argwhere(~fits)[0])
            raise OutOfRange(
                f"Temperature {place} of a history is {temperatures[place]} K: a canner's lie "
                f"between {COLDEST:.0f} and {HOTTEST:.0f} K."
            )

    def at(self, times: Array) -> Array:
        """Temperatures at any instants.

        Parameters
        ----------
        times : shape (m,), s

        Returns
        -------
        shape (m,), or (n, m) for n canners, K

        Source
        ------
        Linear interpolation between what was measured or modelled; nothing beyond the ends.
        """
        if self.temperatures.ndim == 1:
            return np.interp(times, self.times, self.temperatures)
        right = np.clip(np.searchsorted(self.times, times), 1, max(1, len(self.times) - 1))
        left = right - 1
        right = np.minimum(right, len(self.times) - 1)
        gap = np.where(right > left, self.times[right] - self.times[left], 1.0)
        share = np.clip((times - self.times[left]) / gap, 0.0, 1.0)
        before, after = self.temperatures[:, left], self.temperatures[:, right]
        between: Array = before + share * (after - before)
        return between
