"""Verdicts, comparisons and builds of recipes."""

from typing import Literal

from pydantic import BaseModel, Field

from stillroom.web.api.shapes.processes import Match, Refusal

Ends = list[float] | None


class Line(BaseModel):
    """One ingredient line as it was understood."""

    line: str = Field(description="As written")
    food: str = Field(description='Its name in the food list, "" where it is not known')
    quantity: float | None = Field(description="The upper end of a range, in ``unit``")
    quantity_low: float | None = Field(description="The lower end of a range, in ``unit``")
    unit: str = Field(description="tsp for volumes, g for weights, or what is counted")
    prep: str
    optional: bool
    per: str = Field(description='"" for the whole batch, "jar", or a jar size')
    not_understood: list[str] = Field(description="Pieces that nothing explains")


class Finding(BaseModel):
    """What was found of one thing."""

    about: str
    kind: Literal["barred", "unconfirmed", "note"]
    message: str
    source: str = Field(description="Where the rule was published")
    instead: str = Field(description='What to do instead, "" where nothing is told')
    line: int | None = Field(description="Line of the paste, from 1")
    rule: str = Field(description="The rule's own name")


class Verdict(BaseModel):
    """A recipe judged; as ``stillroom check --json``."""

    verdict: Literal["tested", "unconfirmed", "barred"]
    process: Match | None = Field(description="The printed row it follows")
    ingredients: list[Line]
    findings: list[Finding]
    elevation_ft: int = Field(description="Elevation of the row shown, feet")


class Difference(BaseModel):
    """One change between two recipes."""

    about: str
    before: str
    after: str
    effects: list[Literal["verdict", "time", "pressure", "headspace", "liquid", "taste only"]]
    says: str = Field(description="The change in one line")


class Comparison(BaseModel):
    """Two recipes judged, and each change; as ``stillroom check --changed --json``."""

    before: Verdict
    after: Verdict
    changes: list[Difference]


class Part(BaseModel):
    """How much of one food."""

    food: str
    prep: str
    cups: str | None = Field(description='In words, such as "1 1/2 cups"')
    grams: float | None = Field(description="Grams")
    weight: str | None = Field(description='In words, such as "11 oz"')
    as_bought: str | None = Field(description="In words, before trimming")
    optional: bool


class Layer(BaseModel):
    """One layer of the jar."""

    name: str
    kind: str
    step: str = Field(description="The recipe's own words")
    in_fill_list: bool = Field(description="Whether the recipe names it")
    amounts: list[Part]
    volume_ml: Ends = Field(description="Least and most, ml")
    stands_ml: float = Field(description="Room it takes in the drawing, ml")


class Fit(BaseModel):
    """Whether it goes into the jar."""

    kind: str
    message: str


class MadeFirst(BaseModel):
    """What is made before any jar is filled, such as a brine."""

    name: str
    make_ml: float = Field(description="How much to make, ml")
    written_ml: float = Field(description="How much the recipe writes for these jars, ml")
    taken_ml: Ends = Field(description="How much the jars take: least and most, ml")
    parts: list[Part]
    text: str


class Built(BaseModel):
    """One jar layer by layer; as ``stillroom build --json``. Amounts approve nothing."""

    recipe: str
    title: str
    food: str
    form: str
    pack: str
    jar: str
    jars: int
    headspace_in: float = Field(description="Inches")
    room_ml: float = Field(description="Room below the headspace line, ml")
    layers: list[Layer] = Field(description="In the order of filling")
    not_in_jar: list[Part] = Field(description="Strained out or taken out")
    solids_share: Ends = Field(description="Part of the room that solids fill: least and most")
    liquid_ml: Ends = Field(description="Liquid poured in last: least and most, ml")
    liquid: str | None = Field(description="The same in words")
    poured: str | None = Field(description="The layer that is poured last")
    fits: list[Fit]
    acid: str | None = Field(description="What acid goes into each jar, and its source")
    make_first: list[MadeFirst]
    verdict: Literal["tested", "unconfirmed", "barred"]
    processes: list[Match] = Field(
        description="Rows for the elevation; empty where none is known or it is not tested"
    )
    refusal: Refusal | None = Field(description="Why no row is printed for the elevation")
    elevation_ft: int | None = Field(description="Feet")
    estimated: str = Field(description="Which figures are estimates")
