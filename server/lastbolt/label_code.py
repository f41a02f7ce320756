"""The text inside a printed label: made, shown, read back, slips caught; never files, clock or jobs."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from typing import NewType

from .errors import BadInputError
from .said import said

LabelCode = NewType("LabelCode", str)
"""A whole code in its compact form, check character right: `T0042E`."""

HIGHEST_NUMBER = 999_999
"""Six digits: the shown form then has ten characters, all that QR version 1 holds at level H."""

_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_LONGEST_TEXT = 300
_SLIPS = str.maketrans("OIL", "011")
_DASHES = re.compile("[\u2010-\u2015\u2212]")
_SHAPE = re.compile(r"([A-Z0])[- ]*([0-9OIL]{4,6})[- ]*([0-9A-Z])")
_ADDRESS = re.compile(r"HTTPS?://[0-9A-Z.-]+(?::[0-9]{1,5})?")
_URL = re.compile(
    r"https?://[0-9a-z.\-:@\[\]]+(?:/[0-9a-z._~%+-]*)*?/[lt]/([0-9a-z-]+)/?(?:[?#][!-~]*)?", re.I
)
_SEGMENT = re.compile(r"[0-9A-Z]{4,12}")


class Kind(StrEnum):
    """What a label is bound to, by its first letter; the kind decides what a scan means."""

    TRAY = "T"
    BAG = "B"
    PART = "P"
    OPENING = "O"
    COVER = "C"
    KIT = "K"
    WRENCH = "W"
    PERSON = "H"
    MACHINE = "M"
    JOB = "J"
    PLACE = "S"


@dataclass(frozen=True, slots=True)
class ReadCode:
    """What stands in a scanned symbol: `code` compact and in capitals, `checked` if its last one fits."""

    code: str
    checked: bool


@dataclass(frozen=True, slots=True)
class Slip:
    """A typed code that cannot be right; `reason` is one sentence for the person at the keypad."""

    reason: str


def check_character(text: str) -> str:
    """Compute the check character of letters and digits by ISO 7064, MOD 37,36 (hybrid system).

    >>> check_character("A12425GABC1234002")
    'M'
    """
    rest = 36
    for character in text:
        rest = ((rest + _ALPHABET.index(character)) % 36 or 36) * 2 % 37
    return _ALPHABET[(1 - rest) % 36]


def make(kind: Kind | str, number: int) -> LabelCode:
    """Make the code of a kind and number (1 to 999 999), at least four digits long.

    >>> make(Kind.TRAY, 42), make("B", 12345)
    ('T0042E', 'B12345V')

    Raises:
        BadInputError: the kind letter is not ours, or the number is out of range.
    """
    if kind not in set(Kind):
        raise BadInputError(
            said("{kind} is no kind of label; use one of {letters}", kind=repr(kind), letters=_letters())
        )
    if not 1 <= number <= HIGHEST_NUMBER:
        raise BadInputError(
            said(
                "label number {number} is out of range; numbers run from 1 to {highest}",
                number=number,
                highest=HIGHEST_NUMBER,
            )
        )
    body = f"{Kind(kind).value}{number:04d}"
    return LabelCode(body + check_character(body))


def shown(code: LabelCode) -> str:
    """Write a code as people read it.

    >>> shown(make("T", 42))
    'T-0042-E'
    """
    return f"{code[0]}-{code[1:-1]}-{code[-1]}"


def printed(name: str) -> str:
    """Write a thing's name as people read it: a name that is one of our codes as its label is printed.

    >>> printed("T0042E"), printed("tin by the vice"), printed("T0042A")
    ('T-0042-E', 'tin by the vice', 'T0042A')
    """
    found = read(name)
    return shown(LabelCode(found.code)) if found and found.checked else name


def kind_of(code: LabelCode) -> Kind:
    """Tell what a code is bound to.

    >>> kind_of(make("W", 7)).name
    'WRENCH'
    """
    return Kind(code[0])


def number_of(code: LabelCode) -> int:
    """Give the running number of a code.

    >>> number_of(make("T", 42))
    42
    """
    return int(code[1:-1])


def payload(code: LabelCode, *, address: str | None) -> str:
    """Write what the printed symbol holds: the shown form, or the label's page on the shop's server.

    All upper case, so that the symbol stays in its small alphanumeric mode.

    >>> payload(make("T", 42), address="http://192.168.1.20:8000")
    'HTTP://192.168.1.20:8000/L/T0042E'

    Raises:
        BadInputError: the address is more than scheme, host name and port.
    """
    if address is None:
        return shown(code)
    loud = address.strip().rstrip("/").upper()
    if not _ADDRESS.fullmatch(loud):
        raise BadInputError(
            said(
                "{address} cannot go into a label; give scheme, host and port like http://192.168.1.20:8000",
                address=repr(address[:80]),
            )
        )
    return f"{loud}/L/{code}"


def read(text: str) -> ReadCode | None:
    """Read what a decoder found in a symbol; None when it is no label of this kind of shop.

    Takes the compact and the shown form in any case, O for 0 and I or L for 1 among the digits, and any web
    address whose path ends in /L/CODE or /T/CODE. Such an address with 4 to 12 other letters and digits at
    its end is a label too, but nothing vouches for it: `checked` is False. The text is only looked at, never
    followed.

    >>> read("t-oo42-e"), read("http://shop.lan/t/MR8JZ"), read("https://example.org/")
    (ReadCode(code='T0042E', checked=True), ReadCode(code='MR8JZ', checked=False), None)
    """
    if len(text) > _LONGEST_TEXT or not text.isprintable():
        return None
    plain = _DASHES.sub("-", text).strip()
    if not plain.isascii():
        return None
    address = _URL.fullmatch(plain)
    ours = _ours((address[1] if address else plain).upper())
    if ours or not address:
        return ours
    segment = address[1].upper()
    return ReadCode(segment, checked=False) if _SEGMENT.fullmatch(segment) else None


def code_in(text: str) -> str | None:
    """Give the code that a symbol's text names, None where it names none.

    >>> code_in("T-0042-E"), code_in("HTTPS://EXAMPLE.ORG/X/12")
    ('T0042E', None)
    """
    found = read(text)
    return found.code if found else None


def typed(text: str) -> LabelCode | Slip:
    """Take a code typed at the keypad, or say what is wrong with it in one sentence.

    >>> typed("t 0042 e")
    'T0042E'
    >>> typed("T-0043-E").reason
    'T-0043-E has a slip in it: the last character does not fit the rest; compare it with the label.'
    """
    plain = re.sub(r"[-\s]", "", _DASHES.sub("-", text)).upper()
    found = _ours(plain) if plain.isascii() else None
    if found is None:
        return Slip(_why_no_code(plain))
    if not found.checked:
        form = (
            "{label} has a slip in it: the last character does not fit the rest; compare it with the label."
        )
        return Slip(said(form, label=shown(LabelCode(found.code))))
    return LabelCode(found.code)


def _ours(text: str) -> ReadCode | None:
    shape = _SHAPE.fullmatch(text)
    if not shape:
        return None
    letter, digits, last = shape[1].replace("0", "O"), shape[2].translate(_SLIPS), shape[3]
    if letter not in set(Kind) or int(digits) == 0 or (len(digits) > 4 and digits[0] == "0"):
        return None
    expected = check_character(letter + digits)
    if last.translate(_SLIPS) == expected.translate(_SLIPS):
        return ReadCode(letter + digits + expected, checked=True)
    return ReadCode(letter + digits + last, checked=False)


def _why_no_code(plain: str) -> str:
    example = "T-0042-E"
    if not plain:
        return said("Nothing was typed; type all that stands on the label, like {example}.", example=example)
    if len(plain) > 12 or not re.fullmatch("[0-9A-Z]+", plain):
        form = "That is no label code; a code is a letter, a number and a last character, like {example}."
        return said(form, example=example)
    if plain[0].replace("0", "O") not in set(Kind):
        form = "No label begins with {letter}; a code begins with one of {letters}, like {example}."
        return said(form, letter=plain[0], letters=_letters(), example=example)
    digits = plain[1:-1].translate(_SLIPS)
    if len(digits) < 4:
        form = "{code} is too short; a code is a letter, four digits or more and a last character: {example}."
        return said(form, code=plain, example=example)
    if not digits.isdigit():
        form = "In {code} something between the first letter and the last character is no digit; compare it."
        return said(form, code=plain)
    form = (
        "{code} is no number that was ever printed; compare it with the label, and mind the zeros in front."
    )
    return said(form, code=plain)


def _letters() -> str:
    return " ".join(kind.value for kind in Kind)
