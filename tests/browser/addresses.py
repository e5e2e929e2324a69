"""Every page there is, as addresses of the small household."""

from benchmarks.pages.addresses import addresses, page_routes
from stillroom.web.app import PAGES
from stillroom.web.views.kitchen_parts import PARTS
from tests.household import HOUSEHOLD

# Other states of a page, beside the plain one of its route.
ALSO = (
    "/foods?elevation=5430+ft",
    "/foods/tomatoes",
    "/foods/snap%20beans?form=pieces&pack=hot&jar=pint",
    "/foods/snap%20beans?form=pieces&jar=half-gallon",
    "/foods/pumpkin%20butter",
    "/foods/beans?elevation=very+high",
    "/recipes?changed=2",
    "/no-such-page",
)
NAMES: dict[str, tuple[str, ...]] = {
    "food": ("snap beans",),
    "slug": (HOUSEHOLD.own, HOUSEHOLD.barred, HOUSEHOLD.unfinished, "carrots"),
    "part": tuple(PARTS),
    "number": ("1",),
    "key": (HOUSEHOLD.planned, HOUSEHOLD.past, HOUSEHOLD.unplanned, HOUSEHOLD.impossible),
}
# What answers with an error, and is meant to.
STATUS = {"/doors/trust": 404, "/foods/beans?elevation=very+high": 422, "/no-such-page": 404}


def every() -> list[str]:
    """One or more addresses of each route, and those of ``ALSO``."""
    return list(dict.fromkeys([*addresses(page_routes(PAGES), NAMES), *ALSO]))
