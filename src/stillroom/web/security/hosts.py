"""Under which names these pages answer, and which requests come from this very computer.

A page of the outside can make a browser ask any address, and can let its own name point at this
computer (DNS rebinding). The browser then sends that name as Host, so a name that is not ours is
refused. An address in digits cannot be made to point elsewhere.
"""

import re
from ipaddress import IPv4Address, ip_address
from typing import Any, NamedTuple

from starlette.datastructures import Headers

from stillroom.web.settings import Settings

_HOST = re.compile(r"(\[[0-9a-f:]{2,39}\]|[a-z0-9.-]{1,253})(?::([0-9]{1,5}))?", re.IGNORECASE)
_THIS_COMPUTER = ("localhost", "127.0.0.1", "[::1]")
# What a go-between adds. One on this computer would else lend its loopback address to everybody.
_PASSED_ON = ("forwarded", "via", "x-forwarded-for", "x-forwarded-host", "x-real-ip")
_PORTS = {"http": 80, "https": 443}


class Host(NamedTuple):
    """A name and the port after it."""

    name: str
    port: int


def host_of(text: str, scheme: str) -> Host | None:
    """A Host header or the end of an origin, read strictly; None where it is neither.

    Examples
    --------
    >>> host_of("Pantry.local:8642", "http")
    Host(name='pantry.local', port=8642)
    >>> host_of("localhost", "https")
    Host(name='localhost', port=443)
    >>> host_of("localhost:8642/x", "http") is None
    True
    """
    read = _HOST.fullmatch(text)
    if read is None:
        return None
    return Host(read[1].lower(), int(read[2] or _PORTS.get(scheme, 0)))


def asked_host(scope: Any) -> Host | None:
    """The one Host that a request names, with this server's own port; else None."""
    named = Headers(scope=scope).getlist("host")
    host = host_of(named[0], scope["scheme"]) if len(named) == 1 else None
    server = scope.get("server")
    return host if host and server and host.port == server[1] else None


def is_this_computers(host: Host) -> bool:
    """Whether a name means this computer wherever it is asked."""
    return host.name in _THIS_COMPUTER


def is_ours(host: Host, settings: Settings) -> bool:
    """Whether pages answer under that name."""
    if is_this_computers(host):
        return True
    return settings.open_to_household and (
        host.name in settings.names or _is_in_a_household(host.name)
    )


def may_ask(scope: Any, settings: Settings) -> bool:
    """Whether the asker's address lies where these pages are meant for.

    Open to the household, that is any address of a private network. Else it is this computer;
    where the server tells no address, the request came by no network.
    """
    peer = peer_of(scope)
    try:
        address = ip_address(peer)
    except ValueError:
        return not settings.open_to_household
    return address.is_loopback or (settings.open_to_household and not address.is_global)


def is_at_this_computer(scope: Any, host: Host, settings: Settings) -> bool:
    """Whether a person at this computer asks: from it, by its own name, passed on by nobody."""
    headers = Headers(scope=scope)
    if any(name in headers for name in _PASSED_ON):
        return False
    if not settings.open_to_household:
        return True
    try:
        from_here = ip_address(peer_of(scope)).is_loopback
    except ValueError:
        return False
    return from_here and is_this_computers(host)


def peer_of(scope: Any) -> str:
    """The asker's address as the server tells it, or ""."""
    client = scope.get("client")
    return str(client[0]) if client else ""


def _is_in_a_household(name: str) -> bool:
    try:
        return not IPv4Address(name).is_global
    except ValueError:
        return False
