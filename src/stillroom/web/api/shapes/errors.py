"""The one shape of an error."""

from typing import Any

from pydantic import BaseModel, Field


class Fault(BaseModel):
    """What went wrong, where, and what to do."""

    status: int = Field(description="The HTTP status once more")
    message: str = Field(description="What was wrong and what to write instead, for a person")
    place: str = Field(
        description='The key it is about, such as "canner[1].holds"; list items count from 1; '
        '"" where it is about no single key'
    )
    stands: dict[str, Any] | None = Field(
        None, description="409 only: the document as somebody else left it; null where removed"
    )
    version: int | None = Field(
        None, description="409 only: the version to name with the next change"
    )


class Error(BaseModel):
    """An error."""

    error: Fault


_SAID = {
    401: "This device has not been let in",
    403: "A change without the header X-Stillroom, or sent by another site's page",
    404: "There is no such thing",
    409: "Somebody changed it meanwhile",
    413: "More was sent than is taken",
    415: "A body that is not application/json",
    422: "Something in the question cannot be read; the message says what",
    429: "Asked too often; wait as long as Retry-After says",
    503: "The file of the household's records cannot be read or written; the message says why",
}
ERRORS: dict[int | str, dict[str, Any]] = {
    status: {"model": Error, "description": said} for status, said in _SAID.items()
}
