"""What a form sent, as plain text by the name of its field."""

from collections.abc import Mapping
from typing import Annotated

from fastapi import Depends, Request


async def _typed(request: Request) -> dict[str, str]:
    """The fields of a form; of a name that is sent twice, the last. Files are passed over."""
    # Leaving the block closes what was sent as a file.
    async with request.form() as form:
        return {name: value for name, value in form.multi_items() if isinstance(value, str)}


Typed = Annotated[Mapping[str, str], Depends(_typed)]
