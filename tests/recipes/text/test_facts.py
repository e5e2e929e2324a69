"""What a method says of pack, jars, headspace, pressure and ways of heating."""

from typing import Any

import pytest

from stillroom.recipes.pasted import Facts
from stillroom.recipes.text.facts import read_facts


def told(*method: str, title: str = "", other: tuple[str, ...] = ()) -> Facts:
    return read_facts(title, [(place, text) for place, text in enumerate(method, 2)], other)


# Each wording was read by hand after the manner of kitchen cards.
SAID: list[tuple[str, str, Any]] = [
    ("Hot pack pints", "packs", ("hot",)),
    ("Raw pack quarts", "packs", ("raw",)),
    ("Pack raw, cover with hot water", "packs", ("raw",)),
    ("Pints hot, 1 in.", "packs", ("hot",)),
    ("raw, boiling water, 1 in", "packs", ("raw",)),
    ("hot; quarts", "packs", ("hot",)),
    ("Fill with hot water", "packs", ()),
    ("Quarts, 1 in.", "jars", ("quart",)),
    ("Half-pint jars, hot", "jars", ("half-pint",)),
    ("1/2 pints", "jars", ("half-pint",)),
    ("pints or quarts", "jars", ("pint", "quart")),
    ("pint and a half jars", "jars", ("1.5-pint",)),
    ("8 oz jars", "jars", ("half-pint",)),
    ("half gallon jars", "jars", ("half-gallon",)),
    ("Add 1 qt tomatoes", "jars", ()),
    ("Add two quarts of water", "jars", ()),
    ("Half-pints, 75 min as for pints", "jars", ("half-pint",)),
    ("1 in. headspace", "headspaces", (1.0,)),
    ('1/2"', "headspaces", (0.5,)),
    ("Leave 1 1/4 inch headspace", "headspaces", (1.25,)),
    ("½ in; boiling water", "headspaces", (0.5,)),
    ("cut in 1-inch cubes", "headspaces", ()),
    ("90 mins at 10 lb.", "psi", (10.0,)),
    ("55 min @ 10 lb weighted", "psi", (10.0,)),
    ("11 psi dial", "psi", (11.0,)),
    ("10 pounds pressure", "psi", (10.0,)),
    ("10# pressure 30 min", "psi", (10.0,)),
    ("Dial gauge 13 lb, 30 min", "psi", (13.0,)),
    ("Add 5 lb tomatoes", "psi", ()),
    ("5 lb tomatoes for 20 quarts", "psi", ()),
    ("boiling water bath 20 minutes", "methods", ("boiling-water",)),
    ("BW 10", "methods", ("boiling-water",)),
    ("boiling water 25 min", "methods", ("boiling-water",)),
    ("process in boiling water 10 min", "methods", ("boiling-water",)),
    ("Raw pack pints, boiling water, 1 in., vent, 55 min", "methods", ()),
    ("pack with boiling water", "methods", ()),
    ("Pressure can 60 min", "methods", ("pressure",)),
    ("we have no pressure canner", "methods", ()),
    ("turn upside down 5 minutes", "methods", ("inversion",)),
    ("seal with melted paraffin", "methods", ("paraffin",)),
    ("waxed cucumbers", "methods", ()),
    ("open kettle, screw lids down", "methods", ("open kettle",)),
    ("bake the filled jars in the oven", "methods", ("oven",)),
    ("roast the tomatoes in the oven", "methods", ()),
    ("atmospheric steam canner 45 min", "methods", ("steam canner",)),
    ("slow cooker on high", "methods", ("slow cooker",)),
    ("run the dishwasher", "methods", ("dishwasher",)),
    ("keep in the refrigerator", "methods", ("refrigerator",)),
    ("refrigerate after opening", "methods", ()),
    ("hold at 180-185 F for 30 min", "methods", ("low-temperature pasteurization",)),
    ("half solids", "half_solids", True),
    ("Jar half full of solids, then broth", "half_solids", True),
    ("fill jars 3/4 full of solids", "half_solids", False),
    ("two-thirds solids", "half_solids", False),
    ("fill pints", "half_solids", None),
    ("2 c vinegar of 4% acidity", "vinegar_percent", (4.0,)),
    ("vinegar (5 percent)", "vinegar_percent", (5.0,)),
    ("10% off", "vinegar_percent", ()),
    ("puree and can", "pureed", True),
    ("Do not mash.", "pureed", False),
    ("Vent. (Mash after opening.)", "pureed", False),
    ("Thicken with flour.", "thickened", True),
    ("Make a roux.", "thickened", True),
    ("Thicken when you serve it.", "thickened", False),
    ("I thicken it when I open the jar.", "thickened", False),
    ("do not thicken", "thickened", False),
    ("beans soaked overnight", "soaked", True),
    ("beans, not soaked", "soaked", False),
    ("beans, unsoaked", "soaked", False),
    ("vent, 60 min", "vent_said", True),
    ("Don't bother venting", "vent_said", False),
    ("Book time 90 min", "own_source", "book time"),
    ("from my tested book", "own_source", "my tested book"),
    ("Makes about 8 half-pints.", "makes", ((8, "half-pint"),)),
]  # fmt: skip


@pytest.mark.parametrize(("text", "name", "value"), SAID, ids=[f"{r[1]}: {r[0]}" for r in SAID])
def test_a_fact_is_read_from_a_sentence(text: str, name: str, value: object) -> None:
    assert getattr(told(text), name) == value


def test_a_title_tells_jars_and_how_many() -> None:
    facts = told("Boil 5 min.", title="Pork soup, 9 pints")

    assert (facts.jars, facts.makes) == (("pint",), ((9, "pint"),))


def test_a_puree_among_the_ingredients_does_not_puree_the_recipe() -> None:
    assert not told("Boil.", other=("1 c chile puree",)).pureed
    assert told("Boil.", other=("10 lb squash, roasted and pureed",)).pureed
