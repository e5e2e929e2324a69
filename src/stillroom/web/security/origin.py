"""Whose page sent a request, as the browser tells it."""

from starlette.datastructures import Headers

from stillroom.web.security.hosts import Host, host_of

READING = ("GET", "HEAD", "OPTIONS")


def is_foreign(method: str, headers: Headers, scheme: str, host: Host) -> bool:
    """Whether another site's page sent this.

    A link from elsewhere may open a page here, nothing more. A browser tells the origin of every
    change; "null" is the origin of a page that hides it. Programs tell none.
    """
    if method not in READING:
        origins = headers.getlist("origin")
        if origins and not (len(origins) == 1 and _same(origins[0], scheme, host)):
            return True
    site = headers.get("sec-fetch-site", "none")
    if site in ("same-origin", "none"):
        return False
    opens_a_page = (
        method in READING
        and headers.get("sec-fetch-mode") == "navigate"
        and headers.get("sec-fetch-dest") == "document"
    )
    return not opens_a_page


def _same(origin: str, scheme: str, host: Host) -> bool:
    told, _, rest = origin.partition("://")
    return told.lower() == scheme and host_of(rest, scheme) == host
