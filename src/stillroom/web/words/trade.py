"""Words of the trade that pages take from the work's own lists, marked for the catalogue.

A template says ``_(method)``; what stands in ``method`` is known only at run time. A test holds
this list to those of the work.
"""

from stillroom.web.words.mark import _

TRADE = (
    # Kinds of canner
    _("boiling-water"),
    _("dial-gauge"),
    _("weighted-gauge"),
    # Jars
    _("4 oz"),
    _("half-pint"),
    _("12 oz"),
    _("pint"),
    _("1.5-pint"),
    _("quart"),
    _("half-gallon"),
    # Packs
    _("hot"),
    _("raw"),
    # Burners and walls
    _("gas"),
    _("coil"),
    _("smooth-top"),
    _("induction"),
    _("thin"),
    _("heavy"),
    # What a person leaves to others
    _("lifting"),
    _("pressure canner"),
    # Kinds of preparing
    _("wash"),
    _("trim"),
    _("peel"),
    _("core"),
    _("pit"),
    _("stem"),
    _("shell"),
    _("husk"),
    _("bone"),
    _("cut"),
    _("halve"),
    _("quarter"),
    _("slice"),
    _("cube"),
    _("chop"),
    _("grate"),
    _("crush"),
    # What makes a day good
    _("finish"),
    _("hot hours"),
    _("waiting"),
    _("extra processing"),
    _("tidy work"),
)
