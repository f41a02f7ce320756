"""Every form of a sentence that the server can say to a page, read out of its sources.

python -m tests.house.forms_in_sources    # those that German does not say yet
"""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

from lastbolt import errors
from lastbolt.journal.checking import FindingDecided
from lastbolt.journal.fasteners import FastenersFoundBad, SetDescribed
from lastbolt.people.rights import LEAST
from lastbolt.report.questions import HANDOVER, NOT_LISTED
from lastbolt.report.text import SEVERITY_WORDS
from lastbolt.web.door import PIN_AGAIN, READERS, SIGN_IN
from lastbolt.web.problems import IN_WORDS

ROOT = Path(__file__).resolve().parents[2]
SOURCES = ROOT / "server" / "lastbolt"
RULES = SOURCES / "report" / "release_rules.py"
GUARD = SOURCES / "report" / "start_guard.py"
SHEET = ("report/handover.py", "report/handover_lines.py", "report/handover_record.py")
COMMANDS = (
    *("cli", "store/backup_files.py", "store/folder_lock.py", "store/schema.py", "settings.py"),
    *("actions/backup.py", "actions/from_files.py", "actions/sample.py", "web/listening.py"),
    *("actions/check_bundle.py", "actions/check_verdict.py"),
    *("keys/authority.py", "labels/template.py"),
)
"""What no page hears, in this order: commands and how a server starts; the scripts that go along in a zip
and run without Lastbolt; certificates, and the mistakes in a layout's file, for whoever writes it."""
REFUSED_IN = tuple(
    path
    for path in sorted(SOURCES.rglob("*.py"))
    if not any(path.is_relative_to(SOURCES / each) for each in COMMANDS)
)
"""Wherever something may be refused that a page asked for: each sentence that is raised or answered there."""
REFUSALS = (
    *("label_code.py", "web/desk.py", "web/taking_in.py", "actions/require.py"),
    *("people/sign_in.py", "people/taking_in.py", "people/pins.py", "people/visit.py"),
)
REFUSE = {"Unusable", "problem_response", "HTTPException", "Unreadable", "refusal", "Taken"}
"""What is called with a sentence that refuses."""
NAMED = (
    "store/database.py",
    "readers/turns.py",
    "readers/pool.py",
    "torque/threads.py",
    "torque/quantity.py",
)
"""Sentences that stand under a name in these files."""
DESK = ("actions/backup.py", "actions/regular_backup.py", "report/statistics.py", "web/readings.py")
ROOMS = (
    *sorted((SOURCES / "checks").glob("*.py")),
    *sorted((SOURCES / "plan").glob("*.py")),
    *sorted((SOURCES / "state").glob("*.py")),
    RULES,
    GUARD,
    *(SOURCES / name for name in (*DESK, *SHEET, *REFUSALS)),
)
GERMAN = ROOT / "mobile_web" / "src" / "words" / "forms" / "de.json"
GAP = re.compile(r"\{([a-z]\w*)\}")
OF_A_FINDING = {"stop", "decide", "note", "build"}
TABLES = {"READY", "NEED_WORDS", "PIECE_WORDS"}


def forms_in_sources() -> set[str]:
    """Collect the forms: what has a gap, and what is said without one."""
    found = {"is", "are", "1 {name}", "{n} {name}s"}
    found |= _values_of(SetDescribed, "locking") | _values_of(FastenersFoundBad, "defect")
    found |= _values_of(FindingDecided, "decision") | {NOT_LISTED, *(question for _, question in HANDOVER)}
    found |= set(SEVERITY_WORDS.values()) | {*IN_WORDS.values(), SIGN_IN, PIN_AGAIN, READERS}
    found |= {act.value for act in LEAST} | set(LEAST.values())
    for path in ROOMS:
        text = path.read_text()
        if "import" in text and (
            "said" in text or "Oddity(" in text or "stop(" in text or path in (RULES, GUARD)
        ):
            tree = ast.parse(text)
            found |= {*_gapped(tree), *_plain(tree), *_named(tree)}
    found |= {text for node in ast.walk(ast.parse(RULES.read_text())) for text in _yielded(node)}
    return found | _refused()


