"""Published processes, foods, and what steam does."""

from typing import Literal

from pydantic import BaseModel, Field

Code = Literal[
    "unknown-food", "no-row", "method-barred", "jar-too-large", "above-table", "withheld"
]


class Match(BaseModel):
    """One printed row of a process table."""

    food: str
    form: str = Field(description='The cut, "" where the table prints none')
    pack: str = Field(description='"raw", "hot", or "raw or hot"')
    jar: str = Field(description="Jar size of the row")
    for_jar: str = Field(description="Jar size asked for: a smaller one takes the next row up")
    method: str = Field(description="boiling-water, dial-gauge or weighted-gauge")
    minutes: int = Field(description="Process time, minutes, as printed")
    pressure_psi: int | None = Field(
        description="Gauge pressure, pounds per square inch, as printed; null for boiling water"
    )
    headspace_in: float = Field(description="Headspace, inches")
    band_ft: list[int | None] = Field(
        description="Elevations the row is for, feet: from, and to or null for no end",
        min_length=2,
        max_length=2,
    )
    option: str | None = Field(description='Such as "1 of 3" where the table offers a choice')
    source: str = Field(description="Publication, edition and place")
    notes: list[str] = Field(description="What to know of this row")
    requires: list[str] = Field(description="What has to be done for the row to hold")


class Refusal(BaseModel):
    """No published process answers the question. This is an answer, not an error."""

    code: Code
    reason: str = Field(description="Why, in plain words")


class ProcessAnswer(BaseModel):
    """What is published for a food, or why there is nothing; as ``stillroom process --json``."""

    matches: list[Match] = Field(description="All rows that fit, in the table's order")
    refusal: Refusal | None
    candidates: list[str] = Field(description="Foods that an unknown word may mean")
    elevation_ft: int = Field(description="Elevation asked for, feet")


class Food(BaseModel):
    """One food of the process library."""

    food: str
    forms: list[str] = Field(description="Its cuts; empty where the tables print none")
    withheld: bool = Field(
        description="Its rows are withheld until they are agreed: see the printed guide"
    )


class FoodList(BaseModel):
    """The foods of the process library, by the alphabet."""

    foods: list[Food]


class SteamCase(BaseModel):
    """The temperature inside in one case."""

    inside_f: float = Field(description="Degrees Fahrenheit")
    inside_c: float = Field(description="Degrees Celsius")
    lethal_rate_percent: float = Field(
        description="How fast spores die, percent of the rate with an exact gauge and no air"
    )


class AirCase(SteamCase):
    """With air left in."""

    air_percent: float = Field(description="Share of air in the gas, percent by moles")


class GaugeCase(SteamCase):
    """With a gauge that is off."""

    reads_high_psi: float = Field(description="By how much it reads high, psi; below 0 reads low")


class PrintedSetting(BaseModel):
    """A pressure printed for most low-acid food, and how hot it is inside."""

    method: str
    pressure_psi: int = Field(description="Gauge pressure, pounds per square inch")
    band_ft: list[int] = Field(description="Elevations, feet: from, to", min_length=2, max_length=2)
    inside_f: list[float] = Field(
        description="Degrees Fahrenheit at the two ends of the band", min_length=2, max_length=2
    )
    source: str


class SteamAnswer(BaseModel):
    """What a gauge tells of the heat inside; as ``stillroom heat steam --json``."""

    elevation_ft: int = Field(description="Feet")
    psi: float = Field(description="Gauge reading, pounds per square inch")
    boiling_f: float = Field(description="Where water boils in an open pot, degrees Fahrenheit")
    boiling_c: float = Field(description="The same, degrees Celsius")
    inside_f: float = Field(description="In pure steam at the reading, degrees Fahrenheit")
    inside_c: float = Field(description="The same, degrees Celsius")
    air: list[AirCase] = Field(description="With more and more air left in")
    gauge: list[GaugeCase] = Field(description="With a gauge that is off by more or less")
    printed: list[PrintedSetting]
    approves: str = Field(description="What these figures are not")
