"""One jar of a batch, as the two baselines read it: scalars, SI units."""

from dataclasses import dataclass

from stillroom.physics.history import History


@dataclass(frozen=True, slots=True)
class Jar:
    """A cylinder of food with glass and film on its faces, and the canner it stands in."""

    radius: float  # m
    height: float  # m
    diffusivity: float  # m2/s
    conductivity: float  # W/(m K)
    side: float  # W/(m2 K), glass and film
    bottom: float
    top: float
    start: float  # K
    canner: History
