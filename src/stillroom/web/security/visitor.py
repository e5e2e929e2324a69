"""Who asks: a person at this computer, a paired device, or a stranger."""

from dataclasses import dataclass
from typing import Literal

from fastapi import Request


@dataclass(frozen=True, slots=True)
class Visitor:
    """Who asks.

    Attributes
    ----------
    kind : "here" at this computer, "device" paired, "stranger"
    holder : what the marks of this visitor's forms are bound to
    name : as changes are signed
    device : its number among the devices, 0 where it is none
    """

    kind: Literal["here", "device", "stranger"]
    holder: str
    name: str
    device: int = 0


HERE = Visitor("here", "this computer", "this computer")


def stranger(address: str) -> Visitor:
    """Somebody who has not been let in."""
    return Visitor("stranger", f"stranger at {address}", "")


def visitor(request: Request) -> Visitor:
    """Who asks for this page."""
    found = request.state.visitor
    assert isinstance(found, Visitor)
    return found


def who(request: Request) -> str:
    """How a change made by this request is signed."""
    return visitor(request).name
