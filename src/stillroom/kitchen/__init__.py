"""A kitchen: where it stands, its canners and burners, its people, what is on hand."""

from stillroom.kitchen.model import Canner, Care, Fire, Kitchen, Person, TimedRun
from stillroom.kitchen.read import (
    BURNER_KINDS,
    LEAVES,
    PACKS,
    WALLS,
    WORK,
    kitchen_from,
    read_kitchen,
    read_person,
    read_prices,
)

__all__ = [
    "BURNER_KINDS",
    "LEAVES",
    "PACKS",
    "WALLS",
    "WORK",
    "Canner",
    "Care",
    "Fire",
    "Kitchen",
    "Person",
    "TimedRun",
    "kitchen_from",
    "read_kitchen",
    "read_person",
    "read_prices",
]
