"""The certificate made on the spot, judged by OpenSSL, which did not make it."""

import ssl
import stat
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric.ec import SECP256R1, EllipticCurvePrivateKey
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)

from stillroom.web.security.certificate import (
    LEAF_HOLDS,
    RENEWED_BEFORE,
    Files,
    authority_file,
    certificate,
    fingerprint,
)
from tests.web.security.house import House

NOW = datetime.now(UTC).replace(microsecond=0)
ADDRESS, NAME = "192.168.1.20", "pantry.local"


def made(folder: Path, now: datetime = NOW, addresses: Sequence[str] = (ADDRESS,)) -> Files:
    return certificate(folder, addresses, (NAME,), now)


def leaf(files: Files) -> x509.Certificate:
    return x509.load_pem_x509_certificate(files.chain.read_bytes())


def authority(folder: Path) -> x509.Certificate:
    return x509.load_pem_x509_certificate(authority_file(folder).read_bytes())


def shake(chain: Path, key: Path, trusted: Path, name: str) -> str:
    """The name of the other side after a TLS handshake in memory; OpenSSL checks all of it."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(chain, key)
    client = ssl.create_default_context(cafile=trusted)
    client.verify_flags |= ssl.VERIFY_X509_STRICT
    there, back = ssl.MemoryBIO(), ssl.MemoryBIO()
    asking = client.wrap_bio(back, there, server_hostname=name)
    answering = server.wrap_bio(there, back, server_side=True)
    for _ in range(10):
        done = 0
        for side in (asking, answering):
            try:
                side.do_handshake()
                done += 1
            except ssl.SSLWantReadError:
                pass
        if done == 2:
            break
    return asking.version() or ""


@pytest.mark.parametrize("name", [ADDRESS, NAME, "localhost", "127.0.0.1"])
def test_who_trusts_the_authority_trusts_this_computer(tmp_path: Path, name: str) -> None:
    files = made(tmp_path)

    assert shake(*files, authority_file(tmp_path), name) == "TLSv1.3"


@pytest.mark.parametrize("name", ["192.168.1.21", "cellar.local", "elsewhere.example"])
def test_it_stands_for_no_other_name(tmp_path: Path, name: str) -> None:
    files = made(tmp_path)

    with pytest.raises(ssl.SSLCertVerificationError, match=r"mismatch|not valid for"):
        shake(*files, authority_file(tmp_path), name)


def test_another_houses_authority_does_not_vouch_for_it(tmp_path: Path) -> None:
    files = made(tmp_path / "ours")
    made(tmp_path / "theirs")

    with pytest.raises(ssl.SSLCertVerificationError):
        shake(*files, authority_file(tmp_path / "theirs"), ADDRESS)


def _forged(folder: Path, name: x509.GeneralName) -> Files:
    """What a thief of the authority's key would sign."""
    by = authority(folder)
    key = load_pem_private_key((folder / "https" / "authority.key").read_bytes(), None)
    assert isinstance(key, EllipticCurvePrivateKey)
    signed = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([]))
        .issuer_name(by.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(NOW - timedelta(hours=1))
        .not_valid_after(NOW + timedelta(days=30))
        .add_extension(x509.SubjectAlternativeName([name]), critical=True)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(key.public_key()), critical=False
        )
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .sign(key, SHA256())
    )
    forged = Files(folder / "forged.crt", folder / "forged.key")
    forged.chain.write_bytes(signed.public_bytes(Encoding.PEM))
    forged.key.write_bytes(key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()))
    return forged


@pytest.mark.parametrize("name", ["elsewhere.example", "local.example", "8.8.8.8", "2001:db8::1"])
def test_a_stolen_authority_key_vouches_for_nothing_outside_a_household(
    tmp_path: Path, name: str
) -> None:
    made(tmp_path)
    told: x509.GeneralName
    try:
        told = x509.IPAddress(ip_address(name))
    except ValueError:
        told = x509.DNSName(name)

    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        shake(*_forged(tmp_path, told), authority_file(tmp_path), name)


@pytest.mark.parametrize("name", ["cellar.local", "cellar.home.arpa"])
def test_the_forger_of_the_test_above_can_forge(tmp_path: Path, name: str) -> None:
    """Else anything would be refused, for whatever reason."""
    made(tmp_path)

    forged = _forged(tmp_path, x509.DNSName(name))

    assert shake(*forged, authority_file(tmp_path), name) == "TLSv1.3"


def test_name_constraints_are_there_and_critical(tmp_path: Path) -> None:
    made(tmp_path)

    found = authority(tmp_path).extensions.get_extension_for_class(x509.NameConstraints)

    assert found.critical
    assert found.value.excluded_subtrees is None
    assert {str(one.value) for one in found.value.permitted_subtrees or ()} == {
        "local", "home.arpa", "localhost",
        "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
    }  # fmt: skip


