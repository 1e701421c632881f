"""The README: every verb, file and page that it names exists."""

from __future__ import annotations

import re
from pathlib import Path

from fitwright.cli import main

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_every_verb_named_exists() -> None:
    verbs = set(re.findall(r"\bfitwright (new|check|packet|report|schema|cut|bend|\w+) ", README)) & set(main.commands)
    assert {"new", "check", "packet", "cut", "bend", "schema"} <= verbs


def test_every_link_leads_somewhere() -> None:
    for target in re.findall(r"\]\(([^)#]+)\)", README):
        assert (ROOT / target).exists(), target


def test_it_is_short_enough_to_read() -> None:
    assert len(README.splitlines()) < 130


def test_the_check_shown_is_what_check_says() -> None:
    from click.testing import CliRunner

    shown = README.split("<!-- check -->")[1].split("<!-- /check -->")[0].strip().strip("`").strip()
    told = CliRunner().invoke(main, ["check", str(ROOT / "examples" / "drying-rack")]).output
    for line in shown.splitlines():
        words = line.split()
        if words and words[0] in "!✗?✓":
            assert " ".join(words) in " ".join(told.split()), line
