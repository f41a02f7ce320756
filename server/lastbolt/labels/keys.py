"""The keys that a layout file may hold, what each means and allows, and how their mistakes are named."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

Value = float | int | str | bool
Values = dict[str, Value]
LayoutKind = Literal["sheet", "roll", "mat"]
KINDS: tuple[LayoutKind, ...] = ("sheet", "roll", "mat")


@dataclass(frozen=True, slots=True)
class Number:
    """A length in millimetres (or a whole count), from `low` to `high`; to be given if it has no default."""

    meaning: str
    low: float
    high: float
    default: float | None = None
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few words; without a default it must be given."""

    meaning: str
    options: tuple[str, ...]
    default: str | None = None


@dataclass(frozen=True, slots=True)
class Flag:
    """True or false."""

    meaning: str
    default: bool


Key = Number | Choice | Flag
Section = dict[str, Key]

_PAPER: Section = {
    "width_mm": Number("width of the page as it is fed", 20.0, 450.0),
    "height_mm": Number("height of the page as it is fed", 20.0, 650.0),
    "margin_mm": Number("rim that the printer cannot reach", 0.0, 30.0, 5.0),
}
_GRID: Section = {
    "columns": Number("labels side by side", 1, 20, whole=True),
    "rows": Number("labels below each other", 1, 40, whole=True),
    "left_mm": Number("left edge of the first label", 0.0, 100.0),
    "top_mm": Number("upper edge of the first label", 0.0, 100.0),
    "pitch_x_mm": Number("from one label's left edge to the next one's", 15.0, 450.0),
    "pitch_y_mm": Number("from one label's upper edge to the next one's", 15.0, 650.0),
    "label_width_mm": Number("width of one label", 15.0, 450.0),
    "label_height_mm": Number("height of one label", 15.0, 650.0),
    "start": Number("first free label on the first page, row by row", 1, 800, 1, whole=True),
    "turned": Flag("the label's content stands on its left side", False),
    "cut_marks": Flag("small marks at the corners, for cutting", True),
}
_SYMBOL: Section = {
    "edge_mm": Number("edge of the QR symbol without its quiet zone", 10.0, 120.0, 25.0),
    "level": Choice("error correction: Q mends about 25 %, H about 30 %", ("Q", "H"), "H"),
}
_TEXT: Section = {
    "place": Choice("where the text stands, seen from the symbol", ("beside", "below"), "beside"),
    "code_mm": Number("height of the code in people's letters", 3.0, 60.0, 8.0),
    "kind_mm": Number("height of the word Tray, Bag ...", 1.5, 30.0, 3.0),
    "lines": Number("lines to write on", 0, 6, 2, whole=True),
    "pad_mm": Number("blank at the sides of the text", 0.0, 20.0, 2.0),
    "foot_mm": Number("blank below the text, and above it where it stands beside the symbol", 0.0, 20.0, 2.0),
}
_LINE: Section = {
    "line_mm": Number("length of the check line", 20.0, 200.0, 100.0),
    "line_left_mm": Number("left end of the check line", 0.0, 450.0),
    "line_top_mm": Number("upper edge of the check line", 0.0, 650.0),
    "words_mm": Number("height of the small print", 1.2, 6.0, 1.9),
}
_CHECK: Section = _LINE | {
    "square_mm": Number("edge of the black scale square", 5.0, 50.0, 10.0),
    "square_left_mm": Number("left edge of the scale square", 0.0, 450.0),
    "square_top_mm": Number("upper edge of the scale square", 0.0, 650.0),
    "title_left_mm": Number("left edge of the title", 0.0, 450.0),
    "title_top_mm": Number("upper edge of the title", 0.0, 650.0),
}
_FIELD: Section = {
    "left_mm": Number("left edge of the plain field", 0.0, 100.0),
    "top_mm": Number("upper edge of the plain field", 0.0, 100.0),
    "width_mm": Number("width of the field, from outer marker corner to outer marker corner", 50.0, 450.0),
    "height_mm": Number("height of the field, from outer marker corner to outer marker corner", 50.0, 650.0),
    "marker_mm": Number("edge of the four corner markers, black rim included", 8.0, 60.0, 15.0),
}