def test_the_authority_signs_leaves_only_and_the_leaf_nothing(tmp_path: Path) -> None:
    files = made(tmp_path)
    above, below = authority(tmp_path), leaf(files)

    for one, is_authority in ((above, True), (below, False)):
        basic = one.extensions.get_extension_for_class(x509.BasicConstraints)
        usage = one.extensions.get_extension_for_class(x509.KeyUsage)
        assert (basic.critical, basic.value.ca) == (True, is_authority)
        assert usage.value.key_cert_sign is is_authority
        key = one.public_key()
        assert isinstance(key.curve, SECP256R1)  # type: ignore[union-attr]
    assert above.extensions.get_extension_for_class(x509.BasicConstraints).value.path_length == 0


def test_the_leaf_holds_395_days(tmp_path: Path) -> None:
    held = leaf(made(tmp_path))

    assert held.not_valid_after_utc - held.not_valid_before_utc == timedelta(days=395)


def test_keys_are_their_owners_only(tmp_path: Path) -> None:
    made(tmp_path)

    files = [file for file in (tmp_path / "https").iterdir() if file.suffix == ".key"]

    assert {file.name for file in files} == {"authority.key", "leaf.key"}
    assert {stat.S_IMODE(file.stat().st_mode) for file in files} == {0o600}
    assert stat.S_IMODE((tmp_path / "https").stat().st_mode) == 0o700
    assert not list((tmp_path / "https").glob("*.part"))


def test_a_good_certificate_is_kept(tmp_path: Path) -> None:
    before = leaf(made(tmp_path))

    assert leaf(made(tmp_path, NOW + timedelta(days=100))) == before


def test_a_new_address_gets_a_new_leaf_from_the_same_authority(tmp_path: Path) -> None:
    """Phones trust the authority; they need no second visit."""
    before, trusted = leaf(made(tmp_path)), authority(tmp_path)

    files = made(tmp_path, addresses=("192.168.7.7",))

    assert leaf(files) != before
    assert authority(tmp_path) == trusted
    assert shake(*files, authority_file(tmp_path), "192.168.7.7") == "TLSv1.3"


def test_a_leaf_near_its_end_is_made_anew(tmp_path: Path) -> None:
    before, trusted = leaf(made(tmp_path)), authority(tmp_path)
    nearly = before.not_valid_after_utc - RENEWED_BEFORE

    assert leaf(made(tmp_path, nearly - timedelta(days=1))) == before
    after = leaf(made(tmp_path, nearly))

    assert after.not_valid_after_utc > nearly + LEAF_HOLDS - timedelta(days=2)
    assert authority(tmp_path) == trusted


def test_an_authority_that_would_end_before_its_leaf_is_made_anew(tmp_path: Path) -> None:
    made(tmp_path)
    late = authority(tmp_path).not_valid_after_utc - timedelta(days=100)

    files = made(tmp_path, late)

    assert authority(tmp_path).not_valid_after_utc > leaf(files).not_valid_after_utc
    leaf(files).verify_directly_issued_by(authority(tmp_path))


@pytest.mark.parametrize("broken", ["authority.key", "authority.crt", "leaf.key", "leaf.crt"])
@pytest.mark.parametrize("content", [b"", b"-----BEGIN nonsense", None])
def test_a_broken_or_missing_file_is_made_anew(
    tmp_path: Path, broken: str, content: bytes | None
) -> None:
    made(tmp_path)
    file = tmp_path / "https" / broken
    if content is None:
        file.unlink()
    else:
        file.write_bytes(content)

    files = made(tmp_path)

    assert shake(*files, authority_file(tmp_path), ADDRESS) == "TLSv1.3"


def test_an_address_of_the_internet_is_left_out_rather_than_breaking_the_rest(
    tmp_path: Path,
) -> None:
    files = made(tmp_path, addresses=("8.8.8.8", ADDRESS))

    assert shake(*files, authority_file(tmp_path), ADDRESS) == "TLSv1.3"


def test_the_certificate_is_handed_out_without_its_key(opened_https: House) -> None:
    files = certificate(opened_https.doors.folder, (ADDRESS,), (), opened_https.clock())

    answer = opened_https.phone().get("/doors/certificate")

    assert answer.headers["content-type"] == "application/x-x509-ca-cert"
    assert answer.content == authority_file(opened_https.doors.folder).read_bytes()
    assert b"PRIVATE" not in answer.content
    assert answer.content != files.chain.read_bytes()


def test_the_fingerprint_is_shown_at_this_computer(opened_https: House) -> None:
    """In pairs, as phones show it; counted here by the standard library."""
    from hashlib import sha256

    certificate(opened_https.doors.folder, (ADDRESS,), (), opened_https.clock())
    der = ssl.PEM_cert_to_DER_cert(authority_file(opened_https.doors.folder).read_text("ascii"))
    opened_https.new_code()

    page = opened_https.here().get("/doors").text

    assert fingerprint(opened_https.doors.folder) == sha256(der).digest().hex(" ").upper()
    assert fingerprint(opened_https.doors.folder) in page


def test_there_is_none_without_https(opened: House) -> None:
    for path in ("/doors/certificate", "/doors/trust"):
        assert opened.phone().get(path).status_code == 404
