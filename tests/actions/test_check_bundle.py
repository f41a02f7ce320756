"""The stand-alone script: its canonical form against RFC 8785, and one flipped bit anywhere is named."""

import ast
import json
import struct
import subprocess
import sys
from pathlib import Path

import pytest
import rfc8785
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import Told

from lastbolt.actions import check_bundle
from lastbolt.actions.archive import SCRIPTS, open_archive
from lastbolt.actions.check_bundle import Bundle, MisfitError, check
from lastbolt.actions.check_canonical import canonical, number_text
from lastbolt.actions.exchange import export_job
from lastbolt.actions.record import record
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
SCRIPT = Path(check_bundle.__file__)
STEP = 29
"""Every 29th byte of a member is flipped; a prime, so that all bits and all columns of a line take part."""

# RFC 8785, Appendix B (the finite ones).
DOUBLES = [
    ("0000000000000000", "0"),
    ("8000000000000000", "0"),
    ("0000000000000001", "5e-324"),
    ("8000000000000001", "-5e-324"),
    ("7fefffffffffffff", "1.7976931348623157e+308"),
    ("ffefffffffffffff", "-1.7976931348623157e+308"),
    ("4340000000000000", "9007199254740992"),
    ("c340000000000000", "-9007199254740992"),
    ("4430000000000000", "295147905179352830000"),
    ("44b52d02c7e14af5", "9.999999999999997e+22"),
    ("44b52d02c7e14af6", "1e+23"),
    ("44b52d02c7e14af7", "1.0000000000000001e+23"),
    ("444b1ae4d6e2ef4e", "999999999999999700000"),
    ("444b1ae4d6e2ef4f", "999999999999999900000"),
    ("444b1ae4d6e2ef50", "1e+21"),
    ("3eb0c6f7a0b5ed8c", "9.999999999999997e-7"),
    ("3eb0c6f7a0b5ed8d", "0.000001"),
    ("41b3de4355555553", "333333333.3333332"),
    ("41b3de4355555554", "333333333.33333325"),
    ("41b3de4355555555", "333333333.3333333"),
    ("41b3de4355555556", "333333333.3333334"),
    ("41b3de4355555557", "333333333.33333343"),
    ("becbf647612f3696", "-0.0000033333333333333333"),
    ("43143ff3c1cb0959", "1424953923781206.2"),
]


@pytest.mark.parametrize(("bits", "text"), DOUBLES)
def test_doubles_are_written_as_in_appendix_b(bits, text):
    assert number_text(struct.unpack(">d", bytes.fromhex(bits))[0]) == text


def test_keys_and_strings_are_written_as_in_sections_3_2_2_and_3_2_3():
    """RFC 8785: the example of 3.2.2, and the key order of 3.2.3."""
    value = json.loads(
        r"""{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],
        "string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}"""
    )
    assert canonical(value) == (
        '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],'
        r""""string":"€$\u000f\nA'B\"\\\\\"/"}"""
    )
    keys = ["€", "\r", "\ufb33", "1", "😀", "\u0080", "ö"]
    ordered = ["\r", "1", "\u0080", "ö", "€", "😀", "\ufb33"]
    assert list(json.loads(canonical(dict.fromkeys(keys, 0)))) == ordered


@pytest.mark.parametrize("story", ["clean.jsonl", "half_finished.jsonl"])
def test_all_sample_entries_are_written_as_the_server_does(story):
    for text in (SAMPLES / story).read_text().splitlines():
        assert canonical(json.loads(text)).encode() == rfc8785.dumps(json.loads(text))


TEXT = st.text(st.characters(exclude_categories=("Cs",)))
JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1)
    | st.floats(allow_nan=False, allow_infinity=False) | TEXT,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT, inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


@settings(max_examples=200)
@given(value=JSON)
def test_any_value_is_written_as_the_server_does(value):
    assert canonical(value).encode() == rfc8785.dumps(value)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 2**53, -(2**53), "\ud800", b"", {1, 2}])
def test_what_has_no_exact_form_is_refused(value):
    with pytest.raises(ValueError):
        canonical([value])


@pytest.mark.parametrize("name", SCRIPTS)
def test_the_scripts_stand_alone(name):
    """Each imports Python's own modules and the scripts beside it; the check set alone, inside a function."""
    tree = ast.parse(SCRIPT.with_name(name).read_text())
    at_once = [node for node in ast.walk(tree) if isinstance(node, ast.Import | ast.ImportFrom)]
    late = {id(n) for f in ast.walk(tree) if isinstance(f, ast.FunctionDef) for n in ast.walk(f)}
    beside = {script.removesuffix(".py") for script in SCRIPTS}
    modules = set()
    for node in at_once:
        if isinstance(node, ast.Import):
            modules |= {each.name for each in node.names}
        elif node.level:
            assert (node.module or "") in beside | {""} and {a.name for a in node.names}
        elif id(node) in late:
            assert name == "check_verdict.py" and str(node.module).startswith("lastbolt.")
        else:
            modules.add(str(node.module))
    assert {each.split(".")[0] for each in modules} <= sys.stdlib_module_names | beside


