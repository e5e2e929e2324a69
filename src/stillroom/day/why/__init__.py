"""Why a plan is as it is: what binds it, what its trades cost, what more would buy."""

from stillroom.day.why.answer import Why, why

__all__ = ["Why", "why"]
