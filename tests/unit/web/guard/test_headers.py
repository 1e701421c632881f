"""Every answer carries the policy, and may say otherwise of itself only what it says."""

from __future__ import annotations

from fitwright.web.guard.headers import ALWAYS, PICTURE_POLICY, POLICY, with_policy


def test_nothing_runs_that_is_not_ours() -> None:
    said = dict(part.split(" ", 1) for part in POLICY.split("; "))
    assert said["default-src"] == "'none'"
    assert said["script-src"] == "'self'"
    assert said["frame-ancestors"] == "'none'"
    assert "unsafe" not in POLICY
    assert "script" not in PICTURE_POLICY


def test_all_are_there_unless_the_answer_says_its_own() -> None:
    found = dict(with_policy([(b"Cache-Control", b"max-age=5"), (b"x-other", b"1")]))
    assert found[b"Cache-Control"] == b"max-age=5"
    assert b"cache-control" not in found
    assert set(found) == {b"Cache-Control", b"x-other", *(name.encode() for name in ALWAYS if name != "cache-control")}
