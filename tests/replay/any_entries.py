"""Hypothesis strategies for well-formed entries of every kind, made from the entry models' own schemas."""

from __future__ import annotations

from typing import Any, get_args
from uuid import UUID

from hypothesis import strategies as st

from lastbolt.journal import AnyEntry

NAMES = ["LID", "PORT", "HOSE", "B1", "NEW", "SCRAP", "Ana", "Ben", "M8x1.25x30", "hand of Ana"]
MOMENTS = [
    f"2026-03-0{day}T{hour:02}:{minute:02}:00+00:00"
    for day in (2, 3)
    for hour in (7, 16, 23)
    for minute in (0, 1, 30)
]
MODELS = {get_args(model.model_fields["kind"].annotation)[0]: model for model in get_args(AnyEntry)}
OWN = {"id", "job", "device", "seq", "at", "by", "kind", "prev"}


def entry_id(number: int) -> str:
    return str(UUID(int=(1_772_000_000_000 << 80) | (7 << 76) | (2 << 62) | number))


def of_schema(schema: dict[str, Any], known: dict[str, Any]) -> st.SearchStrategy[Any]:
    """Give a strategy for a JSON schema, with small numbers and few names so that entries meet."""
    if "$ref" in schema:
        return of_schema(known[schema["$ref"].rsplit("/", 1)[-1]], known)
    if "const" in schema:
        return st.just(schema["const"])
    if "enum" in schema:
        return st.sampled_from(schema["enum"])
    if "anyOf" in schema:
        return st.one_of(*(of_schema(one, known) for one in schema["anyOf"]))
    return of_type(schema, known)


def of_type(schema: dict[str, Any], known: dict[str, Any]) -> st.SearchStrategy[Any]:
    kind = schema.get("type")
    low = schema.get("minimum", schema.get("exclusiveMinimum", 0))
    if kind == "null":
        return st.none()
    if kind == "boolean":
        return st.booleans()
    if kind == "integer":
        return st.integers(
            int(low) if low > -100 else -3, min(max(int(low), 0) + 4, schema.get("maximum", 9))
        )
    if kind == "number":
        return st.sampled_from(
            [v for v in (0.5, 1, 2.5, 22, 90, -7200) if v >= low and v <= schema.get("maximum", v)]
        )
    if kind == "string":
        return of_text(schema)
    if kind == "array" and "prefixItems" in schema:
        return st.tuples(*(of_schema(each, known) for each in schema["prefixItems"])).map(list)
    if kind == "array":
        least = schema.get("minItems", 0)
        return st.lists(of_schema(schema["items"], known), min_size=least, max_size=max(3, least))
    if "properties" in schema:
        return of_object(schema, known)
    return of_map(schema, known)


def of_map(schema: dict[str, Any], known: dict[str, Any]) -> st.SearchStrategy[Any]:
    inner = schema.get("additionalProperties")
    if isinstance(inner, dict) and inner:
        return st.dictionaries(st.sampled_from(["1", "2"]), of_schema(inner, known), max_size=2)
    return st.dictionaries(st.sampled_from(["n", "holes", "set"]), st.integers(1, 3), max_size=2)


def of_text(schema: dict[str, Any]) -> st.SearchStrategy[str]:
    if schema.get("format") == "date-time":
        return st.sampled_from(MOMENTS)
    if schema.get("format") == "date":
        return st.sampled_from(["2026-03-01", "2026-03-03"])
    if schema.get("format") == "uuid":
        return st.integers(0, 30).map(entry_id)
    if "pattern" in schema:
        return st.just("0" * int(schema["pattern"].rpartition("{")[2].rstrip("}$")))
    return st.sampled_from([name for name in NAMES if len(name) >= schema.get("minLength", 0)])


def of_object(schema: dict[str, Any], known: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    fields = {name: of_schema(one, known) for name, one in schema["properties"].items() if name not in OWN}
    needed = set(schema.get("required", ())) - OWN
    return st.fixed_dictionaries(
        {name: fields[name] for name in fields if name in needed},
        optional={name: fields[name] for name in fields if name not in needed},
    )


def of_kind(kind: str) -> st.SearchStrategy[dict[str, Any]]:
    schema = MODELS[kind].model_json_schema()
    return of_object(schema, schema.get("$defs", {})).map(lambda fields: fields | {"kind": kind})


BODIES = st.one_of(*(of_kind(kind) for kind in MODELS))


@st.composite
def journals(draw: st.DrawFn) -> list[dict[str, Any]]:
    """Draw entries of all kinds, of two jobs and two devices, in no sensible order."""
    bodies = draw(st.lists(BODIES, min_size=1, max_size=30))
    return [
        {
            "id": entry_id(number),
            "job": draw(st.sampled_from(["job 1", "job 1", "job 2"])),
            "device": draw(st.sampled_from(["phone A", "phone B"])),
            "seq": draw(st.integers(1, 40)),
            "at": draw(st.sampled_from(MOMENTS)),
            "by": draw(st.sampled_from(["Ana", "Ben", "Lee"])),
        }
        | body
        for number, body in enumerate(bodies)
    ]
