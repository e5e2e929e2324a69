"""How the pages are served: to whom, over what, where files are kept and what the clock says."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from stillroom.web.words.catalogue import LOCALE


def _now() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Settings:
    """How one server serves one store.

    Attributes
    ----------
    open_to_household : devices of the household may come in, once paired; else this computer only
    https : devices of the household come in over HTTPS
    port : where this computer finds the pages
    household_port : where devices find them; the same port unless ``https``
    addresses : this computer's addresses in the household's network, best first
    names : its names there, such as "pantry.local"
    data : folder for keys and certificates; None for the folder that holds the store
    now : the clock, an instant with its zone
    words : folder of the languages' catalogues
    """

    open_to_household: bool = False
    https: bool = False
    port: int = 8642
    household_port: int = 8642
    addresses: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    data: Path | None = None
    now: Callable[[], datetime] = _now
    words: Path = LOCALE

    @property
    def secure(self) -> bool:
        """Whether what a device sends cannot be read on its way."""
        return self.https

    @property
    def household_url(self) -> str:
        """What a device of the household opens, or "" where no address is known."""
        host = (*self.addresses, *self.names, "")[0]
        return f"{'https' if self.https else 'http'}://{host}:{self.household_port}" if host else ""
