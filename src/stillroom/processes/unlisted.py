"""Ways of heating jars that no table of the library covers, and what the published rules say."""

from stillroom.processes.model import Refusal

# Other words people use for each.
UNLISTED_METHODS = {
    "electric cooker": (
        "electric",
        "electric canner",
        "electric pressure cooker",
        "electric pressure canner",
        "countertop",
        "countertop cooker",
        "multi cooker",
        "multicooker",
        "pressure cooker",
    ),
    "steam canner": ("steam", "atmospheric steam", "atmospheric steam canner"),
    "open kettle": ("open kettle canning", "kettle", "inversion"),
    "oven": ("dry oven", "oven canning"),
    "microwave": ("microwave oven",),
    "dishwasher": (),
}

_ELECTRIC = (
    "The library has no rows for electric countertop cookers. The published processes were made "
    "for stove-top pressure canners that hold at least four quart jars; the publications do not "
    "support them in electric cookers, whose heat-up, cool-down and heat in the jar differ "
    "(web text of AIB-539 on multi-cookers; Univ. of Missouri Extension). Follow only "
    "instructions that the appliance's maker tested for that appliance, or use a stove-top canner."
)
_STEAM = (
    "The library has no rows for atmospheric steam canners. Published advice since 2015 lets one "
    "stand in for boiling water only for foods at pH 4.6 or lower with a tested boiling-water "
    "process whose whole time is 45 minutes or less, vented to pure steam first, the lid never "
    "lifted (Univ. of Wisconsin Extension 2015). Ask with --method boiling-water for the time, and "
    "follow the canner's manual."
)
_BARRED = (
    "{name} canning is not recommended for any food: the jars do not get a known heat "
    "(AIB-539 Guide 1). Use a boiling-water canner or a pressure canner."
)


def unlisted_method(name: str) -> Refusal:
    """Why there is no row for this way of heating, and what to do instead.

    Source
    ------
    AIB-539 Guide 1 (equipment not recommended) and the publications named in each answer.

    Examples
    --------
    >>> unlisted_method("oven").code
    'method-barred'
    >>> unlisted_method("electric cooker").code
    'no-row'
    """
    if name == "electric cooker":
        return Refusal("no-row", _ELECTRIC)
    if name == "steam canner":
        return Refusal("no-row", _STEAM)
    return Refusal("method-barred", _BARRED.format(name=name.capitalize()))
