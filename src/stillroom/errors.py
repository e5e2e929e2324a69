"""Errors a caller can tell apart. A refusal or an impossible day is an answer, not an error."""


class StillroomError(Exception):
    """Anything Stillroom raises on purpose."""


class InputError(StillroomError):
    """The person can mend it: the message says what was wrong, where, and what to do.

    ``place`` is the key it is about, such as "canner[1].holds" or "ingredients[3]", where a
    reader knows it, so that a form can show the message beside its field; "" elsewhere.
    """

    place: str = ""


class StoreFault(InputError):
    """The file of the household's records cannot be opened, read or written.

    ``said`` is why and what to do, without the file's name, which is not for everybody to read.
    """

    def __init__(self, file: str, said: str) -> None:
        super().__init__(f"{file}: {said}")
        self.said = said


class Conflict(StillroomError):
    """Somebody else changed it meanwhile.

    ``stands`` is the document as they left it, ``None`` where they removed it, and ``version``
    the number to name with the next change.
    """

    def __init__(
        self, message: str, *, stands: "dict[str, object] | None" = None, version: int = 0
    ) -> None:
        super().__init__(message)
        self.stands = stands
        self.version = version


class OutOfRange(StillroomError, ValueError):
    """A number lies outside the range in which a formula holds."""


class DataError(StillroomError):
    """A file that ships with Stillroom is wrong. Nothing the person typed causes it."""
