"""The parts of a kitchen that each have a form of their own, and the keys they write.

Keys and what they may hold: docs/reference/files.md.
"""

from copy import deepcopy
from dataclasses import dataclass, replace
from typing import Any

from stillroom.kitchen import BURNER_KINDS, LEAVES, PACKS, WALLS, WORK
from stillroom.processes.model import METHODS, PRESSURE
from stillroom.units.jars import SIZES
from stillroom.web.views.fields import (
    Choice,
    Counts,
    Day,
    Field,
    Liquid,
    Number,
    Pairs,
    Rates,
    Rows,
    Spans,
    Tick,
    Ticks,
    UnTick,
    Whole,
)
from stillroom.web.words.mark import _

Document = dict[str, Any]

KINDS = {
    "boiling-water": _("boiling-water: a deep pot with a rack"),
    "dial-gauge": _("dial-gauge: a pressure canner with a needle"),
    "weighted-gauge": _("weighted-gauge: a pressure canner with a weight that rocks"),
}
_SIZES = tuple((size, size) for size in SIZES)
_BURNERS = tuple((kind, kind) for kind in BURNER_KINDS)
_NAME = Field("name", _("Name"), such_as=_("Our kitchen"), must=True)
_ELEVATION = Field(
    "elevation",
    _("Elevation, with its unit"),
    _("Such as 5,430 ft or 1,655 m. A topographic map or your county office knows it."),
    "5,430 ft",
    must=True,
)
_METHOD = Choice("method", _("Kind"), must=True, options=tuple((m, KINDS[m]) for m in METHODS))
_HOLDS = Counts(
    "holds",
    _("Jars in one layer"),
    _("Only sizes you use; a size left empty takes the count of the next larger one."),
    must=True,
    options=_SIZES,
)
_BURNER_KIND = Choice("burner_kind", _("Burner under canners"), options=_BURNERS)
_POWER = Field(
    "burner_power", _("Its power"), _("As its plate or manual says: W, kW or Btu/h."), "9,000 Btu/h"
)

