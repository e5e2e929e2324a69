"""The words of the pages: all of them in one catalogue, and that catalogue of today."""

from pathlib import Path

import pytest
from babel.messages.pofile import read_po

import stillroom.web
from stillroom.web.words import catalogue, extract
from tests.web.words.templates import own_words

WEB = Path(next(iter(stillroom.web.__path__)))
TEMPLATES = sorted((WEB / "templates").rglob("*.html"))
# Signs of the trade that are written alike in every language of the pages.
SIGNS = {"Stillroom"}


def test_the_catalogue_that_translations_start_from_is_that_of_todays_pages() -> None:
    """When this fails: ``./do words``."""
    kept = extract.TEMPLATE.read_bytes()

    assert kept == extract.written(extract.words())


def test_every_message_that_counts_something_has_its_plural() -> None:
    messages = [m for m in extract.words() if m.id]

    assert messages
    for message in messages:
        said = message.id if isinstance(message.id, str) else message.id[0]
        assert not said.endswith("(s)"), said


def test_no_message_begins_or_ends_with_a_blank() -> None:
    for message in extract.words():
        for said in [message.id] if isinstance(message.id, str) else message.id:
            assert said == said.strip() or not said, said


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda p: p.relative_to(WEB).as_posix())
def test_a_template_shows_no_words_of_its_own(path: Path) -> None:
    assert [said for said in own_words(path) if said not in SIGNS] == []


def test_words_outside_of_the_catalogue_are_seen(tmp_path: Path) -> None:
    """The test above would notice: text, attributes, branches, names that are set."""
    template = tmp_path / "page.html"
    template.write_text(
        '<p title="one">two {{ _("known") }}{{ "three" if x else _("known") }}</p>'
        "{% trans %}known{% endtrans %}{% set a = 'four' %}<input value='five'>"
        "{% if x %}<i>six</i>{% else %}<i class='no'>seven</i>{% endif %}<script>no()</script>"
        "{{ show.number(n, 'no') }}{% for a in b %}eight{% endfor %}",
        encoding="utf-8",
    )

    assert " ".join(own_words(template)) == "one two three four five six seven eight"


def test_a_catalogue_put_into_the_folder_is_a_language(tmp_path: Path) -> None:
    (tmp_path / "de.po").write_text(
        'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n'
        '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n\n'
        'msgid "Kitchen"\nmsgstr "Küche"\n\n'
        'msgid "%(num)s jar"\nmsgid_plural "%(num)s jars"\n'
        'msgstr[0] "%(num)s Glas"\nmsgstr[1] "%(num)s Gläser"\n',
        encoding="utf-8",
    )

    words = catalogue.translations("de", tmp_path)

    assert catalogue.languages(tmp_path) == {"en": "English", "de": "Deutsch"}
    assert words.gettext("Kitchen") == "Küche"
    assert words.ngettext("%(num)s jar", "%(num)s jars", 1) == "%(num)s Glas"
    assert words.ngettext("%(num)s jar", "%(num)s jars", 7) == "%(num)s Gläser"
    assert words.gettext("not there yet") == "not there yet"


def test_a_language_without_a_catalogue_is_english(tmp_path: Path) -> None:
    assert catalogue.known("xx", tmp_path) == "en"


def test_every_catalogue_that_ships_keeps_the_names_in_its_messages() -> None:
    """A figure's name lost in translation would be a page that fails (Babel checks it)."""
    for path in catalogue.LOCALE.glob("*.po"):
        with path.open("rb") as file:
            messages = read_po(file)
        assert [list(errors) for _, errors in messages.check()] == []
