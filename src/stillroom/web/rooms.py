"""The rooms of the kitchen screen, in the order of the door plates."""

from typing import NamedTuple

from stillroom.web.words.mark import _


class Room(NamedTuple):
    """One room: its name on the door plate and its address."""

    name: str
    path: str


ROOMS = (
    Room(_("Now"), "/"),
    Room(_("Foods"), "/foods"),
    Room(_("Recipes"), "/recipes"),
    Room(_("Days"), "/days"),
    Room(_("Kitchen"), "/kitchen"),
)


def room_of(path: str) -> str:
    """The path of the room an address belongs to, or "".

    Examples
    --------
    >>> room_of("/days/12"), room_of("/"), room_of("/doors")
    ('/days', '/', '')
    """
    inside = [room.path for room in ROOMS[1:] if f"{path}/".startswith(f"{room.path}/")]
    return inside[0] if inside else "/" if path == "/" else ""
