"""Certificates of the garden's own, checked by OpenSSL: it vouches for home networks and for nothing else."""

from __future__ import annotations

import ssl
import stat
from pathlib import Path

import pytest

from spadework.store import certificates
from spadework.store.certificates import FOLDER, Certificates, keep_certificates

NAMES = ("127.0.0.1", "localhost", "::1", "192.168.1.20", "shed", "shed.local")


def shakes(made: Certificates, name: str) -> None:
    """Whether a client that trusts the authority takes the server for this name; OpenSSL raises where not."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(made.certificate, made.key)
    client = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    client.load_verify_locations(cadata=made.authority.decode())
    here, there = ssl.MemoryBIO(), ssl.MemoryBIO()
    asks = client.wrap_bio(here, there, server_hostname=name)
    answers = server.wrap_bio(there, here, server_side=True)
    done = set()
    for _ in range(6):
        for side in (asks, answers):
            try:
                side.do_handshake()
                done.add(side)
            except ssl.SSLWantReadError:
                continue
    assert len(done) == 2


@pytest.mark.parametrize("name", NAMES)
def test_a_device_that_trusts_the_garden_takes_every_name_of_it(tmp_path: Path, name: str) -> None:
    shakes(keep_certificates(tmp_path, NAMES), name)


def test_another_name_is_not_taken(tmp_path: Path) -> None:
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch"):
        shakes(keep_certificates(tmp_path, NAMES), "192.168.1.21")


@pytest.mark.parametrize("name", ["bank.test", "8.8.8.8", "local.test"])
def test_the_authority_cannot_vouch_for_anything_elsewhere(
    tmp_path: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = keep_certificates(tmp_path, NAMES)
    # even somebody who has its key cannot: the certificate is made as if all names were covered
    monkeypatch.setattr(certificates, "_covers", lambda *_: True)
    stolen = keep_certificates(tmp_path, [name])
    assert stolen.authority == made.authority
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        shakes(stolen, name)


def test_they_are_kept_and_made_anew_for_a_new_address_only(tmp_path: Path) -> None:
    first = keep_certificates(tmp_path, NAMES)
    server = first.certificate.read_bytes()
    assert keep_certificates(tmp_path, NAMES).certificate.read_bytes() == server
    moved = keep_certificates(tmp_path, [*NAMES, "192.168.7.4"])
    assert moved.certificate.read_bytes() != server
    # devices that trust it go on trusting it
    assert moved.authority == first.authority
    shakes(moved, "192.168.7.4")


def test_keys_are_their_owners_alone(tmp_path: Path) -> None:
    keep_certificates(tmp_path, NAMES)
    assert stat.S_IMODE((tmp_path / FOLDER).stat().st_mode) == 0o700
    for file in (tmp_path / FOLDER).iterdir():
        assert stat.S_IMODE(file.stat().st_mode) == 0o600
