"""Certificates for https in the home network, made here when they are needed."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from spadework.store.certificates import Certificates, keep_certificates


def certificates_for(garden: Path, names: Sequence[str]) -> Certificates:
    """A certificate for a server's names and addresses, and the authority that vouches for it.

    Raises
    ------
    StoreError
        If they cannot be kept.
    """
    return keep_certificates(garden, [name.strip("[]") for name in names])
