"""Re-compute the chain and the hashes of an exported job and name the first thing that does not fit.

Stands alone: Python 3.9 or newer and nothing else. Run it beside the unpacked files, or give it the zip:

    python check_bundle.py [FOLDER | FILE.zip]
"""

from __future__ import annotations

import hashlib
import json
import sys
import zipfile
import zlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

FORMAT, VERSION = "lastbolt job bundle", 1
GENESIS = "0" * 64
LARGEST_WHOLE = 2**53 - 1
LINE_KEYS = {"position", "received", "prev", "hash", "entry"}
WHOLE, FAULT, UNREADABLE = 0, 1, 2


class MisfitError(Exception):
    """The first thing that does not fit, in one sentence."""


class Bundle:
    """The members of a bundle by name, from a zip or an unpacked folder."""

    def __init__(self, names: list[str], read: Callable[[str], bytes]) -> None:
        self.names = names
        self._read = read

    def member(self, name: str) -> bytes:
        """Give a member's bytes, or say that it is missing or damaged."""
        if name not in self.names:
            raise MisfitError(f"{name} is missing.")
        try:
            return self._read(name)
        except (OSError, RuntimeError, NotImplementedError, EOFError, ValueError, zlib.error) as error:
            raise MisfitError(f"{name} cannot be read: {error}.") from error
        except zipfile.BadZipFile as error:
            raise MisfitError(f"{name} was changed or is damaged: {error}.") from error


def canonical(value: Any) -> str:
    """Write a JSON value in the form of RFC 8785: keys by UTF-16 units, numbers as ECMAScript does."""
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, str):
        value.encode("utf-8")
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, int):
        if abs(value) > LARGEST_WHOLE:
            raise ValueError("a whole number above 2^53 has no exact form")
        return str(value)
    if isinstance(value, float):
        return number_text(value)
    if isinstance(value, list):
        return "[" + ",".join(canonical(inner) for inner in value) + "]"
    if isinstance(value, dict):
        keys = sorted(value, key=lambda key: key.encode("utf-16-be"))
        return "{" + ",".join(f"{canonical(key)}:{canonical(value[key])}" for key in keys) + "}"
    raise ValueError(f"{type(value).__name__} is nothing that JSON knows")


def number_text(number: float) -> str:
    """Write a double as ECMAScript does: its shortest digits, a power from 1e21 up and below 1e-6."""
    if number != number or number in (float("inf"), float("-inf")):
        raise ValueError("a number without an end has no exact form")
    if number == 0:
        return "0"
    sign = "-" if number < 0 else ""
    mantissa, _, power = repr(abs(number)).partition("e")
    whole, _, part = mantissa.partition(".")
    digits = (whole + part).lstrip("0")
    point = len(whole) + int(power or 0) - (len(whole + part) - len(digits))
    digits = digits.rstrip("0")
    if len(digits) <= point <= 21:
        return sign + digits + "0" * (point - len(digits))
    if 0 < point <= 21:
        return f"{sign}{digits[:point]}.{digits[point:]}"
    if -6 < point <= 0:
        return f"{sign}0.{'0' * -point}{digits}"
    tail = f".{digits[1:]}" if len(digits) > 1 else ""
    return f"{sign}{digits[0]}{tail}e{'+' if point > 0 else '-'}{abs(point - 1)}"


