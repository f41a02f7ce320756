"""The shop's own certificate authority: HTTPS on the shop's network without anybody outside.

The authority can vouch for names that end in .local or .lan and for private addresses, and for nothing else
(RFC 5280, 4.2.1.10): were its key stolen, no other site could be imitated with it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network, ip_address, ip_network
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from ..errors import StoreError
from ..whole_file import whole_file

NAMES = ("local", "lan", "localhost")
NETWORKS: tuple[IPv4Network | IPv6Network, ...] = tuple(
    ip_network(each)
    for each in (
        "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
        "fc00::/7", "fe80::/10", "::1/128",
    )
)  # fmt: skip
"""Private, link-local and loopback addresses (RFC 1918, 3927, 4193, 4291, 1122)."""
AUTHORITY_LASTS = timedelta(days=3650)
SERVER_LASTS = timedelta(days=397)
"""The most that browsers take from public authorities; Apple takes 825 days from others (from memory)."""
RENEWED_BEFORE = timedelta(days=30)
SLOW_CLOCKS = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Served:
    """Where a server's certificate and key lie; the authority's certificate (DER) and its SHA-256."""

    certificate: Path
    key: Path
    authority: bytes
    fingerprint: str


def served_with(folder: Path, names: Iterable[str], now: datetime) -> Served:
    """Give a certificate for these names and addresses, made or renewed where that is needed.

    The authority's key and the server's lie in the folder, readable by their owner alone. Names that the
    authority may not vouch for are left out.

    Raises:
        StoreError: the folder cannot be used.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        key, authority = _authority(folder, now)
        wanted = _allowed(names)
        certificate, own_key = folder / "server.crt", folder / "server.key"
        if not _is_good(certificate, own_key, wanted, now, authority):
            _renew(certificate, own_key, (key, authority), wanted, now)
    except (OSError, ValueError) as error:
        raise StoreError(
            f"the certificates in {folder} cannot be used ({error}); see who owns the folder"
        ) from error
    der = authority.public_bytes(serialization.Encoding.DER)
    mark = authority.fingerprint(hashes.SHA256()).hex(" ", 2).upper()
    return Served(certificate, own_key, der, mark)


def _authority(folder: Path, now: datetime) -> tuple[ec.EllipticCurvePrivateKey, x509.Certificate]:
    """Read the authority, or make it at the first start and anew when it is about to end."""
    key_path, path = folder / "authority.key", folder / "authority.crt"
    if key_path.exists() and path.exists():
        key = serialization.load_pem_private_key(key_path.read_bytes(), None)
        found = x509.load_pem_x509_certificate(path.read_bytes())
        if isinstance(key, ec.EllipticCurvePrivateKey) and now < found.not_valid_after_utc - SERVER_LASTS:
            return key, found
    made = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name(
        [x509.NameAttribute(NameOID.COMMON_NAME, f"Lastbolt of this shop, {now:%Y-%m-%d %H:%M}")]
    )
    certificate = (
        _begun(name, name, made.public_key(), now, AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(
            x509.NameConstraints([*map(x509.DNSName, NAMES), *map(x509.IPAddress, NETWORKS)], None),
            critical=True,
        )
        .sign(made, hashes.SHA256())
    )
    _write(key_path, _pem_of(made))
    _write(path, certificate.public_bytes(serialization.Encoding.PEM))
    return made, certificate


def _renew(
    certificate: Path,
    own_key: Path,
    signer: tuple[ec.EllipticCurvePrivateKey, x509.Certificate],
    wanted: tuple[x509.GeneralName, ...],
    now: datetime,
) -> None:
    key, authority = signer
    own = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Lastbolt")])
    made = (
        _begun(name, authority.subject, own.public_key(), now, SERVER_LASTS)
        .add_extension(x509.SubjectAlternativeName(wanted), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    _write(own_key, _pem_of(own))
    _write(certificate, made.public_bytes(serialization.Encoding.PEM))


def _begun(
    name: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: datetime, lasts: timedelta
) -> x509.CertificateBuilder:
    begins = now - SLOW_CLOCKS
    return (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(begins + lasts)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)
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


def _is_good(
    path: Path, key: Path, wanted: tuple[x509.GeneralName, ...], now: datetime, authority: x509.Certificate
) -> bool:
    """Tell whether the server's certificate is this authority's, lasts, and names all that is wanted."""
    if not (path.exists() and key.exists()):
        return False
    found = x509.load_pem_x509_certificate(path.read_bytes())
    named = found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    lasts = found.not_valid_before_utc <= now < found.not_valid_after_utc - RENEWED_BEFORE
    own = serialization.load_pem_private_key(key.read_bytes(), None)
    fits = isinstance(own, ec.EllipticCurvePrivateKey) and own.public_key() == found.public_key()
    return lasts and fits and found.issuer == authority.subject and set(wanted) <= set(named)


def _allowed(names: Iterable[str]) -> tuple[x509.GeneralName, ...]:
    """Turn names and addresses into what a certificate holds, but for those out of the authority's reach."""
    found: list[x509.GeneralName] = []
    for name in dict.fromkeys(("localhost", "127.0.0.1", *names)):
        address = _address(name)
        if address is None:
            if any(name == each or name.endswith(f".{each}") for each in NAMES):
                found.append(x509.DNSName(name))
        elif any(address in network for network in NETWORKS if network.version == address.version):
            found.append(x509.IPAddress(address))
    return tuple(found)


def _address(name: str) -> IPv4Address | IPv6Address | None:
    try:
        return ip_address(name)
    except ValueError:
        return None


def _pem_of(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _write(path: Path, content: bytes) -> None:
    with whole_file(path) as file:
        file.write(content)