@pytest.fixture(scope="module")
def members(tmp_path_factory):
    """An exported job of eight entries and two photos, one of which is not here."""
    folder = tmp_path_factory.mktemp("bundle")
    wired = wire(settings_from({"LASTBOLT_DATA": str(folder / "shop")}))
    here = wired.photos.put(b"\xff\xd8\xff" + bytes(range(256)) * 3)
    story = Told()
    for hole in range(5):
        story.say("container-scanned", container=f"tray {hole} ö😀", values=[hole / 7, 1e-9])
    story.say("photo-added", photo="one", sha256=here)
    story.say("photo-added", photo="two", sha256="0" * 64)
    record(wired.journal, wired.clock, story.raws)
    export_job(wired.shop, "job 1", folder / "job.zip")
    wired.close()
    with open_archive(folder / "job.zip", largest_photo=2**20) as archive:
        return {name: archive.read(name) for name in archive.names}


def bundle(members):
    return Bundle(list(members), members.__getitem__)


def misfit(members):
    with pytest.raises(MisfitError) as raised:
        check(bundle(members))
    return str(raised.value)


def flipped(members, name, at):
    data = bytearray(members[name])
    data[at] ^= 1 << (at % 8)
    return {**members, name: bytes(data)}


def test_an_untouched_bundle_fits(members):
    said = check(bundle(members))
    assert said[0].startswith("8 entries of job 1 follow one another") and "1 photos" in said[0]
    assert said[2].startswith("Left out: the photo 0000")


def test_every_sampled_flip_in_the_journal_names_its_entry(members):
    journal = members["journal.jsonl"]
    for at in range(0, len(journal), STEP):
        number = journal[:at].count(b"\n") + 1
        said = misfit(flipped(members, "journal.jsonl", at))
        assert said.startswith((f"entry {number} ", f"line {number} of journal.jsonl ")), (at, said)


@pytest.mark.parametrize(
    "ending",
    [".jpg", "manifest.json", "verdict.json", "verdict.txt", "checks.md", "check_bundle.py", "checks.zip"],
)
def test_every_sampled_flip_elsewhere_names_its_file(members, ending):
    (name,) = [name for name in members if name.endswith(ending)]
    for at in range(0, len(members[name]), STEP * (1 + len(members[name]) // 20_000)):
        assert misfit(flipped(members, name, at)).startswith(name), at


def lines_of(members):
    return members["journal.jsonl"].splitlines(keepends=True)


def test_lines_lost_moved_or_cut_are_named(members):
    lines = lines_of(members)
    lost = {**members, "journal.jsonl": b"".join(lines[:2] + lines[3:])}
    assert misfit(lost).startswith("entry 3 ") and "4 stands there" in misfit(lost)
    moved = {**members, "journal.jsonl": b"".join([*lines[:2], lines[3], lines[2], *lines[4:]])}
    assert misfit(moved).startswith("entry 3 ")
    assert "has 7 lines, 8 are listed" in misfit({**members, "journal.jsonl": b"".join(lines[:-1])})
    assert "line 8 of journal.jsonl is cut short" in misfit(
        {**members, "journal.jsonl": members["journal.jsonl"][:-1]}
    )


def test_a_photo_missing_or_put_in_is_named(members):
    (name,) = [name for name in members if name.endswith(".jpg")]
    assert misfit({key: data for key, data in members.items() if key != name}) == f"{name} is missing."
    assert misfit({**members, "photos/more.jpg": b"x"}).startswith("photos/more.jpg was put in")


def typed(folder, *words):
    command = [sys.executable, "-I", str(folder / "check_bundle.py"), *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, check=False, cwd="/")


def test_the_script_runs_by_itself_in_the_unpacked_folder(members, tmp_path):
    for name, data in members.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
    whole = typed(tmp_path)
    assert whole.returncode == 0 and "verdict, computed anew" in whole.stdout and not whole.stderr
    (tmp_path / "verdict.txt").write_text("nothing on the list")
    changed = typed(tmp_path)
    assert changed.returncode == 1
    assert changed.stdout == "Does not fit: verdict.txt has other bytes than the manifest lists.\n"
    nothing = typed(tmp_path, tmp_path / "nothing.zip")
    assert nothing.returncode == 2 and "cannot be read" in nothing.stdout and not nothing.stderr