def sha256(data: bytes) -> str:
    """Give the SHA-256 of bytes, 64 hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def manifest_bytes(manifest: dict[str, Any]) -> bytes:
    """Write a manifest as it must stand in its file, to the byte."""
    return (json.dumps(manifest, indent=1, sort_keys=True, ensure_ascii=False) + "\n").encode("utf-8")


def manifest_seal(manifest: dict[str, Any]) -> str:
    """Hash everything that a manifest says, but for this hash itself."""
    said = {key: value for key, value in manifest.items() if key != "sha256"}
    return sha256(canonical(said).encode("utf-8"))


def read_json(data: bytes, what: str) -> dict[str, Any]:
    """Read one JSON object."""
    try:
        value = json.loads(data.decode("utf-8"))
    except (ValueError, RecursionError) as error:
        raise MisfitError(f"{what} was changed: it is no JSON any more ({error}).") from error
    if not isinstance(value, dict):
        raise MisfitError(f"{what} was changed: it is no JSON object any more.")
    return value


def check_manifest(bundle: Bundle) -> dict[str, Any]:
    """Look whether the manifest is of a kind known here, and as it was written."""
    data = bundle.member("manifest.json")
    manifest = read_json(data, "manifest.json")
    try:
        fits = manifest_bytes(manifest) == data and manifest.get("sha256") == manifest_seal(manifest)
    except ValueError:
        fits = False
    if not fits:
        raise MisfitError("manifest.json was changed after it was written.")
    if (manifest.get("format"), manifest.get("format_version")) != (FORMAT, VERSION):
        raise MisfitError(
            "manifest.json is of another format than this script knows; use the script beside it."
        )
    return manifest


def check_members(bundle: Bundle, manifest: dict[str, Any]) -> None:
    """Hash every member that the manifest lists, and look for photos that it does not list."""
    for name, listed in manifest["members"].items():
        data = bundle.member(name)
        if (len(data), sha256(data)) != (listed["size"], listed["sha256"]):
            raise MisfitError(f"{name} has other bytes than the manifest lists.")
    for name in bundle.names:
        if name.startswith("photos/") and name not in manifest["members"]:
            raise MisfitError(f"{name} was put in: the manifest does not list it.")


def seal(line: dict[str, Any]) -> str:
    """Hash an entry with its place, its time of arrival and the hash before it."""
    sealed = {key: line[key] for key in ("entry", "position", "received", "prev")}
    return sha256(canonical(sealed).encode("utf-8"))


def check_chain(bundle: Bundle, manifest: dict[str, Any]) -> list[dict[str, Any]]:
    """Walk the journal, compute every hash anew, and give its entries."""
    prev, entries = GENESIS, []
    texts = bundle.member("journal.jsonl").split(b"\n")
    if texts.pop():
        raise MisfitError(f"line {len(texts) + 1} of journal.jsonl is cut short.")
    for number, text in enumerate(texts, start=1):
        line = read_json(text, f"line {number} of journal.jsonl")
        if set(line) != LINE_KEYS or not isinstance(line["entry"], dict):
            raise MisfitError(f"line {number} of journal.jsonl was changed: it is no stored line any more.")
        named = f"entry {number} (id {line['entry'].get('id', '?')})"
        if type(line["position"]) is not int or line["position"] != number:
            raise MisfitError(f"{named} is missing or out of place: {line['position']} stands there.")
        if line["prev"] != prev:
            raise MisfitError(f"{named} does not follow the one before it.")
        try:
            fits = line["hash"] == seal(line)
        except (ValueError, RecursionError):
            fits = False
        if not fits:
            raise MisfitError(f"{named} was changed after it was recorded.")
        if str(line["entry"].get("job")).strip() != manifest["job"]:
            raise MisfitError(f"{named} is of another job.")
        prev = line["hash"]
        entries.append(line["entry"])
    if len(entries) != manifest["counts"]["entries"]:
        raise MisfitError(
            f"journal.jsonl has {len(entries)} lines, {manifest['counts']['entries']} are listed."
        )
    if prev != manifest["head"]:
        raise MisfitError("the last hash of journal.jsonl is not the head that the manifest names.")
    return entries


def check_photos(manifest: dict[str, Any], entries: list[dict[str, Any]]) -> None:
    """Look whether every photo that the journal names by its hash is here, or said to be left out."""
    known = set()
    for name, listed in manifest["members"].items():
        if name.startswith("photos/"):
            known.add(listed["sha256"])
            if name.split("/")[1].split(".")[0] != listed["sha256"]:
                raise MisfitError(f"{name} is not named by the hash of its bytes.")
    known |= {left["sha256"] for left in manifest["left_out"]}
    for entry in entries:
        named = entry.get("sha256") if entry.get("kind") == "photo-added" else None
        if named and named not in known:
            raise MisfitError(
                f"the photo {named} is named by an entry, but neither here nor said to be left out."
            )


def check(bundle: Bundle) -> list[str]:
    """Check everything; give what to say when all of it fits.

    Raises:
        MisfitError: names the first thing that does not fit.
    """
    manifest = check_manifest(bundle)
    try:
        if manifest["customer"]:
            check_members(bundle, manifest)
            return [
                f"All {len(manifest['members'])} files are as the manifest lists them.",
                manifest["chain"],
            ]
        entries = check_chain(bundle, manifest)
        check_members(bundle, manifest)
        check_photos(manifest, entries)
    except (KeyError, TypeError, AttributeError, IndexError) as error:
        raise MisfitError("manifest.json does not say what it should.") from error
    counts = manifest["counts"]
    said = [
        f"{counts['entries']} entries of {manifest['job']} follow one another as they were recorded, and "
        f"{counts['photos']} photos have the bytes that they had.",
        f"Head {manifest['head']}: compare it with one written down elsewhere, such as on a release record.",
    ]
    return said + [f"Left out: the photo {left['sha256']}, {left['why']}." for left in manifest["left_out"]]


def opened(path: Path) -> Bundle:
    """Open a zip or a folder."""
    if path.is_dir():
        files = [p.relative_to(path).as_posix() for p in sorted(path.rglob("*")) if p.is_file()]
        return Bundle(files, lambda name: (path / name).read_bytes())
    archive = zipfile.ZipFile(path)
    names = archive.namelist()
    if len(set(names)) != len(names):
        raise MisfitError("the zip holds two files of one name.")
    return Bundle(names, archive.read)


def main(words: list[str]) -> int:
    """Check what is named, or the folder that this script lies in; give the exit status."""
    path = Path(words[0]) if words else Path(__file__).resolve().parent
    try:
        said = check(opened(path))
    except MisfitError as misfit:
        sys.stdout.write(f"Does not fit: {misfit}\n")
        return FAULT
    except (OSError, zipfile.BadZipFile, NotImplementedError, ValueError) as error:
        sys.stdout.write(f"{path} cannot be read ({error}); give the folder or the zip of an exported job.\n")
        return UNREADABLE
    sys.stdout.write("\n".join(said) + "\n")
    sys.stdout.write("For the verdict anew: lastbolt replay journal.jsonl (compare with verdict.txt).\n")
    return WHOLE


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
