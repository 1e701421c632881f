"""Write docs/validation.md from the tests that check against outside sources.

Each file in tests/outside says in its first lines what it is checked against; this page collects them.

Run: `python builders/validation.py`
"""

from __future__ import annotations

import ast
from pathlib import Path

ROOT = Path(__file__).parent.parent
OUTSIDE = ROOT / "tests" / "outside"
PAGE = ROOT / "docs" / "validation.md"

HEAD = """# What the numbers were checked against

Every source below has a test file of its own in `tests/outside/`, run by `make test`; the citation stands on top of it,
and tolerances stand beside the assertions. Values remembered and not looked up are marked `from memory` there; facts
of the trade without a publication, `common practice`.

This page is written by `python builders/validation.py`.
"""


def section(file: Path) -> str:
    """The heading and citation of one test file."""
    told = ast.get_docstring(ast.parse(file.read_text(encoding="utf-8"))) or ""
    return f"## {file.stem.removeprefix('test_').replace('_', ' ')}\n\n{told.strip()}\n"


def page() -> str:
    """The whole page."""
    return "\n".join([HEAD, *(section(file) for file in sorted(OUTSIDE.glob("test_*.py")))])


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
