"""Compute chain, hashes, signatures and verdict of an exported job anew; name the first that does not fit.

Needs Python 3.10 or newer, and the small files beside it. Run it beside the unpacked files, or on the zip:

    python check_bundle.py [FOLDER | FILE.zip] [--key PUBLIC_KEY]

With --key, the public key as printed on a paper record, it also says whether that key signed. The verdict is
computed anew by the check set that came along, where the packages pydantic and rfc8785 are there.
"""

from __future__ import annotations

import hashlib
import json
import sys
import tempfile
import zipfile
import zlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

try:
    from . import check_release, check_verdict
    from .check_canonical import canonical
except ImportError:
    sys.path.insert(0, str(Path(__file__).resolve().parent))
    import check_release  # type: ignore[import-not-found, no-redef]
    import check_verdict  # type: ignore[import-not-found, no-redef]
    from check_canonical import canonical  # type: ignore[import-not-found, no-redef]

FORMAT, VERSION = "lastbolt job bundle", 1
GENESIS = "0" * 64
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
        if name.startswith(("photos/", check_release.FOLDER)) and name not in manifest["members"]:
            raise MisfitError(f"{name} was put in: the manifest does not list it.")


def seal(line: dict[str, Any]) -> str:
    """Hash an entry with its place, its time of arrival and the hash before it."""
    sealed = {key: line[key] for key in ("entry", "position", "received", "prev")}
    return sha256(canonical(sealed).encode("utf-8"))


def check_chain(bundle: Bundle, manifest: dict[str, Any]) -> list[dict[str, Any]]:
    """Walk the journal, compute every hash anew, and give its lines."""
    prev, lines = GENESIS, []
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
        lines.append(line)
    if len(lines) != manifest["counts"]["entries"]:
        raise MisfitError(
            f"journal.jsonl has {len(lines)} lines, {manifest['counts']['entries']} are listed."
        )
    if prev != manifest["head"]:
        raise MisfitError("the last hash of journal.jsonl is not the head that the manifest names.")
    return lines


def check_releases(bundle: Bundle, lines: list[dict[str, Any]], key: str | None) -> list[str]:
    """Check what was signed at each release; give what to say of it."""
    members = {name: bundle.member(name) for name in bundle.names if name.startswith(check_release.FOLDER)}
    for fault in check_release.faults(members, lines, canonical, key):
        raise MisfitError(fault)
    signed = sorted(name for name in members if name.endswith(".json"))
    said = []
    for name in signed:
        what = json.loads(members[name])["document"]
        said.append(
            f"The release at place {what['position']} was signed by {what['by']}, {what['at']}, "
            f"with the key {what['public_key']}: compare that with the paper."
        )
    missing = check_release.unsigned(members, lines)
    return said + [f"The release at place {position} has no signature." for position in missing]


def check_photos(manifest: dict[str, Any], entries: list[dict[str, Any]]) -> None:
    """Look whether all photos and voice notes that the journal names are here, or said to be left out."""
    known = set()
    for name, listed in manifest["members"].items():
        if name.startswith("photos/"):
            known.add(listed["sha256"])
            if name.split("/")[1].split(".")[0] != listed["sha256"]:
                raise MisfitError(f"{name} is not named by the hash of its bytes.")
    known |= {left["sha256"] for left in manifest["left_out"]}
    for entry in entries:
        field = {"photo-added": "sha256", "handover-offered": "voice_note"}.get(entry.get("kind", ""))
        named = entry.get(field) if field else None
        if isinstance(named, str) and len(named) == 64 and named not in known:
            raise MisfitError(
                f"the photo or sound {named} is named by an entry, but neither here nor said to be left out."
            )


def check(bundle: Bundle, key: str | None = None) -> list[str]:
    """Check everything but the verdict; give what to say when all of it fits.

    Raises:
        MisfitError: names the first thing that does not fit.
    """
    manifest = check_manifest(bundle)
    try:
        if manifest["customer"]:
            check_members(bundle, manifest)
            whole = f"All {len(manifest['members'])} files are as the manifest lists them."
            return [whole, manifest["chain"]]
        lines = check_chain(bundle, manifest)
        signed = check_releases(bundle, lines, key)
        check_members(bundle, manifest)
        check_photos(manifest, [line["entry"] for line in lines])
    except (KeyError, TypeError, AttributeError, IndexError) as error:
        raise MisfitError("manifest.json does not say what it should.") from error
    counts = manifest["counts"]
    said = [
        f"{counts['entries']} entries of {manifest['job']} follow one another as they were recorded, and "
        f"{counts['photos']} photos have the bytes that they had.",
        f"Head {manifest['head']}: compare it with one written down elsewhere, such as on a release record.",
        *signed,
    ]
    return said + [f"Left out: the photo {left['sha256']}, {left['why']}." for left in manifest["left_out"]]


def check_judged(bundle: Bundle) -> str:
    """Compute the verdict anew with the check set that came along, and hold it against verdict.json."""
    if check_verdict.CHECKS not in bundle.names:
        return "The verdict was not computed anew: no check set came along."
    texts = bundle.member("journal.jsonl").split(b"\n")[:-1]
    with tempfile.TemporaryDirectory() as folder:
        checks = Path(folder) / check_verdict.CHECKS
        checks.write_bytes(bundle.member(check_verdict.CHECKS))
        try:
            anew = check_verdict.verdict_anew(checks, [json.loads(text)["entry"] for text in texts])
        except check_verdict.CannotComputeError as error:
            return f"The verdict was NOT computed anew: {error}."
    if anew != read_json(bundle.member("verdict.json"), "verdict.json"):
        raise MisfitError("verdict.json is not what the check set that came along says of this journal.")
    return "The verdict, computed anew by the check set that came along, is the one in verdict.json."


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
    key = words[words.index("--key") + 1] if "--key" in words[:-1] else None
    places = [word for word in words if word not in ("--key", key)]
    path = Path(places[0]) if places else Path(__file__).resolve().parent
    try:
        bundle = opened(path)
        said = check(bundle, key)
        said.append(check_judged(bundle))
    except MisfitError as misfit:
        sys.stdout.write(f"Does not fit: {misfit}\n")
        return FAULT
    except (OSError, zipfile.BadZipFile, NotImplementedError, ValueError) as error:
        sys.stdout.write(f"{path} cannot be read ({error}); give the folder or the zip of an exported job.\n")
        return UNREADABLE
    sys.stdout.write("\n".join(said) + "\n")
    return WHOLE


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
