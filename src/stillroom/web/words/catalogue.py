"""The pages' words in other languages.

English stands in the templates. A second language is one file, ``locale/LANGUAGE.po``, made from
``locale/stillroom.pot``; it ships as it is and is read when first needed.
"""

from functools import cache
from io import BytesIO
from pathlib import Path

from babel import Locale
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.support import NullTranslations, Translations

ENGLISH = "en"
LOCALE = Path(__file__).parent / "locale"


@cache
def languages(folder: Path = LOCALE) -> dict[str, str]:
    """Language codes with each language's own name; English first."""
    codes = [ENGLISH, *sorted(path.stem for path in folder.glob("*.po"))]
    return {code: Locale.parse(code).get_display_name(code) or code for code in codes}


def known(code: str, folder: Path = LOCALE) -> str:
    """The code, or English where no catalogue is for it."""
    return code if code in languages(folder) else ENGLISH


@cache
def translations(code: str, folder: Path = LOCALE) -> NullTranslations:
    """The catalogue of a language; English has none and answers with the words themselves.

    Raises
    ------
    FileNotFoundError
        There is no catalogue for the language.
    """
    if code == ENGLISH:
        return NullTranslations()
    return read_catalogue(folder / f"{code}.po")


def read_catalogue(path: Path) -> Translations:
    """A catalogue file, ready to translate."""
    with path.open("rb") as file:
        messages = read_po(file)
    compiled = BytesIO()
    write_mo(compiled, messages)
    compiled.seek(0)
    return Translations(compiled)
