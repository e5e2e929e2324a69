"""Words of these pages that a template says by the name of something, for the catalogue."""

from stillroom.web.words.mark import _

VERDICTS = (_("tested"), _("unconfirmed"), _("barred"), _("unfinished"))
EFFECTS = (
    _("verdict"),
    _("time"),
    _("pressure"),
    _("headspace"),
    _("liquid"),
    _("taste only"),
)
PACKS = (_("hot"), _("raw"))
METHODS = (_("boiling-water"), _("pressure"))