def _refused() -> set[str]:
    """Collect the sentences of refusals, wherever they are raised or answered."""
    found: set[str] = set()
    for path in REFUSED_IN:
        tree = ast.parse(path.read_text())
        for node in ast.walk(tree):
            found |= {*_ours(node), *_answered(node)}
        if path in [SOURCES / name for name in NAMED]:
            found |= {text for text in _standing(tree) if text.endswith(".") or "; " in text or ", " in text}
    return found


def _ours(node: ast.AST) -> Iterator[str]:
    """Give what is raised in an error of ours; other errors say nothing to anybody."""
    if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call):
        if ast.unparse(node.exc.func) in vars(errors):
            yield from _raised(node)


def _answered(node: ast.AST) -> Iterator[str]:
    """Give the forms that are filled, and what stands in a call that refuses."""
    if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
        return
    if node.func.id == "said" and node.args:
        yield from _texts(node.args[0])
    elif node.func.id == "joined" and isinstance(node.args[0], ast.Constant):
        yield "{first}" + str(node.args[0].value) + "{then}"
    elif node.func.id in REFUSE:
        given = node.args[1:] if node.func.id == "Taken" else node.args
        yield from (text for each in given for text in _texts(each) if " " in text)


def _standing(tree: ast.Module) -> Iterator[str]:
    """Give the texts that a module keeps under names, in tables too."""
    for node in tree.body:
        if isinstance(node, ast.Assign):
            for each in ast.walk(node.value):
                if isinstance(each, ast.Constant) and isinstance(each.value, str):
                    yield each.value


def _values_of(model: type, field: str) -> set[str]:
    """Give the words of a field that has a fixed choice of them."""
    return set(_words(model.model_fields[field].annotation))


def _words(annotation: object) -> Iterator[str]:
    for part in get_args(annotation):
        if isinstance(part, str):
            yield part
        else:
            yield from _words(part)


def _gapped(tree: ast.AST) -> Iterator[str]:
    """Give each text with a gap."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and GAP.search(node.value):
            yield node.value


def _named(tree: ast.Module) -> Iterator[str]:
    """Give the sentences that a module keeps under a name, and the words of a table of them."""
    for node in tree.body:
        if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
            continue
        if isinstance(node.value, ast.Dict) and ast.unparse(node).split(" ")[0].strip(":") in TABLES:
            yield from (text for value in node.value.values for text in _texts(value))
        elif isinstance(node.value, ast.Tuple):
            yield from (text for value in node.value.elts for text in _texts(value) if text.endswith("."))
        else:
            yield from (text for text in _texts(node.value) if text.endswith("."))


def _plain(tree: ast.AST) -> Iterator[str]:
    """Give what is said without a gap, the nouns that are counted, and what stands between joined parts."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "what":
            yield from _texts(node.value)
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
            continue
        name, given = node.func.id, node.args
        if name == "said":
            yield from _texts(given[0])
        elif name in OF_A_FINDING:
            yield from _texts(given[1])
            yield from (text for word in node.keywords if word.arg == "to_do" for text in _texts(word.value))
        elif name == "Oddity":
            yield from _texts(given[1])
        elif name == "pieces" and isinstance(given[1], ast.Constant):
            yield from (f"1 {given[1].value}", "{n} " + f"{given[1].value}s")
        elif name == "joined" and isinstance(given[0], ast.Constant):
            yield "{first}" + str(given[0].value) + "{then}"


def _yielded(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Yield) and node.value is not None:
        yield from _texts(node.value)


def _raised(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call) and node.exc.args:
        yield from _texts(node.exc.args[0])


def _texts(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from (*_texts(node.body), *_texts(node.orelse))


def main() -> None:
    kept = json.loads(GERMAN.read_text()) if GERMAN.exists() else {}
    wanted = forms_in_sources()
    print(json.dumps(dict.fromkeys(sorted(wanted - kept.keys()), ""), indent=2, ensure_ascii=False))
    print("no longer said:", sorted(kept.keys() - wanted))


if __name__ == "__main__":
    main()
