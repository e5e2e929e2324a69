"""Templates to pages: one environment, the words of a language, and what every page is given."""

import hashlib
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from stillroom.web.rooms import ROOMS, room_of
from stillroom.web.words import catalogue, show
from stillroom.web.words.on_page import on_page

_HERE = Path(__file__).parent


def page(request: Request, template: str, *, status: int = 200, **values: Any) -> HTMLResponse:
    """A template filled in, in the language and units of the household.

    Parameters
    ----------
    request : whose page it is
    template : path below ``templates``
    status : HTTP status
    values : what the template asks for; a name it does not get is an error
    """
    spoken = language(request)
    templates = environment(spoken, request.app.state.settings.words)
    shown = show.Shown(spoken, units(request))
    html = templates.get_template(template).render(
        request=request,
        path=request.url.path,
        rooms=ROOMS,
        room=room_of(request.url.path),
        language=spoken,
        show=shown,
        csrf=_csrf(request),
        undo=getattr(request.state, "undo", None),
        **values,
    )
    return HTMLResponse(html, status_code=status)


def language(request: Request) -> str:
    """The household's language, else English."""
    spoken = _setting(request, "language", catalogue.ENGLISH)
    return catalogue.known(spoken, request.app.state.settings.words)


def units(request: Request) -> show.Units:
    """The household's units: "us" or "metric"."""
    return "metric" if _setting(request, "units", "us") == "metric" else "us"


def _setting(request: Request, name: str, default: str) -> str:
    kept = getattr(request.state, "settings", None)
    if kept is None:
        from stillroom.store.settings import setting

        with request.app.state.store.read() as session:
            kept = {
                key: setting(session, key, of)
                for key, of in (("language", catalogue.ENGLISH), ("units", "us"))
            }
        request.state.settings = kept
    return str(kept.get(name, default))


def _csrf(request: Request) -> Callable[[], Markup]:
    """The hidden field that proves a form came from these pages."""

    def field() -> Markup:
        token = getattr(request.state, "csrf", "")
        return Markup('<input type="hidden" name="csrf" value="{}">').format(token)

    return field


@cache
def environment(spoken: str, words: Path) -> Environment:
    """Templates in a language, with all that they may call."""
    made = Environment(
        loader=FileSystemLoader(_HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        extensions=["jinja2.ext.i18n", "jinja2.ext.do"],
    )
    made.install_gettext_translations(  # type: ignore[attr-defined]
        catalogue.translations(spoken, words), newstyle=True
    )
    # A sentence over several lines is one line to its translator; ``words.extract`` does the same.
    made.policies["ext.i18n.trimmed"] = True
    made.globals["_"] = saying(catalogue.translations(spoken, words).gettext)
    made.globals["static"] = static
    made.filters["upper_first"] = upper_first
    made.filters["with_chosen"] = with_chosen
    made.filters["on_page"] = on_page
    return made


def saying(translate: Callable[[str], str]) -> Callable[..., str]:
    """What a template calls ``_``: words in the household's language, with values put in.

    Jinja's own takes its words for markup and for a format even where they hold what somebody
    typed; here they are text, and a format only where there are values.

    Examples
    --------
    >>> said = saying(str)
    >>> said("5 % <b>"), said("%(jar)s & lid", jar="<b>")
    ('5 % <b>', Markup('&lt;b&gt; &amp; lid'))
    """

    def said(text: str, **values: object) -> str:
        # "" is what a catalogue tells of itself.
        spoken = translate(text) if text else text
        return escape(spoken) % values if values else spoken

    return said


def with_chosen(options: Markup, value: str) -> Markup:
    """A list of options, drawn once for several fields, with one of them chosen.

    Examples
    --------
    >>> with_chosen(Markup('<option value="a">A</option><option value="b">B</option>'), "b")
    Markup('<option value="a">A</option><option value="b" selected>B</option>')
    """
    mark = Markup('<option value="{}"').format(value)
    return options.replace(mark, mark + Markup(" selected"), 1) if value else options


def upper_first(text: str) -> str:
    """The text with its first letter in upper case, the rest as it is."""
    return text[:1].upper() + text[1:]


@cache
def static(path: str) -> str:
    """The address of a static file, with its content's mark, so that it may be kept for long.

    Raises
    ------
    FileNotFoundError
        A template names a file that does not ship.
    """
    mark = hashlib.sha256((_HERE / "static" / path).read_bytes()).hexdigest()[:10]
    return f"/static/{path}?v={mark}"
