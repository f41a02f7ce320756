"""Sentences that keep their form: the English text, and what another language needs to say it its own way."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from functools import reduce

GAP = re.compile(r"\{(\w+)\}")
"""A place in a form that a part fills, by the part's name."""
DECIMAL = re.compile(r"[-+]?\d+\.\d+")


class Said(str):
    """A text made of a form like "{set} was shut over {what}." and of what fills its gaps.

    To everybody else it is the English text. A part that is itself `Said` can be put into another language;
    any other part is a name, a number or somebody's own words, and stays as it is.
    """

    form: str
    parts: Mapping[str, str]


def said(form: str, **parts: object) -> Said:
    """Fill a form; a gap without a part stays as it is written.

    >>> said("{what} is lost.", what="circlip").form
    '{what} is lost.'
    """
    filling = {name: part if isinstance(part, str) else str(part) for name, part in parts.items()}
    text = Said(GAP.sub(lambda gap: filling.get(gap[1], gap[0]), form))
    text.form, text.parts = form, filling
    return text


def standing(text: str) -> Said:
    """Mark a sentence of ours without a gap as one, so that another language can say it inside others.

    >>> standing("Fill it.").form
    'Fill it.'
    """
    return text if isinstance(text, Said) else said(text)


def in_words(text: str, own: Mapping[str, str]) -> str:
    """Say a text in another language by its form; `own` gives each form there. What has no form stays.

    Decimal numbers get a comma, as in every language that is spoken here beside English.

    >>> in_words(said("{n} mm of {what}", n=1.5, what="M8"), {"{n} mm of {what}": "{what}: {n} mm"})
    'M8: 1,5 mm'
    """
    if not own or not isinstance(text, Said):
        return text
    parts = {name: _own_part(part, own) for name, part in text.parts.items()}
    return GAP.sub(lambda gap: parts.get(gap[1], gap[0]), own.get(text.form, text.form))


def _own_part(part: str, own: Mapping[str, str]) -> str:
    if isinstance(part, Said):
        return in_words(part, own)
    return part.replace(".", ",") if DECIMAL.fullmatch(part) else part


def joined(between: str, parts: Sequence[str]) -> str:
    """Join parts, each of which keeps its form; one alone stays what it is.

    >>> joined("; ", ["a", "b"])
    'a; b'
    """
    return reduce(lambda first, then: said("{first}" + between + "{then}", first=first, then=then), parts)


def without_stop(text: str) -> str:
    """Take the full stop from a sentence that becomes part of another.

    >>> without_stop("Fit it.")
    'Fit it'
    """
    if not text.endswith("."):
        return text
    return said(text.form.removesuffix("."), **text.parts) if isinstance(text, Said) else text[:-1]


def to_json(text: str) -> str:
    """Write a text with its form, for another process.

    >>> to_json("a"), to_json(said("{n} bolts", n=2))
    ('"a"', '{"form": "{n} bolts", "parts": {"n": "2"}}')
    """
    return json.dumps(_unfolded(text))


def from_json(text: str) -> str:
    """Read what `to_json` wrote.

    >>> from_json(to_json(said("{n} bolts", n=2))).parts
    {'n': '2'}

    Raises:
        ValueError: it is something else, however odd.
    """
    try:
        return _folded(json.loads(text))
    except (RecursionError, TypeError) as error:
        raise ValueError("no text that was written here") from error


def _unfolded(text: str) -> object:
    if not isinstance(text, Said):
        return str(text)
    return {"form": text.form, "parts": {name: _unfolded(part) for name, part in text.parts.items()}}


def _folded(found: object) -> str:
    if isinstance(found, str):
        return found
    if not isinstance(found, dict) or not isinstance(found.get("parts"), dict):
        raise ValueError("neither a text nor a form with its parts")
    return said(str(found.get("form")), **{name: _folded(part) for name, part in found["parts"].items()})
