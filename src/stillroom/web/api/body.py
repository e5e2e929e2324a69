"""What a request carries, read as JSON within bounds."""

import json
from typing import Any

from fastapi import Request
from fastapi.exceptions import HTTPException

# Tables in tables, lists in lists: a day has four. Deeper ones are made to be slow.
DEEPEST = 40


class JsonRequest(Request):
    """A request whose JSON is read strictly."""

    async def json(self) -> Any:
        """The body's value, the same at each call."""
        if not hasattr(self, "_json"):
            self._json = read_json(await self.body())
        return self._json


def read_json(body: bytes) -> Any:
    """One JSON value.

    Parameters
    ----------
    body : UTF-8; no NaN or Infinity, which JSON (RFC 8259, section 6) does not have

    Raises
    ------
    HTTPException
        422: no JSON, no text, half of a sign's two UTF-16 parts, or nested deeper than ``DEEPEST``.

    Examples
    --------
    >>> read_json(b'{"jars": [7]}')
    {'jars': [7]}
    """
    try:
        text = body.decode("utf-8")
        if _depth(text) > DEEPEST:
            raise HTTPException(422, f"The JSON is nested deeper than {DEEPEST} levels.")
        value = json.loads(text, parse_constant=_no_number)
        json.dumps(value, ensure_ascii=False).encode("utf-8")
    except UnicodeDecodeError as wrong:
        raise HTTPException(422, f"Byte {wrong.start} is not text. Send JSON in UTF-8.") from None
    except UnicodeEncodeError:
        raise HTTPException(
            422, "The JSON holds half of a sign (a lone \\ud800 to \\udfff). Send whole text."
        ) from None
    except ValueError as wrong:
        raise HTTPException(422, f"This is not JSON: {_said(wrong)}.") from None
    return value


def _depth(text: str) -> int:
    """The most brackets that are open at once; those in texts count too, which errs high."""
    deepest = depth = 0
    in_text = escaped = False
    for sign in text:
        if in_text:
            in_text, escaped = sign != '"' or escaped, sign == "\\" and not escaped
        elif sign == '"':
            in_text = True
        elif sign in "[{":
            depth += 1
            deepest = max(deepest, depth)
        elif sign in "]}":
            depth -= 1
    return deepest


def _no_number(said: str) -> Any:
    raise ValueError(f"{said} is no number")


def _said(wrong: ValueError) -> str:
    if isinstance(wrong, json.JSONDecodeError):
        return f"{wrong.msg[:1].lower()}{wrong.msg[1:]}, line {wrong.lineno} column {wrong.colno}"
    # Python's own message names its settings; the person needs the reason only.
    return "a number has too many digits" if "digits" in str(wrong) else str(wrong)
