"""The key that signs releases (Ed25519, RFC 8032): made at first use, kept in the data folder."""

from __future__ import annotations

from pathlib import Path

from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from ..errors import StoreError
from ..said import said
from ..whole_file import whole_file

FILE_NAME = "signing.pem"


class SigningKey:
    """Signs bytes in the shop's name."""

    def __init__(self, private: Ed25519PrivateKey) -> None:
        self._private = private

    @property
    def public(self) -> str:
        """Give the public key: 32 bytes as 64 lower-case hex digits."""
        return self._private.public_key().public_bytes_raw().hex()

    def sign(self, message: bytes) -> str:
        """Give the signature of a message: 64 bytes as 128 lower-case hex digits."""
        return self._private.sign(message).hex()


def signing_key(folder: Path) -> SigningKey:
    """Give the key of a folder, made at first use; its file may be read and written by its owner alone.

    Two programs that make it at once end up with one key: what stands there first is kept.

    Raises:
        StoreError: the key cannot be made or read.
    """
    path = folder / FILE_NAME
    try:
        if not path.exists():
            _make(path)
        return SigningKey(_read(path))
    except OSError as error:
        raise StoreError(
            said(
                "the signing key in {folder} cannot be used ({reason}); give the folder's owner the "
                "right to read and write it",
                folder=folder,
                reason=error.strerror or error,
            )
        ) from error


def is_signed(public: str, message: bytes, signature: str) -> bool:
    """Tell whether a signature over a message is that of a public key, both in hex digits."""
    try:
        Ed25519PublicKey.from_public_bytes(bytes.fromhex(public)).verify(bytes.fromhex(signature), message)
    except (InvalidSignature, ValueError):
        return False
    return True


def _read(path: Path) -> Ed25519PrivateKey:
    try:
        found = serialization.load_pem_private_key(path.read_bytes(), None)
    except (ValueError, TypeError, UnsupportedAlgorithm) as error:
        raise StoreError(
            said(
                "{path} is no signing key any more; put it back from the last backup, or move it "
                "away for a new key (what the old one signed stays provable)",
                path=path,
            )
        ) from error
    if not isinstance(found, Ed25519PrivateKey):
        raise StoreError(said("{path} is a key of another kind; move it away for a new one", path=path))
    return found


def _make(path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    pem = Ed25519PrivateKey.generate().private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    with whole_file(path, stays=True) as file:
        file.write(pem)
