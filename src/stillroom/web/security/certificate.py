"""A certificate made on the spot: an authority for this household, and a leaf for this computer.

The authority can vouch for private addresses and household names only (critical name constraints),
so that a stolen key is of no use against any site of the internet.

Source
------
RFC 5280, sections 4.2.1.9 and 4.2.1.10; 395 days for a leaf: common practice for browsers.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta
from ipaddress import IPv4Network, ip_address, ip_network
from pathlib import Path
from typing import NamedTuple

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ec import (
    SECP256R1,
    EllipticCurvePrivateKey,
    generate_private_key,
)
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from stillroom.web.security.addresses import NETWORKS
from stillroom.web.security.keys import write_private

LEAF_HOLDS = timedelta(days=395)
AUTHORITY_HOLDS = timedelta(days=3650)
RENEWED_BEFORE = timedelta(days=30)
_SKEW = timedelta(days=1)  # A phone's clock may be behind.
_ALWAYS = ("localhost", "127.0.0.1")
NAMES = ("local", "home.arpa", "localhost")
VOUCHED_FOR = (*NETWORKS, IPv4Network("127.0.0.0/8"))


class Files(NamedTuple):
    """What the server presents: the leaf with its authority, and the leaf's key."""

    chain: Path
    key: Path


class _Pair(NamedTuple):
    certificate: x509.Certificate
    key: EllipticCurvePrivateKey


def authority_file(folder: Path) -> Path:
    """Where the authority's certificate lies."""
    return folder / "https" / "authority.crt"


def fingerprint(folder: Path) -> str:
    """The authority's SHA-256 fingerprint in pairs, as phones show it; "" where there is none."""
    file = authority_file(folder)
    if not file.exists():
        return ""
    read = x509.load_pem_x509_certificate(file.read_bytes())
    return read.fingerprint(SHA256()).hex(" ").upper()


def certificate(
    folder: Path, addresses: Sequence[str], names: Sequence[str], now: datetime
) -> Files:
    """Files to serve HTTPS with; made anew where addresses changed or the end is near.

    Parameters
    ----------
    folder : files go to ``https/`` in it, readable by their owner only
    addresses, names : under which devices find this computer; those of no household are left out
    now : with its zone

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    here = folder / "https"
    authority = _read(here / "authority.crt", here / "authority.key")
    if authority is None or _ends(authority) < now + LEAF_HOLDS:
        authority = _make_authority(now)
        _write(here / "authority.crt", here / "authority.key", authority)
    files = Files(here / "leaf.crt", here / "leaf.key")
    wanted = _alternatives([*_ALWAYS, *addresses, *names])
    leaf = _read(*files)
    if leaf is None or not _holds(leaf, authority, wanted, now):
        _write(*files, _make_leaf(authority, wanted, now), authority.certificate)
    return files


def _ends(pair: _Pair) -> datetime:
    return pair.certificate.not_valid_after_utc


def _holds(leaf: _Pair, authority: _Pair, wanted: set[x509.GeneralName], now: datetime) -> bool:
    told = leaf.certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    try:
        leaf.certificate.verify_directly_issued_by(authority.certificate)
    except (ValueError, TypeError, InvalidSignature):
        return False
    return set(told) == wanted and _ends(leaf) > now + RENEWED_BEFORE


def _alternatives(told: Sequence[str]) -> set[x509.GeneralName]:
    """What the leaf is for: only what its authority may vouch for, or it would be refused whole."""
    found: set[x509.GeneralName] = set()
    for text in told:
        try:
            address = ip_address(text)
        except ValueError:
            if any(text == name or text.endswith(f".{name}") for name in NAMES):
                found.add(x509.DNSName(text))
        else:
            if any(address in network for network in VOUCHED_FOR):
                found.add(x509.IPAddress(address))
    return found


def _make_authority(now: datetime) -> _Pair:
    key = generate_private_key(SECP256R1())
    name = x509.Name(
        [
            x509.NameAttribute(NameOID.ORGANIZATION_NAME, "Stillroom"),
            x509.NameAttribute(NameOID.COMMON_NAME, f"Stillroom of this household, {now.year}"),
        ]
    )
    permitted: list[x509.GeneralName] = [x509.DNSName(name) for name in NAMES]
    permitted += [x509.IPAddress(ip_network(network)) for network in VOUCHED_FOR]
    made = (
        _begun(name, name, key, now, AUTHORITY_HOLDS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .sign(key, SHA256())
    )
    return _Pair(made, key)


def _make_leaf(authority: _Pair, wanted: set[x509.GeneralName], now: datetime) -> _Pair:
    key = generate_private_key(SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Stillroom on this computer")])
    by = authority.certificate
    made = (
        _begun(name, by.subject, key, now, LEAF_HOLDS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(sorted(wanted, key=str)), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key()),
            critical=False,
        )
        .sign(authority.key, SHA256())
    )
    return _Pair(made, key)


def _begun(
    name: x509.Name, by: x509.Name, key: EllipticCurvePrivateKey, now: datetime, holds: timedelta
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(by)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - _SKEW)
        .not_valid_after(now - _SKEW + holds)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _read(file: Path, key_file: Path) -> _Pair | None:
    """A certificate with its key; None where either is missing, broken or of the other kind."""
    try:
        read = x509.load_pem_x509_certificate(file.read_bytes())
        key = load_pem_private_key(key_file.read_bytes(), None)
    except (OSError, ValueError, TypeError):
        return None
    if not isinstance(key, EllipticCurvePrivateKey) or key.public_key() != read.public_key():
        return None
    return _Pair(read, key)


def _write(file: Path, key_file: Path, pair: _Pair, *above: x509.Certificate) -> None:
    plain = pair.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    write_private(key_file, plain)
    chain = [pair.certificate, *above]
    write_private(file, b"".join(one.public_bytes(Encoding.PEM) for one in chain))
