"""What the middle storey says, as it is said on a page: no word of the command line."""

import re

# What a message tells somebody at a terminal, and what it means to somebody at a page.
_SAID: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern), told)
    for pattern, told in (
        (r": ask again with --method [\w-]+\.", "."),
        (r"Ask with --method boiling-water for the time, and follow", "Look up the boiling-water "
         "time, and follow"),
        (r", or with --jar, --pack and --method\.", "."),
        (r"See the names with stillroom foods, and name one with --base\.",
         "See the names in the room Foods, and name one."),
        (r"See what is printed with stillroom process\.",
         "See in the room Foods what is printed."),
        (r"(?<=\w) with --base\b", ""),
        (r"^--(\w+): ", ""),
        (r"\bthe kitchen file\b", "the kitchen"),
        (r"kitchen, canner: missing\. Head each canner \[\[canner\]\]\.",
         "No canner is written down yet."),
    )
)  # fmt: skip


def on_page(told: str) -> str:
    """A message with the ways of the command line told as the ways of a page.

    Examples
    --------
    >>> on_page("The weighted-gauge table covers you: ask again with --method weighted-gauge.")
    'The weighted-gauge table covers you.'
    >>> on_page("Name the published food it follows with --base, or freeze it.")
    'Name the published food it follows, or freeze it.'
    >>> on_page('--jar: "bucket" is not a jar size.')
    '"bucket" is not a jar size.'
    """
    for pattern, on in _SAID:
        told = pattern.sub(on, told)
    return told
