"""Signatures against RFC 8032's own vectors, and our plain check against `cryptography`'s."""

from __future__ import annotations

import os
import stat
import threading

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from hypothesis import given, settings
from hypothesis import strategies as st

from lastbolt.actions import check_signature
from lastbolt.errors import StoreError
from lastbolt.keys.signing import FILE_NAME, SigningKey, is_signed, signing_key

RFC_8032 = {
    "TEST 1": (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46b"
        "d25bf5f0595bbe24655141438e7a100b",
    ),
    "TEST 2": (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c"
        "387b2eaeb4302aeeb00d291612bb0c00",
    ),
    "TEST 3": (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc659"
        "4a7c15e9716ed28dc027beceea1ec40a",
    ),
    "TEST SHA(abc)": (
        "833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42",
        "ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf",
        "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd"
        "454d4423643ce80e2a9ac94fa54ca49f",
        "dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e030"
        "3dca179c138ac17ad9bef1177331a704",
    ),
}
"""RFC 8032, section 7.1: secret key, public key, message, signature."""


@pytest.mark.parametrize("name", RFC_8032)
def test_the_vectors_of_rfc_8032(name: str):
    secret, public, message, signature = RFC_8032[name]
    key = SigningKey(Ed25519PrivateKey.from_private_bytes(bytes.fromhex(secret)))

    assert key.public == public
    assert key.sign(bytes.fromhex(message)) == signature
    assert is_signed(public, bytes.fromhex(message), signature)
    assert check_signature.is_signed(public, bytes.fromhex(message), signature)


@settings(max_examples=30, deadline=None)
@given(st.binary(min_size=32, max_size=32), st.binary(max_size=300), st.integers(0, 8 * 64 - 1))
def test_the_plain_check_agrees_with_the_library(secret: bytes, message: bytes, bit: int):
    key = SigningKey(Ed25519PrivateKey.from_private_bytes(secret))
    signature = key.sign(message)
    flipped = bytearray(bytes.fromhex(signature))
    flipped[bit // 8] ^= 1 << bit % 8

    assert check_signature.is_signed(key.public, message, signature)
    assert not check_signature.is_signed(key.public, message, flipped.hex())
    assert not check_signature.is_signed(key.public, message + b"!", signature)
    assert not is_signed(key.public, message, flipped.hex())


@settings(max_examples=60, deadline=None)
@given(st.binary(min_size=32, max_size=32), st.binary(min_size=64, max_size=64))
def test_bytes_at_random_are_refused_as_the_library_refuses_them(public: bytes, signature: bytes):
    ours = check_signature.is_signed(public.hex(), b"words", signature.hex())

    assert ours == is_signed(public.hex(), b"words", signature.hex())


def test_a_signature_whose_number_was_made_larger_by_the_order_is_refused():
    _, public, message, signature = RFC_8032["TEST 2"]
    number = int.from_bytes(bytes.fromhex(signature[64:]), "little") + check_signature.ORDER
    stretched = signature[:64] + number.to_bytes(32, "little").hex()

    assert not check_signature.is_signed(public, bytes.fromhex(message), stretched)
    assert not is_signed(public, bytes.fromhex(message), stretched)


@pytest.mark.parametrize("wrong", ["", "zz", "00" * 31, "D7" * 32, None])
def test_what_is_no_key_is_refused(wrong: str):
    assert not check_signature.is_signed(wrong, b"words", "00" * 64)


def test_the_key_is_made_once_and_read_by_its_owner_alone(tmp_path):
    folder = tmp_path / "keys"
    first = signing_key(folder)

    assert signing_key(folder).public == first.public
    assert stat.S_IMODE((folder / FILE_NAME).stat().st_mode) == 0o600
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert os.listdir(folder) == [FILE_NAME]


def test_many_that_make_it_at_once_get_one_key(tmp_path):
    found: list[str] = []
    threads = [threading.Thread(target=lambda: found.append(signing_key(tmp_path).public)) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert len(found) == 8 and len(set(found)) == 1


def test_a_damaged_key_is_told_in_one_sentence(tmp_path):
    signing_key(tmp_path)
    (tmp_path / FILE_NAME).write_bytes(b"not a key")

    with pytest.raises(StoreError, match="no signing key any more"):
        signing_key(tmp_path)
