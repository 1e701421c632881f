"""The validation page is what the outside tests say of themselves, and each of them cites something."""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
BUILDER = runpy.run_path(str(ROOT / "builders" / "validation.py"))
FILES = sorted((ROOT / "tests" / "outside").glob("test_*.py"))


def test_the_page_is_up_to_date() -> None:
    assert (ROOT / "docs" / "validation.md").read_text(encoding="utf-8") == BUILDER["page"]()


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_every_outside_test_cites_its_source(file: Path) -> None:
    cited = BUILDER["section"](file).split("\n\n", 1)[1]
    assert len(cited) > 40
