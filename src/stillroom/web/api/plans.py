"""Plans."""

from stillroom.web.api.route import room

router = room("Plans")
