"""Cookies and tokens are only those that were signed here."""

from __future__ import annotations

import stat
from dataclasses import replace
from pathlib import Path

import pytest

from fitwright.web.guard import Key
from fitwright.web.guard.sessions import LASTS


def test_a_cookie_comes_back_as_the_session_that_it_was() -> None:
    key = Key(b"k" * 32)
    session = key.begin(paired=True)
    assert key.session(key.cookie(session)) == session
    assert Key(b"l" * 32).session(key.cookie(session)) is None


@pytest.mark.parametrize("cookie", ["", ".", "a.1.2.3", "a.b", "é.1.1.x", "a" * 5000])
def test_what_was_not_signed_is_no_session(cookie: str) -> None:
    assert Key(b"k" * 32).session(cookie) is None


def test_paired_cannot_be_claimed() -> None:
    key = Key(b"k" * 32)
    name, _, began, signature = key.cookie(key.begin(paired=False)).split(".")
    assert key.session(f"{name}.1.{began}.{signature}") is None


def test_a_session_runs_out() -> None:
    key = Key(b"k" * 32)
    session = key.begin(paired=True)
    assert key.session(key.cookie(replace(session, began=session.began - LASTS - 1))) is None


def test_a_token_is_that_of_one_session() -> None:
    key = Key(b"k" * 32)
    one, other = key.begin(paired=False), key.begin(paired=False)
    assert key.is_token(one, key.token(one))
    assert not key.is_token(one, key.token(other))
    assert not key.is_token(one, "é")


def test_the_key_is_kept_for_its_owner_alone_until_it_is_to_be_forgotten(tmp_path: Path) -> None:
    session = Key.kept_in(tmp_path / "own").begin(paired=True)
    cookie = Key.kept_in(tmp_path / "own").cookie(session)
    assert stat.S_IMODE((tmp_path / "own" / "key").stat().st_mode) == 0o600
    assert Key.kept_in(tmp_path / "own").session(cookie) == session
    assert Key.kept_in(tmp_path / "own", forget=True).session(cookie) is None
