"""A journal without the names of people: each one becomes a role word, the same everywhere."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from ..journal import Raw

_PERSON_FIELDS = frozenset({"by", "person", "giver", "told_to", "second"})
_NOT_TEXT = frozenset({"id", "kind", "at", "happened_at", "role", "roles", "mode", "sha256", "entry"})
_ROLES = ("lead", "licensed", "tech", "helper", "reader", "machine")
_NO_NAMES = frozenset({*_ROLES, "owner", "customer", "desk", "server", "phone", "camera", "sample"})
LEFT_OUT = "left out"


def without_names(entries: Sequence[Raw]) -> list[Raw]:
    """Give entries in which people are "tech 1", "lead 1"; licence numbers and the devices' hashes are gone.

    Names are replaced as whole words in every text, notes and devices included. A name that is written
    differently in a note, or of somebody who is in no field for people, stays: read the notes before sending.
    """
    words = _role_words(entries)
    pieces = {**_parts(words), **words}
    if not pieces:
        return [dict(entry) for entry in entries]
    longest_first = sorted(pieces, key=len, reverse=True)
    pattern = re.compile("|".join(rf"(?<!\w){re.escape(name)}(?!\w)" for name in longest_first))

    def replaced(text: str) -> str:
        return pattern.sub(lambda found: pieces[found.group()], text)

    return [_entry(entry, replaced) for entry in entries]


def _entry(entry: Raw, replaced: Callable[[str], str]) -> Raw:
    kept = {
        key: value if key in _NOT_TEXT else _walk(value, replaced)
        for key, value in entry.items()
        if key != "prev"
    }
    if entry.get("kind") == "licence-recorded" and "number" in kept:
        kept["number"] = LEFT_OUT
    return kept


def _walk(value: Any, replaced: Callable[[str], str]) -> Any:
    if isinstance(value, str):
        return replaced(value)
    if isinstance(value, list):
        return [_walk(inner, replaced) for inner in value]
    if isinstance(value, dict):
        return {replaced(key): _walk(inner, replaced) for key, inner in value.items()}
    return value


def _role_words(entries: Iterable[Raw]) -> dict[str, str]:
    """Give each person's word, numbered by role in the order in which they turn up."""
    roles: dict[str, str] = {}
    for entry in entries:
        for name in _people(entry):
            roles.setdefault(name, "person")
        if isinstance(entry.get("by"), str) and roles.get(entry["by"]) == "person":
            roles[entry["by"]] = str(entry.get("role", "tech"))
        if entry.get("kind") == "person-described" and isinstance(entry.get("roles"), list):
            told = [role for role in _ROLES if role in entry["roles"]]
            roles[str(entry.get("person"))] = told[0] if told else "person"
    numbers: dict[str, int] = {}
    words = {}
    for name, role in roles.items():
        if name.strip() and name not in _NO_NAMES:
            numbers[role] = numbers.get(role, 0) + 1
            words[name] = f"{role} {numbers[role]}"
    return words


def _people(value: Any, kind: str = "") -> list[str]:
    if isinstance(value, list):
        return [name for inner in value for name in _people(inner, kind)]
    if not isinstance(value, dict):
        return []
    kind = str(value.get("kind", kind))
    named = [
        inner
        for key, inner in value.items()
        if isinstance(inner, str)
        and (key in _PERSON_FIELDS or (key == "to" and kind == "handover-offered"))
        and not (key == "by" and "kind" not in value)
    ]
    return named + [name for inner in value.values() for name in _people(inner, kind)]


def _parts(words: Mapping[str, str]) -> dict[str, str]:
    """Give first and last names by themselves; a name that two people share becomes "somebody"."""
    parts: dict[str, str] = {}
    for name, word in words.items():
        for part in re.findall(r"\w+", name):
            if len(part) >= 3 and part[0].isupper() and part != name:
                parts[part] = word if parts.get(part, word) == word else "somebody"
    return parts
