"""The shop's own authority, looked at by OpenSSL and by a real TLS handshake of Python's ssl."""

import shutil
import socket
import ssl
import subprocess
import threading
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from lastbolt.errors import StoreError
from lastbolt.keys.authority import served_with

NOW = datetime.now(UTC)
OPENSSL = shutil.which("openssl")
NAMES = ("192.168.1.20", "workshop.local", "workshop.lan", "203.0.113.9", "shop.example", "fd00::5")


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    return served_with(tmp_path_factory.mktemp("keys") / "keys", NAMES, NOW)


def named(certificate):
    found = x509.load_pem_x509_certificate(certificate.read_bytes())
    return found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value


def openssl(*words):
    return subprocess.run([OPENSSL, *map(str, words)], capture_output=True, text=True, check=False)


def authority_file(served, folder):
    path = folder / "authority.pem"
    path.write_text(ssl.DER_cert_to_PEM_cert(served.authority))
    return path


def test_keys_are_for_their_owner_alone(served):
    folder = served.key.parent
    assert folder.stat().st_mode & 0o777 == 0o700
    for path in folder.iterdir():
        assert path.stat().st_mode & 0o777 == 0o600, path


def test_public_names_and_addresses_are_left_out(served):
    san = named(served.certificate)
    assert set(san.get_values_for_type(x509.DNSName)) == {"localhost", "workshop.local", "workshop.lan"}
    assert set(map(str, san.get_values_for_type(x509.IPAddress))) == {"127.0.0.1", "192.168.1.20", "fd00::5"}


def test_openssl_accepts_the_chain_and_reads_what_was_meant(served, tmp_path):
    root = authority_file(served, tmp_path)
    done = openssl("verify", "-x509_strict", "-purpose", "sslserver", "-CAfile", root, served.certificate)
    assert done.returncode == 0, done.stdout + done.stderr
    said = openssl("x509", "-in", root, "-noout", "-text").stdout
    assert "prime256v1" in said and "CA:TRUE, pathlen:0" in said
    assert (
        "Name Constraints: critical" in said and "DNS:local" in said and "IP:192.168.0.0/255.255.0.0" in said
    )
    mark = openssl("x509", "-in", root, "-noout", "-fingerprint", "-sha256").stdout.split("=")[1]
    assert mark.replace(":", "").strip() == served.fingerprint.replace(" ", "")


@pytest.mark.parametrize("name", ["bank.example", "local.example", "notlocal"])
def test_with_the_authoritys_key_no_other_site_can_be_imitated(served, tmp_path, name):
    """RFC 5280, 4.2.1.10: a chain whose leaf lies outside the constraints does not hold; OpenSSL judges it."""
    root = authority_file(served, tmp_path)
    signer = serialization.load_pem_private_key((served.key.parent / "authority.key").read_bytes(), None)
    key = ec.generate_private_key(ec.SECP256R1())
    forged = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "forged")]))
        .issuer_name(x509.load_der_x509_certificate(served.authority).subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(NOW - timedelta(hours=1))
        .not_valid_after(NOW + timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName(name)]), critical=False)
        .sign(signer, hashes.SHA256())
    )
    leaf = tmp_path / "leaf.pem"
    leaf.write_bytes(forged.public_bytes(serialization.Encoding.PEM))
    done = openssl("verify", "-CAfile", root, leaf)
    assert done.returncode != 0 and "permitted subtree violation" in done.stdout + done.stderr


@pytest.mark.parametrize("name", ["localhost", "127.0.0.1", "workshop.local", "192.168.1.20"])
def test_a_client_that_trusts_the_authority_shakes_hands(served, name):
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(served.certificate, served.key)
    client = ssl.create_default_context(cadata=served.authority)
    ours, theirs = socket.socketpair()

    def answer():
        with server.wrap_socket(theirs, server_side=True) as wire:
            wire.sendall(b"here")

    thread = threading.Thread(target=answer)
    thread.start()
    with client.wrap_socket(ours, server_hostname=name) as wire:
        assert wire.recv(4) == b"here" and wire.version() in ("TLSv1.2", "TLSv1.3")
    thread.join()


def test_a_start_with_the_same_names_changes_nothing_and_a_new_address_renews(tmp_path):
    first = served_with(tmp_path, ("192.168.1.20",), NOW)
    bytes_then = first.certificate.read_bytes()
    assert served_with(tmp_path, ("192.168.1.20",), NOW).certificate.read_bytes() == bytes_then
    other = served_with(tmp_path, ("192.168.1.21",), NOW)
    assert other.certificate.read_bytes() != bytes_then and other.authority == first.authority
    assert ip_address("192.168.1.21") in named(other.certificate).get_values_for_type(x509.IPAddress)


def test_a_certificate_lasts_397_days_and_is_renewed_in_its_last_month(tmp_path):
    first = served_with(tmp_path, (), NOW)
    made = x509.load_pem_x509_certificate(first.certificate.read_bytes())
    assert made.not_valid_after_utc - made.not_valid_before_utc == timedelta(days=397)
    then = first.certificate.read_bytes()
    assert served_with(tmp_path, (), NOW + timedelta(days=365)).certificate.read_bytes() == then
    assert served_with(tmp_path, (), NOW + timedelta(days=368)).certificate.read_bytes() != then


def test_a_spoilt_key_is_told_in_a_sentence(tmp_path):
    served_with(tmp_path, (), NOW)
    (tmp_path / "authority.key").write_text("spoilt")
    with pytest.raises(StoreError, match="see who owns the folder"):
        served_with(tmp_path, (), NOW)
