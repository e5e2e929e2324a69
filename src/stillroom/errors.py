"""Errors a caller can tell apart. A refusal or an impossible day is an answer, not an error."""


class StillroomError(Exception):
    """Anything Stillroom raises on purpose."""


class InputError(StillroomError):
    """The person can mend it: the message says what was wrong, where, and what to do."""


class OutOfRange(StillroomError, ValueError):
    """A number lies outside the range in which a formula holds."""


class DataError(StillroomError):
    """A file that ships with Stillroom is wrong. Nothing the person typed causes it."""
