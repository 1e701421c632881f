"""The bundle is served under names that change with it, and nothing beside it is."""

from __future__ import annotations

from pathlib import Path

from fitwright.web.bundle import STATIC, asset, manifest
from tests.unit.web.serving import client, some_jobs


def test_every_source_of_a_page_has_its_file() -> None:
    assert {"main.css", "plain.js", "piece.js", "sheets.js", "file.js"} <= set(manifest())
    assert all((STATIC / name).is_file() for name in manifest().values())


def test_it_is_sent_packed_and_for_ever(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path)) as opened:
        answer = opened.get(asset("piece.js"))
        assert answer.headers["content-encoding"] == "gzip"
        assert "immutable" in answer.headers["cache-control"]
        plain = opened.get(asset("piece.js"), headers={"accept-encoding": "identity"})
        assert plain.content == answer.content
        assert opened.get("/static/manifest.json").status_code == 404


def test_licences_of_what_is_bundled_go_along(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path)) as opened:
        text = opened.get("/static/licences.txt").text
    for name in ("three", "htmx.org", "@codemirror/view"):
        assert name in text