SECTIONS: dict[LayoutKind, dict[str, Section]] = {
    "sheet": {"paper": _PAPER, "grid": _GRID, "symbol": _SYMBOL, "text": _TEXT, "check": _CHECK},
    "roll": {"paper": _PAPER, "grid": _GRID, "symbol": _SYMBOL, "text": _TEXT, "check": _LINE},
    "mat": {"paper": _PAPER, "field": _FIELD, "check": _CHECK},
}


def read_section(name: str, raw: object, keys: Section) -> tuple[Values, list[str]]:
    """Take one section's values, defaults filled in, with a sentence for each mistake in it."""
    if raw is None:
        raw = {}
    if not isinstance(raw, dict):
        return {}, [f"[{name}] must be a section with keys below it, not {raw!r:.40}"]
    mistakes = [f"[{name}] {unknown(str(key), keys)}" for key in raw if key not in keys]
    values: Values = {}
    for key, rule in keys.items():
        given = raw.get(key, rule.default)
        if given is None:
            mistakes.append(f"[{name}] {key} is missing ({rule.meaning})")
        elif (wanted := _not_met(given, rule)) is not None:
            mistakes.append(f"[{name}] {key} must be {wanted}, not {given!r:.40}")
        else:
            values[key] = given
    return values, mistakes


def unknown(key: str, known: dict[str, Key] | dict[str, Section] | tuple[str, ...]) -> str:
    """Say that a key is not known, with the nearest known one."""
    near = get_close_matches(key, list(known), n=1)
    hint = f"did you mean {near[0]}?" if near else f"known here: {', '.join(known)}"
    name = key[:40] if key.isprintable() else repr(key[:40])
    return f"{name} is not known; {hint}"


def layout_schema() -> dict[str, object]:
    """Give the JSON Schema (draft 2020-12) of layout files, made from the same table that reads them."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Label layout",
        "oneOf": [_kind_schema(kind) for kind in KINDS],
    }


def _kind_schema(kind: LayoutKind) -> dict[str, object]:
    sections = {name: _section_schema(keys) for name, keys in SECTIONS[kind].items()}
    title = {"type": "string", "minLength": 1, "maxLength": 60, "description": "what the page is"}
    return {
        "type": "object",
        "additionalProperties": False,
        "required": ["kind", "title", *(name for name, keys in SECTIONS[kind].items() if _needed(keys))],
        "properties": {"kind": {"const": kind}, "title": title, **sections},
    }


def _section_schema(keys: Section) -> dict[str, object]:
    return {
        "type": "object",
        "additionalProperties": False,
        "required": _needed(keys),
        "properties": {key: _key_schema(rule) for key, rule in keys.items()},
    }


def _key_schema(rule: Key) -> dict[str, object]:
    schema: dict[str, object] = {"description": rule.meaning}
    if rule.default is not None:
        schema["default"] = rule.default
    match rule:
        case Number():
            kind = "integer" if rule.whole else "number"
            return schema | {"type": kind, "minimum": rule.low, "maximum": rule.high}
        case Choice():
            return schema | {"enum": list(rule.options)}
        case Flag():
            return schema | {"type": "boolean"}


def _needed(keys: Section) -> list[str]:
    return [key for key, rule in keys.items() if rule.default is None]


def _not_met(given: object, rule: Key) -> str | None:
    match rule:
        case Flag():
            return None if isinstance(given, bool) else "true or false"
        case Choice():
            return None if given in rule.options else " or ".join(rule.options)
        case Number():
            wanted = f"a {'whole ' if rule.whole else ''}number from {rule.low:g} to {rule.high:g}"
            fits = int if rule.whole else int | float
            if isinstance(given, bool) or not isinstance(given, fits):
                return wanted
            return None if rule.low <= given <= rule.high else wanted
