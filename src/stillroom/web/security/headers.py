"""What every answer tells the browser to hold to."""

from typing import Literal

from starlette.datastructures import MutableHeaders

# No page runs, shows or sends anything that is not ours. "data:" is for small drawings in CSS.
POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
# The device's own position may be asked for elevation, and only by our pages.
# Chromium 150 writes a warning for a name that it does not know, "bluetooth" among them.
_NOT_USED = ("camera", "microphone", "payment", "usb", "serial", "midi", "hid")
PERMISSIONS = ", ".join(("geolocation=(self)", *(f"{name}=()" for name in _NOT_USED)))

ALWAYS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    # "no-referrer" would make browsers send "Origin: null" with our own forms (Fetch standard,
    # "append a request Origin header"). Nothing is told to other sites by this one either.
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": PERMISSIONS,
}


# The address of a shipped file changes with its content (``render.static``).
_KEPT = {"long": "public, max-age=31536000, immutable", "checked": "no-cache", "never": "no-store"}


def protect(headers: MutableHeaders, *, kept: Literal["long", "checked", "never"]) -> None:
    """Add what every answer carries, and whether the browser may keep it."""
    for name, value in ALWAYS.items():
        headers[name] = value
    headers["cache-control"] = _KEPT[kept]
