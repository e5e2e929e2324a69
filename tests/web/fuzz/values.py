"""Values that a careful reader of input must survive, and changes that put them into good ones."""

import json
from copy import deepcopy
from random import Random
from typing import Any

# Nothing that an answer may show as a tag: it must come back escaped or not at all.
MARK = "<x-mark>"
TEXTS = (
    "", " ", "\t", "\n" * 200, "\r\n", "\0", "a\0b", "\x1b[31m", "\ufeff", "\u2028", "\u202e",
    "e\u0301" * 50, "\U0001fad9" * 300, "\ufdfa" * 300, "İ", "ß", "ǅ", "ﬁ", "\u200b", "\u00ad",
    MARK, f'"\'>{MARK}', "{{7*7}}", "{% x %}", "%s%n%d", "' OR 1=1 --", "../../etc/passwd",
    "C:\\con", "javascript:alert(1)", "//elsewhere.example/", "\\\\elsewhere", "null", "true",
    "0", "-0", "-1", "1", "1.5", "+7", "1e3", "1e999", "-1e999", "NaN", "inf", "Infinity", "0x10",
    "1_000", "1,000", "1.000", "٣", "９９", "²", "½", "1/0", "0/0", "1/3/4", "9" * 30, "9" * 5000,
    "1" + "0" * 400 + " ft", "-99999 ft", "5200ft", "1600 m", "1e5 ft", "5 200 ft", "12 parsec",
    "0:00", "24:00", "24:01", "25:61", "7.30", "7", "-7:00", "9999:99", "7:00 to 6:00", "to", "-",
    "2026-10-17", "2026-02-30", "0001-01-01", "9999-12-31", "10000-01-01", "2026-W42-6", "20261017",
    "quart", "Quarts", "qrt", "1/2 pint", "half gallon jar", "pint" * 1000, "dial-gauge", "raw",
    "snap beans", "green beans, 2 lb", "beans, 1/0 lb", "salt, 1e9 cups", ", ,", ",", "a" * 300,
    "word " * 4000, "x" * 70_000, "(" * 2000, "[" * 3000, "a, " * 3000, "1 " * 3000, "½" * 500,
)  # fmt: skip
NUMBERS: tuple[Any, ...] = (
    0, -1, 1, 2, 7, 41, 5001, 100_001, 2**31, 2**53 - 1, 2**53 + 1, 2**63, -(2**63), 10**30,
    10**400, 0.5, -0.0, 1e-308, 1e308, -1e308, 3.0, True, False, None,
)  # fmt: skip
HOLDERS: tuple[Any, ...] = (
    [], {}, [[]], [{}], {"": ""}, [None], ["a", 1], {"a": {"b": {"c": []}}}, [[[[[[[[[[1]]]]]]]]]],
    ["x"] * 500, {str(n): n for n in range(300)}, {"title": {"title": {}}}, {MARK: MARK},
)  # fmt: skip
HALF = "\ud800"


def any_value(dice: Random) -> Any:
    """A text, a number, or something that holds others."""
    kind = dice.random()
    if kind < 0.6:
        return any_text(dice)
    return deepcopy(dice.choice(NUMBERS if kind < 0.85 else HOLDERS))


def any_text(dice: Random) -> str:
    """A text from the list, or one of random signs."""
    if dice.random() < 0.85:
        return dice.choice(TEXTS)
    signs = (dice.choice((range(32, 127), range(160, 0x2FFF), range(0x1F300, 0x1F700))),)
    return "".join(chr(dice.choice(signs[0])) for _ in range(dice.randrange(40)))


def changed(value: Any, dice: Random) -> Any:
    """A JSON value with one place in it changed."""
    if isinstance(value, dict) and value and dice.random() < 0.85:
        made, key = dict(value), dice.choice(list(value))
        match dice.randrange(10):
            case 0:
                del made[key]
            case 1:
                made[any_text(dice)[:2000]] = made.pop(key)
            case 2:
                made[dice.choice(("more", "title", "0", ""))] = any_value(dice)
            case _:
                made[key] = changed(value[key], dice)
        return made
    if isinstance(value, list) and value and dice.random() < 0.85:
        items, place = list(value), dice.randrange(len(value))
        match dice.randrange(8):
            case 0:
                del items[place]
            case 1:
                items += [deepcopy(items[place])] * dice.choice((1, 2, 100))
            case _:
                items[place] = changed(items[place], dice)
        return items
    if isinstance(value, str) and value and dice.random() < 0.3:
        place = dice.randrange(len(value) + 1)
        return value[:place] + any_text(dice) + value[place + dice.randrange(3) :]
    return any_value(dice)


def as_bytes(value: Any, dice: Random) -> bytes:
    """JSON, now and then with half of a sign in it, with NaN, cut off, or with bytes changed."""
    text = json.dumps(value, ensure_ascii=dice.random() < 0.5)
    if dice.random() < 0.04:
        text = (
            text.replace('"', f'"{HALF}', dice.randrange(6))
            .encode("ascii", "backslashreplace")
            .decode()
        )
    raw = text.encode("utf-8", "replace")
    return broken(raw, dice) if dice.random() < 0.08 else raw


def broken(raw: bytes, dice: Random) -> bytes:
    """Bytes cut off, doubled, or with some that are no UTF-8."""
    place = dice.randrange(len(raw) + 1)
    match dice.randrange(5):
        case 0:
            return raw[:place]
        case 1:
            return raw + raw
        case 2:
            return raw[:place] + bytes(dice.randrange(256) for _ in range(6)) + raw[place:]
        case 3:
            return b"[" * dice.choice((50, 1000, 100_000)) + raw
        case _:
            return (
                raw[:place]
                + dice.choice((b"\xff", b"\xed\xa0\x80", b"\xc0\x80", b"\0"))
                + raw[place:]
            )
