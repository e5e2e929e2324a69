"""This computer's addresses in the household's network, found without sending anything."""

import socket
from contextlib import suppress
from ipaddress import IPv4Address, IPv4Network

# Private use (RFC 1918), and what a computer takes where nobody hands out addresses (RFC 3927).
NETWORKS = tuple(
    IPv4Network(text)
    for text in ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16")
)
# Asking which of our addresses would be used towards these sends nothing (UDP connect).
_TOWARDS = ("192.168.255.255", "10.255.255.255", "172.31.255.255")


def own_addresses() -> tuple[str, ...]:
    """Private IPv4 addresses, the one most likely used first; none where there is no network."""
    found = [_towards(address) for address in _TOWARDS]
    # A computer need not know its own name.
    with suppress(OSError):
        found += socket.gethostbyname_ex(socket.gethostname())[2]
    return tuple(dict.fromkeys(address for address in found if _is_of_a_household(address)))


def own_names() -> tuple[str, ...]:
    """The name under which phones may find this computer, where its system announces it (mDNS)."""
    plain = socket.gethostname().partition(".")[0].lower()
    is_name = plain and plain != "localhost" and all(s.isalnum() or s == "-" for s in plain)
    return (f"{plain}.local",) if is_name and plain.isascii() else ()


def _towards(address: str) -> str:
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
            asking.connect((address, 9))
            return str(asking.getsockname()[0])
    except OSError:
        return ""


def _is_of_a_household(address: str) -> bool:
    try:
        read = IPv4Address(address)
    except ValueError:
        return False
    return any(read in network for network in NETWORKS)