PLACE = (_NAME, _ELEVATION)
STOVE = (
    Whole("burners", _("Burners of the stove"), must=True),
    Whole("burners_for_canners", _("Of these, how many carry a full canner"), _("Empty: all.")),
    _BURNER_KIND,
    _POWER,
    Whole("counters", _("Places to prepare food at"), _("Empty: enough for all.")),
)
PEOPLE = (
    Rows(
        "person",
        _("People"),
        fields=(
            Field("name", _("Name"), must=True),
            Spans("hours", _("Hours"), _("Empty: the whole day."), "8:00 to 12:00, 13:00 to 18:00"),
            Ticks(
                "leaves",
                _("Leaves to others"),
                options=tuple(
                    zip(LEAVES, (_("lifting full canners"), _("pressure canners")), strict=True)
                ),
            ),
        ),
    ),
)
HAND = (
    Counts("jars", _("Empty jars"), options=_SIZES),
    Whole("lids", _("New lids")),
    Whole("bands", _("Bands")),
)
PANTRY = (
    Pairs(
        "pantry",
        _("Pantry"),
        spare=3,
        fields=(
            Field("food", _("Food"), such_as=_("canning salt")),
            Field("amount", _("Amount"), such_as="3 lb"),
        ),
    ),
)
PRICES = (
    Pairs(
        "prices",
        _("Prices"),
        spare=3,
        fields=(
            Field("food", _("Food"), such_as=_("carrots")),
            Field("price", _("Price"), such_as=_("1.29 per lb")),
        ),
    ),
)
RATES = (Rates("rates", _("Minutes a pound"), options=tuple((work, work) for work in WORK)),)
CANNER = (
    Field("name", _("Name"), such_as=_("big canner"), must=True),
    _METHOD,
    _HOLDS,
    Counts(
        "layers",
        _("Layers"),
        _("Only where its manual allows more than one."),
        options=_SIZES,
    ),
    Tick("own_plug", _("Heats with its own plug, on no burner")),
    Choice(
        "burner_kind",
        _("Its burner"),
        _("Only where it differs from the stove's."),
        options=_BURNERS,
    ),
    _POWER,
    Choice("wall", _("Wall"), _("Pressure canners."), options=tuple((w, w) for w in WALLS)),
    Field("weighs", _("Weight, empty, with lid and rack"), such_as="18 lb"),
    Field("water", _("Water you put in"), such_as=_("3 quarts")),
    Rows(
        "timed",
        _("Runs you timed"),
        _("Each one corrects how long this canner is foretold to take."),
        fields=(
            Choice("jar", _("Jar"), must=True, options=_SIZES),
            Whole("jars", _("Jars"), must=True),
            Choice("pack", _("Pack"), must=True, options=tuple((p, p) for p in PACKS)),
            Liquid("liquid", _("In liquid"), options=(("yes", _("yes")), ("no", _("no")))),
            Whole("lb", _("Held at"), unit=_("lb")),
            Number("heat", _("Heat-up"), unit=_("min")),
            Number("come_up", _("Come-up"), unit=_("min")),
            Number("cool", _("Cool-down"), unit=_("min")),
        ),
    ),
)
CARE = (
    Day("gauge_tested", _("Dial gauge tested on")),
    Number("gauge_reads_high", _("It read high by"), _("Minus where it read low."), unit=_("lb")),
    UnTick("gasket", _("Has no gasket: metal seals on metal")),
    Day("gasket_checked", _("Gasket looked at or changed on")),
    Day("vent_checked", _("Vent, petcock and weight clear on")),
    Day("plug_checked", _("Overpressure plug or fuse looked at on")),
    Day("rack_checked", _("Rack, pot and lid looked at on")),
)
FIRST = (
    _ELEVATION,
    _METHOD,
    replace(_HOLDS, help="", options=_SIZES[1:2] + _SIZES[3:4] + _SIZES[5:6]),
    STOVE[0],
)
# A kitchen that lacks nothing, to hold one part of a kitchen against.
_WHOLE: Document = {"name": "-", "elevation": "0 ft", "burners": 40}
_ONE_CANNER: Document = {"name": "-", "method": "boiling-water", "holds": {"quart": 7}}


@dataclass(frozen=True, slots=True)
class Part:
    """One form: the fields, and where their keys stand.

    ``canner`` is the number of the canner it is of, from 1; 0 for a part of the whole kitchen.
    """

    name: str
    title: str
    fields: tuple[Field, ...]
    canner: int = 0
    inner: str = ""

    @property
    def path(self) -> str:
        """The address that its form posts to."""
        if not self.canner:
            return f"/kitchen/{self.name}"
        return f"/kitchen/canners/{self.canner}" + (f"/{self.inner}" if self.inner else "")

    @property
    def prefix(self) -> str:
        """What the readers put before its keys."""
        below = f"canner[{self.canner}]." if self.canner else ""
        return below + (f"{self.inner}." if self.inner else "")

    def of(self, document: Document) -> Document:
        """The table that holds its keys; empty where there is none."""
        if not self.canner:
            return document
        canners = canners_of(document)
        canner = canners[self.canner - 1] if self.canner <= len(canners) else {}
        inner = canner.get(self.inner, {}) if self.inner else canner
        return inner if isinstance(inner, dict) else {}

    def owner(self, document: Document) -> str:
        """The name of the canner it is of, "" for a part of the whole kitchen."""
        canners = canners_of(document)
        return str(canners[self.canner - 1].get("name")) if 0 < self.canner <= len(canners) else ""

    def held(self, document: Document) -> Document:
        """Its own keys and what they hold."""
        table = self.of(document)
        return {f.name: table[f.name] for f in self.fields if f.name in table}

    def probe(self, document: Document, values: Document) -> Document:
        """A kitchen in which only this part can be wrong."""
        if not self.canner:
            return {**self.into(_WHOLE, values), "canner": [_ONE_CANNER]}
        canner = canners_of(self.into(document, values))[self.canner - 1]
        return {**_WHOLE, "canner": [canner]}

    def into(self, document: Document, values: Document) -> Document:
        """A copy of the document with its keys as given; what is left out is taken out."""
        made = deepcopy(document)
        table = self.of(made)
        for field in self.fields:
            if values.get(field.name) is None:
                table.pop(field.name, None)
            else:
                table[field.name] = values[field.name]
        if not self.canner:
            return table
        canners = canners_of(made)
        if self.inner:
            table = {**canners[self.canner - 1], self.inner: table}
        canners[self.canner - 1 : self.canner] = [fitting(table)]
        return {**made, "canner": canners}


