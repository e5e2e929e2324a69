"""Marks words that stand in modules for the catalogue; the template translates them."""


def _(words: str) -> str:
    """The words as they are: ``words.extract`` finds them by this call."""
    return words
