"""How PINs are kept. OWASP Password Storage Cheat Sheet (read from memory, own words): Argon2id with at least
19 MiB, 2 rounds and 1 lane; a salt of its own for each secret; nothing shortened silently."""

import time

import pytest
from argon2 import extract_parameters
from argon2.low_level import ARGON2_VERSION, Type, core, ffi, lib

from lastbolt.errors import BadInputError
from lastbolt.people.pins import Hashing, is_guessed_first, sound
from lastbolt.settings import Settings


def test_the_library_gives_the_tag_of_rfc_9106():
    """RFC 9106, section 5.3: the test vector of Argon2id, version 0x13."""
    secrets = {"pwd": b"\x01" * 32, "salt": b"\x02" * 16, "secret": b"\x03" * 8, "ad": b"\x04" * 12}
    kept = {name: ffi.new("uint8_t[]", value) for name, value in secrets.items()}
    out = ffi.new("uint8_t[]", 32)
    context = ffi.new(
        "argon2_context *",
        {
            **kept,
            **{f"{name}len": len(value) for name, value in secrets.items()},
            **{"out": out, "outlen": 32, "version": ARGON2_VERSION},
            **{"t_cost": 3, "m_cost": 32, "lanes": 4, "threads": 4},
            **{"allocate_cbk": ffi.NULL, "free_cbk": ffi.NULL, "flags": lib.ARGON2_DEFAULT_FLAGS},
        },
    )
    assert core(context, Type.ID.value) == 0
    assert bytes(ffi.buffer(out)) == bytes.fromhex(
        "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659"
    )


def test_what_a_shop_uses_is_above_owasps_least(tmp_path):
    """OWASP: 46 MiB with 1 round and 1 lane, or 19 MiB with 2. RFC 9106, section 4: 128-bit salt, 256-bit tag."""
    kept = extract_parameters(Hashing(*Settings(data=tmp_path).pin_cost).hashed("4071"))
    assert (kept.type, kept.version) == (Type.ID, 0x13)
    assert kept.memory_cost >= 46 * 1024 and kept.time_cost >= 2 and kept.parallelism == 1
    assert (kept.salt_len, kept.hash_len) == (16, 32)


def test_what_a_try_costs_is_printed_beside_the_second_choice_of_rfc_9106(tmp_path):
    """Processor time, which another program's load does not lengthen; on one core it is the time to wait."""
    ours = cost_ms(Hashing(*Settings(data=tmp_path).pin_cost))
    theirs = cost_ms(Hashing(3, 65536, 4))
    print(f"\none try of a PIN: {ours:.0f} ms on one core; RFC 9106's second choice: {theirs:.0f} ms")
    assert theirs > ours


def cost_ms(hashing):
    kept, spans = hashing.hashed("4071"), []
    for _ in range(5):
        begun = time.process_time()
        assert hashing.fits("4071", kept)
        spans.append(time.process_time() - begun)
    return min(spans) * 1000


def test_the_same_pin_is_kept_differently_each_time_and_only_it_fits():
    hashing = Hashing(1, 64, 1)
    one, two = hashing.hashed("4071"), hashing.hashed("4071")
    assert one != two and "4071" not in one
    assert hashing.fits("4071", one) and hashing.fits("4071", two)
    assert not hashing.fits("4072", one) and not hashing.fits("", one) and not hashing.fits("4071", "no hash")


def test_a_long_passphrase_counts_to_its_last_letter():
    hashing, long = Hashing(1, 64, 1), "a" * 199
    assert not hashing.fits(long + "c", hashing.hashed(long + "b"))


@pytest.mark.parametrize("secret", ["4071", "90210377", "a rag in the intake", "grün und blau 7"])
def test_a_pin_of_4_to_8_digits_or_a_passphrase_is_taken(secret):
    assert sound(secret) == secret


@pytest.mark.parametrize(
    "secret",
    ["", "407", "123456789", "1234", "0000", "4321", "8901", "2424", "1987", "short", "a" * 201, "٤٠٧١"],
)
def test_what_is_too_short_too_long_or_guessed_first_is_refused_in_words(secret):
    with pytest.raises(BadInputError) as refused:
        sound(secret)
    assert len(str(refused.value)) > 20


def test_of_all_pins_of_four_digits_few_are_refused():
    assert sum(is_guessed_first(f"{pin:04d}") for pin in range(10_000)) < 400
