"""An authority of the garden's own and a certificate it vouches for, in a folder only its owner can read.

The authority can vouch for home networks and this computer's names only, as RFC 5280 (2008, section 4.2.1.10)
lets it be told. Copies and exports leave hidden folders out.
"""

from __future__ import annotations

import ipaddress
import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from spadework.errors import StoreError

if TYPE_CHECKING:
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric import ec

FOLDER: Final = ".https"
AUTHORITY: Final = "authority.crt"
AUTHORITY_KEY: Final = "authority.key"
CERTIFICATE: Final = "server.crt"
KEY: Final = "server.key"

AUTHORITY_DAYS: Final = 3650
DAYS: Final = 397
"""A certificate is good for so long; devices refuse longer ones. Class: common-practice."""
RENEW_DAYS: Final = 60

HOME_NETWORKS: Final = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8")
"""Address blocks for private use, link and loopback: RFC 1918 (1996), RFC 3927 (2005), RFC 1122 (1989)."""


@dataclass(frozen=True)
class Certificates:
    """Where a server finds its certificate and key, and the authority's certificate as text (PEM)."""

    certificate: Path
    key: Path
    authority: bytes


def keep_certificates(garden: Path, names: Sequence[str]) -> Certificates:
    """Make what is missing, too old, or for other names; keep the authority as long as it covers the names.

    Parameters
    ----------
    garden : Path
    names : sequence of str
        Names and addresses of the server.

    Raises
    ------
    StoreError
        If the folder cannot be written or what is in it cannot be read.
    """
    folder = garden / FOLDER
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
        authority, authority_key = _authority(folder, names)
        if not _is_good(folder, names, authority):
            _make_certificate(folder, names, authority, authority_key)
        return Certificates(folder / CERTIFICATE, folder / KEY, (folder / AUTHORITY).read_bytes())
    except OSError as error:
        raise StoreError(
            f"{folder} cannot be used: {error.strerror}.", "Check the folder and the disk."
        ) from None
    except ValueError as error:
        raise StoreError(
            f"A certificate in {folder} cannot be read: {error}.", "Delete the folder."
        ) from None


def _authority(folder: Path, names: Sequence[str]) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    from cryptography import x509
    from cryptography.hazmat.primitives import hashes, serialization
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.x509.oid import NameOID

    if (folder / AUTHORITY).is_file() and (folder / AUTHORITY_KEY).is_file():
        there = x509.load_pem_x509_certificate((folder / AUTHORITY).read_bytes())
        key: Any = serialization.load_pem_private_key((folder / AUTHORITY_KEY).read_bytes(), None)
        permitted = there.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees
        lasts = there.not_valid_after_utc - timedelta(days=DAYS) > datetime.now(UTC)
        if lasts and all(_covers(permitted or [], name) for name in names):
            return there, key
    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Spadework, a garden of your own network")])
    usage = _usage(signs=True)
    made = (
        _started(called, called, key.public_key(), AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(usage, critical=True)
        .add_extension(x509.NameConstraints(_permitted(names), None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    _keep(folder / AUTHORITY_KEY, _key_text(key))
    _keep(folder / AUTHORITY, made.public_bytes(serialization.Encoding.PEM))
    return made, key


def _make_certificate(
    folder: Path, names: Sequence[str], authority: x509.Certificate, authority_key: ec.EllipticCurvePrivateKey
) -> None:
    from cryptography import x509
    from cryptography.hazmat.primitives import hashes, serialization
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Spadework")])
    made = (
        _started(called, authority.subject, key.public_key(), DAYS)
        .add_extension(x509.SubjectAlternativeName([_general(name) for name in names]), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(authority_key.public_key()), critical=False
        )
        .sign(authority_key, hashes.SHA256())
    )
    _keep(folder / KEY, _key_text(key))
    _keep(folder / CERTIFICATE, made.public_bytes(serialization.Encoding.PEM))


def _is_good(folder: Path, names: Sequence[str], authority: x509.Certificate) -> bool:
    from cryptography import x509
    from cryptography.exceptions import InvalidSignature

    if not (folder / CERTIFICATE).is_file() or not (folder / KEY).is_file():
        return False
    there = x509.load_pem_x509_certificate((folder / CERTIFICATE).read_bytes())
    said = there.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    try:
        there.verify_directly_issued_by(authority)
    except (InvalidSignature, TypeError, ValueError):
        return False
    lasts = there.not_valid_after_utc - timedelta(days=RENEW_DAYS) > datetime.now(UTC)
    return lasts and all(_general(name) in said for name in names)


def _started(
    called: x509.Name, by: x509.Name, key: ec.EllipticCurvePublicKey, days: int
) -> x509.CertificateBuilder:
    from cryptography import x509

    now = datetime.now(UTC)
    return (
        x509.CertificateBuilder()
        .subject_name(called)
        .issuer_name(by)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=1))
        .not_valid_after(now + timedelta(days=days))
    )


def _usage(*, signs: bool) -> x509.KeyUsage:
    from cryptography import x509

    return x509.KeyUsage(
        digital_signature=not signs,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs,
        crl_sign=signs,
        encipher_only=False,
        decipher_only=False,
    )


def _general(name: str) -> x509.GeneralName:
    from cryptography import x509

    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def _permitted(names: Sequence[str]) -> list[x509.GeneralName]:
    """What the authority may vouch for: home networks, names ending in .local, and these names themselves."""
    from cryptography import x509

    found: list[x509.GeneralName] = [x509.IPAddress(ipaddress.ip_network(each)) for each in HOME_NETWORKS]
    found.append(x509.DNSName("local"))
    for name in names:
        if not _covers(found, name):
            try:
                found.append(x509.IPAddress(ipaddress.ip_network(name)))
            except ValueError:
                found.append(x509.DNSName(name))
    return found


def _covers(permitted: Sequence[x509.GeneralName], name: str) -> bool:
    try:
        address = ipaddress.ip_address(name)
    except ValueError:
        return any(
            isinstance(each.value, str) and (name == each.value or name.endswith(f".{each.value}"))
            for each in permitted
        )
    networks = (each.value for each in permitted if not isinstance(each.value, str))
    return any(address.version == each.version and address in each for each in networks)


def _key_text(key: ec.EllipticCurvePrivateKey) -> bytes:
    from cryptography.hazmat.primitives import serialization

    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _keep(path: Path, content: bytes) -> None:
    """Written so that nobody but its owner can read it at any moment."""
    part = path.with_suffix(".new")
    part.unlink(missing_ok=True)
    with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    os.replace(part, path)