@dataclass(frozen=True, slots=True)
class First(Part):
    """The short form that a kitchen begins with: where it stands, and one canner."""

    @property
    def prefix(self) -> str:
        """Its fields but the elevation and the burners are the canner's."""
        return "canner[1]."

    def of(self, document: Document) -> Document:
        """Its fields are of two tables."""
        canners = canners_of(document)
        return {**document, **(canners[0] if canners else {})}

    def into(self, document: Document, values: Document) -> Document:
        """The kitchen with its first canner; what was written before stays."""
        method = str(values["method"])
        before = canners_of(deepcopy(document))
        first = before[0] if before else {"name": f"{method} canner"}
        canner = fitting({**first, "method": method, "holds": values["holds"]})
        return {
            "name": "Our kitchen",
            **document,
            "elevation": values["elevation"],
            "burners": values["burners"],
            "canner": [canner, *before[1:]],
        }

    def probe(self, document: Document, values: Document) -> Document:
        """The whole of it."""
        return self.into({}, values)


def canners_of(document: Document) -> list[Document]:
    """The canners of a document that may have none."""
    said = document.get("canner")
    return [one for one in said if isinstance(one, dict)] if isinstance(said, list) else []


def fitting(canner: Document) -> Document:
    """A canner without the care of parts that its kind has not, or of nothing."""
    care = canner.get("care")
    if not isinstance(care, dict):
        return canner
    kind = canner.get("method")
    without = set()
    if kind != "dial-gauge":
        without |= {"gauge_tested", "gauge_reads_high"}
    if kind not in PRESSURE:
        without |= {"gasket", "gasket_checked", "vent_checked", "plug_checked"}
    if care.get("gasket") is False:
        without.add("gasket_checked")
    rest = {key: value for key, value in care.items() if key not in without}
    return {**{k: v for k, v in canner.items() if k != "care"}, **({"care": rest} if rest else {})}


PARTS = {
    "place": Part("place", _("Where it stands"), PLACE),
    "stove": Part("stove", _("Stove and counters"), STOVE),
    "people": Part("people", _("People"), PEOPLE),
    "hand": Part("hand", _("Jars and lids on hand"), HAND),
    "pantry": Part("pantry", _("Pantry"), PANTRY),
    "prices": Part("prices", _("Prices"), PRICES),
    "rates": Part("rates", _("Work rates"), RATES),
}


FIRST_PART = First("first", _("Our kitchen"), FIRST)


def canner_part(number: int) -> Part:
    """The form of one canner."""
    return Part("canner", _("Canner"), CANNER, number)


def care_part(number: int, method: str, *, has_gasket: bool = True) -> Part:
    """The form of one canner's care, with the parts that its kind has."""

    def has(name: str) -> bool:
        if name.startswith("gauge"):
            return method == "dial-gauge"
        if name == "gasket_checked" and not has_gasket:
            return False
        return name == "rack_checked" or method in PRESSURE

    fields = tuple(field for field in CARE if has(field.name))
    return Part("care", _("Looked at"), fields, number, "care")
